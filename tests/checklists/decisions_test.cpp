#include "checklists/decisions.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/checklists/builders.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::DecisionAnswer;
using screening::DecisionManner;
using screening::HoldAction;
using screening::Level;
using screening::Role;
using screening::Topic;

using enum DecisionState;

/// One finding of level ask that fires.
SmallUnit with_an_ask()
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    return unit;
}

/// Warfarin at 18:00, left out for five days before 17 June: the last dose is that of the 11th.
SmallUnit on_warfarin()
{
    SmallUnit unit;
    unit.hold_rule("warfarin_five_days", "warfarin", HoldAction::omit_days, screening::Exact{5});
    unit.take("m1", "warfarin", daily({"18:00"}));
    return unit;
}

// --- binding -------------------------------------------------------------------------------------------

TEST(Decision, WithoutOneNothingIsDecided)
{
    const Decided decided = with_an_ask().decided("finding:breathless");
    EXPECT_EQ(decided.state, none);
    EXPECT_EQ(decided.by, nullptr);
    EXPECT_FALSE(decided.fingerprint.empty());
}

TEST(Decision, OnTheItemAsItIsStands)
{
    SmallUnit unit = with_an_ask();
    const std::string fingerprint = unit.decided("finding:breathless").fingerprint;
    unit.decide("finding:breathless").fingerprint = fingerprint;
    const Decided decided = unit.decided("finding:breathless");
    EXPECT_EQ(decided.state, standing);
    EXPECT_TRUE(decided.bound);
    EXPECT_EQ(decided.by, &unit.record.decisions.back());
}

TEST(Decision, IsOpenedAgainWhenAComparisonOfTheItemComesOutOtherwise)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, unit.is("worry"));
    unit.decide("finding:breathless").fingerprint = unit.decided("finding:breathless").fingerprint;
    EXPECT_EQ(unit.decided("finding:breathless").state, standing);  // open, and decided as open
    unit.answer("worry", true);
    EXPECT_EQ(unit.decided("finding:breathless").state, opened_again);
}

TEST(Decision, IsNotOpenedByAValueThatMovedWithoutChangingAnOutcome)
{
    SmallUnit unit;
    screening::Condition far = leaf(screening::FactCompares{
        unit.fact("journey_minutes"), screening::Operator::at_least, screening::Exact{20}});
    unit.finding("far_away", Level::ask, far);
    unit.decide("finding:far_away").fingerprint = unit.decided("finding:far_away").fingerprint;
    unit.number("journey_minutes", "20");
    EXPECT_EQ(unit.decided("finding:far_away").state, standing);
}

TEST(Decision, IsNotOpenedByTimeGoingBy)
{
    SmallUnit unit = on_warfarin();
    unit.decide("hold:m1").fingerprint = unit.decided("hold:m1").fingerprint;
    unit.look("2027-06-11T08:00-04:00");
    EXPECT_EQ(unit.decided("hold:m1").state, standing);
}

TEST(Decision, OfAHoldIsOpenedAgainByAMovedDay)
{
    SmallUnit unit = on_warfarin();
    unit.decide("hold:m1").fingerprint = unit.decided("hold:m1").fingerprint;
    unit.start("2027-06-18T10:00");
    EXPECT_EQ(unit.decided("hold:m1").state, opened_again);
}

TEST(Decision, ThatNamesNoFingerprintStandsAndIsNotBound)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless");
    const Decided decided = unit.decided("finding:breathless");
    EXPECT_EQ(decided.state, standing);
    EXPECT_FALSE(decided.bound);
}

TEST(Decision, OnAnotherItemChangesNothing)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless_at_night");
    EXPECT_EQ(unit.decided("finding:breathless").state, none);
}

TEST(Decision, TheLastOneCounts)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless").answer = DecisionAnswer::not_go_ahead;
    unit.decide("finding:breathless").answer = DecisionAnswer::agree;
    EXPECT_FALSE(unit.decided("finding:breathless").not_go_ahead);
    unit.decide("finding:breathless").answer = DecisionAnswer::not_go_ahead;
    EXPECT_TRUE(unit.decided("finding:breathless").not_go_ahead);
}

TEST(Decision, ALastOneThatIsNoLongerForTheItemOpensItThoughAnEarlierOneStood)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless");
    unit.decide("finding:breathless").fingerprint = "00";
    EXPECT_EQ(unit.decided("finding:breathless").state, opened_again);
}

// --- who may -------------------------------------------------------------------------------------------

