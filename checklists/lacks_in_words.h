#pragma once
#include <string>
#include <vector>

#include "checklists/clearance.h"

namespace foreday::checklists {

/// What clearance lacks, each without a full stop.
struct Lacking {
    std::vector<std::string> settled_otherwise;  ///< to be decided, named or closed
    /// What only waits for questions of the call is counted in one: at its beginning that is nearly
    /// everything. Empty: nothing does.
    std::string to_ask;
};
[[nodiscard]] Lacking lacking(const screening::Assessment& assessment, const ClearanceCheck& clearance);

/// The same in one list.
[[nodiscard]] std::vector<std::string> lacks_in_words(const screening::Assessment& assessment,
                                                      const ClearanceCheck& clearance);

}  // namespace foreday::checklists
