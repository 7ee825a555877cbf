#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "checklists/timetable.h"
#include "tests/checklists/fitting.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using screening::HowSure;
using std::chrono::hours;
using std::chrono::minutes;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;

// --- how sure ------------------------------------------------------------------------------------------

TEST(NotConfirmed, APreparationOfTheLastTwoRanksGivesNoTimes)
{
    for (const HowSure sure : {HowSure::common_practice, HowSure::from_memory}) {
        SmallUnit unit;
        unit.preparation("peg").sure = sure;
        const Refused why = refused(fit(unit));
        EXPECT_EQ(why.why, Refused::Why::not_confirmed);
        EXPECT_THAT(why.reason, HasSubstr(std::string{screening::name_of(sure)}));
        EXPECT_THAT(why.choices, Not(IsEmpty()));
        unit.confirm("peg");
        EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), minutes{300});
    }
}

TEST(NotConfirmed, TheFirstThreeRanksGiveTimes)
{
    for (const HowSure sure : {HowSure::published, HowSure::reported, HowSure::unit_policy}) {
        SmallUnit unit;
        unit.preparation("peg").sure = sure;
        EXPECT_EQ(before_start(unit, fitted(fit(unit)).second_portion), minutes{300});
    }
}

TEST(NotConfirmed, TheConfirmationOfAnotherPreparationDoesNotHelp)
{
    SmallUnit unit;
    unit.preparation("peg").sure = HowSure::from_memory;
    unit.confirm("sulfate");
    EXPECT_EQ(refused(fit(unit)).why, Refused::Why::not_confirmed);
}

TEST(NotConfirmed, AWindowOrADietFromMemoryIsConfirmedWithThePreparation)
{
    SmallUnit of_window;
    of_window.preparation("peg").windows.front().sure = HowSure::from_memory;
    EXPECT_EQ(refused(fit(of_window)).why, Refused::Why::not_confirmed);
    of_window.confirm("peg");
    EXPECT_NO_THROW((void)fitted(fit(of_window)));

    SmallUnit of_diet;
    of_diet.preparation("peg").diet_sure = HowSure::common_practice;
    EXPECT_EQ(refused(fit(of_diet)).why, Refused::Why::not_confirmed);
}

TEST(NotConfirmed, EachNumberOfTheTimetableIsNamedUntilTheUnitConfirmsIt)
{
    for (const std::string id :
         {"bathroom_margin", "clear_liquid_hours", "evening_start", "preferred_second_start"}) {
        SmallUnit unit;
        unit.parameter(id).sure = HowSure::common_practice;
        const Refused why = refused(fit(unit));
        EXPECT_EQ(why.why, Refused::Why::not_confirmed) << id;
        EXPECT_THAT(why.reason, HasSubstr(id));
        unit.confirm(id);
        EXPECT_NO_THROW((void)fitted(fit(unit))) << id;
    }
}

TEST(NotConfirmed, ANumberTheUnitHasSetItselfIsItsOwn)
{
    SmallUnit unit;
    unit.parameter("bathroom_margin").sure = HowSure::from_memory;
    unit.rules.policy.parameters.at(unit.place_of("bathroom_margin")) = Exact{50};
    EXPECT_NO_THROW((void)fitted(fit(unit)));
}

TEST(NotConfirmed, TheUsualJourneyCountsOnlyWhereTheJourneyIsNotKnown)
{
    SmallUnit unit;
    unit.parameter("usual_journey").sure = HowSure::common_practice;
    EXPECT_NO_THROW((void)fitted(fit(unit)));
    EXPECT_THAT(refused(fit(unit, "peg", std::nullopt)).reason, HasSubstr("usual_journey"));
}

// --- other plans ---------------------------------------------------------------------------------------

TEST(UpperEndoscopy, HasAFastingPlanOnly)
{
    SmallUnit unit;
    unit.procedures({"upper_endoscopy"});
    const Fitted plan = fitted(unit.plan().plan);
    EXPECT_FALSE(plan.preparation);
    EXPECT_FALSE(plan.first_portion);
    EXPECT_FALSE(plan.second_portion);
    EXPECT_EQ(text(plan.last_solid), "2027-06-17T04:00-04:00");
    EXPECT_EQ(text(plan.last_clear_liquid), "2027-06-17T08:00-04:00");
    EXPECT_EQ(text(plan.leave_home), "2027-06-17T08:30-04:00");
    EXPECT_THAT(lines_of(plan), Contains(HasSubstr("06-17T02:00 Last meal with fat")));
    EXPECT_EQ(std::ranges::count(plan.steps, true, &Step::drink), 0);
}

TEST(UpperEndoscopy, FastsInElapsedHoursAcrossAClockChange)
{
    SmallUnit unit;
    unit.procedures({"upper_endoscopy"}).start("2027-03-14T08:00");
    const Fitted plan = fitted(unit.plan().plan);
    EXPECT_EQ(text(plan.last_solid), "2027-03-14T01:00-05:00");
    EXPECT_EQ(before_start(unit, plan.last_solid), hours{6});
}

TEST(UpperEndoscopy, GapsThatNobodyHasConfirmedGiveNoTimes)
{
    SmallUnit unit;
    unit.procedures({"upper_endoscopy"}).parameter("light_meal_hours").sure = HowSure::from_memory;
    EXPECT_EQ(refused(unit.plan().plan).why, Refused::Why::not_confirmed);
}

TEST(SeveralInOneSession, TheBowelPlanIsTheStricterAndHolds)
{
    SmallUnit unit;
    unit.procedures({"colonoscopy", "upper_endoscopy"});
    EXPECT_TRUE(fitted(unit.plan().plan).second_portion.has_value());
}

TEST(FlexibleSigmoidoscopy, IsAskedAbout)
{
    SmallUnit unit;
    unit.procedures({"flexible_sigmoidoscopy"});
    const PreparationPlan plan = unit.plan();
    EXPECT_EQ(refused(plan.plan).why, Refused::Why::no_plan);
    EXPECT_THAT(refused(plan.plan).choices, Contains(HasSubstr("endoscopist")));
    EXPECT_FALSE(plan.suggestion);
}

TEST(OutOfScope, NoPreparationIsProposed)
{
    SmallUnit other;
    other.procedures({"bronchoscopy"});
    EXPECT_EQ(refused(other.plan().plan).why, Refused::Why::no_plan);
    EXPECT_FALSE(other.plan().suggestion);
    EXPECT_THAT(other.plan().choices, IsEmpty());

    SmallUnit child;
    child.record.booking.patient.born = day("2009-06-18");  // eighteen the day after
    EXPECT_EQ(refused(child.plan().plan).why, Refused::Why::no_plan);
    child.record.booking.patient.born = day("2009-06-17");
    EXPECT_NO_THROW((void)fitted(child.plan().plan));
}

}  // namespace
}  // namespace foreday::checklists