constexpr Role every_role[] = {
    Role::scheduler,        Role::arrival_clerk, Role::nurse,   Role::endoscopist, Role::anaesthesia,
    Role::medical_director, Role::manager,       Role::auditor, Role::prescriber,  Role::cardiology,
    Role::haematology,      Role::diabetes,      Role::kidney,  Role::obstetrics};

/// The default table: who agrees to a hold of a marked medicine.
std::vector<Role> agreeing_by_default(Topic topic)
{
    switch (topic) {
        case Topic::sugar:
            return {Role::endoscopist, Role::anaesthesia, Role::diabetes};
        case Topic::lungs_and_airway:
        case Topic::sedation_and_site:
            return {Role::anaesthesia};
        default:
            return {Role::endoscopist};
    }
}

TEST(WhoMayAgree, ToAHoldOfAMarkedMedicineIsTheTableTopicByRole)
{
    for (int number = 0; number <= static_cast<int>(Topic::record); ++number) {
        const auto topic = static_cast<Topic>(number);
        const auto may = agreeing_by_default(topic);
        for (const Role role : every_role) {
            SmallUnit unit = on_warfarin();
            unit.rules.protocol.holds.front().head.topic = topic;
            unit.decide("hold:m1", role);
            const bool counts = std::ranges::find(may, role) != may.end();
            const Decided decided = unit.decided("hold:m1");
            EXPECT_EQ(decided.state, counts ? standing : none)
                << screening::name_of(role) << " on " << screening::name_of(topic);
            EXPECT_EQ(decided.role_may_not, !counts);
        }
    }
}

TEST(WhoMayAgree, TheUnitMayLetItsMedicalDirector)
{
    SmallUnit unit = on_warfarin();
    unit.decide("hold:m1", Role::medical_director);
    EXPECT_EQ(unit.decided("hold:m1").state, none);
    unit.rules.policy.may_agree[Topic::blood_thinners].push_back(Role::medical_director);
    EXPECT_EQ(unit.decided("hold:m1").state, standing);
}

TEST(WhoMayAgree, NurseClerkSchedulerManagerAndAuditorNeverDoWhateverTheTableSays)
{
    for (const Role role :
         {Role::nurse, Role::arrival_clerk, Role::scheduler, Role::manager, Role::auditor}) {
        SmallUnit unit = on_warfarin();
        unit.rules.policy.may_agree[Topic::blood_thinners] = {role};
        unit.rules.protocol.holds.front().head.who = {role};
        unit.decide("hold:m1", role);
        EXPECT_EQ(unit.decided("hold:m1").state, none) << screening::name_of(role);
    }
}

TEST(WhoMayDecide, OnAFindingAreTheCliniciansItNames)
{
    for (const Role role : every_role) {
        SmallUnit unit;
        unit.finding("breathless", Level::ask, always()).head.who = {Role::nurse, Role::cardiology,
                                                                     Role::anaesthesia};
        unit.decide("finding:breathless", role);
        const bool counts = role == Role::cardiology || role == Role::anaesthesia;
        EXPECT_EQ(unit.decided("finding:breathless").state, counts ? standing : none)
            << screening::name_of(role);
    }
}

TEST(WhoMayDecide, ALaterWordOfSomebodyWhoMayNotLeavesTheDecisionStanding)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless", Role::endoscopist);
    unit.decide("finding:breathless", Role::nurse).answer = DecisionAnswer::not_go_ahead;
    const Decided decided = unit.decided("finding:breathless");
    EXPECT_EQ(decided.state, standing);
    EXPECT_FALSE(decided.not_go_ahead);
    EXPECT_EQ(decided.not_counted, &unit.record.decisions.back());
}

TEST(WhoMayDecide, OneThatDoesNotCountLeavesTheItemUndecided)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless", Role::nurse);
    const WholeCase whole = unit.look();
    EXPECT_TRUE(is_undecided(whole.assessment.findings.front(), whole.decided.front()));
}

// --- a hold that says nothing ---------------------------------------------------------------------------

TEST(Decision, WhoAgreesToAskFirstHasNotSaidWhatToDo)
{
    for (const screening::HoldAction action :
         {screening::HoldAction::ask_first, screening::HoldAction::dose_to_be_stated}) {
        SmallUnit unit = on_warfarin();
        unit.rules.protocol.holds.front().action = action;
        unit.decide("hold:m1").answer = DecisionAnswer::agree;
        EXPECT_EQ(unit.decided("hold:m1").state, none);
        EXPECT_TRUE(unit.decided("hold:m1").lacks_instruction);
        unit.record.decisions.back().fingerprint = unit.decided("hold:m1").fingerprint;
        EXPECT_EQ(unit.decided("hold:m1").state, none);
        for (const DecisionAnswer says : {DecisionAnswer::change, DecisionAnswer::not_go_ahead}) {
            unit.record.decisions.back().answer = says;
            EXPECT_EQ(unit.decided("hold:m1").state, standing);
            EXPECT_FALSE(unit.decided("hold:m1").lacks_instruction);
        }
    }
}

