#pragma once
#include <initializer_list>
#include <string>
#include <vector>

#include "screening/protocol.h"

namespace foreday::checklists {

/// Rank of a parameter's number in this unit. A number that the unit has set other than the default is its
/// own; the default has the protocol's rank until the unit confirms it.
[[nodiscard]] screening::HowSure rank_of(const screening::Rules& rules, screening::ParameterIndex parameter);

/// Those of the parameters whose numbers may give no time yet, as "the unit's journey (common practice)".
[[nodiscard]] std::vector<std::string> not_confirmed(
    const screening::Rules& rules, std::initializer_list<screening::ParameterIndex> parameters);

}  // namespace foreday::checklists
