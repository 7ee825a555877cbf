#pragma once
#include <cstdint>
#include <optional>
#include <string_view>

/// The closed lists of the trade that files, screens and papers share. The names written in files are
/// the enumerators with blanks for underscores; find_* reads them and gives empty for anything else.
namespace foreday::screening {

enum class Level : std::uint8_t { note, act, ask, stop };

enum class Topic : std::uint8_t {
    identity_and_booking,
    consent,
    blood_thinners,
    sugar,
    heart,
    lungs_and_airway,
    brain_and_mind,
    kidney_and_fluid,
    liver_and_blood,
    gut_and_preparation,
    fasting,
    other_medicines,
    allergy,
    pregnancy,
    infection,
    devices,
    sedation_and_site,
    escort_and_home,
    record,
};

enum class Hazard : std::uint8_t {
    bleeding,
    clot,
    aspiration,
    low_sugar,
    high_sugar,
    ketoacidosis,
    kidney,
    fluid_and_salts,
    heart_and_pressure,
    breathing,
    seizure,
    withdrawal,
    infection,
    view,
    wrong_patient,
    harm_on_the_way_home,
};

enum class Role : std::uint8_t {
    scheduler,
    arrival_clerk,
    nurse,
    endoscopist,
    anaesthesia,
    medical_director,
    manager,
    auditor,
    prescriber,
    cardiology,
    haematology,
    diabetes,
    kidney,
    obstetrics,
};

/// A role that may decide about a patient: every one but scheduler, arrival clerk, nurse, manager and
/// auditor.
[[nodiscard]] bool is_clinician(Role role);

/// How sure a figure is. The first three may give a date; the last two only once the unit's policy
/// has confirmed them.
enum class HowSure : std::uint8_t { published, reported, unit_policy, common_practice, from_memory };
[[nodiscard]] constexpr bool may_give_a_date(HowSure sure)
{
    return sure <= HowSure::unit_policy;
}

enum class BleedingRisk : std::uint8_t { low, high };

[[nodiscard]] std::string_view name_of(Level);
[[nodiscard]] std::string_view name_of(Topic);
[[nodiscard]] std::string_view name_of(Hazard);
[[nodiscard]] std::string_view name_of(Role);
[[nodiscard]] std::string_view name_of(HowSure);
[[nodiscard]] std::string_view name_of(BleedingRisk);

[[nodiscard]] std::optional<Level> find_level(std::string_view name);
[[nodiscard]] std::optional<Topic> find_topic(std::string_view name);
[[nodiscard]] std::optional<Hazard> find_hazard(std::string_view name);
[[nodiscard]] std::optional<Role> find_role(std::string_view name);
[[nodiscard]] std::optional<HowSure> find_how_sure(std::string_view name);
[[nodiscard]] std::optional<BleedingRisk> find_bleeding_risk(std::string_view name);

/// What a level is called on screens and papers: "worth knowing", "to do", "a clinician decides",
/// "do not go ahead".
[[nodiscard]] std::string_view shown_as(Level);

}  // namespace foreday::screening
