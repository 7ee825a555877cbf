#pragma once
#include <string>
#include <string_view>

namespace foreday::data {

/// SHA-256 of the bytes (FIPS 180-4), as 64 lower-case hexadecimal digits.
/// @throws std::runtime_error when the library cannot be made ready
[[nodiscard]] std::string sha256_hex(std::string_view bytes);

}  // namespace foreday::data
