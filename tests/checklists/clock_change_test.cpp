#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checklists/timetable.h"
#include "tests/checklists/fitting.h"

namespace foreday::checklists {
namespace {

using namespace build;
using std::chrono::minutes;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

// --- nights in which the clocks change -----------------------------------------------------------------

TEST(ClocksPutForward, WindowsHoldInElapsedTime)
{
    SmallUnit unit;
    unit.start("2027-03-14T10:00");
    const Fitted plan = fitted(fit(unit));
    EXPECT_EQ(text(plan.first_portion), "2027-03-13T18:00-05:00");
    EXPECT_EQ(text(plan.second_portion), "2027-03-14T05:00-04:00");
    EXPECT_EQ(before_start(unit, plan.second_portion), minutes{300});
    EXPECT_THAT(plan.notes, Contains(HasSubstr("forward on Sun 14 Mar 2027")));
}

TEST(ClocksPutForward, TheLabelsIntervalCountsTheHourThatIsNotThere)
{
    SmallUnit unit;
    unit.start("2027-03-14T10:00");  // eleven hours on the clock, ten elapsed
    EXPECT_EQ(text(fitted(fit(unit, "sulfate")).first_portion), "2027-03-13T18:00-05:00");
    unit.start("2027-03-14T09:00");  // ten on the clock, nine elapsed
    EXPECT_EQ(text(fitted(fit(unit, "sulfate")).first_portion), "2027-03-13T17:00-05:00");
}

TEST(ClocksPutForward, GlassesAcrossTheChangeKeepTheirPace)
{
    SmallUnit unit;
    unit.start("2027-03-14T07:30");
    const Fitted plan = fitted(fit(unit));
    EXPECT_EQ(text(plan.second_portion), "2027-03-14T01:30-05:00");
    EXPECT_EQ(text(plan.second_ends), "2027-03-14T04:35-04:00");
    EXPECT_EQ(before_start(unit, plan.second_portion), minutes{300});
    EXPECT_EQ(text(plan.last_clear_liquid), "2027-03-14T05:30-04:00");
}

TEST(ClocksPutBack, WindowsHoldInElapsedTime)
{
    SmallUnit unit;
    unit.start("2027-11-07T10:00");
    const Fitted plan = fitted(fit(unit, "sulfate"));
    EXPECT_EQ(text(plan.second_portion), "2027-11-07T05:00-05:00");
    // Eleven hours on the clock are twelve: the evening hour may stay.
    EXPECT_EQ(text(plan.first_portion), "2027-11-06T18:00-04:00");
    EXPECT_THAT(plan.notes, Contains(HasSubstr("back on Sun 7 Nov 2027")));
    unit.start("2027-11-07T11:00");
    EXPECT_EQ(text(fitted(fit(unit, "sulfate")).first_portion), "2027-11-06T19:00-04:00");
}

TEST(ClocksPutBack, ATimeThatComesTwiceIsTheRightOneAndHasItsOffset)
{
    SmallUnit unit;
    unit.start("2027-11-07T06:30");
    const Fitted plan = fitted(fit(unit));
    EXPECT_EQ(text(plan.second_portion), "2027-11-07T01:30-05:00");
    EXPECT_EQ(before_start(unit, plan.second_portion), minutes{300});
    EXPECT_EQ(clock_words(unit.rules.zone, *plan.second_portion), "Sunday 01:30 (UTC-05:00)");
    EXPECT_EQ(clock_words(unit.rules.zone, *plan.first_portion), "Saturday 18:00");
    unit.start("2027-11-07T05:30");
    EXPECT_EQ(clock_words(unit.rules.zone, *fitted(fit(unit)).second_portion), "Sunday 01:30 (UTC-04:00)");
}

TEST(ClocksPutBack, OnlyNightsWithAChangeSpeakOfIt)
{
    EXPECT_THAT(fitted(fit(SmallUnit{})).notes, Not(Contains(HasSubstr("clocks"))));
}

}  // namespace
}  // namespace foreday::checklists
