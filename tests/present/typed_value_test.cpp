#include "gui/present/typed_value.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/fold_value.h"
#include "tests/book/journal.h"

/// What people type, right, wrong, absurd and hostile. The day is 5 April 2027.
namespace foreday::tests {
namespace {

using book::StatedValue;
using screening::FactDefinition;
using screening::FactType;
using ::testing::HasSubstr;
using ::testing::StartsWith;

std::string span(const std::string& low, const std::string& high)
{
    return low == high ? low : low + ".." + high;
}

/// "84.6 kg", "2026-11-01..2026-11-30", or "REFUSED what; right: what would be right".
std::string in_short(const screening::Result<StatedValue>& value)
{
    struct Words {
        std::string operator()(bool yes) const { return yes ? "yes" : "no"; }
        std::string operator()(const book::NamedChoice& choice) const { return choice.id; }
        std::string operator()(const book::StatedNumber& number) const
        {
            return span(number.lowest.text(), number.highest.text()) +
                   (number.unit.empty() ? "" : " " + number.unit);
        }
        std::string operator()(const screening::DateInterval& date) const
        {
            return span(screening::iso_date(date.lowest), screening::iso_date(date.highest));
        }
        std::string operator()(const screening::TimeInterval& time) const
        {
            return span(screening::iso_local(time.lowest), screening::iso_local(time.highest));
        }
        std::string operator()(const std::string& text) const { return text; }
    };
    if (!value) {
        return fmt::format("REFUSED {}; right: {}", value.error().what, value.error().would_be_right);
    }
    return std::visit(Words{}, *value);
}

const FactDefinition& fact_of(std::string_view id)
{
    return demo_rules().protocol.facts.at(fact(id));
}

FactDefinition a_fact(FactType type)
{
    FactDefinition made;
    made.type = type;
    return made;
}

std::string typed_for(const FactDefinition& asked, const std::string& typed)
{
    return in_short(present::typed_value(asked, typed, day("2027-04-05")));
}

struct Row {
    const char* fact;
    std::string typed;
    std::string expected;  ///< all of it, or the beginning of the refusal
};

void expect_rows(const std::vector<Row>& rows)
{
    for (const Row& row : rows) {
        SCOPED_TRACE(fmt::format("{}: \"{}\"", row.fact, row.typed.substr(0, 60)));
        const std::string got = typed_for(fact_of(row.fact), row.typed);
        if (row.expected.starts_with("REFUSED")) {
            EXPECT_THAT(got, StartsWith(row.expected));
            EXPECT_THAT(got, HasSubstr("; right: "));
            EXPECT_FALSE(got.ends_with("; right: ")) << "nothing says what would be right: " << got;
        } else {
            EXPECT_EQ(row.expected, got);
        }
    }
}

TEST(TypedValue, IsTakenInTheFactsOwnUnitOrConvertedExactly)
{
    expect_rows({
        {"weight", "84.6", "84.6 kg"},
        {"weight", " 84.6 ", "84.6 kg"},
        {"weight", "84,6", "84.6 kg"},
        {"weight", "84,6 kg", "84.6 kg"},
        {"weight", "84kg", "84 kg"},
        {"weight", "186 lb", "84.36818082 kg"},
        {"height", "170", "170 cm"},
        {"height", "5 ft 10 in", "177.8 cm"},
        {"height", "5 ft", "152.4 cm"},
        {"height", "70.5 in", "179.07 cm"},
        {"temperature_today", "36,6", "36.6 degrees C"},
        {"temperature_today", "98.6 F", "37 degrees C"},
        {"temperature_today", "37.5 C", "37.5 degrees C"},
        {"creatinine", "0.9", "0.9 mg/dL creatinine"},
        {"creatinine", "88.4 umol/L creatinine", "1 mg/dL creatinine"},
        {"creatinine", "0.9 mg/dL", "0.9 mg/dL creatinine"},
        {"creatinine", "88.4 umol/L", "1 mg/dL creatinine"},
        {"creatinine", "88.4 to 176.8 umol/L", "1..2 mg/dL creatinine"},
        {"glucose_today", "110 mg/dL", "110 mg/dL glucose"},
        {"creatinine", "88,4 \u00b5mol/L creatinine", "1 mg/dL creatinine"},
        {"journey_minutes", "1.5 hours", "90 minutes"},
        {"journey_minutes", "25 min", "25 minutes"},
        {"journey_minutes", "1.5 h", "90 minutes"},
        {"weight", "186 lbs", "84.36818082 kg"},
        {"height", "70.5 inches", "179.07 cm"},
        {"oxygen_today", "97%", "97 %"},
        {"inr_today", "1.4", "1.4"},
        {"pulse_today", "72 /min", "72 /min"},
        {"systolic_today", "132 mmHg", "132 mmHg"},
    });
}

TEST(TypedValue, OfANumberMayBeARange)
{
    expect_rows({
        {"weight", "80-90", "80..90 kg"},
        {"weight", "80 - 90", "80..90 kg"},
        {"weight", "80 to 90", "80..90 kg"},
        {"weight", "80,5 to 90,5 kg", "80.5..90.5 kg"},
        {"weight", "80 kg to 90 kg", "80..90 kg"},
        {"weight", "90 to 90", "90 kg"},
        {"height", "5 ft 8 in to 5 ft 10 in", "172.72..177.8 cm"},
        {"weight", "90-80", "REFUSED the range ends before it begins; right: the lower number first"},
        {"weight", "80 to", "REFUSED"},
        {"weight", "to 90", "REFUSED"},
        {"weight", "80-", "REFUSED"},
        {"weight", "80-90-100", "REFUSED"},
        {"weight", "20 to 90", "REFUSED \"20\" cannot be right; right: from 25 to 400 kg"},
        {"weight", "80 to 401", "REFUSED \"401\" cannot be right; right: from 25 to 400 kg"},
    });
}

/// Whoever says "70 to 150 lb" means pounds, both times.
TEST(TypedValue, TakesTheUnitAtTheEndOfARangeForBothItsEnds)
{
    expect_rows({
        {"weight", "70-150 lb", "31.7514659..68.0388555 kg"},
        {"weight", "180 to 190 lb", "81.6466266..86.1825503 kg"},
        {"weight", "80-90 kg", "80..90 kg"},
        {"temperature_today", "98.6 to 100.4 F", "37..38 degrees C"},
        {"creatinine", "88.4 to 176.8 umol/L creatinine", "1..2 mg/dL creatinine"},
        {"height", "68 to 70 in", "172.72..177.8 cm"},
        {"journey_minutes", "1 to 2 hours", "60..120 minutes"},
        {"weight", "180 lb to 90 kg", "81.6466266..90 kg"},  // said so, both of them
        {"weight", "50-60 lb", "REFUSED \"50 lb\" cannot be right; right: from 25 to 400 kg"},
    });
}

TEST(TypedValue, OutsideWhatIsPlausibleIsRefusedAndItsLimitsAreTaken)
{
    struct Limits {
        const char* fact;
        const char* below;
        const char* lowest;
        const char* highest;
        const char* above;
    };
    for (const Limits& row : std::vector<Limits>{
             {"weight", "24.999999999", "25", "400", "400.000000001"},
             {"height", "99.9", "100", "230", "230.1"},
             {"creatinine", "0.199999999", "0.2", "20", "20.000000001"},
             {"laboratory_egfr", "1.9", "2", "150", "150.1"},
             {"journey_minutes", "-1", "0", "1440", "1441"},
             {"inr_today", "0.49", "0.5", "15", "15.01"},
             {"glucose_today", "9", "10", "1000", "1001"},
             {"systolic_today", "39", "40", "300", "301"},
             {"diastolic_today", "19", "20", "200", "201"},
             {"pulse_today", "19", "20", "250", "251"},
             {"oxygen_today", "49.9", "50", "100", "100.1"},
             {"temperature_today", "31.9", "32", "43", "43.1"},
         }) {
        SCOPED_TRACE(row.fact);
        const auto& asked = fact_of(row.fact);
        EXPECT_THAT(typed_for(asked, row.below), HasSubstr("cannot be right; right: from "));
        EXPECT_THAT(typed_for(asked, row.lowest), StartsWith(row.lowest));
        EXPECT_THAT(typed_for(asked, row.highest), StartsWith(row.highest));
        EXPECT_THAT(typed_for(asked, row.above), HasSubstr(fmt::format("to {}", row.highest)));
        EXPECT_THAT(typed_for(asked, row.above), StartsWith("REFUSED"));
    }
}

/// 881.84904... lb are 400 kg: the limit holds for the weight, in whatever unit it is said.
TEST(TypedValue, IsHeldToItsLimitsInTheUnitItWasSaidIn)
{
    expect_rows({
        {"weight", "881 lb", "399.61487797 kg"},
        {"weight", "882 lb", "REFUSED \"882 lb\" cannot be right; right: from 25 to 400 kg"},
        {"weight", "56 lb", "25.40117272 kg"},
        {"weight", "55 lb", "REFUSED \"55 lb\" cannot be right"},
        {"height", "7 ft 6 in", "228.6 cm"},
        {"height", "7 ft 7 in", "REFUSED \"7 ft 7 in\" cannot be right; right: from 100 to 230 cm"},
        {"temperature_today", "109.4 F", "43 degrees C"},
        {"temperature_today", "109.5 F", "REFUSED"},
        {"temperature_today", "36.6 F", "REFUSED"},
        {"creatinine", "1768 umol/L creatinine", "20 mg/dL creatinine"},
        {"creatinine", "1769 umol/L creatinine", "REFUSED"},
    });
}

TEST(TypedValue, ThatIsNoNumberIsRefusedWithWhatWouldBeRight)
{
    expect_rows({
        {"weight", "", "REFUSED nothing was typed"},
        {"weight", " \t ", "REFUSED nothing was typed"},
        {"weight", "abc", "REFUSED \"abc\" does not begin with a number"},
        {"weight", "-5", "REFUSED \"-5\" cannot be right; right: from 25 to 400 kg"},
        {"weight", "1e3", "REFUSED \"1e3\": \"e3\" is not a unit we know"},
        {"weight", "84 stone", "REFUSED \"84 stone\": \"stone\" is not a unit we know"},
        {"weight", "12 st 4 lb", "REFUSED"},
        {"weight", "0x54", "REFUSED"},
        {"weight", "nan", "REFUSED"},
        {"weight", "inf", "REFUSED"},
        {"weight", "84..6", "REFUSED"},
        {"weight", "84.6.1", "REFUSED"},
        {"weight", "84,6,1", "REFUSED"},
        {"weight", "1,084.6", "REFUSED"},
        {"weight", "+84", "REFUSED"},
        {"weight", "084", "REFUSED"},
        {"weight", "84 cm", "REFUSED \"84 cm\" is not measured in cm; right: a number in kg"},
        {"weight", "84 kg kg", "REFUSED"},
        {"weight", "eighty four", "REFUSED"},
        {"weight", "84; DROP TABLE entries", "REFUSED"},
        {"weight", "84\n90", "REFUSED"},
        {"weight", std::string("84\0", 3), "REFUSED"},
        {"weight", "\x1b[31m84", "REFUSED"},
        {"weight",
         "\xff\xfe"
         "84",
         "REFUSED"},
        {"height", "5.5 ft", "REFUSED"},      // 5 ft 5 in, or 5 ft 6 in?
        {"height", "5 ft 12 in", "REFUSED"},  // that is 6 ft
        {"height", "5'10\"", "REFUSED"},
        {"height", "1.70", "REFUSED \"1.70\" cannot be right; right: from 100 to 230 cm"},  // metres
        {"height", "170 kg", "REFUSED \"170 kg\" is not measured in kg; right: a number in cm"},
        {"creatinine", "80", "REFUSED \"80\" cannot be right; right: from 0.2 to 20 mg/dL creatinine"},
        {"creatinine", "0.9 mg/dL glucose", "REFUSED"},
        {"creatinine", "1769 umol/L", "REFUSED"},
        {"creatinine", "1.1 mg", "REFUSED"},
        {"glucose_today", "5.5", "REFUSED"},  // mmol/L
        {"glucose_today", "5.5 mmol/L", "REFUSED \"5.5 mmol/L\": \"mmol/L\" is not a unit we know"},
        {"inr_today", "1.4 kg", "REFUSED \"1.4 kg\" is not measured in kg"},
        {"pulse_today", "72 %", "REFUSED"},
        {"weight", std::string(10000, '9'), "REFUSED"},
        {"weight", std::string(10000, 'x'), "REFUSED"},
        {"weight", "84" + std::string(10000, ' ') + "kg", "REFUSED"},
        {"weight", "999999999999.999999999 lb", "REFUSED"},
        {"temperature_today", "-999999999999.999999999 F", "REFUSED"},
        {"creatinine", "999999999999.999999999 umol/L creatinine", "REFUSED"},
    });
}

TEST(TypedValue, OfTenThousandLettersIsNotReadBackInFull)
{
    const auto value = present::typed_value(fact_of("weight"), std::string(10000, '9'), day("2027-04-05"));
    ASSERT_FALSE(value);
    EXPECT_LT(value.error().what.size(), 200U);
}

TEST(TypedDate, IsADayAMonthOrAYearOfTheCalendar)
{
    expect_rows({
        {"stent_date", "2026-11-03", "2026-11-03"},
        {"stent_date", " 2026-11-03 ", "2026-11-03"},
        {"stent_date", "3 Nov 2026", "2026-11-03"},
        {"stent_date", "03 november 2026", "2026-11-03"},
        {"stent_date", "Nov 3 2026", "2026-11-03"},
        {"stent_date", "November 3, 2026", "2026-11-03"},
        {"stent_date", "3. Nov. 2026", "2026-11-03"},
        {"stent_date", "Nov 2026", "2026-11-01..2026-11-30"},
        {"stent_date", "2026-11", "2026-11-01..2026-11-30"},
        {"stent_date", "Feb 2024", "2024-02-01..2024-02-29"},
        {"stent_date", "Feb 2023", "2023-02-01..2023-02-28"},
        {"stent_date", "2024-02-29", "2024-02-29"},
        {"stent_date", "2026", "2026-01-01..2026-12-31"},
        {"birth_date", "1900-01-01", "1900-01-01"},
    });
}

TEST(TypedDate, ThatNoCalendarHasIsRefused)
{
    for (const std::string& typed : {std::string("30 February 2026"),
                                     std::string("2026-02-30"),
                                     std::string("2023-02-29"),
                                     std::string("29 Feb 2023"),
                                     std::string("31 April 2026"),
                                     std::string("2026-13-01"),
                                     std::string("2026-00-10"),
                                     std::string("2026-13"),
                                     std::string("2026-00"),
                                     std::string("0 Nov 2026"),
                                     std::string("32 Dec 2026"),
                                     std::string("last March"),
                                     std::string("last year"),
                                     std::string("yesterday"),
                                     std::string("3/11/2026"),
                                     std::string("11/03/2026"),
                                     std::string("03.11.26"),
                                     std::string("3 Nov 26"),
                                     std::string("Nov 26"),
                                     std::string("3 Nov"),
                                     std::string("3 No 2026"),
                                     std::string("3 Novem-ber 2026"),
                                     std::string("1899"),
                                     std::string("1899-12-31"),
                                     std::string("2100"),
                                     std::string("2100-01-01"),
                                     std::string("20261103"),
                                     std::string("26"),
                                     std::string("-2026"),
                                     std::string("2026-11-03 08:30"),
                                     std::string("abc"),
                                     std::string("?"),
                                     std::string("99999999999999999999"),
                                     std::string("Nov 99999999999999999999"),
                                     std::string("3 Nov -2026"),
                                     std::string("2026--1"),
                                     std::string("2026-11-03\n2026-11-04"),
                                     std::string("2026-11-0\0", 10),
                                     std::string(10000, '1'),
                                     std::string("\xff\xff")}) {
        SCOPED_TRACE(typed.substr(0, 60));
        const std::string got = typed_for(fact_of("stent_date"), typed);
        EXPECT_THAT(got, HasSubstr("is no date of the calendar"));
        EXPECT_THAT(got, HasSubstr("such as 2026-11-03, 3 Nov 2026, Nov 2026 or 2026"));
    }
    EXPECT_THAT(typed_for(fact_of("stent_date"), " "), StartsWith("REFUSED nothing was typed"));
}

/// Every date that is asked for lies behind: a birth, a stent, a clot, a stroke.
TEST(TypedDate, StillToComeIsRefused)
{
    expect_rows({
        {"stent_date", "2027-04-04", "2027-04-04"},
        {"stent_date", "2027-04-05", "2027-04-05"},
        {"stent_date", "2027-04-06",
         "REFUSED \"2027-04-06\" is still to come; right: today or an earlier day"},
        {"stent_date", "Apr 2027", "2027-04-01..2027-04-30"},  // some day of this month
        {"stent_date", "May 2027", "REFUSED \"May 2027\" is still to come"},
        {"birth_date", "2028", "REFUSED \"2028\" is still to come"},
    });
}

TEST(TypedTime, IsATimeOfDayWithOrWithoutItsDay)
{
    const auto time = a_fact(FactType::time);
    const std::vector<std::pair<std::string, std::string>> rows{
        {"08:30", "2027-04-05T08:30"},
        {"8:30", "2027-04-05T08:30"},
        {"0830", "REFUSED"},  // might be a year: a time without its day is written with a colon
        {"00:00", "2027-04-05T00:00"},
        {"23:59", "2027-04-05T23:59"},
        {"2027-04-04 22:00", "2027-04-04T22:00"},
        {"2027-04-04T22:00", "2027-04-04T22:00"},
        {"4 Apr 2027 9:05", "2027-04-04T09:05"},
        {"2027-04-04", "2027-04-04T00:00..2027-04-04T23:59"},
        {"24:00", "REFUSED \"24:00\" is no time of day; right: from 00:00 to 23:59"},
        {"23:60", "REFUSED"},
        {"8:5", "REFUSED"},
        {"8:30 pm", "REFUSED"},
        {"-1:30", "REFUSED"},
        {":30", "REFUSED"},
        {"8:", "REFUSED"},
        {"08:30:15", "REFUSED"},
        {"last night 22:00", "REFUSED \"last night\" is no date of the calendar"},
        {"2027-02-30 08:00", "REFUSED \"2027-02-30\" is no date of the calendar"},
        {"Apr 2027 08:00", "REFUSED a time of day needs one day; right: such as 2026-11-03 08:30"},
        {"noon", "REFUSED"},
        {"", "REFUSED nothing was typed"},
    };
    for (const auto& [typed, expected] : rows) {
        SCOPED_TRACE(typed);
        EXPECT_THAT(typed_for(time, typed), StartsWith(expected));
    }
}

TEST(TypedTime, AloneMayBeWrittenWithoutItsColon)
{
    const auto minutes = [](const char* typed) {
        const auto time = present::typed_time(typed);
        return time ? static_cast<int>(time->count()) : -1;
    };
    EXPECT_EQ(8 * 60 + 30, minutes("0830"));
    EXPECT_EQ(8 * 60 + 30, minutes("8:30"));
    EXPECT_EQ(8 * 60 + 30, minutes(" 08:30 "));
    EXPECT_EQ(0, minutes("0000"));
    EXPECT_EQ(23 * 60 + 59, minutes("2359"));
    for (const char* wrong :
         {"", "830", "2400", "2360", "abcd", "12h3", "8.30", "08:30am", "\xff\xff\xff\xff"}) {
        SCOPED_TRACE(wrong);
        EXPECT_EQ(-1, minutes(wrong));
        EXPECT_EQ("from 00:00 to 23:59", present::typed_time(wrong).error().would_be_right);
    }
}

TEST(TypedAnswer, IsYesNoOrOneOfTheChoicesInAnyCase)
{
    expect_rows({
        {"heart_attack", "yes", "yes"},
        {"heart_attack", " YES ", "yes"},
        {"heart_attack", "No", "no"},
        {"heart_attack", "y", "REFUSED \"y\" is neither yes nor no; right: yes or no"},
        {"heart_attack", "maybe", "REFUSED"},
        {"heart_attack", "1", "REFUSED"},
        {"heart_attack", "yes and no", "REFUSED"},
        {"heart_attack", "", "REFUSED nothing was typed"},
        {"heart_attack", "\x01yes", "yes"},  // control characters fold away
        {"diabetes", "type 2", "type_2"},
        {"diabetes", "Type 2", "type_2"},
        {"diabetes", "type_2", "type_2"},
        {"diabetes", "none", "none"},
        {"diabetes", "type 3",
         "REFUSED \"type 3\" is none of the answers; right: one of: none, type 1, type 2, other"},
        {"diabetes", "2", "REFUSED"},
        {"diabetes", std::string(10000, 't'), "REFUSED"},
        {"heart_device", "defibrilator", "REFUSED"},
    });
}

TEST(TypedAnswer, InOwnWordsIsKeptAsItWasTyped)
{
    const auto text = a_fact(FactType::text);
    EXPECT_EQ("Zoe says: \"last March\"", typed_for(text, "  Zoe says: \"last March\"  "));
    EXPECT_EQ("caf\u00e9", typed_for(text, "caf\u00e9"));
    EXPECT_EQ(std::string(10000, 'x'), typed_for(text, std::string(10000, 'x')));
    EXPECT_THAT(typed_for(text, "\n \t"), StartsWith("REFUSED nothing was typed"));
}

/// What is said back to the person reads as what was typed.
TEST(TypedAnswer, IsReadBackInWords)
{
    const std::vector<Row> rows{
        {"weight", "84,6", "84.6 kg"},
        {"weight", "80-90", "80 to 90 kg"},
        {"inr_today", "1.4", "1.4"},
        {"heart_attack", "No", "no"},
        {"diabetes", "Type 2", "type 2"},
        {"stent_date", "2026-11-03", "Tue 3 Nov 2026"},
        {"stent_date", "Nov 2026", "some day from Sun 1 Nov 2026 to Mon 30 Nov 2026"},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.typed);
        const auto& asked = fact_of(row.fact);
        const auto value =
            book::value_of(asked, present::typed_value(asked, row.typed, day("2027-04-05")).value());
        EXPECT_EQ(row.expected, present::value_in_words(asked, value.value()));
    }
}

}  // namespace
}  // namespace foreday::tests
