#include "checklists/clearance.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/checklists/builders.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::DecisionAnswer;
using screening::Exact;
using screening::Level;
using screening::Role;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

using Given = ClearanceCheck::Given;

ClearanceCheck clearance(const SmallUnit& unit)
{
    return unit.look().clearance;
}
std::vector<std::string> lacks(const SmallUnit& unit)
{
    return items_of(clearance(unit).lacks);
}

// --- items ---------------------------------------------------------------------------------------------

TEST(ClearanceLacks, NothingWhereNothingAsks)
{
    const ClearanceCheck check = clearance(SmallUnit{});
    EXPECT_TRUE(check.possible);
    EXPECT_THAT(check.lacks, IsEmpty());
    EXPECT_THAT(check.still_to_do, IsEmpty());
    EXPECT_EQ(check.given, Given::no);
}

TEST(ClearanceLacks, EveryLevelThatAClinicianDecides)
{
    for (const auto& [level, blocks] : {std::pair{Level::note, false}, std::pair{Level::act, false},
                                        std::pair{Level::ask, true}, std::pair{Level::stop, true}}) {
        SmallUnit unit;
        unit.finding("breathless", level, always());
        EXPECT_EQ(clearance(unit).possible, !blocks) << screening::name_of(level);
        if (blocks) {
            EXPECT_THAT(lacks(unit), ElementsAre("finding:breathless"));
        }
    }
}

TEST(ClearanceLacks, AnOpenItemBlocksAsAFiredOneDoes)
{
    for (const Level level : {Level::ask, Level::stop}) {
        SmallUnit unit;
        unit.finding("breathless", level, unit.is("worry"));  // nobody has asked
        EXPECT_FALSE(clearance(unit).possible);
        EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("open"));
        unit.answer("worry", true);
        EXPECT_FALSE(clearance(unit).possible);
        unit.answer("worry", false);
        EXPECT_TRUE(clearance(unit).possible);
    }
}

TEST(ClearanceLacks, AnOpenItemIsSettledByADecisionToo)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, unit.is("worry"));
    unit.decide("finding:breathless");
    EXPECT_TRUE(clearance(unit).possible);
}

TEST(ClearanceLacks, AnActItemIsNamedAndDoesNotBlock)
{
    SmallUnit unit;
    unit.finding("bring_the_card", Level::act, always());
    EXPECT_TRUE(clearance(unit).possible);
    EXPECT_THAT(clearance(unit).still_to_do, ElementsAre("About bring_the_card"));
}

TEST(ClearanceLacks, AnAskDecidedOnIsNoLongerLacked)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.decide("finding:breathless");
    EXPECT_TRUE(clearance(unit).possible);
}

TEST(ClearanceLacks, WhatWasDecidedNotToGoAhead)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.decide("finding:breathless").answer = DecisionAnswer::not_go_ahead;
    EXPECT_FALSE(clearance(unit).possible);
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("not to go ahead"));
}

TEST(ClearanceLacks, TheAnswerAskedForOutside)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.decide("finding:breathless").answer = DecisionAnswer::ask_outside;
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("asked outside"));
}

TEST(ClearanceLacks, ADecisionByARoleThatMayNotAndNamesWho)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.decide("finding:breathless", Role::nurse).who = "Nurse Example";
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("Nurse Example"));
}

TEST(ClearanceLacks, AnItemThatChangedSinceItWasDecided)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.decide("finding:breathless").fingerprint = "00";
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("changed"));
}

TEST(ClearanceLacks, EveryItemIsNamedThenTheListThenThePreparation)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.finding("blocked_bowel", Level::stop, always());
    unit.hold_rule("warfarin_five_days", "warfarin", screening::HoldAction::omit_days, Exact{5});
    unit.take("m1", "warfarin", daily({"18:00"}));
    unit.record.medicines.closed.reset();
    unit.record.booking.ordered.reset();
    EXPECT_THAT(lacks(unit), ElementsAre("finding:blocked_bowel", "finding:breathless", "hold:m1",
                                         "medicine list", "preparation"));
}

TEST(ClearanceLacks, SomebodysOwnConcernUntilItIsDecided)
{
    SmallUnit unit;
    auto& rule = unit.finding("own_concern", Level::ask,
                              leaf(screening::RecordHas{screening::RecordHas::What::own_concern}));
    rule.about_the_record = true;
    unit.record.concerns = {
        {"she sounds breathless", Level::ask, screening::Topic::heart, "Nurse Example", unit.now}};
    EXPECT_THAT(lacks(unit), ElementsAre("finding:own_concern:1"));
    unit.decide("finding:own_concern:1");
    EXPECT_TRUE(clearance(unit).possible);
}

// --- the medicine list ---------------------------------------------------------------------------------

