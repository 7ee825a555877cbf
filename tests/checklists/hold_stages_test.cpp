#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checklists/decisions.h"
#include "tests/checklists/builders.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::DecisionAnswer;
using screening::HoldAction;
using screening::Level;
using screening::Role;

/// Warfarin at 18:00, left out for five days before 17 June: the last dose is that of the 11th.
SmallUnit on_warfarin()
{
    SmallUnit unit;
    unit.hold_rule("warfarin_five_days", "warfarin", HoldAction::omit_days, screening::Exact{5});
    unit.take("m1", "warfarin", daily({"18:00"}));
    return unit;
}

/// Iron in the morning, left out for seven days: nurses may tell that by themselves.
SmallUnit on_iron()
{
    SmallUnit unit;
    unit.hold_rule("iron_seven_days", "iron", HoldAction::omit_days, screening::Exact{7});
    unit.take("m1", "iron", daily({"08:00"}));
    unit.look("2027-06-05T09:00-04:00");
    return unit;
}

screening::StandingOrder order_on(std::string hold, std::string_view from, std::string_view until)
{
    return {{std::move(hold)}, "Dr Example", day(from), day(until)};
}

// --- standing orders -----------------------------------------------------------------------------------

bool covered(const SmallUnit& unit)
{
    return standing_order_covers(unit.rules, unit.look().assessment.holds.front(), unit.now);
}

TEST(StandingOrder, IsInForceFromItsFirstDayToItsLastBothIncluded)
{
    SmallUnit unit = on_iron();
    unit.rules.policy.standing_orders = {order_on("iron_seven_days", "2027-06-02", "2027-06-05")};
    const std::pair<std::string_view, bool> rows[] = {
        {"2027-06-01T23:59-04:00", false}, {"2027-06-02T00:00-04:00", true},
        {"2027-06-03T12:00-04:00", true},  {"2027-06-05T23:59-04:00", true},
        {"2027-06-06T00:00-04:00", false},
    };
    for (const auto& [moment, in_force] : rows) {
        EXPECT_EQ(covered(unit.look(moment)), in_force) << moment;
    }
}

TEST(StandingOrder, CoversOnlyTheHoldsItNames)
{
    SmallUnit unit = on_iron();
    unit.rules.policy.standing_orders = {order_on("fibre_five_days", "2027-01-01", "2027-12-31")};
    EXPECT_FALSE(covered(unit));
}

TEST(StandingOrder, NeverCoversAMarkedMedicine)
{
    SmallUnit unit = on_warfarin();
    unit.rules.policy.standing_orders = {order_on("warfarin_five_days", "2027-01-01", "2027-12-31")};
    EXPECT_FALSE(covered(unit));
    EXPECT_EQ(unit.look().stages.front(), HoldStage::proposed);
    EXPECT_TRUE(is_undecided(unit.look().assessment.holds.front().item, unit.decided("hold:m1")));
}

TEST(StandingOrder, ThatHasRunOutMeansAskAgain)
{
    SmallUnit unit = on_iron();
    unit.rules.policy.standing_orders = {order_on("iron_seven_days", "2027-01-01", "2027-06-04")};
    const WholeCase whole = unit.look();
    EXPECT_TRUE(is_undecided(whole.assessment.holds.front().item, whole.decided.front()));
    EXPECT_EQ(whole.stages.front(), HoldStage::proposed);
    unit.decide("hold:m1");
    EXPECT_EQ(unit.look().stages.front(), HoldStage::agreed);
}

// --- how far a hold has come ---------------------------------------------------------------------------

TEST(HoldStages, AMarkedHoldIsProposedUntilSomebodyWhoMayHasAgreed)
{
    SmallUnit unit = on_warfarin();
    EXPECT_EQ(unit.look().stages.front(), HoldStage::proposed);
    unit.decide("hold:m1", Role::nurse);
    EXPECT_EQ(unit.look().stages.front(), HoldStage::proposed);
    unit.decide("hold:m1", Role::endoscopist);
    EXPECT_EQ(unit.look().stages.front(), HoldStage::agreed);
}

TEST(HoldStages, AskedOutsideOrNotToGoAheadIsNotAgreed)
{
    for (const DecisionAnswer answer : {DecisionAnswer::ask_outside, DecisionAnswer::not_go_ahead}) {
        SmallUnit unit = on_warfarin();
        unit.decide("hold:m1").answer = answer;
        EXPECT_EQ(unit.look().stages.front(), HoldStage::proposed);
    }
}

TEST(HoldStages, ADecisionThatWasOpenedAgainIsNotAgreed)
{
    SmallUnit unit = on_warfarin();
    unit.decide("hold:m1").fingerprint = "00";
    EXPECT_EQ(unit.look().stages.front(), HoldStage::proposed);
}

TEST(HoldStages, AnUnmarkedHoldIsAgreedAsNobodyIsAsked)
{
    EXPECT_EQ(on_iron().look().stages.front(), HoldStage::agreed);
}

TEST(HoldStages, ToldOnceToldWhatStands)
{
    SmallUnit unit = on_iron();
    unit.record.told = {{"hold:m1", unit.now, day("2027-06-09")}};
    EXPECT_EQ(unit.look().stages.front(), HoldStage::told);
    unit.record.told.front().item = "hold:m2";
    EXPECT_EQ(unit.look().stages.front(), HoldStage::agreed);
}

TEST(HoldStages, ToldOtherwiseThanItStandsIsNotTold)
{
    SmallUnit unit = on_iron();
    unit.record.told = {{"hold:m1", unit.now, day("2027-06-08")}};
    EXPECT_NE(unit.look().stages.front(), HoldStage::told);
}

TEST(HoldStages, ToldIsMeasuredAgainstTheCliniciansOwnLastDose)
{
    SmallUnit unit = on_warfarin();
    screening::Decision& decision = unit.decide("hold:m1");
    decision.answer = DecisionAnswer::change;
    decision.last_dose = day("2027-06-13");
    unit.record.told = {{"hold:m1", unit.now, day("2027-06-13")}};
    EXPECT_EQ(unit.look().stages.front(), HoldStage::told);
    unit.record.told.front().last_dose = day("2027-06-11");
    EXPECT_EQ(unit.look().stages.front(), HoldStage::agreed);
}

TEST(Items, AreFindingsThenHolds)
{
    SmallUnit unit = on_warfarin();
    unit.finding("breathless", Level::ask, always());
    const WholeCase whole = unit.look();
    std::vector<std::string> ids;
    for (const screening::Item* item : all_items(whole.assessment)) {
        ids.push_back(item->id);
    }
    EXPECT_THAT(ids, ::testing::ElementsAre("finding:breathless", "hold:m1"));
    EXPECT_EQ(whole.decided.size(), 2U);
}

}  // namespace
}  // namespace foreday::checklists
