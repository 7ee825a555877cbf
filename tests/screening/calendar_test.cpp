#include "screening/calendar.h"

#include <gtest/gtest.h>

#include <limits>
#include <random>
#include <stdexcept>
#include <string>
#include <type_traits>

#include "tests/support/seed.h"

namespace foreday::screening {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

// A UTC stamp cannot become a day of the wall calendar by accident, nor a wall clock a moment.
static_assert(!std::is_convertible_v<date::sys_days, Date>);
static_assert(!std::is_convertible_v<Date, date::sys_days>);
static_assert(!std::is_constructible_v<Date, date::sys_days>);
static_assert(!std::is_constructible_v<Date, Moment>);
static_assert(!std::is_convertible_v<LocalMinute, Moment>);
static_assert(!std::is_convertible_v<Moment, LocalMinute>);
static_assert(!std::is_constructible_v<Moment, LocalMinute>);
// A time does not lose its hours on the way to a day.
static_assert(!std::is_convertible_v<LocalMinute, Date>);
static_assert(std::is_convertible_v<Date, LocalMinute>);

Date day(std::string_view text)
{
    return parse_date(text).value();
}
LocalMinute wall(std::string_view text)
{
    return parse_written_time(text).value().local;
}
Moment utc(std::string_view text)
{
    return Moment{wall(text).time_since_epoch()};
}

/// New York in 2027: forward on 14 March, back on 7 November.
Zone new_york()
{
    return {"America/New_York",
            "made for the test",
            "",
            {{utc("2025-11-02T06:00"), hours{-5}},
             {utc("2026-03-08T07:00"), hours{-4}},
             {utc("2026-11-01T06:00"), hours{-5}},
             {utc("2027-03-14T07:00"), hours{-4}},
             {utc("2027-11-07T06:00"), hours{-5}}}};
}

/// A clock that springs forward at midnight, as clocks of Chile do, and back to 23:00 of the day before.
Zone midnight_changes()
{
    return {"Test/Midnight",
            "made for the test",
            "",
            {{utc("2027-01-01T00:00"), hours{-3}},
             {utc("2027-04-04T03:00"), hours{-4}},
             {utc("2027-09-05T04:00"), hours{-3}}}};
}

Zone half_an_hour()
{
    return {"Test/Half",
            "made for the test",
            "",
            {{utc("2027-01-01T00:00"), hours{11}},
             {utc("2027-04-03T15:00"), minutes{630}},
             {utc("2027-10-02T15:30"), hours{11}}}};
}

TEST(Clock, AnOffsetHoldsFromTheVerySecondOfTheChange)
{
    const Zone zone = new_york();
    EXPECT_EQ(offset_at(zone, utc("2027-03-14T07:00") - seconds{1}), hours{-5});
    EXPECT_EQ(offset_at(zone, utc("2027-03-14T07:00")), hours{-4});
    EXPECT_EQ(offset_at(zone, utc("2027-03-14T07:00") + seconds{1}), hours{-4});
    EXPECT_EQ(local_of(zone, utc("2027-03-14T06:59")), wall("2027-03-14T01:59"));
    EXPECT_EQ(local_of(zone, utc("2027-03-14T07:00")), wall("2027-03-14T03:00"));
}

TEST(Clock, TheFirstOffsetHoldsFromTheBeginningOfTimeAndTheLastToItsEnd)
{
    const Zone zone = new_york();
    EXPECT_EQ(offset_at(zone, utc("1950-07-01T00:00")), hours{-5});
    EXPECT_EQ(offset_at(zone, utc("2099-07-01T00:00")), hours{-5});
    EXPECT_EQ(moment_of(zone, wall("1950-07-01T00:00")), utc("1950-07-01T05:00"));
}

TEST(Clock, SecondsAreCutOffBeforeAndAfter1970)
{
    const Zone zone = new_york();
    EXPECT_EQ(local_of(zone, utc("2027-04-12T13:00") + seconds{59}), wall("2027-04-12T09:00"));
    EXPECT_EQ(local_of(zone, utc("1950-01-01T05:01") - seconds{1}), wall("1950-01-01T00:00"));
}

TEST(Clock, AnOrdinaryTimeHasOneMoment)
{
    const Moments moments = moments_of(new_york(), wall("2027-04-12T09:00"));
    EXPECT_EQ(moments.count, Moments::Count::one);
    EXPECT_EQ(moments.earlier, utc("2027-04-12T13:00"));
    EXPECT_EQ(moments.later, moments.earlier);
}

TEST(Clock, TheHourThatIsSkippedInMarchDoesNotExist)
{
    const Zone zone = new_york();
    const auto count = [&](std::string_view text) { return moments_of(zone, wall(text)).count; };
    EXPECT_EQ(count("2027-03-14T01:59"), Moments::Count::one);
    EXPECT_EQ(count("2027-03-14T02:00"), Moments::Count::none);
    EXPECT_EQ(count("2027-03-14T02:59"), Moments::Count::none);
    EXPECT_EQ(count("2027-03-14T03:00"), Moments::Count::one);
    for (const std::string_view text : {"2027-03-14T02:00", "2027-03-14T02:30", "2027-03-14T02:59"}) {
        EXPECT_EQ(moments_of(zone, wall(text)).earlier, utc("2027-03-14T07:00")) << text;
        EXPECT_EQ(moments_of(zone, wall(text)).later, utc("2027-03-14T07:00")) << text;
        EXPECT_EQ(moment_of(zone, wall(text)), utc("2027-03-14T07:00")) << text;
    }
}

TEST(Clock, TheHourThatComesTwiceInNovemberHasTwoMomentsAndTheEarlierIsPlannedWith)
{
    const Zone zone = new_york();
    const auto count = [&](std::string_view text) { return moments_of(zone, wall(text)).count; };
    EXPECT_EQ(count("2027-11-07T00:59"), Moments::Count::one);
    EXPECT_EQ(count("2027-11-07T01:00"), Moments::Count::two);
    EXPECT_EQ(count("2027-11-07T01:59"), Moments::Count::two);
    EXPECT_EQ(count("2027-11-07T02:00"), Moments::Count::one);
    const Moments moments = moments_of(zone, wall("2027-11-07T01:30"));
    EXPECT_EQ(moments.earlier, utc("2027-11-07T05:30"));
    EXPECT_EQ(moments.later, utc("2027-11-07T06:30"));
    EXPECT_EQ(moment_of(zone, wall("2027-11-07T01:30")), utc("2027-11-07T05:30"));
}

TEST(Clock, AChangeOfHalfAnHourSkipsAndRepeatsHalfAnHour)
{
    const Zone zone = half_an_hour();
    const auto count = [&](std::string_view text) { return moments_of(zone, wall(text)).count; };
    EXPECT_EQ(count("2027-04-04T01:29"), Moments::Count::one);
    EXPECT_EQ(count("2027-04-04T01:30"), Moments::Count::two);
    EXPECT_EQ(count("2027-04-04T01:59"), Moments::Count::two);
    EXPECT_EQ(count("2027-04-04T02:00"), Moments::Count::one);
    EXPECT_EQ(count("2027-10-03T01:59"), Moments::Count::one);
    EXPECT_EQ(count("2027-10-03T02:00"), Moments::Count::none);
    EXPECT_EQ(count("2027-10-03T02:29"), Moments::Count::none);
    EXPECT_EQ(count("2027-10-03T02:30"), Moments::Count::one);
}

TEST(Clock, AMidnightThatIsSkippedIsStillTheStartOfItsDate)
{
    const Zone zone = midnight_changes();
    const LocalMinute midnight = day("2027-09-05");
    EXPECT_EQ(moments_of(zone, midnight).count, Moments::Count::none);
    EXPECT_EQ(date_of(midnight), day("2027-09-05"));
    EXPECT_EQ(local_of(zone, moment_of(zone, midnight)), wall("2027-09-05T01:00"));
    EXPECT_EQ(moments_of(zone, wall("2027-04-03T23:30")).count, Moments::Count::two);
    EXPECT_EQ(date_of(local_of(zone, moments_of(zone, wall("2027-04-03T23:30")).later)), day("2027-04-03"));
}

TEST(Clock, AWholeDayThatIsSkippedHasNoMoment)
{
    const Zone zone{"Test/Across",
                    "made for the test",
                    "",
                    {{utc("2027-01-01T00:00"), hours{-10}}, {utc("2027-12-30T10:00"), hours{14}}}};
    EXPECT_EQ(moments_of(zone, wall("2027-12-29T23:59")).count, Moments::Count::one);
    EXPECT_EQ(moments_of(zone, wall("2027-12-30T00:00")).count, Moments::Count::none);
    EXPECT_EQ(moments_of(zone, wall("2027-12-30T23:59")).count, Moments::Count::none);
    EXPECT_EQ(moments_of(zone, wall("2027-12-31T00:00")).count, Moments::Count::one);
    EXPECT_EQ(moment_of(zone, wall("2027-12-30T12:00")), utc("2027-12-30T10:00"));
}

TEST(Clock, AnHourRuleCountsElapsedHoursAcrossAClockChange)
{
    const Zone zone = new_york();
    const Moment start = moment_of(zone, wall("2027-03-14T09:00"));
    EXPECT_EQ(iso_with_offset(zone, start - hours{24}), "2027-03-13T08:00-05:00");
    const Moment autumn = moment_of(zone, wall("2027-11-07T09:00"));
    EXPECT_EQ(iso_with_offset(zone, autumn - hours{24}), "2027-11-06T10:00-04:00");
}

TEST(Clock, ADayRuleCountsDatesAcrossAClockChange)
{
    const Zone zone = new_york();
    for (const std::string_view text : {"2027-03-14", "2027-11-07"}) {
        const Date procedure = day(text);
        for (int minute = 0; minute < 24 * 60; ++minute) {
            const LocalMinute time = procedure + minutes{minute};
            EXPECT_EQ(date_of(local_of(zone, moment_of(zone, time))), procedure) << iso_local(time);
            EXPECT_EQ(date_of(time - date::days{5}), procedure - date::days{5}) << iso_local(time);
        }
    }
}

TEST(Calendar, ATimeIsItsDateAndItsTimeOfDay)
{
    for (const std::string_view text :
         {"2027-04-12T00:00", "2027-04-12T23:59", "1969-12-31T23:59", "1900-01-01T00:01"}) {
        const LocalMinute time = wall(text);
        EXPECT_EQ(date_of(time) + time_of_day(time), time);
        EXPECT_EQ(iso_local(time), text);
        EXPECT_GE(time_of_day(time), minutes{0});
        EXPECT_LT(time_of_day(time), hours{24});
    }
}

TEST(Calendar, MonthsEndOnTheLastDayWhereTheMonthIsShorter)
{
    EXPECT_EQ(add_months(day("2026-08-31"), 6), day("2027-02-28"));
    EXPECT_EQ(add_months(day("2027-08-31"), 6), day("2028-02-29"));
    EXPECT_EQ(add_months(day("2027-08-28"), 6), day("2028-02-28"));
    EXPECT_EQ(add_months(day("2027-03-31"), 1), day("2027-04-30"));
    EXPECT_EQ(add_months(day("2027-03-30"), 1), day("2027-04-30"));
    EXPECT_EQ(add_months(day("2028-02-29"), 12), day("2029-02-28"));
    EXPECT_EQ(add_months(day("2028-02-29"), 48), day("2032-02-29"));
    EXPECT_EQ(add_months(day("2099-01-31"), 13), Date{date::year{2100} / 2 / 28}) << "2100 is no leap year";
}

TEST(Calendar, MonthsCountBackwardsAcrossTheYear)
{
    EXPECT_EQ(add_months(day("2027-01-15"), -1), day("2026-12-15"));
    EXPECT_EQ(add_months(day("2027-03-31"), -1), day("2027-02-28"));
    EXPECT_EQ(add_months(day("2027-12-31"), -12), day("2026-12-31"));
    EXPECT_EQ(add_months(day("2027-01-31"), -13), day("2025-12-31"));
    EXPECT_EQ(add_months(day("2027-04-12"), 0), day("2027-04-12"));
}

TEST(Calendar, MonthsBeyondTheCalendarAreAnErrorAndNoWrongDate)
{
    const int months_left = (32767 - 2027) * 12 + 8;  // to December 32767
    EXPECT_EQ(add_months(day("2027-04-12"), months_left), Date{date::year{32767} / 12 / 12});
    EXPECT_THROW((void)add_months(day("2027-04-12"), months_left + 1), std::out_of_range);
    EXPECT_THROW((void)add_months(day("2027-04-12"), std::numeric_limits<int>::max()), std::out_of_range);
    EXPECT_THROW((void)add_months(day("2027-04-12"), std::numeric_limits<int>::min()), std::out_of_range);
}

TEST(Age, AYearIsCompletedOnTheBirthday)
{
    EXPECT_EQ(completed_years(day("1952-04-13"), day("2027-04-12")), 74);
    EXPECT_EQ(completed_years(day("1952-04-12"), day("2027-04-12")), 75);
    EXPECT_EQ(completed_years(day("1952-04-11"), day("2027-04-12")), 75);
    EXPECT_EQ(completed_years(day("2027-04-12"), day("2027-04-12")), 0);
    EXPECT_EQ(completed_years(day("1926-12-31"), day("2027-01-01")), 100);
}

TEST(Age, SomeoneBornOn29FebruaryCompletesAYearOn1MarchOfACommonYear)
{
    EXPECT_EQ(completed_years(day("1952-02-29"), day("2027-02-28")), 74);
    EXPECT_EQ(completed_years(day("1952-02-29"), day("2027-03-01")), 75);
    EXPECT_EQ(completed_years(day("1952-02-29"), day("2028-02-28")), 75);
    EXPECT_EQ(completed_years(day("1952-02-29"), day("2028-02-29")), 76);
    EXPECT_EQ(completed_years(day("1952-02-28"), day("2027-02-28")), 75);
}

TEST(Age, NobodyHasCompletedAYearBeforeBeingBorn)
{
    EXPECT_LT(completed_years(day("2027-04-13"), day("2027-04-12")), 0);
    EXPECT_LT(completed_years(day("2028-01-01"), day("2027-12-31")), 0);
}

/// Walks every day after the birth and counts the birthdays.
int years_counted_day_by_day(Date birth, Date until)
{
    const date::year_month_day born{birth};
    int years = 0;
    for (Date at = birth + date::days{1}; at <= until; at += date::days{1}) {
        const date::year_month_day today{at};
        const bool leap_day = born.month() == date::February && born.day() == date::day{29};
        const bool stands_in = leap_day && !today.year().is_leap();
        const auto birthday = stands_in ? date::March / 1 : born.month() / born.day();
        years += today.month() / today.day() == birthday ? 1 : 0;
    }
    return years;
}

TEST(Age, CompletedYearsAreTheBirthdaysThatHavePassed)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    const auto any_day = [&](Date from, Date to) {
        return from + date::days{tests::any_between(random, 0, (to - from).count())};
    };
    for (int i = 0; i < 300; ++i) {
        const Date birth = any_day(day("1920-01-01"), day("2027-12-31"));
        const Date until = any_day(birth, day("2037-12-31"));
        ASSERT_EQ(completed_years(birth, until), years_counted_day_by_day(birth, until))
            << iso_date(birth) << " to " << iso_date(until);
    }
    for (int year = 1920; year <= 2024; year += 4) {
        const Date birth{date::year{year} / 2 / 29};
        for (const int later : {2025, 2026, 2027, 2028}) {
            for (const Date until : {Date{date::year{later} / 2 / 28}, Date{date::year{later} / 3 / 1}}) {
                ASSERT_EQ(completed_years(birth, until), years_counted_day_by_day(birth, until));
            }
        }
    }
}

