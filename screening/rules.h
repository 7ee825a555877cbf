#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "screening/condition.h"

namespace foreday::screening {

/// What is said and why, common to everything that may fire.
struct RuleHead {
    std::string id;
    std::string title;    ///< the nurse's sentence
    std::string reading;  ///< the clinician's sentence; empty: the title serves both
    Topic topic = Topic::record;
    Hazard hazard = Hazard::wrong_patient;
    std::vector<Role> who;           ///< who must act, or may decide; never empty
    std::vector<SourceUse> sources;  ///< never empty, unless common practice or from memory
    HowSure sure = HowSure::from_memory;
    std::string meanwhile;  ///< what to say until somebody has decided; ask and stop only
};

/// A policy question whose answer in the unit must be one of these options for a rule to count.
struct PolicyUse {
    std::uint32_t question = 0;          ///< place in Protocol::policy_questions
    std::vector<std::uint32_t> options;  ///< places in its options, ascending; never empty
};
/// Whether every one of them is answered so.
/// @param chosen  the chosen option of each policy question
[[nodiscard]] bool in_force(const std::vector<PolicyUse>& uses, const std::vector<std::uint32_t>& chosen);

struct FindingRule {
    RuleHead head;
    Level level = Level::note;
    bool now = false;       ///< fixed words first, while the patient is on the line
    std::string now_words;  ///< with `now`
    Condition when;
    /// What not knowing means.
    enum class NotKnowing : std::uint8_t { open, accept } not_knowing = NotKnowing::open;
    std::string accept_reason;      ///< with `accept`: source or named decision
    bool about_the_record = false;  ///< kind: record
};

enum class HoldAction : std::uint8_t {
    take_as_usual,
    sip_on_the_morning,
    omit_on_the_day,
    omit_days,                 ///< no dose on D-N..D-1, nor before the procedure on D
    omit_doses_due_within,     ///< interval dosing: a dose on D-N itself is allowed
    last_dose_at_least_hours,  ///< elapsed hours before the start
    dose_to_be_stated,         ///< by a clinician
    ask_first,                 ///< no date
};
[[nodiscard]] std::string_view name_of(HoldAction action);
[[nodiscard]] std::optional<HoldAction> find_hold_action(std::string_view name);
/// The action needs a number of days or hours.
[[nodiscard]] bool needs_a_number(HoldAction action);

/// On the doses that remain.
enum class DoseCondition : std::uint8_t { with_its_meal, space_from_the_preparation };
[[nodiscard]] std::string_view name_of(DoseCondition condition);
[[nodiscard]] std::optional<DoseCondition> find_dose_condition(std::string_view name);

enum class Protects : std::uint8_t { by_omitting, by_taking };

/// When a medicine that was left out may be taken again. Counted in civil days after the day on which the
/// procedure was done: 0 is that day itself, 1 the next day.
struct RestartFigure {
    date::days earliest{0};  ///< >= 0
    std::optional<date::days>
        latest;                      ///< the usual latest, after `earliest`; empty: the source gives one day
    std::vector<SourceUse> sources;  ///< never empty, unless common practice or from memory
    HowSure sure = HowSure::from_memory;
};

struct HoldRule {
    RuleHead head;                         ///< `who` may agree to it
    std::vector<ClassIndex> classes;       ///< ascending; the medicines it speaks about
    std::vector<MedicineIndex> medicines;  ///< ascending
    std::vector<PolicyUse> policies;       ///< all of them; empty: under every policy
    Condition when;                        ///< an empty `all`: always
    HoldAction action = HoldAction::ask_first;
    Limit number;                           ///< days or hours; what is told
    std::optional<Limit> too_short_below;   ///< days; empty: the same as what is told
    std::vector<DoseCondition> conditions;  ///< ascending
    Protects protects = Protects::by_omitting;
    std::string published_fraction;  ///< with `dose_to_be_stated`: the published figure, as words
    /// By the bleeding risk of what was really done, not of what was booked. Empty: no figure.
    std::optional<RestartFigure> restart_after_low;
    std::optional<RestartFigure> restart_after_high;
};

/// Where published sources disagree.
struct PolicyOption {
    std::string id;
    std::string title;
    std::vector<SourceUse> sources;
    HowSure sure = HowSure::from_memory;
};
struct PolicyQuestion {
    std::string id;
    std::string question;
    std::vector<PolicyOption> options;  ///< at least two
    std::uint32_t by_default = 0;
    std::string why;  ///< why this is the default
};

/// A number, a time of day or a yes/no that a unit may set.
using ParameterValue = std::variant<Exact, TimeOfDay, bool>;
enum class Looser : std::uint8_t { lower, higher, any };
struct Parameter {
    std::string id;
    std::string title;
    Unit unit = Unit::none;  ///< of numbers
    ParameterValue by_default;
    Interval<Exact> range;  ///< closed; numbers in `unit`, times of day in minutes
    Looser looser = Looser::any;
    std::vector<SourceUse> sources;
    HowSure sure = HowSure::from_memory;
};

/// A procedure, or something that may be done in one.
struct Procedure {
    std::string id;
    std::string title;
    /// Which plan of preparation it needs. `other` is out of scope: accepted, and always asked about.
    enum class Plan : std::uint8_t { bowel, fasting_only, ask, other } plan = Plan::other;
    BleedingRisk risk = BleedingRisk::high;
    BleedingRisk risk_diagnostic_only = BleedingRisk::high;  ///< when the endoscopist has said so
    bool is_intervention = false;
    std::vector<SourceUse> sources;
    HowSure sure = HowSure::from_memory;
};

}  // namespace foreday::screening