TEST(ClearanceAndTheList, NeedsItClosed)
{
    SmallUnit unit;
    unit.record.medicines.closed.reset();
    EXPECT_THAT(lacks(unit), ElementsAre("medicine list"));
    unit.close_list("2027-06-10T09:00-04:00");
    EXPECT_TRUE(clearance(unit).possible);
}

TEST(ClearanceAndTheList, AnImportedAdditionReopensIt)
{
    SmallUnit unit;
    unit.hold_rule("iron_goes_on", "iron", screening::HoldAction::take_as_usual);
    screening::MedicineItem& item = unit.take("m1", "iron", daily({"08:00"}));
    item.origin = screening::Origin::import;
    item.at = at("2027-06-10T09:00-04:00");
    EXPECT_TRUE(clearance(unit).possible);  // there when the list was gone through
    unit.record.medicines.items.front().at = at("2027-06-10T09:01-04:00");
    EXPECT_THAT(lacks(unit), ElementsAre("medicine list"));
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("import"));
}

TEST(ClearanceAndTheList, LastsExactlyTheUnitsDays)
{
    SmallUnit unit;
    unit.start("2027-07-15T10:00").close_list("2027-06-10T09:00-04:00");
    const std::pair<std::string_view, bool> rows[] = {{"2027-06-24T08:59-04:00", true},
                                                      {"2027-06-24T09:00-04:00", true},
                                                      {"2027-06-24T09:01-04:00", false}};
    for (const auto& [moment, possible] : rows) {
        unit.look(moment);
        EXPECT_EQ(clearance(unit).possible, possible) << moment;
    }
    unit.now = at("2027-06-24T09:00-04:00") + std::chrono::seconds{1};
    EXPECT_THAT(lacks(unit), ElementsAre("medicine list"));
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("14 days"));
}

TEST(ClearanceAndTheList, AnEntryNobodyCouldNameBlocksUntilAClinicianHasDecidedOnTheWords)
{
    SmallUnit unit;
    auto& rule = unit.finding("unrecognised", Level::ask,
                              leaf(screening::RecordHas{screening::RecordHas::What::unrecognised_medicine}));
    rule.about_the_record = true;
    unit.take("m1", "", screening::PatternNotKnown{});
    EXPECT_THAT(lacks(unit), ElementsAre("finding:unrecognised:m1"));
    unit.decide("finding:unrecognised:m1");
    EXPECT_TRUE(clearance(unit).possible);
}

TEST(ClearanceAndTheList, AnEntryNobodyCouldNameBlocksThoughNoFindingSpeaksOfIt)
{
    SmallUnit unit;
    unit.take("m1", "", screening::PatternNotKnown{});
    EXPECT_THAT(lacks(unit), ElementsAre("medicine list"));
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("the small white one"));
}

// --- the preparation -----------------------------------------------------------------------------------

TEST(ClearanceAndThePreparation, ARefusedPlanIsLackedWithItsReason)
{
    SmallUnit unit;
    unit.number("journey_minutes", "170");
    EXPECT_THAT(lacks(unit), ElementsAre("preparation"));
    EXPECT_THAT(clearance(unit).lacks.front().what, HasSubstr("journey"));
}

TEST(ClearanceAndThePreparation, APlanTheEndoscopistStatesInWordsWillDo)
{
    SmallUnit unit;
    unit.procedures({"flexible_sigmoidoscopy"});
    EXPECT_THAT(lacks(unit), ElementsAre("preparation"));
    unit.decide("preparation", Role::nurse).words = "one enema at 07:30";
    EXPECT_FALSE(clearance(unit).possible);
    screening::Decision& decision = unit.decide("preparation", Role::endoscopist);
    decision.answer = DecisionAnswer::change;
    decision.words = "one enema at 07:30";
    EXPECT_TRUE(clearance(unit).possible);
    EXPECT_THAT(unit.plan().stated, AllOf(HasSubstr("Dr Example"), HasSubstr("one enema at 07:30")));
}

TEST(ClearanceAndThePreparation, AnAssumedJourneyIsNamedAndDoesNotBlock)
{
    SmallUnit unit;
    unit.forget("journey_minutes");
    EXPECT_TRUE(clearance(unit).possible);
    EXPECT_THAT(clearance(unit).still_to_do, Contains(HasSubstr("journey")));
}

TEST(ClearanceAndThePreparation, WhatSpeaksAgainstTheOrderedOneIsDecidedLikeAnyFinding)
{
    SmallUnit unit;
    unit.speaks_against("peg", "slow_stomach_peg", "worry");  // open: nobody has asked
    EXPECT_THAT(lacks(unit), ElementsAre("preparation:peg:slow_stomach_peg"));
    unit.answer("worry", false);
    EXPECT_TRUE(clearance(unit).possible);
}