TEST(WrittenDate, ADayIsReadInOneFormOnly)
{
    EXPECT_EQ(parse_date("2027-04-12"), (Date{date::year{2027} / 4 / 12}));
    for (const std::string_view text : {"", "2027-4-12", "2027-04-1", "27-04-12", "2027/04/12", "04-12-2027",
                                        "20270412", "2027-04-12 ", " 2027-04-12", "2027-04-12T", "2027-0 -12",
                                        "2027-+4-12", "-027-04-12", "2027-04-1x", "last March"}) {
        const auto refused = parse_date(text);
        ASSERT_FALSE(refused) << text;
        EXPECT_EQ(refused.error().would_be_right, "year, month and day, as in 2027-04-12") << text;
    }
}

TEST(WrittenDate, ADayThatDoesNotExistIsRefused)
{
    EXPECT_TRUE(parse_date("2027-02-28"));
    EXPECT_FALSE(parse_date("2027-02-29"));
    EXPECT_TRUE(parse_date("2028-02-29"));
    EXPECT_FALSE(parse_date("2028-02-30"));
    EXPECT_FALSE(parse_date("1900-02-29")) << "1900 was no leap year";
    EXPECT_TRUE(parse_date("2000-02-29"));
    EXPECT_FALSE(parse_date("2027-04-31"));
    EXPECT_FALSE(parse_date("2027-00-12"));
    EXPECT_FALSE(parse_date("2027-13-12"));
    EXPECT_FALSE(parse_date("2027-04-00"));
    EXPECT_EQ(parse_date("2027-02-29").error().what, "\"2027-02-29\" is not in the calendar");
}

