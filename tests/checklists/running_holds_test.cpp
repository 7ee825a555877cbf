#include "checklists/running_holds.h"

#include <gtest/gtest.h>

#include "tests/checklists/case_at_work.h"

namespace foreday::checklists {
namespace {

using namespace build;

std::vector<RunningHold> running(const CaseAtWork& unit, std::string_view iso, bool told_only = false)
{
    return running_holds(unit.rules, unit.file(), unit.look(), at(iso), told_only);
}

TEST(RunningHolds, AToldPauseRunsFromTheTellingOn)
{
    const CaseAtWork unit = with_warfarin_told();
    EXPECT_TRUE(running(unit, "2027-06-10T10:59-04:00").empty());
    ASSERT_EQ(running(unit, "2027-06-10T11:00-04:00").size(), 1U);
    const RunningHold hold = running(unit, "2027-06-10T11:00-04:00").front();
    EXPECT_EQ(hold, (RunningHold{"hold:m1", "warfarin", "Dr Example", false}));
}

TEST(RunningHolds, BeginWithTheLastDose)
{
    const CaseAtWork unit = with_warfarin_told();
    EXPECT_FALSE(running(unit, "2027-06-11T17:59-04:00").front().begun);
    EXPECT_TRUE(running(unit, "2027-06-11T18:00-04:00").front().begun);
    EXPECT_TRUE(running(unit, "2027-06-11T18:01-04:00").front().begun);
}

TEST(RunningHolds, WhatWasAgreedAndNotToldRunsOnceItHasBegun)
{
    CaseAtWork unit = with_warfarin();
    EXPECT_TRUE(running(unit, "2027-06-16T12:00-04:00").empty()) << "nobody has agreed";
    unit.decide("hold:m1");
    EXPECT_TRUE(running(unit, "2027-06-11T17:59-04:00").empty());
    EXPECT_EQ(running(unit, "2027-06-11T18:00-04:00").size(), 1U);
    EXPECT_TRUE(running(unit, "2027-06-11T18:00-04:00", true).empty()) << "agreed for the new date";
}

TEST(RunningHolds, OfAMovedSessionOnlyWhatWasToldAndHasBegunCounts)
{
    const CaseAtWork unit = with_warfarin_told();
    EXPECT_TRUE(running(unit, "2027-06-11T17:59-04:00", true).empty());
    EXPECT_EQ(running(unit, "2027-06-11T18:00-04:00", true).size(), 1U);
}

TEST(RunningHolds, AStatedLastDoseCountsInsteadOfThePlan)
{
    CaseAtWork unit = with_warfarin();
    unit.decide("hold:m1").last_dose = day("2027-06-13");
    EXPECT_TRUE(running(unit, "2027-06-13T17:59-04:00").empty());
    EXPECT_EQ(running(unit, "2027-06-13T18:00-04:00").size(), 1U);
}

TEST(RunningHolds, AMedicineThatGoesOnIsNone)
{
    CaseAtWork unit;
    unit.hold_rule("iron_goes_on", "iron", screening::HoldAction::take_as_usual);
    unit.take("m1", "iron", daily({"08:00"}));
    EXPECT_TRUE(running(unit, "2027-06-17T09:00-04:00").empty());
}

}  // namespace
}  // namespace foreday::checklists
