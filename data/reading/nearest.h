#pragma once
#include <span>
#include <string>
#include <string_view>

namespace foreday::data {

/// The name that `written` was most likely meant to be: the one with the fewest letters to change or to
/// swap, at most a third of its length; the first of several. Empty when none is that near.
[[nodiscard]] std::string_view nearest(std::string_view written, std::span<const std::string_view> names);

/// For a name that is not in a closed list: "perhaps "weight"", or else the list itself.
[[nodiscard]] std::string perhaps(std::string_view written, std::span<const std::string_view> names);

}  // namespace foreday::data
