#pragma once
#include <cstdint>

namespace foreday::screening {

/// Kleene's strong three-valued logic. `open` is "not settled by what is known" and is never read as no.
enum class Truth : std::uint8_t { no, open, yes };

[[nodiscard]] constexpr Truth negate(Truth value)
{
    return static_cast<Truth>(2 - static_cast<int>(value));  // 2: the last of the three enumerators
}
[[nodiscard]] constexpr Truth both(Truth a, Truth b)
{
    return a < b ? a : b;
}
[[nodiscard]] constexpr Truth either(Truth a, Truth b)
{
    return a < b ? b : a;
}
[[nodiscard]] constexpr Truth from_bool(bool value)
{
    return value ? Truth::yes : Truth::no;
}

}  // namespace foreday::screening