TEST(WrittenDate, YearsRunFrom1900To2099)
{
    EXPECT_FALSE(parse_date("1899-12-31"));
    EXPECT_TRUE(parse_date("1900-01-01"));
    EXPECT_TRUE(parse_date("2099-12-31"));
    EXPECT_FALSE(parse_date("2100-01-01"));
    EXPECT_EQ(parse_date("0207-04-12").error().would_be_right, "a year from 1900 to 2099");
}

TEST(WrittenDate, EveryDayFrom1900To2099IsWrittenAndReadAlike)
{
    for (Date at = day("1900-01-01"); at <= day("2099-12-31"); at += date::days{1}) {
        ASSERT_EQ(parse_date(iso_date(at)), at) << iso_date(at);
    }
}

TEST(WrittenTimeOfDay, TheDayRunsFromMidnightToAMinuteBeforeMidnight)
{
    EXPECT_EQ(parse_time_of_day("00:00"), minutes{0});
    EXPECT_EQ(parse_time_of_day("09:05"), minutes{545});
    EXPECT_EQ(parse_time_of_day("23:59"), minutes{1439});
    for (const std::string_view text :
         {"24:00", "23:60", "9:00", "09:0", "0900", "09.00", "09:00:00", "-1:00", "", "noon", "09:00 "}) {
        EXPECT_FALSE(parse_time_of_day(text)) << text;
    }
    for (int minute = 0; minute < 24 * 60; ++minute) {
        EXPECT_EQ(parse_time_of_day(iso_time_of_day(minutes{minute})), minutes{minute});
    }
}

