#include "screening/quantity.h"

#include <gtest/gtest.h>

#include <stdexcept>
#include <string>

namespace foreday::screening {
namespace {

constexpr auto last_unit = static_cast<int>(Unit::glass);

Exact number(std::string_view text)
{
    return Exact::parse(text).value();
}

TEST(Unit, EveryUnitIsFoundUnderTheTextItIsWrittenAs)
{
    for (int i = 0; i <= last_unit; ++i) {
        const auto unit = static_cast<Unit>(i);
        EXPECT_EQ(find_unit(unit_text(unit)), unit) << unit_text(unit);
        EXPECT_EQ(unit_text(unit).empty(), unit == Unit::none);
    }
    EXPECT_EQ(unit_text(Unit::kilogram), "kg");
    EXPECT_EQ(unit_text(Unit::mg_per_dl_creatinine), "mg/dL creatinine");
    EXPECT_EQ(unit_text(Unit::ml_per_min_per_1_73_m2), "mL/min/1.73 m2");
}

TEST(Unit, OneOfSomethingMayBeWrittenWithoutItsPlural)
{
    EXPECT_EQ(find_unit("day"), Unit::day);
    EXPECT_EQ(find_unit("days"), Unit::day);
    EXPECT_EQ(find_unit("glass"), Unit::glass);
    EXPECT_EQ(find_unit("\u00b0C"), Unit::celsius);
    EXPECT_EQ(find_unit("\u00b5mol/L creatinine"), Unit::umol_per_l_creatinine);
    EXPECT_EQ(find_unit("\u03bcmol/L creatinine"), Unit::umol_per_l_creatinine);
}

TEST(Unit, WhatCouldMeanTwoThingsIsNoUnit)
{
    for (const std::string_view text :
         {"mg/dL", "umol/L", "mmol/L", "m", "KG", "Kg", " kg", "kg ", "oz", "stone", "ft"}) {
        EXPECT_EQ(find_unit(text), std::nullopt) << text;
    }
}

TEST(Unit, UnitsCompareOnlyWhenTheyMeasureTheSame)
{
    EXPECT_TRUE(comparable(Unit::kilogram, Unit::pound));
    EXPECT_TRUE(comparable(Unit::centimetre, Unit::inch));
    EXPECT_TRUE(comparable(Unit::mg_per_dl_creatinine, Unit::umol_per_l_creatinine));
    EXPECT_TRUE(comparable(Unit::celsius, Unit::fahrenheit));
    EXPECT_TRUE(comparable(Unit::millilitre, Unit::fluid_ounce));
    EXPECT_TRUE(comparable(Unit::minute, Unit::week));
    EXPECT_TRUE(comparable(Unit::month, Unit::year));

    EXPECT_FALSE(comparable(Unit::kilogram, Unit::centimetre));
    EXPECT_FALSE(comparable(Unit::mg_per_dl_creatinine, Unit::mg_per_dl_glucose));
    EXPECT_FALSE(comparable(Unit::ml_per_min, Unit::ml_per_min_per_1_73_m2));
    EXPECT_FALSE(comparable(Unit::day, Unit::month)) << "the calendar decides how long a month is";
    EXPECT_FALSE(comparable(Unit::week, Unit::year));
    EXPECT_FALSE(comparable(Unit::none, Unit::percent));
    EXPECT_FALSE(comparable(Unit::tablet, Unit::glass));
    EXPECT_FALSE(comparable(Unit::milligram, Unit::kilogram)) << "a dose is no weight of a patient";
}

TEST(Unit, EachUnitComparesWithItselfAndComparingGoesBothWays)
{
    for (int i = 0; i <= last_unit; ++i) {
        for (int j = 0; j <= last_unit; ++j) {
            const auto a = static_cast<Unit>(i);
            const auto b = static_cast<Unit>(j);
            EXPECT_EQ(comparable(a, b), comparable(b, a));
            EXPECT_TRUE(i != j || comparable(a, b));
        }
    }
}

TEST(Conversion, APoundAnInchAndAFluidOunceAreExactlyWhatTheyAreFixedAs)
{
    EXPECT_EQ(convert(1, Unit::pound, Unit::kilogram), number("0.45359237"));
    EXPECT_EQ(convert(1, Unit::inch, Unit::centimetre), number("2.54"));
    EXPECT_EQ(convert(70, Unit::inch, Unit::centimetre), number("177.8"));
    EXPECT_EQ(convert(1, Unit::fluid_ounce, Unit::millilitre), number("29.5735"));
    EXPECT_EQ(convert(number("45359.237"), Unit::kilogram, Unit::pound), Exact{100'000});
}

TEST(Conversion, CreatinineOfOneAndAHalfIs132Point6MicromolesPerLitre)
{
    EXPECT_EQ(convert(number("1.5"), Unit::mg_per_dl_creatinine, Unit::umol_per_l_creatinine),
              number("132.6"));
    const Exact limit = number("1.5");
    const auto from_micromoles = [](std::string_view text) {
        return convert(number(text), Unit::umol_per_l_creatinine, Unit::mg_per_dl_creatinine);
    };
    EXPECT_LT(from_micromoles("132.599999999"), limit);
    EXPECT_EQ(from_micromoles("132.6"), limit);
    EXPECT_GT(from_micromoles("132.600000001"), limit);
}

TEST(Conversion, WaterFreezesAt32AndBoilsAt212DegreesFahrenheit)
{
    EXPECT_EQ(convert(0, Unit::celsius, Unit::fahrenheit), Exact{32});
    EXPECT_EQ(convert(100, Unit::celsius, Unit::fahrenheit), Exact{212});
    EXPECT_EQ(convert(-40, Unit::fahrenheit, Unit::celsius), Exact{-40});
    EXPECT_EQ(convert(number("100.4"), Unit::fahrenheit, Unit::celsius), Exact{38});
    EXPECT_LT(convert(number("100.3"), Unit::fahrenheit, Unit::celsius), Exact{38});
    EXPECT_GT(convert(number("100.5"), Unit::fahrenheit, Unit::celsius), Exact{38});
}

TEST(Conversion, AWeekIsSevenDaysAndAYearTwelveMonths)
{
    EXPECT_EQ(convert(1, Unit::week, Unit::day), Exact{7});
    EXPECT_EQ(convert(3, Unit::day, Unit::hour), Exact{72});
    EXPECT_EQ(convert(36, Unit::hour, Unit::day), Exact::ratio(3, 2));
    EXPECT_EQ(convert(90, Unit::minute, Unit::hour), Exact::ratio(3, 2));
    EXPECT_EQ(convert(2, Unit::year, Unit::month), Exact{24});
    EXPECT_EQ(convert(6, Unit::month, Unit::year), Exact::ratio(1, 2));
}

TEST(Conversion, ThereAndBackGivesTheSameNumberInEveryUnit)
{
    const Exact value = number("84.7");
    for (int i = 0; i <= last_unit; ++i) {
        for (int j = 0; j <= last_unit; ++j) {
            const auto a = static_cast<Unit>(i);
            const auto b = static_cast<Unit>(j);
            if (comparable(a, b)) {
                EXPECT_EQ(convert(convert(value, a, b), b, a), value) << unit_text(a) << ' ' << unit_text(b);
            } else {
                EXPECT_THROW((void)convert(value, a, b), std::invalid_argument);
            }
        }
    }
}

TEST(FeetAndInches, FiveFootTenIs70Inches)
{
    EXPECT_EQ(parse_feet_and_inches("5 ft 10 in"), Exact{70});
    EXPECT_EQ(parse_feet_and_inches("5 ft"), Exact{60});
    EXPECT_EQ(parse_feet_and_inches("5 ft 0 in"), Exact{60});
    EXPECT_EQ(parse_feet_and_inches("70.5 in"), number("70.5"));
    EXPECT_EQ(parse_feet_and_inches("5 ft 10.5 in"), number("70.5"));
}

TEST(FeetAndInches, InchesAfterFeetStayBelowTwelve)
{
    EXPECT_EQ(parse_feet_and_inches("5 ft 11 in"), Exact{71});
    EXPECT_EQ(parse_feet_and_inches("5 ft 11.99 in"), number("71.99"));
    EXPECT_EQ(parse_feet_and_inches("5 ft 12 in"), std::nullopt);
    EXPECT_EQ(parse_feet_and_inches("12 in"), Exact{12});
}

TEST(FeetAndInches, PartsOfAFootAreRefusedAsTheyMayMeanInches)
{
    for (const std::string_view text : {"5.5 ft", "5.5 ft 2 in", "-5 ft", "5 ft -2 in", "-70 in", "5ft 10in",
                                        "5 ft in", "5 ft  in", "5 ft 10", "5 ft 10 in ", "ft", " ft", " in",
                                        "in", "5 ft 10 in 3 in", "5 ft5 in", "70", "", "5 ft 5 ft"}) {
        EXPECT_EQ(parse_feet_and_inches(text), std::nullopt) << text;
    }
}

TEST(Quantity, AValueIsReadWithItsUnit)
{
    EXPECT_EQ(parse_quantity("84.6 kg"), (Quantity{number("84.6"), Unit::kilogram}));
    EXPECT_EQ(parse_quantity("1.5"), (Quantity{number("1.5"), Unit::none}));
    EXPECT_EQ(parse_quantity("5 ft 10 in"), (Quantity{70, Unit::inch}));
    EXPECT_EQ(parse_quantity("70 in"), (Quantity{70, Unit::inch}));
    EXPECT_EQ(parse_quantity("52 mL/min/1.73 m2"), (Quantity{52, Unit::ml_per_min_per_1_73_m2}));
    EXPECT_EQ(parse_quantity("1.4 mg/dL creatinine"), (Quantity{number("1.4"), Unit::mg_per_dl_creatinine}));
    EXPECT_EQ(parse_quantity("8 fl oz"), (Quantity{8, Unit::fluid_ounce}));
    EXPECT_EQ(parse_quantity("98%"), (Quantity{98, Unit::percent}));
    EXPECT_EQ(parse_quantity("72/min"), (Quantity{72, Unit::per_minute}));
    EXPECT_EQ(parse_quantity("38.2 \u00b0C"), (Quantity{number("38.2"), Unit::celsius}));
    EXPECT_EQ(parse_quantity("-2 degrees C"), (Quantity{-2, Unit::celsius}));
}

TEST(Quantity, GlucoseAndCreatinineMustBeTold)
{
    const auto refused = parse_quantity("1.4 mg/dL");
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().what, "\"1.4 mg/dL\": \"mg/dL\" is not a unit we know");
    EXPECT_EQ(refused.error().would_be_right, "one of: mg/dL creatinine, mg/dL glucose");
}

TEST(Quantity, AnUnknownUnitIsAnsweredWithTheUnitsThereAre)
{
    const auto refused = parse_quantity("13 stone");
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().what, "\"13 stone\": \"stone\" is not a unit we know");
    for (int i = 1; i <= last_unit; ++i) {
        EXPECT_NE(refused.error().would_be_right.find(unit_text(static_cast<Unit>(i))), std::string::npos);
    }
}

TEST(Quantity, WhatBeginsWithNoNumberIsRefused)
{
    for (const std::string_view text : {"", "kg", " 84 kg", ".5 kg", "1. kg", "+3 kg", "-", "1.2.3 kg"}) {
        const auto refused = parse_quantity(text);
        ASSERT_FALSE(refused) << text;
        EXPECT_NE(refused.error().what.find("does not begin with a number"), std::string::npos) << text;
    }
}

TEST(Quantity, ACommaAnExponentAndStrayBlanksAreRefused)
{
    for (const std::string_view text : {"84,6 kg", "1e3", "84  kg", "84 kg ", "84 ", "84\tkg", "84 kg kg"}) {
        EXPECT_FALSE(parse_quantity(text)) << text;
    }
}

}  // namespace
}  // namespace foreday::screening
