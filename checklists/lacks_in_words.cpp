#include "checklists/lacks_in_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decide_by.h"

namespace foreday::checklists {

std::vector<std::string> lacks_in_words(const WholeCase& whole)
{
    const auto items = all_items(whole.assessment);
    std::vector<std::string> words;
    std::size_t to_ask = 0;
    for (const Lack& lack : whole.clearance.lacks) {
        const auto item =
            std::ranges::find(items, lack.item, [](const screening::Item* one) { return one->id; });
        if (item != items.end() && only_needs_asking(**item)) {
            ++to_ask;
        } else {
            words.push_back(lack.what);
        }
    }
    if (to_ask > 0) {
        words.push_back(to_ask == 1
                            ? "the answer to a question still to be asked"
                            : fmt::format("answers still to be asked: {} things hang on them", to_ask));
    }
    return words;
}

}  // namespace foreday::checklists
