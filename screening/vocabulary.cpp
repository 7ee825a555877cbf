#include "screening/vocabulary.h"

#include <algorithm>
#include <array>
#include <span>

namespace foreday::screening {
namespace {

// In the order of the enumerators.
constexpr std::array<std::string_view, 4> level_names{"note", "act", "ask", "stop"};
constexpr std::array<std::string_view, 4> level_shown{"worth knowing", "to do", "a clinician decides",
                                                      "do not go ahead"};
constexpr std::array<std::string_view, 19> topic_names{"identity and booking",
                                                       "consent",
                                                       "blood thinners",
                                                       "sugar",
                                                       "heart",
                                                       "lungs and airway",
                                                       "brain and mind",
                                                       "kidney and fluid",
                                                       "liver and blood",
                                                       "gut and preparation",
                                                       "fasting",
                                                       "other medicines",
                                                       "allergy",
                                                       "pregnancy",
                                                       "infection",
                                                       "devices",
                                                       "sedation and site",
                                                       "escort and home",
                                                       "record"};
constexpr std::array<std::string_view, 16> hazard_names{
    "bleeding",           "clot",         "aspiration",    "low sugar",
    "high sugar",         "ketoacidosis", "kidney",        "fluid and salts",
    "heart and pressure", "breathing",    "seizure",       "withdrawal",
    "infection",          "view",         "wrong patient", "harm on the way home"};
constexpr std::array<std::string_view, 14> role_names{"scheduler",
                                                      "arrival clerk",
                                                      "nurse",
                                                      "endoscopist",
                                                      "anaesthesia",
                                                      "medical director",
                                                      "manager",
                                                      "auditor",
                                                      "prescriber",
                                                      "cardiology",
                                                      "anticoagulation or haematology",
                                                      "diabetes",
                                                      "kidney",
                                                      "obstetrics"};
constexpr std::array<std::string_view, 5> sure_names{"published", "reported", "unit policy",
                                                     "common practice", "from memory"};
constexpr std::array<std::string_view, 2> risk_names{"low", "high"};

template <class Enum>
std::string_view at(std::span<const std::string_view> names, Enum value)
{
    return names[static_cast<std::size_t>(value)];
}

template <class Enum>
std::optional<Enum> find(std::span<const std::string_view> names, std::string_view name)
{
    const auto found = std::ranges::find(names, name);
    if (found == names.end()) {
        return std::nullopt;
    }
    return static_cast<Enum>(found - names.begin());
}

}  // namespace

std::string_view name_of(Level value)
{
    return at(level_names, value);
}
std::string_view name_of(Topic value)
{
    return at(topic_names, value);
}
std::string_view name_of(Hazard value)
{
    return at(hazard_names, value);
}
std::string_view name_of(Role value)
{
    return at(role_names, value);
}
std::string_view name_of(HowSure value)
{
    return at(sure_names, value);
}
std::string_view name_of(BleedingRisk value)
{
    return at(risk_names, value);
}

std::optional<Level> find_level(std::string_view name)
{
    return find<Level>(level_names, name);
}
std::optional<Topic> find_topic(std::string_view name)
{
    return find<Topic>(topic_names, name);
}
std::optional<Hazard> find_hazard(std::string_view name)
{
    return find<Hazard>(hazard_names, name);
}
std::optional<Role> find_role(std::string_view name)
{
    return find<Role>(role_names, name);
}
std::optional<HowSure> find_how_sure(std::string_view name)
{
    return find<HowSure>(sure_names, name);
}
std::optional<BleedingRisk> find_bleeding_risk(std::string_view name)
{
    return find<BleedingRisk>(risk_names, name);
}

std::string_view shown_as(Level value)
{
    return at(level_shown, value);
}

bool is_clinician(Role role)
{
    switch (role) {
        case Role::scheduler:
        case Role::arrival_clerk:
        case Role::nurse:
        case Role::manager:
        case Role::auditor:
            return false;
        default:
            return true;
    }
}

}  // namespace foreday::screening