TEST(Decision, OnlyTwoActionsNameNothingToDo)
{
    for (const screening::HoldAction action :
         {screening::HoldAction::ask_first, screening::HoldAction::dose_to_be_stated}) {
        EXPECT_FALSE(has_instruction(action));
    }
    for (const screening::HoldAction action :
         {screening::HoldAction::take_as_usual, screening::HoldAction::sip_on_the_morning,
          screening::HoldAction::omit_on_the_day, screening::HoldAction::omit_days,
          screening::HoldAction::omit_doses_due_within, screening::HoldAction::last_dose_at_least_hours}) {
        EXPECT_TRUE(has_instruction(action));
    }
}

// --- a stop --------------------------------------------------------------------------------------------

TEST(Stop, IsPassedOnlyByACliniciansReason)
{
    SmallUnit unit;
    unit.finding("blocked_bowel", Level::stop, always());
    unit.decide("finding:blocked_bowel").words = "";
    EXPECT_EQ(unit.decided("finding:blocked_bowel").state, none);
    EXPECT_TRUE(unit.decided("finding:blocked_bowel").lacks_reason);
    unit.decide("finding:blocked_bowel").words = "seen this morning, the bowel is not blocked";
    EXPECT_EQ(unit.decided("finding:blocked_bowel").state, standing);
}

TEST(Stop, IsKeptWithoutAReason)
{
    SmallUnit unit;
    unit.finding("blocked_bowel", Level::stop, always());
    screening::Decision& decision = unit.decide("finding:blocked_bowel");
    decision.words = "";
    decision.answer = DecisionAnswer::not_go_ahead;
    EXPECT_TRUE(unit.decided("finding:blocked_bowel").not_go_ahead);
}

TEST(Ask, NeedsNoReason)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless").words = "";
    EXPECT_EQ(unit.decided("finding:breathless").state, standing);
}

// --- how it was decided --------------------------------------------------------------------------------

TEST(SpokenDecision, TakesEffectAtOnceAndWaitsForTheSignature)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless").manner = DecisionManner::spoken;
    Decided decided = unit.decided("finding:breathless");
    EXPECT_EQ(decided.state, standing);
    EXPECT_TRUE(decided.waits_for_signature);
    unit.decide("finding:breathless").manner = DecisionManner::is_signed;
    decided = unit.decided("finding:breathless");
    EXPECT_EQ(decided.state, standing);
    EXPECT_FALSE(decided.waits_for_signature);
}

TEST(SpokenDecision, OneFromOutsideWaitsForNoSignature)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless").manner = DecisionManner::from_outside;
    EXPECT_FALSE(unit.decided("finding:breathless").waits_for_signature);
}

TEST(AskedOutside, StaysUndecidedUntilTheAnswerIsDecidedOn)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless").answer = DecisionAnswer::ask_outside;
    WholeCase whole = unit.look();
    EXPECT_TRUE(whole.decided.front().asked_outside);
    EXPECT_TRUE(is_undecided(whole.assessment.findings.front(), whole.decided.front()));
    unit.decide("finding:breathless").answer = DecisionAnswer::agree;
    whole = unit.look();
    EXPECT_FALSE(whole.decided.front().asked_outside);
    EXPECT_FALSE(is_undecided(whole.assessment.findings.front(), whole.decided.front()));
}

TEST(NotToGoAhead, IsADecision)
{
    SmallUnit unit = with_an_ask();
    unit.decide("finding:breathless").answer = DecisionAnswer::not_go_ahead;
    const WholeCase whole = unit.look();
    EXPECT_EQ(whole.decided.front().state, standing);
    EXPECT_TRUE(whole.decided.front().not_go_ahead);
    EXPECT_FALSE(is_undecided(whole.assessment.findings.front(), whole.decided.front()));
}

TEST(Undecided, AreOnlyItemsOfLevelAskAndStop)
{
    for (const auto& [level, waits] : {std::pair{Level::note, false}, std::pair{Level::act, false},
                                       std::pair{Level::ask, true}, std::pair{Level::stop, true}}) {
        SmallUnit unit;
        unit.finding("breathless", level, always());
        const WholeCase whole = unit.look();
        EXPECT_EQ(is_undecided(whole.assessment.findings.front(), whole.decided.front()), waits)
            << screening::name_of(level);
    }
}

}  // namespace
}  // namespace foreday::checklists
