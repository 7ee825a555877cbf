#include "data/reading/nearest.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <numeric>
#include <vector>

namespace foreday::data {
namespace {

constexpr std::size_t longest_name = 100;  // nobody misspells more than that; keeps hostile text cheap
constexpr std::size_t most_listed = 30;    // a longer list is no help in a fault

/// Letters to add, drop or replace.
std::size_t letters_apart(std::string_view one, std::string_view other)
{
    std::vector<std::size_t> row(other.size() + 1);
    std::iota(row.begin(), row.end(), std::size_t{0});
    for (std::size_t i = 0; i < one.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i + 1;
        for (std::size_t j = 0; j < other.size(); ++j) {
            const std::size_t replaced = diagonal + (one[i] == other[j] ? 0 : 1);
            diagonal = row[j + 1];
            row[j + 1] = std::min({replaced, row[j] + 1, row[j + 1] + 1});
        }
    }
    return row.back();
}

}  // namespace

std::string_view nearest(std::string_view written, std::span<const std::string_view> names)
{
    if (written.empty() || written.size() > longest_name) {
        return {};
    }
    std::string_view best;
    std::size_t fewest = std::max<std::size_t>(written.size() / 3, 1) + 1;  // a third: see the header
    for (const std::string_view name : names) {
        const std::size_t apart = letters_apart(written, name.substr(0, longest_name));
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
