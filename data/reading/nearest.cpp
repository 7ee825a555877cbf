#include "data/reading/nearest.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "screening/name_likeness.h"

namespace foreday::data {
namespace {

constexpr std::size_t longest_name = 100;  // nobody misspells more than that; keeps hostile text cheap
constexpr std::size_t most_listed = 30;    // a longer list is no help in a fault

}  // namespace

std::string_view nearest(std::string_view written, std::span<const std::string_view> names)
{
    if (written.empty() || written.size() > longest_name) {
        return {};
    }
    std::string_view best;
    std::size_t fewest = std::max<std::size_t>(written.size() / 3, 1) + 1;  // a third: see the header
    for (const std::string_view name : names) {
        const auto apart =
            static_cast<std::size_t>(screening::spelling_errors(written, name.substr(0, longest_name)));
        if (apart < fewest) {
            fewest = apart;
            best = name;
        }
    }
    return best;
}

std::string perhaps(std::string_view written, std::span<const std::string_view> names)
{
    if (const std::string_view name = nearest(written, names); !name.empty()) {
        return fmt::format("perhaps \"{}\"", name);
    }
    if (names.empty()) {
        return "there is none yet";
    }
    if (names.size() > most_listed) {
        return "one of those that are there";
    }
    return fmt::format("one of: {}", fmt::join(names, ", "));
}

}  // namespace foreday::data