TEST(WrittenTime, ATimeIsReadWithAndWithoutItsOffset)
{
    const auto plain = parse_written_time("2027-04-12T09:00").value();
    EXPECT_EQ(plain.local, day("2027-04-12") + hours{9});
    EXPECT_EQ(plain.offset, std::nullopt);
    EXPECT_EQ(parse_written_time("2027-04-12T09:00-04:00").value().offset, hours{-4});
    EXPECT_EQ(parse_written_time("2027-04-12T09:00+10:30").value().offset, minutes{630});
    EXPECT_EQ(parse_written_time("2027-04-12T09:00Z").value().offset, hours{0});
    EXPECT_EQ(parse_written_time("2027-04-12T09:00+00:00").value().offset, hours{0});
}

TEST(WrittenTime, AnOffsetGoesTo14HoursAndIsNeverOneThatIsNotKnown)
{
    EXPECT_TRUE(parse_written_time("2027-04-12T09:00+14:00"));
    EXPECT_FALSE(parse_written_time("2027-04-12T09:00+14:01"));
    EXPECT_TRUE(parse_written_time("2027-04-12T09:00-14:00"));
    EXPECT_FALSE(parse_written_time("2027-04-12T09:00-15:00"));
    for (const std::string_view offset :
         {"-00:00", "+4:00", "+0400", "+04", "z", " Z", "EST", "+04:60", "+", "-04:00 "}) {
        const auto refused = parse_written_time("2027-04-12T09:00" + std::string(offset));
        ASSERT_FALSE(refused) << offset;
        EXPECT_EQ(refused.error().what, "\"" + std::string(offset) + "\" is not an offset from UTC");
    }
}

