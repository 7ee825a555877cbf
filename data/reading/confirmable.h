#pragma once
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "screening/protocol.h"

namespace foreday::data {

/// Something a unit's policy may confirm.
struct Confirmable {
    std::string kind;
    std::string id;
    std::string title;
    screening::HowSure sure = screening::HowSure::from_memory;  ///< the weakest of what hangs on the id
    bool in_force =
        true;  ///< false for options of policy questions that were not chosen, and what hangs on them
};

/// Everything of a protocol that can be confirmed, by kind and id.
/// @param options  the chosen option of each policy question
[[nodiscard]] std::vector<Confirmable> confirmables(const screening::Protocol& protocol,
                                                    const std::vector<std::uint32_t>& options);

/// Rank of the least sure of all that one id confirms: a hold and its days of restart share theirs.
[[nodiscard]] screening::HowSure weakest_of(const std::vector<Confirmable>& known, std::string_view id);

}  // namespace foreday::data
