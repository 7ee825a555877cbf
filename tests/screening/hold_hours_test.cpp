#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "screening/hold_plan.h"
#include "tests/screening/hold_cases.h"

namespace foreday::screening {
namespace {

using namespace build;

using enum HoldAction;

const Daily twice = daily({"08:00", "20:00"});
const Daily morning = daily({"08:00"});
const Daily evening = daily({"20:00"});

// --- hour rules

TEST(HourRules, ADoseExactlyAtTheLimitIsAllowedAMinuteLaterIsNot)
{
    EXPECT_EQ(text_of(plan(daily({"08:59"}), last_dose_at_least_hours, 24).last_dose), "2027-06-16 08:59");
    EXPECT_EQ(text_of(plan(daily({"09:00"}), last_dose_at_least_hours, 24).last_dose), "2027-06-16 09:00");
    EXPECT_EQ(text_of(plan(daily({"09:01"}), last_dose_at_least_hours, 24).last_dose), "2027-06-15 09:01");
}

TEST(HourRules, ADoseOnTheDayThatIsEarlyEnoughIsTaken)
{
    Setting afternoon;
    afternoon.start = "2027-06-17T15:00";
    const HoldPlan laid = afternoon.plan(morning, last_dose_at_least_hours, 6);
    EXPECT_EQ(text_of(laid.last_dose), "2027-06-17 08:00") << "seven hours before";
    EXPECT_EQ(laid.day_of, DayOf::take);
    EXPECT_EQ(laid.doses_missed, 0);
    EXPECT_EQ(text_of(afternoon.plan(morning, last_dose_at_least_hours, 7).last_dose), "2027-06-17 08:00");
    const HoldPlan longer = afternoon.plan(morning, last_dose_at_least_hours, num("7.5"));
    EXPECT_EQ(text_of(longer.last_dose), "2027-06-16 08:00");
    EXPECT_EQ(longer.day_of, DayOf::omit);
}

TEST(HourRules, AreElapsedHoursWhenTheClocksGoForward)
{
    // Sunday 14 March 2027: 23 hours long in New York.
    Setting sunday{new_york_2027(), "2027-03-14T08:00"};
    EXPECT_EQ(text_of(sunday.plan(daily({"07:00"}), last_dose_at_least_hours, 24).last_dose),
              "2027-03-13 07:00");
    EXPECT_EQ(text_of(sunday.plan(daily({"07:01"}), last_dose_at_least_hours, 24).last_dose),
              "2027-03-12 07:01");
    EXPECT_EQ(text_of(sunday.plan(daily({"08:00"}), last_dose_at_least_hours, 24).last_dose),
              "2027-03-12 08:00")
        << "the wall clock says 24 hours, but only 23 have passed";
}

TEST(HourRules, AreElapsedHoursWhenTheClocksGoBack)
{
    // Sunday 7 November 2027: 25 hours long in New York.
    Setting sunday{new_york_2027(), "2027-11-07T08:00"};
    EXPECT_EQ(text_of(sunday.plan(daily({"09:00"}), last_dose_at_least_hours, 24).last_dose),
              "2027-11-06 09:00");
    EXPECT_EQ(text_of(sunday.plan(daily({"09:01"}), last_dose_at_least_hours, 24).last_dose),
              "2027-11-05 09:01");
}

TEST(HourRules, ForbidFromExactlySoManyElapsedHoursOnAcrossEveryChange)
{
    const Zone zone = new_york_2027();
    const Pattern pattern = twice;
    for (const char* start : {"2027-03-13T08:00", "2027-03-14T08:00", "2027-03-15T08:00", "2027-06-17T09:00",
                              "2027-11-06T08:00", "2027-11-07T08:00", "2027-11-08T08:00"}) {
        const Moment moment = moment_of(zone, wall(start));
        const HoldSetting setting{zone, pattern, wall(start), moment};
        for (const int hours : {6, 12, 24, 36, 48, 72, 120}) {
            const Moment last_allowed =
                forbidden_from(last_dose_at_least_hours, hours, setting) - std::chrono::minutes{1};
            EXPECT_EQ(moment - last_allowed, std::chrono::hours{hours}) << start << " " << hours;
        }
    }
}

TEST(DayRules, KeepTheirDatesAcrossAClockChange)
{
    for (const char* start :
         {"2027-03-14T08:00", "2027-03-15T08:00", "2027-11-07T08:00", "2027-11-08T08:00"}) {
        const Setting here{new_york_2027(), start};
        const Setting there{fixed_zone(), start};
        for (const int days : {0, 1, 2, 5, 7}) {
            EXPECT_EQ(here.plan(twice, omit_days, days), there.plan(twice, omit_days, days))
                << start << " " << days;
        }
    }
}

TEST(DayRules, TheSameHoldIsAnHourShorterInSpringAndAnHourLongerInAutumn)
{
    const Zone zone = new_york_2027();
    const auto hours_of = [&](const char* start) {
        const HoldPlan laid = Setting{zone, start}.plan(evening, omit_days, 1);
        return moment_of(zone, wall(start)) -
               moment_of_dose(*laid.last_dose, zone, DoseWithoutTime::start_of_day);
    };
    EXPECT_EQ(hours_of("2027-03-14T08:00"), std::chrono::hours{35});
    EXPECT_EQ(hours_of("2027-06-17T08:00"), std::chrono::hours{36});
    EXPECT_EQ(hours_of("2027-11-07T08:00"), std::chrono::hours{37});
}

}  // namespace
}  // namespace foreday::screening
