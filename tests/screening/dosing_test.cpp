#include "screening/dosing.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

std::vector<std::string> doses(const Pattern& pattern, std::string_view first, std::string_view last)
{
    std::vector<std::string> texts;
    for (const Dose& dose : doses_between(pattern, day(first), day(last))) {
        texts.push_back(text_of(dose));
    }
    return texts;
}

TEST(Doses, DailyWithTimesBothDaysIncluded)
{
    EXPECT_THAT(doses(daily({"08:00", "20:00"}), "2027-06-14", "2027-06-15"),
                ElementsAre("2027-06-14 08:00", "2027-06-14 20:00", "2027-06-15 08:00", "2027-06-15 20:00"));
}

TEST(Doses, DailyWithoutTimesHaveADateAlone)
{
    EXPECT_THAT(doses(daily({}), "2027-06-14", "2027-06-15"), ElementsAre("2027-06-14", "2027-06-15"));
}

TEST(Doses, OnWeekdaysMondayIsOneAndSundaySeven)
{
    EXPECT_THAT(doses(OnWeekdays{{1, 7}, {clock("09:00")}}, "2027-06-13", "2027-06-20"),
                ElementsAre("2027-06-13 09:00", "2027-06-14 09:00", "2027-06-20 09:00"));
}

TEST(Doses, EveryNDaysCountFromTheirDateBothWays)
{
    EXPECT_THAT(doses(EveryNDays{14, day("2027-06-10"), {}}, "2027-05-20", "2027-06-30"),
                ElementsAre("2027-05-27", "2027-06-10", "2027-06-24"));
}

TEST(Doses, MonthlyOnTheThirtyFirstFallOnTheLastDayOfAShorterMonth)
{
    EXPECT_THAT(doses(Monthly{31, {}}, "2027-01-01", "2027-04-30"),
                ElementsAre("2027-01-31", "2027-02-28", "2027-03-31", "2027-04-30"));
    EXPECT_THAT(doses(Monthly{30, {}}, "2028-02-01", "2028-03-30"), ElementsAre("2028-02-29", "2028-03-30"));
    EXPECT_THAT(doses(Monthly{28, {}}, "2027-02-01", "2027-02-28"), ElementsAre("2027-02-28"));
}

TEST(Doses, ThereAreNoneWithoutASchedule)
{
    for (const Pattern& pattern : {Pattern{AsNeeded{}}, Pattern{Continuous{}}, Pattern{PatternNotKnown{}}}) {
        EXPECT_THAT(doses(pattern, "2027-06-01", "2027-06-30"), IsEmpty());
        EXPECT_FALSE(has_schedule(pattern));
        EXPECT_FALSE(is_interval_dosing(pattern));
    }
}

TEST(Doses, ThereAreNoneInAnEmptySpan)
{
    EXPECT_THAT(doses(daily({"08:00"}), "2027-06-15", "2027-06-14"), IsEmpty());
}

TEST(Doses, OnlyPatternsWithMoreThanADayBetweenDosesAreIntervalDosing)
{
    EXPECT_TRUE(has_schedule(daily({})));
    EXPECT_FALSE(is_interval_dosing(daily({"08:00"})));
    EXPECT_TRUE(is_interval_dosing(OnWeekdays{{1}, {}}));
    EXPECT_TRUE(is_interval_dosing(EveryNDays{2, day("2027-06-10"), {}}));
    EXPECT_TRUE(is_interval_dosing(Monthly{1, {}}));
}

}  // namespace
}  // namespace foreday::screening
