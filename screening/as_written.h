#pragma once
#include <string>
#include <string_view>

namespace foreday::screening {

/// What a person wrote, in quotation marks, for a fault. Long text is cut after 40 bytes, never inside
/// a UTF-8 character, and ends in "...".
[[nodiscard]] inline std::string as_written(std::string_view text)
{
    constexpr std::size_t most = 40;  // enough to find the place; the rest of a long paste helps nobody
    std::size_t length = text.size();
    if (length > most) {
        length = most;
        // 10xxxxxx is the inside of a character.
        while (length > 0 && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U) {
            --length;
        }
    }
    return '"' + std::string(text.substr(0, length)) + (length < text.size() ? "...\"" : "\"");
}

}  // namespace foreday::screening
