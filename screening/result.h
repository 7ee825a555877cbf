#pragma once
#include <string>
#include <tl/expected.hpp>

namespace foreday::screening {

/// What is wrong with something a person wrote, and what would have been right. Both are whole
/// phrases for the person who has to mend it; where it stands is added by whoever read the file.
struct Fault {
    std::string what;
    std::string would_be_right;
    bool operator==(const Fault&) const = default;
};

/// A value, or the fault that kept it from being made. Never used for outcomes of the trade.
template <class T>
using Result = tl::expected<T, Fault>;

}  // namespace foreday::screening
