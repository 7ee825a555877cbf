#pragma once
#include <string>
#include <vector>

#include "screening/protocol.h"

namespace foreday::screening {

/// A condition as a person reads it: a line for each comparison, under "all of:" and the like two blanks
/// deeper. A limit that a unit may set stands with the unit's figure and the parameter's id. Empty for a
/// condition that always holds.
[[nodiscard]] std::vector<std::string> condition_in_words(const Condition& condition,
                                                          const Protocol& protocol, const UnitPolicy& policy);

/// "2 days", "25 mL/min", "3 months (stroke_months of this unit)"
[[nodiscard]] std::string limit_in_words(const Limit& limit, Unit unit, const Protocol& protocol,
                                         const UnitPolicy& policy);

}  // namespace foreday::screening
