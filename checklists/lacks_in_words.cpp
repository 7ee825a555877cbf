#include "checklists/lacks_in_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decide_by.h"

namespace foreday::checklists {

Lacking lacking(const screening::Assessment& assessment, const ClearanceCheck& clearance)
{
    const auto items = all_items(assessment);
    Lacking found;
    std::size_t to_ask = 0;
    for (const Lack& lack : clearance.lacks) {
        const auto item =
            std::ranges::find(items, lack.item, [](const screening::Item* one) { return one->id; });
        if (item != items.end() && only_needs_asking(**item)) {
            ++to_ask;
        } else {
            found.settled_otherwise.push_back(lack.what);
        }
    }
    if (to_ask > 0) {
        found.to_ask = to_ask == 1 ? "the answer to a question still to be asked"
                                   : fmt::format("answers still to be asked: {} things hang on them", to_ask);
    }
    return found;
}

std::vector<std::string> lacks_in_words(const screening::Assessment& assessment,
                                        const ClearanceCheck& clearance)
{
    Lacking found = lacking(assessment, clearance);
    if (!found.to_ask.empty()) {
        found.settled_otherwise.push_back(std::move(found.to_ask));
    }
    return std::move(found.settled_otherwise);
}

}  // namespace foreday::checklists
