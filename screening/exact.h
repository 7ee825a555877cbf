#pragma once
#include <compare>
#include <concepts>
#include <cstdint>
#include <string>
#include <string_view>

#include "screening/result.h"

namespace foreday::screening {

__extension__ using Int128 = __int128;

/// A rational number, always in lowest terms with a positive denominator.
///
/// Limits are compared with values as they were said, never with a rounding of them: 101.15 kg at
/// 170 cm is a body-mass index of exactly 35, which binary floating point misses by a hair.
/// Arithmetic that would not fit in 128 bits throws std::overflow_error; values that pass the
/// plausibility ranges of the protocol stay far below that.
class Exact {
public:
    constexpr Exact() = default;
    // Whole numbers convert by themselves: `age >= 75` should read as it is said.
    constexpr Exact(std::int64_t whole) : numerator_(whole) {}  // NOLINT(google-explicit-constructor)
    template <std::floating_point Number>
    Exact(Number) = delete;  // 0.1 is none: parse("0.1") is, and from_double() says what it does

    /// @throws std::invalid_argument when the denominator is 0
    [[nodiscard]] static Exact ratio(std::int64_t numerator, std::int64_t denominator);
    /// The binary fraction that the double is. @throws std::invalid_argument for NaN and infinity
    [[nodiscard]] static Exact from_double(double value);
    /// Plain decimals only: "84", "84.60", "-0.5". No exponent, no sign "+", no blanks, no comma, no
    /// leading zero before another digit, at most 12 digits before and 9 after the point.
    [[nodiscard]] static Result<Exact> parse(std::string_view text);

    [[nodiscard]] Exact operator+(const Exact& other) const;
    [[nodiscard]] Exact operator-(const Exact& other) const;
    [[nodiscard]] Exact operator*(const Exact& other) const;
    /// @throws std::invalid_argument when `other` is 0
    [[nodiscard]] Exact operator/(const Exact& other) const;

    [[nodiscard]] bool operator==(const Exact&) const = default;
    [[nodiscard]] std::strong_ordering operator<=>(const Exact& other) const;

    /// The nearest double.
    [[nodiscard]] double to_double() const;
    [[nodiscard]] bool is_whole() const { return denominator_ == 1; }
    /// Largest whole number that is not above the value. @throws std::overflow_error beyond 64 bits
    [[nodiscard]] std::int64_t floor() const;
    /// Shortest decimal that reads back as the nearest double, never with an exponent; whole numbers without
    /// a point.
    [[nodiscard]] std::string text() const;

private:
    [[nodiscard]] static Exact lowest_terms(Int128 numerator, Int128 denominator);

    Int128 numerator_ = 0;
    Int128 denominator_ = 1;
};

}  // namespace foreday::screening
