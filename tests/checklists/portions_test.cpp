#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "checklists/timetable.h"
#include "tests/checklists/fitting.h"

namespace foreday::checklists {
namespace {

using namespace build;
using std::chrono::hours;
using std::chrono::minutes;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

// --- the first portion ---------------------------------------------------------------------------------

TEST(FirstPortion, StartsAtTheUnitsEveningHour)
{
    EXPECT_EQ(text(fitted(fit(SmallUnit{})).first_portion), "2027-06-16T18:00-04:00");
    SmallUnit later;
    later.set("evening_start", clock("19:30"));
    EXPECT_EQ(text(fitted(fit(later)).first_portion), "2027-06-16T19:30-04:00");
}

struct LabelRow {
    std::string_view start;
    std::string_view second;
    std::string_view first;
};

/// Ten to twelve hours from start to start: 18:00 is moved by the least.
TEST(FirstPortion, IsMovedIntoTheLabelsIntervalByTheLeast)
{
    const LabelRow rows[] = {
        {"2027-06-17T08:00", "03:00", "17:00"},  // nine hours are too few
        {"2027-06-17T08:45", "03:45", "17:45"},  // a quarter below ten
        {"2027-06-17T09:00", "04:00", "18:00"},  // exactly ten
        {"2027-06-17T10:00", "05:00", "18:00"},  // inside
        {"2027-06-17T11:00", "06:00", "18:00"},  // exactly twelve
        {"2027-06-17T11:15", "06:15", "18:15"},  // a quarter above twelve
        {"2027-06-17T13:00", "08:00", "20:00"},
    };
    for (const LabelRow& row : rows) {
        SmallUnit unit;
        unit.start(row.start);
        const Fitted plan = fitted(fit(unit, "sulfate"));
        EXPECT_EQ(text(plan.second_portion), "2027-06-17T" + std::string{row.second} + "-04:00") << row.start;
        EXPECT_EQ(text(plan.first_portion), "2027-06-16T" + std::string{row.first} + "-04:00") << row.start;
    }
}

TEST(FirstPortion, EndsBeforeTheSecondBegins)
{
    SmallUnit unit;
    unit.preparation("peg").first = glasses(14, minutes{30});  // seven hours
    unit.start("2027-06-17T06:00");                            // the second begins at 01:00
    EXPECT_EQ(text(fitted(fit(unit)).first_portion), "2027-06-16T18:00-04:00");
    unit.start("2027-06-17T05:45");
    EXPECT_EQ(text(fitted(fit(unit)).first_portion), "2027-06-16T17:45-04:00");
}

TEST(FirstPortion, ThatTakesLongerThanTheLabelGivesIsRefused)
{
    SmallUnit unit;
    unit.preparation("sulfate").first = glasses(1, hours{12});
    EXPECT_EQ(before_start(unit, fitted(fit(unit, "sulfate")).first_portion), hours{17});
    unit.preparation("sulfate").first = glasses(1, minutes{721});
    EXPECT_THAT(refused(fit(unit, "sulfate")).reason, AllOf(HasSubstr("first portion"), HasSubstr("12 h")));
}

TEST(LastSolidFood, IsAtItsHourOnTheDayBefore)
{
    EXPECT_EQ(text(fitted(fit(SmallUnit{})).last_solid), "2027-06-16T13:00-04:00");
}

TEST(LastSolidFood, IsNeverAfterTheFirstPortion)
{
    SmallUnit unit;
    for (const auto& [hour, expected] : {std::pair{"17:59", "17:59"}, std::pair{"18:00", "18:00"},
                                         std::pair{"18:01", "18:00"}, std::pair{"21:00", "18:00"}}) {
        unit.preparation("peg").last_solid = clock(hour);
        EXPECT_EQ(text(fitted(fit(unit)).last_solid), "2027-06-16T" + std::string{expected} + "-04:00")
            << hour;
    }
}

// --- the steps -----------------------------------------------------------------------------------------

TEST(Steps, HoldEveryGlassWithItsTimeAndItsCount)
{
    EXPECT_THAT(lines_of(fitted(fit(SmallUnit{}))),
                ElementsAre("06-16T13:00 Last meal, low in fibre",                   //
                            "06-16T18:00 Glass 1 of 8", "06-16T18:15 Glass 2 of 8",  //
                            "06-16T18:30 Glass 3 of 8", "06-16T18:45 Glass 4 of 8",  //
                            "06-16T19:00 Glass 5 of 8", "06-16T19:15 Glass 6 of 8",  //
                            "06-16T19:30 Glass 7 of 8", "06-16T19:45 Glass 8 of 8",  //
                            "06-16T20:00 The rest of the first half",                //
                            "06-17T05:00 Glass 1 of 8", "06-17T05:15 Glass 2 of 8",  //
                            "06-17T05:30 Glass 3 of 8", "06-17T05:45 Glass 4 of 8",  //
                            "06-17T06:00 Glass 5 of 8", "06-17T06:15 Glass 6 of 8",  //
                            "06-17T06:30 Glass 7 of 8", "06-17T06:45 Glass 8 of 8",  //
                            "06-17T07:00 The rest of the jug",                       //
                            HasSubstr("06-17T08:00 Last clear liquid"), "06-17T08:50 Leave home"));
}

TEST(Steps, MarkWhatIsDrunk)
{
    const Fitted plan = fitted(fit(SmallUnit{}));
    EXPECT_EQ(std::ranges::count(plan.steps, true, &Step::drink), 18);
    EXPECT_FALSE(plan.steps.front().drink);
    EXPECT_FALSE(plan.steps.back().drink);
}

TEST(Steps, OfTheSulfateSolutionHoldBottleAndWater)
{
    const auto lines = lines_of(fitted(fit(SmallUnit{}, "sulfate")));
    EXPECT_THAT(lines, Contains("06-17T05:00 The second bottle"));
    EXPECT_THAT(lines, Contains("06-17T06:00 Water 1 of 2"));
    EXPECT_THAT(lines, Contains("06-17T06:30 Water 2 of 2"));
    EXPECT_EQ(text(fitted(fit(SmallUnit{}, "sulfate")).second_ends), "2027-06-17T07:00-04:00");
}

TEST(Steps, AreInTheOrderOfTimeForALongJourneyToo)
{
    const Fitted plan = fitted(fit(SmallUnit{}, "peg", minutes{130}));
    EXPECT_TRUE(std::ranges::is_sorted(plan.steps, {}, &Step::at));
    EXPECT_LT(*plan.leave_home, plan.last_clear_liquid);
}

TEST(Steps, LeaveNoMarkForACountUnfilled)
{
    SmallUnit unit;
    unit.preparation("peg").second.steps.front().what = "{n}/{of}: of {of} glasses the one with number {n}";
    const auto lines = lines_of(fitted(fit(unit)));
    EXPECT_THAT(lines, Contains("06-17T05:15 2/8: of 8 glasses the one with number 2"));
    EXPECT_THAT(lines, Not(Contains(HasSubstr("{"))));
}

// --- medicines beside the preparation ------------------------------------------------------------------

TEST(MedicineTimes, NothingByMouthBeforeAndDuringAPortion)
{
    SmallUnit unit;
    unit.preparation("peg").no_medicine_before = hours{1};
    const Fitted plan = fitted(fit(unit));
    EXPECT_THAT(plan.no_medicine,
                ElementsAre(Span{at("2027-06-16T17:00-04:00"), at("2027-06-16T20:05-04:00")},
                            Span{at("2027-06-17T04:00-04:00"), at("2027-06-17T07:05-04:00")}));
}

TEST(MedicineTimes, SpacedClassesKeepTheirHoursBeforeAndAfter)
{
    SmallUnit unit;
    auto& sulfate = unit.preparation("sulfate");
    sulfate.spaced_classes = {1};
    sulfate.spaced_before = hours{2};
    sulfate.spaced_after = hours{6};
    EXPECT_THAT(fitted(fit(unit, "sulfate")).spaced,
                ElementsAre(Span{at("2027-06-16T16:00-04:00"), at("2027-06-17T02:00-04:00")},
                            Span{at("2027-06-17T03:00-04:00"), at("2027-06-17T13:00-04:00")}));
    EXPECT_THAT(fitted(fit(unit)).spaced, IsEmpty());
}

TEST(Sources, StandBesideThePlan)
{
    const Fitted plan = fitted(fit(SmallUnit{}));
    EXPECT_THAT(plan.sources, Contains(screening::SourceUse{"a_society", "on timing"}));
    EXPECT_THAT(plan.sources, Contains(screening::SourceUse{"a_document", "clear_liquid_hours"}));
}

}  // namespace
}  // namespace foreday::checklists
