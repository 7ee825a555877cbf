#include "screening/exact.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <random>
#include <stdexcept>
#include <string>
#include <type_traits>

#include "tests/support/seed.h"

namespace foreday::screening {
namespace {

// Floating point becomes an exact number only where the code says so.
static_assert(!std::is_constructible_v<Exact, double>);
static_assert(!std::is_constructible_v<Exact, float>);
static_assert(std::is_convertible_v<int, Exact>);

Exact number(std::string_view text)
{
    return Exact::parse(text).value();
}

TEST(Exact, ANumberIsReadAsItIsWritten)
{
    EXPECT_EQ(number("84"), Exact{84});
    EXPECT_EQ(number("84.60"), Exact::ratio(423, 5));
    EXPECT_EQ(number("-0.5"), Exact::ratio(-1, 2));
    EXPECT_EQ(number("0"), Exact{});
    EXPECT_EQ(number("0.1"), Exact::ratio(1, 10));
}

TEST(Exact, TwelveDigitsBeforeAndNineAfterThePointAreTheMost)
{
    EXPECT_EQ(number("999999999999"), Exact{999'999'999'999});
    EXPECT_FALSE(Exact::parse("1000000000000"));
    EXPECT_EQ(number("0.000000001"), Exact::ratio(1, 1'000'000'000));
    EXPECT_FALSE(Exact::parse("0.0000000001"));
}

TEST(Exact, WhatIsNoPlainDecimalIsRefused)
{
    for (const std::string_view text :
         {"",   "-",   ".",    "1.",    ".5",  "+1",    " 1", "1 ",  "1,5", "1e3",     "010",
          "00", "-01", "0x1F", "1_000", "--1", "1.2.3", "1-", "NaN", "inf", "\xD9\xA3"}) {
        EXPECT_FALSE(Exact::parse(text)) << text;
    }
}

TEST(Exact, ARefusalShowsWhatWasWrittenAndWhatWouldBeRight)
{
    const auto refused = Exact::parse("1e3");
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().what, "\"1e3\" is not a number");
    EXPECT_EQ(refused.error().would_be_right, "a plain decimal such as 84 or 84.6");
}

TEST(Exact, ALongTextIsNotCutInsideALetter)
{
    std::string text(39, 'x');
    text += "\xC3\xA9 and more";  // the two bytes of an accented letter, the 40th and 41st
    EXPECT_EQ(Exact::parse(text).error().what, '"' + std::string(39, 'x') + "...\" is not a number");
    EXPECT_EQ(Exact::parse(std::string(40, 'x')).error().what,
              '"' + std::string(40, 'x') + "\" is not a number");
    EXPECT_EQ(Exact::parse(std::string(41, 'x')).error().what,
              '"' + std::string(40, 'x') + "...\" is not a number");
}

TEST(Exact, ABodyMassIndexOf35IsReachedAndNotMissedByAHair)
{
    const Exact height_squared = number("1.7") * number("1.7");
    const Exact limit = 35;
    EXPECT_LT(number("101.149999999") / height_squared, limit);
    EXPECT_EQ(number("101.15") / height_squared, limit);
    EXPECT_GT(number("101.150000001") / height_squared, limit);
    EXPECT_NE(101.15 / (1.7 * 1.7), 35.0) << "binary floating point would do, so why all this";
}

TEST(Exact, FractionsAreKeptInLowestTerms)
{
    EXPECT_EQ(Exact::ratio(6, 4), Exact::ratio(3, 2));
    EXPECT_EQ(Exact::ratio(3, -2), Exact::ratio(-3, 2));
    EXPECT_EQ(Exact::ratio(0, -7), Exact{});
    EXPECT_EQ(Exact::ratio(INT64_MIN, INT64_MIN), Exact{1});
    EXPECT_TRUE(Exact::ratio(8, 4).is_whole());
    EXPECT_FALSE(Exact::ratio(8, 3).is_whole());
}

TEST(Exact, ATenthIsNotTheBinaryFractionNextToIt)
{
    EXPECT_EQ(Exact::from_double(0.5), Exact::ratio(1, 2));
    EXPECT_EQ(Exact::from_double(-3.0), Exact{-3});
    EXPECT_GT(Exact::from_double(0.1), Exact::ratio(1, 10));
    EXPECT_LT(Exact::from_double(0.3), Exact::ratio(3, 10));
    EXPECT_EQ(Exact::from_double(std::ldexp(1.0, 100)).to_double(), std::ldexp(1.0, 100));
    EXPECT_EQ(Exact::from_double(5e-324), Exact{}) << "nothing clinical is left that far down";
}

TEST(Exact, NoNumberIsMadeOfWhatIsNone)
{
    EXPECT_THROW((void)Exact::from_double(std::nan("")), std::invalid_argument);
    EXPECT_THROW((void)Exact::from_double(std::numeric_limits<double>::infinity()), std::invalid_argument);
    EXPECT_THROW((void)Exact::ratio(1, 0), std::invalid_argument);
    EXPECT_THROW((void)(Exact{1} / Exact{}), std::invalid_argument);
}

TEST(Exact, ANumberTooLargeIsAnErrorAndNeverAWrongNumber)
{
    Exact grown = Exact{INT64_MAX} * Exact{INT64_MAX};
    EXPECT_THROW((void)(grown * grown), std::overflow_error);
    EXPECT_THROW((void)(grown + grown + grown), std::overflow_error);
    EXPECT_THROW((void)grown.floor(), std::overflow_error);
    EXPECT_THROW((void)Exact::from_double(1e300), std::overflow_error);
    EXPECT_EQ((grown / Exact{INT64_MAX}).floor(), INT64_MAX);
    EXPECT_THROW((void)(Exact{INT64_MIN} * Exact{INT64_MIN} * Exact{-2}), std::overflow_error);
}

TEST(Exact, FractionsTooLargeToMultiplyAreStillCompared)
{
    const Exact huge = Exact{INT64_MAX} * Exact{INT64_MAX};
    const Exact just_below = huge - Exact::ratio(1, 2);
    EXPECT_LT(just_below, huge);
    EXPECT_GT(huge, just_below);
    EXPECT_LT(Exact{-1} * just_below, 0);
    EXPECT_LT(Exact{1} / huge, Exact{1} / just_below);
}

TEST(Exact, TheFloorOfANumberBelowZeroLiesFurtherDown)
{
    EXPECT_EQ(Exact::ratio(7, 2).floor(), 3);
    EXPECT_EQ(Exact::ratio(-7, 2).floor(), -4);
    EXPECT_EQ(Exact{-4}.floor(), -4);
    EXPECT_EQ(Exact::ratio(1, INT64_MAX).floor(), 0);
    EXPECT_EQ(Exact::ratio(-1, INT64_MAX).floor(), -1);
}

TEST(Exact, TheTextIsTheShortestThatSaysIt)
{
    EXPECT_EQ(Exact{84}.text(), "84");
    EXPECT_EQ(Exact{-84}.text(), "-84");
    EXPECT_EQ(Exact{INT64_MIN}.text(), "-9223372036854775808");
    EXPECT_EQ(number("84.60").text(), "84.6");
    EXPECT_EQ(number("-0.50").text(), "-0.5");
    EXPECT_EQ(Exact::ratio(1, 3).text(), "0.3333333333333333");
    EXPECT_EQ(number("0.000000001").text(), "0.000000001");
}

TEST(Exact, ANumberHalfwayBetweenTwoDoublesGoesToTheEvenOne)
{
    const Exact even = Exact{std::int64_t{1} << 53};
    EXPECT_EQ((even + 1).to_double(), even.to_double());
    EXPECT_EQ((even + 1 + Exact::ratio(1, INT64_MAX)).to_double(), even.to_double() + 2);
    EXPECT_EQ((even + 3).to_double(), even.to_double() + 4);
    EXPECT_EQ(number("15.465808").to_double(), 15.465808) << "rounded twice it was 15.465807999999999";
}

TEST(Exact, EveryDecimalOfUpToNinePlacesReadsBackFromItsText)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    for (int i = 0; i < 100'000; ++i) {
        // Fifteen digits: as many as a double always keeps.
        const auto digits = tests::any_between(random, 0, 999'999'999'999'999);
        const std::string text = fmt::format("{}.{:09}", digits / 1'000'000'000, digits % 1'000'000'000);
        const Exact value = number(text);
        ASSERT_EQ(number(value.text()), value) << text;
        ASSERT_EQ(value.to_double(), std::strtod(text.c_str(), nullptr)) << text;
        ASSERT_EQ(number("-" + text), Exact{-1} * value);
    }
}

TEST(Exact, SumsProductsAndOrderAreThoseOfFractions)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    constexpr std::int64_t most = 1'000'000;
    for (int i = 0; i < 100'000; ++i) {
        const auto a = tests::any_between(random, -most, most);
        const auto b = tests::any_between(random, 1, most);
        const auto c = tests::any_between(random, -most, most);
        const auto d = tests::any_between(random, 1, most);
        const Exact left = Exact::ratio(a, b);
        const Exact right = Exact::ratio(c, d);
        ASSERT_EQ(left + right, Exact::ratio(a * d + c * b, b * d));
        ASSERT_EQ(left - right, Exact::ratio(a * d - c * b, b * d));
        ASSERT_EQ(left * right, Exact::ratio(a * c, b * d));
        if (c != 0) {
            ASSERT_EQ(left / right, Exact::ratio(a * d, b * c));
        }
        ASSERT_EQ(left <=> right, a * d <=> c * b) << a << '/' << b << " and " << c << '/' << d;
        ASSERT_LE(Exact{left.floor()}, left);
        ASSERT_GT(Exact{left.floor() + 1}, left);
    }
}

}  // namespace
}  // namespace foreday::screening
