#pragma once
#include <cstdint>
#include <string>
#include <string_view>

namespace foreday::screening {

/// Bytes for hashing that cannot be read two ways: every field is its length (four bytes, big-endian)
/// and its UTF-8. Written here, hashed in data/.
class CanonicalBytes {
public:
    void add(std::string_view field);
    void add_count(std::size_t count);  ///< of the fields that follow, as a decimal field
    [[nodiscard]] std::string take() && { return std::move(bytes_); }
    [[nodiscard]] const std::string& bytes() const { return bytes_; }

private:
    std::string bytes_;
};

}  // namespace foreday::screening
