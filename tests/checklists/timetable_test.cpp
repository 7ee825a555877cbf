#include "checklists/timetable.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/checklists/fitting.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using std::chrono::hours;
using std::chrono::minutes;
using ::testing::AllOf;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

/// A colonoscopy at 10:00 with one glass of half an hour as second portion, so that the window alone binds.
SmallUnit with_a_short_portion(minutes preferred)
{
    SmallUnit unit;
    unit.preparation("peg").second = glasses(1, minutes{30});
    unit.set("preferred_second_start", Exact{preferred.count()});
    return unit;
}

// --- the window ----------------------------------------------------------------------------------------

TEST(SecondPortionWindow, StartsAtExactlySixHoursBefore)
{
    const SmallUnit unit = with_a_short_portion(minutes{360});
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T04:00-04:00");
}

TEST(SecondPortionWindow, AMinuteEarlierThanSixHoursIsMovedToSixHours)
{
    const SmallUnit unit = with_a_short_portion(minutes{361});
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), hours{6});
}

TEST(SecondPortionWindow, StartsAtExactlyFourHoursBefore)
{
    const SmallUnit unit = with_a_short_portion(minutes{240});
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T06:00-04:00");
}

TEST(SecondPortionWindow, AMinuteLaterThanFourHoursIsMovedToFourHours)
{
    const SmallUnit unit = with_a_short_portion(minutes{239});
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), hours{4});
}

TEST(SecondPortionWindow, EveryWindowHoldsAtOnce)
{
    SmallUnit unit = with_a_short_portion(minutes{300});
    unit.preparation("peg").windows = {window(hours{6}, hours{4}, "a_society"),
                                       window(minutes{285}, hours{2}, "a_label")};
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), minutes{285});
}

TEST(SecondPortionWindow, TwoWindowsThatShareOneMinuteMeet)
{
    SmallUnit unit = with_a_short_portion(minutes{300});
    unit.preparation("peg").windows = {window(hours{6}, hours{4}, "a_society"),
                                       window(hours{4}, hours{2}, "a_label")};
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), hours{4});
}

TEST(SecondPortionWindow, TwoWindowsAMinuteApartAreBothShown)
{
    SmallUnit unit = with_a_short_portion(minutes{300});
    unit.preparation("peg").windows = {window(hours{6}, hours{4}, "a_society"),
                                       window(minutes{239}, hours{2}, "a_label")};
    const Refused why = refused(fit(unit));
    EXPECT_EQ(why.why, Refused::Why::windows_apart);
    EXPECT_THAT(why.reason, AllOf(HasSubstr("a_society"), HasSubstr("a_label"), HasSubstr("6 h"),
                                  HasSubstr("4 h"), HasSubstr("3 h 59 min"), HasSubstr("2 h")));
    EXPECT_THAT(why.choices, Not(IsEmpty()));
    EXPECT_THAT(why.sources, ElementsAre(screening::SourceUse{"a_society", "on timing"},
                                         screening::SourceUse{"a_label", "on timing"}));
}

// --- the end -------------------------------------------------------------------------------------------

/// The preparation "peg" with one long glass as its second portion.
SmallUnit with_second_portion_of(minutes length)
{
    SmallUnit unit;
    unit.preparation("peg").second = glasses(1, length);
    return unit;
}

TEST(SecondPortionEnd, MayBeExactlyTwoHoursBeforeTheStart)
{
    const SmallUnit unit = with_second_portion_of(hours{4});
    const Fitted plan = fitted(fit(unit));
    EXPECT_EQ(before_start(unit, plan.second_portion), hours{6});
    EXPECT_EQ(before_start(unit, plan.second_ends), hours{2});
}

TEST(SecondPortionEnd, AMinuteBelowFitsWithRoomToSpare)
{
    const SmallUnit unit = with_second_portion_of(minutes{239});
    const Fitted plan = fitted(fit(unit));
    EXPECT_GE(before_start(unit, plan.second_ends), hours{2});
    EXPECT_LE(before_start(unit, plan.second_portion), hours{6});
}

TEST(SecondPortionEnd, AMinuteMoreIsRefusedAndNamesTheClearLiquids)
{
    const SmallUnit unit = with_second_portion_of(minutes{241});
    const Refused why = refused(fit(unit));
    EXPECT_EQ(why.why, Refused::Why::no_common_time);
    EXPECT_THAT(why.reason, AllOf(HasSubstr("clear liquids end"), HasSubstr("6 h 1 min"),
                                  HasSubstr("6 h before"), HasSubstr("a_society")));
}

TEST(SecondPortionEnd, FollowsTheUnitsOwnGapForClearLiquids)
{
    SmallUnit unit = with_second_portion_of(hours{3});
    unit.set("clear_liquid_hours", Exact{3});
    const Fitted plan = fitted(fit(unit));
    EXPECT_EQ(before_start(unit, plan.second_portion), hours{6});
    EXPECT_EQ(before_start(unit, plan.last_clear_liquid), hours{3});
}

// --- journey and bathroom ------------------------------------------------------------------------------