TEST(WrittenTime, TheFaultNamesThePartThatIsWrong)
{
    EXPECT_EQ(parse_written_time("2027-04-31T09:00").error().what, "\"2027-04-31\" is not in the calendar");
    EXPECT_EQ(parse_written_time("2027-04-12T24:00").error().what, "\"24:00\" is not a time of day");
    for (const std::string_view text :
         {"", "2027-04-12", "2027-04-12 09:00", "2027-04-12t09:00", "2027-04-12T9:00"}) {
        EXPECT_EQ(parse_written_time(text).error().would_be_right,
                  "a date, T and a time, as in 2027-04-12T09:00")
            << text;
    }
}

TEST(Resolving, WithoutAnOffsetTheZoneDecides)
{
    const Zone zone = new_york();
    EXPECT_EQ(resolve(zone, {wall("2027-04-12T09:00"), std::nullopt}), utc("2027-04-12T13:00"));
    EXPECT_EQ(resolve(zone, {wall("2027-01-12T09:00"), std::nullopt}), utc("2027-01-12T14:00"));
}

TEST(Resolving, WithAnOffsetTheOffsetDecidesEvenAForeignOne)
{
    const Zone zone = new_york();
    EXPECT_EQ(resolve(zone, {wall("2027-04-12T09:00"), hours{2}}), utc("2027-04-12T07:00"));
    EXPECT_EQ(resolve(zone, {wall("2027-11-07T01:30"), hours{-4}}), utc("2027-11-07T05:30"));
    EXPECT_EQ(resolve(zone, {wall("2027-11-07T01:30"), hours{-5}}), utc("2027-11-07T06:30"));
    EXPECT_EQ(resolve(zone, {wall("2027-03-14T02:30"), hours{-5}}), utc("2027-03-14T07:30"));
}

