#include "screening/exact.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <utility>

#include "screening/as_written.h"

namespace foreday::screening {
namespace {

__extension__ using UnsignedInt128 = unsigned __int128;

Int128 magnitude(Int128 value)
{
    return value < 0 ? -value : value;
}

Int128 greatest_common_divisor(Int128 a, Int128 b)
{
    a = magnitude(a);
    b = magnitude(b);
    while (b != 0) {
        a = std::exchange(b, a % b);
    }
    return a;
}

Int128 times(Int128 a, Int128 b)
{
    Int128 product = 0;
    if (__builtin_mul_overflow(a, b, &product)) {
        throw std::overflow_error("a number has grown beyond 128 bits");
    }
    return product;
}

Int128 plus(Int128 a, Int128 b)
{
    Int128 sum = 0;
    if (__builtin_add_overflow(a, b, &sum)) {
        throw std::overflow_error("a number has grown beyond 128 bits");
    }
    return sum;
}

Int128 floor_divide(Int128 a, Int128 b)
{
    const Int128 quotient = a / b;
    return (a % b != 0 && (a < 0) != (b < 0)) ? quotient - 1 : quotient;
}

/// Compares fractions with positive denominators by their continued fractions, so that no product
/// can overflow.
std::strong_ordering compare(Int128 a, Int128 b, Int128 c, Int128 d)
{
    bool swapped = false;
    while (true) {
        const Int128 left = floor_divide(a, b);
        const Int128 right = floor_divide(c, d);
        if (left != right) {
            return ((left < right) != swapped) ? std::strong_ordering::less : std::strong_ordering::greater;
        }
        const Int128 left_rest = a - left * b;
        const Int128 right_rest = c - right * d;
        if (left_rest == 0 || right_rest == 0) {
            if (left_rest == right_rest) {
                return std::strong_ordering::equal;
            }
            return ((left_rest == 0) != swapped) ? std::strong_ordering::less : std::strong_ordering::greater;
        }
        // What is left are proper fractions; their reciprocals compare the other way round.
        a = std::exchange(b, left_rest);
        c = std::exchange(d, right_rest);
        swapped = !swapped;
    }
}

constexpr Int128 least = -(((Int128{1} << 126) - 1) * 2 + 1) - 1;  // of 128 bits
constexpr std::size_t most_digits_before = 12;
constexpr std::size_t most_digits_after = 9;
constexpr int decimal_base = 10;

bool all_digits(std::string_view text)
{
    return std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

}  // namespace

Exact Exact::lowest_terms(Int128 numerator, Int128 denominator)
{
    if (denominator == 0) {
        throw std::invalid_argument("a fraction needs a denominator other than 0");
    }
    if (numerator == least || denominator == least) {  // has no opposite
        throw std::overflow_error("a number has grown beyond 128 bits");
    }
    if (denominator < 0) {
        numerator = -numerator;
        denominator = -denominator;
    }
    const Int128 divisor = greatest_common_divisor(numerator, denominator);
    Exact result;
    result.numerator_ = numerator / divisor;
    result.denominator_ = denominator / divisor;
    return result;
}

Exact Exact::ratio(std::int64_t numerator, std::int64_t denominator)
{
    return lowest_terms(numerator, denominator);
}

Exact Exact::from_double(double value)
{
    if (!std::isfinite(value)) {
        throw std::invalid_argument("a number must be finite");
    }
    constexpr int mantissa_bits = 53;  // of an IEEE double: what makes the conversion exact
    constexpr int most_shift = 120;    // keeps the denominator inside 128 bits
    int exponent = 0;
    const double fraction = std::frexp(value, &exponent);
    auto mantissa = static_cast<Int128>(std::ldexp(fraction, mantissa_bits));
    int shift = mantissa_bits - exponent;
    while (shift > most_shift) {  // below 2^-67 nothing clinical is left
        mantissa /= 2;
        --shift;
    }
    Int128 denominator = 1;
    for (; shift > 0; --shift) {
        denominator = times(denominator, 2);
    }
    for (; shift < 0; ++shift) {
        mantissa = times(mantissa, 2);
    }
    return lowest_terms(mantissa, denominator);
}

Result<Exact> Exact::parse(std::string_view text)
{
    const Fault fault{fmt::format("{} is not a number", as_written(text)),
                      "a plain decimal such as 84 or 84.6"};
    std::string_view rest = text;
    const bool negative = rest.starts_with('-');
    if (negative) {
        rest.remove_prefix(1);
    }
    const auto point = rest.find('.');
    const std::string_view before = rest.substr(0, point);
    const std::string_view after = point == std::string_view::npos ? "" : rest.substr(point + 1);
    if (before.empty() || before.size() > most_digits_before || after.size() > most_digits_after ||
        !all_digits(before) || !all_digits(after) || (before.size() > 1 && before.front() == '0') ||
        (point != std::string_view::npos && after.empty())) {
        return tl::unexpected(fault);
    }
    Int128 numerator = 0;
    Int128 denominator = 1;
    for (const char digit : before) {
        numerator = numerator * decimal_base + (digit - '0');
    }
    for (const char digit : after) {
        numerator = numerator * decimal_base + (digit - '0');
        denominator *= decimal_base;
    }
    return lowest_terms(negative ? -numerator : numerator, denominator);
}

Exact Exact::operator+(const Exact& other) const
{
    const Int128 shared = greatest_common_divisor(denominator_, other.denominator_);
    const Int128 widen = other.denominator_ / shared;
    return lowest_terms(plus(times(numerator_, widen), times(other.numerator_, denominator_ / shared)),
                        times(denominator_, widen));
}

Exact Exact::operator-(const Exact& other) const
{
    Exact negated = other;
    negated.numerator_ = -negated.numerator_;
    return *this + negated;
}

Exact Exact::operator*(const Exact& other) const
{
    // Cancelling first keeps the products as small as they can be.
    const Exact left = lowest_terms(numerator_, other.denominator_);
    const Exact right = lowest_terms(other.numerator_, denominator_);
    return lowest_terms(times(left.numerator_, right.numerator_),
                        times(left.denominator_, right.denominator_));
}

Exact Exact::operator/(const Exact& other) const
{
    return *this * lowest_terms(other.denominator_, other.numerator_);
}

std::strong_ordering Exact::operator<=>(const Exact& other) const
{
    // Nearly every number of the trade fits in 64 bits, where the products fit in 128 and no division is
    // needed.
    constexpr Int128 small = INT64_MAX;
    if (magnitude(numerator_) <= small && magnitude(other.numerator_) <= small && denominator_ <= small &&
        other.denominator_ <= small) {
        const Int128 left = numerator_ * other.denominator_;
        const Int128 right = other.numerator_ * denominator_;
        return left < right   ? std::strong_ordering::less
               : left > right ? std::strong_ordering::greater
                              : std::strong_ordering::equal;
    }
    return compare(numerator_, denominator_, other.numerator_, other.denominator_);
}

double Exact::to_double() const
{
    // Dividing in a wider floating point would round twice and miss the nearest double now and then.
    constexpr UnsignedInt128 least_of_55_bits = UnsignedInt128{1}
                                                << 54U;  // 53 of a double and two to round by
    const auto top = static_cast<UnsignedInt128>(magnitude(numerator_));
    const auto bottom = static_cast<UnsignedInt128>(denominator_);
    UnsignedInt128 quotient = top / bottom;
    UnsignedInt128 rest = top % bottom;
    int exponent = 0;
    bool cut_off = false;
    while (quotient < least_of_55_bits && (quotient != 0 || rest != 0)) {
        rest *= 2;
        const bool bit = rest >= bottom;
        rest -= bit ? bottom : 0;
        quotient = quotient * 2 + (bit ? 1 : 0);
        --exponent;
    }
    while (quotient >= 2 * least_of_55_bits) {
        cut_off = cut_off || quotient % 2 != 0;
        quotient /= 2;
        ++exponent;
    }
    if (cut_off || rest != 0) {
        quotient |= 1U;  // what lies beyond the last bit only keeps a tie from being one
    }
    const double size = std::ldexp(static_cast<double>(static_cast<std::uint64_t>(quotient)), exponent);
    return numerator_ < 0 ? -size : size;
}

std::int64_t Exact::floor() const
{
    const Int128 value = floor_divide(numerator_, denominator_);
    if (value > INT64_MAX || value < INT64_MIN) {
        throw std::overflow_error("a whole number has grown beyond 64 bits");
    }
    return static_cast<std::int64_t>(value);
}

std::string Exact::text() const
{
    if (is_whole() && numerator_ <= INT64_MAX && numerator_ >= INT64_MIN) {
        return fmt::format("{}", static_cast<std::int64_t>(numerator_));
    }
    // Never with an exponent, so that parse() reads it.
    std::array<char, 128> digits{};  // a value of at most 39 digits before the point and 60 after it
    const auto end =
        std::to_chars(digits.data(), digits.data() + digits.size(), to_double(), std::chars_format::fixed);
    return {digits.data(), end.ptr};
}

}  // namespace foreday::screening
