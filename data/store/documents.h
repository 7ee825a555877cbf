#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace foreday::store {

inline constexpr std::size_t longest_document = std::size_t{64} << 20U;  ///< bytes, 64 MiB

/// @throws std::invalid_argument above longest_document
void refuse_too_long(std::string_view document);

/// In the form of zlib (RFC 1950).
[[nodiscard]] std::string compress(std::string_view bytes);

/// Empty when the bytes are not what compress() makes of a text of that length, or it is too long.
[[nodiscard]] std::optional<std::string> uncompress(std::string_view compressed, std::size_t length);

}  // namespace foreday::store
