#pragma once
#include <optional>
#include <string>

#include "checklists/restart.h"

namespace foreday::console {

/// One or two sentences on when a medicine is taken again, for a case that is done.
/// @param proposal  empty: the program proposes no day
[[nodiscard]] std::string restart_words(const screening::Protocol& protocol, const screening::Hold& hold,
                                        const std::optional<checklists::RestartProposal>& proposal);

}  // namespace foreday::console
