#include "screening/calculator_words.h"

#include <gtest/gtest.h>

namespace foreday::screening {
namespace {

NumberInterval exactly(std::int64_t hundredths)
{
    const Exact value = Exact::ratio(hundredths, 100);
    return {value, value};
}

TEST(CalculatorWords, AnEgfrIsShownAsAWholeNumberFarFromItsLimit)
{
    EXPECT_EQ(calculated_words(Calculator::ckd_epi, exactly(7222), 30), "72 mL/min/1.73 m2");
}

TEST(CalculatorWords, AClearanceIsShownWithOneDecimal)
{
    EXPECT_EQ(calculated_words(Calculator::cockcroft_gault, exactly(4204), 30), "42.0 mL/min");
}

TEST(CalculatorWords, AResultTwoAwayFromItsLimitSaysSoAndOneFurtherDoesNot)
{
    EXPECT_EQ(calculated_words(Calculator::cockcroft_gault, exactly(4800), 50),
              "48.0 mL/min (unrounded 48.00, within 2 of the limit 50)");
    EXPECT_EQ(calculated_words(Calculator::cockcroft_gault, exactly(5200), 50),
              "52.0 mL/min (unrounded 52.00, within 2 of the limit 50)");
    EXPECT_EQ(calculated_words(Calculator::cockcroft_gault, exactly(4799), 50), "48.0 mL/min");
    EXPECT_EQ(calculated_words(Calculator::cockcroft_gault, exactly(5201), 50), "52.0 mL/min");
}

TEST(CalculatorWords, WhatRoundsOntoTheLimitShowsThatItLiesBelow)
{
    EXPECT_EQ(calculated_words(Calculator::ckd_epi, exactly(2999), 30),
              "30 mL/min/1.73 m2 (unrounded 29.99, within 2 of the limit 30)");
}

TEST(CalculatorWords, AgesAndScoresAreShownAsTheyAre)
{
    EXPECT_EQ(calculated_words(Calculator::chads2, {Exact{2}, Exact{4}}, 4), "2 to 4");
    EXPECT_EQ(calculated_words(Calculator::age, exactly(6600), 65), "66 years");
}

}  // namespace
}  // namespace foreday::screening
