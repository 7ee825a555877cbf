#pragma once
#include <string>
#include <vector>

#include "checklists/whole_case.h"

namespace foreday::checklists {

/// What clearance lacks, each without a full stop. What only waits for questions of the call is counted in
/// one: at its beginning that is nearly everything.
[[nodiscard]] std::vector<std::string> lacks_in_words(const WholeCase& whole);

}  // namespace foreday::checklists
