#pragma once
#include <cstdint>
#include <string>

namespace foreday::present {

/// What just happened, in words. It stands until the next thing happens.
struct Notice {
    enum class Kind : std::uint8_t {
        none,
        done,     ///< it is in the book
        refused,  ///< nothing was written, and why
        news,     ///< somebody else has changed what is shown
    } kind = Kind::none;
    std::string words;
    bool operator==(const Notice&) const = default;
};

}  // namespace foreday::present
