#pragma once
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/faults.h"

namespace foreday::data {

/// One value of a YAML file with the place it stands at. Every scalar is kept as the text that was
/// written: what `010`, `no` or `1e3` mean is for the reader of the value to judge, never for a library.
struct Located {
    enum class Kind {
        map,
        list,
        scalar,
        nothing  ///< nothing was written, or `~` or `null`
    } kind = Kind::nothing;
    std::string text;            ///< of a scalar
    std::vector<Located> keys;   ///< of a map: scalars, beside `items`, in the order written
    std::vector<Located> items;  ///< of a list or a map
    int line = 0;                ///< from 1
    int column = 0;              ///< in characters, from 1
    std::shared_ptr<const std::string> file;
};

/// The value under a key of a map; nullptr without it, or where the node is no map.
[[nodiscard]] const Located* find(const Located& node, std::string_view key);

/// How much a file may hold. A file of ours stays far below; a hostile one is refused before it costs.
inline constexpr std::size_t most_bytes = std::size_t{2} * 1024 * 1024;
inline constexpr std::size_t longest_line = 4000;  ///< characters
inline constexpr int deepest = 40;
inline constexpr std::size_t most_values = 100'000;
/// Of the characters that YAML may give a meaning. The library takes a whole flow list apart before it tells
/// its first value, so what it may cost is bounded before it starts.
inline constexpr std::size_t most_marks = 100'000;

/// Reads one YAML document from text. Duplicate keys, keys that are no words, anchors, aliases, tags, a
/// second document, control characters and bytes that are no UTF-8 are faults, as is what goes beyond
/// the sizes above. Empty when there was a fault that leaves nothing to go on with: text that does not
/// parse gives exactly one.
[[nodiscard]] std::optional<Located> parse_yaml(std::string_view text, const std::string& file,
                                                Faults& faults);

/// The same from a file. At most `most_bytes` + 1 bytes of it are read.
[[nodiscard]] std::optional<Located> read_yaml(const std::filesystem::path& file, Faults& faults);

/// The bytes of a file, at most `most_bytes` + 1 of them. Empty when it cannot be read.
[[nodiscard]] std::optional<std::string> whole_text(const std::filesystem::path& file);

/// The same bytes for the same content: keys sorted, lists in their order, places and comments left out;
/// length-prefixed, so that they cannot be read two ways.
[[nodiscard]] std::string canonical_bytes(const Located& node);

}  // namespace foreday::data