// The portion takes 125 minutes; with 45 near a bathroom and 60 at the unit, 230 minutes and the journey.
TEST(Journey, OfAHundredAndThirtyMinutesJustFits)
{
    const SmallUnit unit;
    const Fitted plan = fitted(fit(unit, "peg", minutes{130}));
    EXPECT_EQ(before_start(unit, plan.second_portion), hours{6});
    EXPECT_EQ(*plan.leave_home - *plan.second_ends, minutes{45});
    EXPECT_EQ(text(plan.leave_home), "2027-06-17T06:50-04:00");
}

TEST(Journey, OfAMinuteLessFits)
{
    const SmallUnit unit;
    const Fitted plan = fitted(fit(unit, "peg", minutes{129}));
    EXPECT_GE(*plan.leave_home - *plan.second_ends, minutes{45});
    EXPECT_LE(before_start(unit, plan.second_portion), hours{6});
}

TEST(Journey, OfAMinuteMoreIsRefusedWithReasonAndChoices)
{
    const SmallUnit unit;
    const Refused why = refused(fit(unit, "peg", minutes{131}));
    EXPECT_EQ(why.why, Refused::Why::no_common_time);
    EXPECT_THAT(why.reason,
                AllOf(HasSubstr("bathroom"), HasSubstr("2 h 11 min of journey"), HasSubstr("6 h 1 min"),
                      HasSubstr("a_society"), HasSubstr("PEG with electrolytes")));
    EXPECT_THAT(why.choices, ElementsAre(HasSubstr("another start"), HasSubstr("another preparation"),
                                         HasSubstr("same day"), HasSubstr("nearer")));
}

TEST(Journey, OfSeventyMinutesLeavesThePreferredStart)
{
    const SmallUnit unit;
    EXPECT_EQ(before_start(unit, fitted(fit(unit, "peg", minutes{70})).second_portion), minutes{300});
}

TEST(Journey, OfSeventyOneMinutesMovesTheStartByTheLeastThenToTheQuarterHour)
{
    const SmallUnit unit;
    // 301 minutes before 10:00 is 04:59.
    EXPECT_EQ(text(fitted(fit(unit, "peg", minutes{71})).second_portion), "2027-06-17T04:45-04:00");
}

TEST(Journey, NotKnownIsPlannedWithTheUnitsUsualOneAndSaysSo)
{
    SmallUnit unit;
    unit.set("usual_journey", Exact{100});
    const Fitted plan = fitted(fit(unit, "peg", std::nullopt));
    EXPECT_TRUE(plan.journey_assumed);
    ASSERT_EQ(plan.open_on.size(), 1U);
    EXPECT_EQ(plan.open_on.front().fact, "journey_minutes");
    EXPECT_EQ(before_start(unit, plan.leave_home), minutes{160});
    EXPECT_GE(*plan.leave_home - *plan.second_ends, minutes{45});
}

TEST(Journey, KnownIsNotMarkedAsAssumed)
{
    const Fitted plan = fitted(fit(SmallUnit{}));
    EXPECT_FALSE(plan.journey_assumed);
    EXPECT_THAT(plan.open_on, IsEmpty());
}

TEST(BathroomMargin, DecidesWhenItIsTheWiderBound)
{
    SmallUnit unit;
    unit.set("bathroom_margin", Exact{120});  // 60 + 10 + 120 + 125 = 315
    const Fitted plan = fitted(fit(unit));
    EXPECT_EQ(before_start(unit, plan.second_portion), minutes{315});
    EXPECT_EQ(*plan.leave_home - *plan.second_ends, minutes{120});
}

TEST(BathroomMargin, AtTheLastMinuteFitsAndAMinuteMoreDoesNot)
{
    SmallUnit unit;
    unit.set("bathroom_margin", Exact{165});  // 60 + 10 + 165 + 125 = 360
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), hours{6});
    unit.set("bathroom_margin", Exact{166});
    EXPECT_THAT(refused(fit(unit)).reason, HasSubstr("2 h 46 min near a bathroom"));
}

// --- the preferred start and the quarter hour ----------------------------------------------------------

TEST(PreferredStart, IsKeptWhereEveryBoundHolds)
{
    const SmallUnit unit;
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T05:00-04:00");
}

TEST(PreferredStart, IsCountedFromTheStartOfTheProcedureNeverFromTheArrival)
{
    SmallUnit unit;
    unit.set("arrive_before", Exact{15});
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), minutes{300});
}

TEST(QuarterHour, AnOddStartGoesBackToTheEarlierQuarter)
{
    SmallUnit unit;
    unit.start("2027-06-17T10:14");
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T05:00-04:00");
    unit.start("2027-06-17T10:15");
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T05:15-04:00");
    unit.start("2027-06-17T10:16");
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T05:15-04:00");
}

TEST(QuarterHour, IsTakenAtExactlySixHoursAndNotAMinuteBeyond)
{
    SmallUnit unit = with_a_short_portion(minutes{346});
    unit.start("2027-06-17T10:00");  // 346 before is 04:14; the quarter is 04:00, exactly six hours
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), hours{6});
    unit.start("2027-06-17T10:01");  // 04:15 is a quarter already
    EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), minutes{346});
    unit = with_a_short_portion(minutes{347});
    unit.start("2027-06-17T10:01");  // 04:14; the quarter at 04:00 would be six hours and a minute
    EXPECT_EQ(text(fitted(fit(unit)).second_portion), "2027-06-17T04:14-04:00");
}

}  // namespace
}  // namespace foreday::checklists
