#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "screening/rules.h"

namespace foreday::screening {

/// Which items enter the verdict: only the first two.
enum class ReadinessKind : std::uint8_t { holds_the_patient, needs_a_clinician, to_be_noted };
[[nodiscard]] std::string_view name_of(ReadinessKind kind);

/// Somebody confirms it, with a yes or no fact of the day. `expected` is what readiness needs.
struct ConfirmedCheck {
    FactIndex fact = 0;
    bool expected = true;
};
/// A measure of the day against limits; each limit is closed on the good side unless `op` says otherwise.
struct MeasuredCheck {
    FactIndex fact = 0;
    struct Bound {
        Operator op = Operator::at_least;  ///< what the value must be
        Limit limit;
    };
    std::vector<Bound> bounds;  ///< all of them
};
/// Last intake of one kind against the minimum gap before the planned start.
struct FastingCheck {
    std::string intake;  ///< kind of intake, see Intake::kind
    Limit gap_hours;     ///< met at exactly so many hours
};
/// Every hold as really taken against as agreed.
struct HoldsCheck {};

struct ReadinessRule {
    RuleHead head;
    ReadinessKind kind = ReadinessKind::holds_the_patient;
    Condition when;  ///< an empty `all`: always on the list
    std::variant<ConfirmedCheck, MeasuredCheck, FastingCheck, HoldsCheck> check;
    /// What does not meet it: `holds_the_patient` means not ready, `needs_a_clinician` means wait.
    std::string would_make_it_ready;
    int order = 0;  ///< the items of the day are gone through in ascending order of it
};

}  // namespace foreday::screening