TEST(Resolving, ATimeThatComesTwiceIsAskedBackWithBothOffsets)
{
    const auto refused = resolve(new_york(), {wall("2027-11-07T01:30"), std::nullopt});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().what,
              "2027-11-07T01:30 comes twice: the clocks of America/New_York are put back over it");
    EXPECT_EQ(refused.error().would_be_right,
              "the time with its offset: 2027-11-07T01:30-04:00 for the first or 2027-11-07T01:30-05:00 for "
              "the second");
}

TEST(Resolving, ATimeThatDoesNotExistIsAskedBackWithTheTimesAroundIt)
{
    const auto refused = resolve(new_york(), {wall("2027-03-14T02:30"), std::nullopt});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().what,
              "2027-03-14T02:30 does not exist: the clocks of America/New_York are put forward over it");
    EXPECT_EQ(refused.error().would_be_right,
              "a time up to 2027-03-14T01:59-05:00 or from 2027-03-14T03:00-04:00 on");
}

TEST(WrittenOut, ATimeIsWrittenWithTheOffsetOfItsMoment)
{
    const Zone zone = new_york();
    EXPECT_EQ(iso_with_offset(zone, utc("2027-04-12T13:00")), "2027-04-12T09:00-04:00");
    EXPECT_EQ(iso_with_offset(zone, utc("2027-11-07T05:30")), "2027-11-07T01:30-04:00");
    EXPECT_EQ(iso_with_offset(zone, utc("2027-11-07T06:30")), "2027-11-07T01:30-05:00");
    EXPECT_EQ(iso_with_offset(half_an_hour(), utc("2027-06-01T00:00")), "2027-06-01T10:30+10:30");
    const Zone mean_time{"Test/Mean", "made for the test", "", {{Moment{}, -seconds{17'762}}}};
    EXPECT_EQ(iso_with_offset(mean_time, utc("1900-01-01T12:00")), "1900-01-01T07:03-04:56:02");
    const Zone utc_itself{"Etc/UTC", "made for the test", "", {{Moment{}, seconds{0}}}};
    EXPECT_EQ(iso_with_offset(utc_itself, utc("2027-04-12T13:00")), "2027-04-12T13:00+00:00");
}

TEST(WrittenOut, TheDaysOfTheWeekHaveTheirNames)
{
    EXPECT_EQ(weekday_name(day("2027-04-11")), "Sunday");
    EXPECT_EQ(weekday_name(day("2027-04-12")), "Monday");
    EXPECT_EQ(weekday_name(day("2027-04-13")), "Tuesday");
    EXPECT_EQ(weekday_name(day("2027-04-14")), "Wednesday");
    EXPECT_EQ(weekday_name(day("2027-04-15")), "Thursday");
    EXPECT_EQ(weekday_name(day("2027-04-16")), "Friday");
    EXPECT_EQ(weekday_name(day("2027-04-17")), "Saturday");
    EXPECT_EQ(weekday_name(day("1900-01-01")), "Monday");
}

}  // namespace
}  // namespace foreday::screening