// --- a clearance that was given ------------------------------------------------------------------------

TEST(GivenClearance, Stands)
{
    SmallUnit unit;
    unit.clear("2027-06-10T08:30-04:00");
    EXPECT_EQ(clearance(unit).given, Given::stands);
    EXPECT_EQ(clearance(unit).lapsed_because, "");
}

TEST(GivenClearance, LapsesWithAMovedStart)
{
    SmallUnit unit;
    unit.clear("2027-06-10T08:30-04:00").start("2027-06-17T10:01");
    EXPECT_EQ(clearance(unit).given, Given::lapsed);
    EXPECT_THAT(clearance(unit).lapsed_because, HasSubstr("moved"));
    unit.start("2027-06-17T10:00");
    EXPECT_EQ(clearance(unit).given, Given::stands);
}

TEST(GivenClearance, LapsesWithANewAskOrStopAndNotWithWhatANurseDoes)
{
    for (const auto& [level, expected] :
         {std::pair{Level::note, Given::stands}, std::pair{Level::act, Given::stands},
          std::pair{Level::ask, Given::lapsed}, std::pair{Level::stop, Given::lapsed}}) {
        SmallUnit unit;
        unit.finding("breathless", level, unit.is("trouble"));
        unit.clear("2027-06-10T09:00-04:00");
        EXPECT_EQ(clearance(unit).given, Given::stands);
        unit.answer("trouble", true);
        EXPECT_EQ(clearance(unit).given, expected) << screening::name_of(level);
    }
}

TEST(GivenClearance, DoesNotComeBackByDecidingTheNewAskAlone)
{
    SmallUnit unit;
    unit.finding("breathless", Level::ask, always());
    unit.clear("2027-06-10T09:00-04:00");
    unit.look("2027-06-11T09:00-04:00");
    unit.decide("finding:breathless");
    EXPECT_TRUE(clearance(unit).possible);
    EXPECT_EQ(clearance(unit).given, Given::lapsed);
    unit.clear("2027-06-11T09:00-04:00");
    EXPECT_EQ(clearance(unit).given, Given::stands);
}

TEST(GivenClearance, LastsExactlyTheUnitsDays)
{
    SmallUnit unit;
    unit.start("2027-07-15T10:00").clear("2027-06-20T09:00-04:00").close_list("2027-06-30T09:00-04:00");
    unit.now = at("2027-07-04T09:00-04:00") - std::chrono::seconds{1};
    EXPECT_EQ(clearance(unit).given, Given::stands);
    unit.now = at("2027-07-04T09:00-04:00");
    EXPECT_EQ(clearance(unit).given, Given::stands);
    unit.now = at("2027-07-04T09:00-04:00") + std::chrono::seconds{1};
    EXPECT_EQ(clearance(unit).given, Given::lapsed);
    EXPECT_THAT(clearance(unit).lapsed_because, HasSubstr("14 days"));
}

TEST(GivenClearance, FollowsTheUnitsOwnDays)
{
    SmallUnit unit;
    unit.set("clearance_days", Exact{2}).clear("2027-06-08T09:00-04:00");
    EXPECT_EQ(clearance(unit).given, Given::stands);
    unit.set("clearance_days", Exact{1});
    EXPECT_EQ(clearance(unit).given, Given::lapsed);
}

TEST(GivenClearance, LapsesWithAReopenedList)
{
    SmallUnit unit;
    unit.clear("2027-06-10T09:00-04:00");
    unit.record.medicines.closed.reset();
    EXPECT_EQ(clearance(unit).given, Given::lapsed);
    EXPECT_THAT(clearance(unit).lapsed_because, HasSubstr("list"));
}

TEST(GivenClearance, ByANurseStandsOnlyWhereNothingAsks)
{
    SmallUnit unit;
    unit.clear("2027-06-10T09:00-04:00", Role::nurse);
    EXPECT_EQ(clearance(unit).given, Given::stands);
    unit.finding("breathless", Level::ask, always());
    unit.decide("finding:breathless").when = at("2027-06-10T08:00-04:00");
    EXPECT_TRUE(clearance(unit).possible);
    EXPECT_EQ(clearance(unit).given, Given::lapsed);
    unit.clear("2027-06-10T09:00-04:00", Role::endoscopist);
    EXPECT_EQ(clearance(unit).given, Given::stands);
}

TEST(GivenClearance, ByAClerkASchedulerAManagerOrAnAuditorIsNone)
{
    for (const Role role : {Role::arrival_clerk, Role::scheduler, Role::manager, Role::auditor}) {
        SmallUnit unit;
        unit.clear("2027-06-10T09:00-04:00", role);
        EXPECT_EQ(clearance(unit).given, Given::lapsed) << screening::name_of(role);
    }
}

}  // namespace
}  // namespace foreday::checklists
