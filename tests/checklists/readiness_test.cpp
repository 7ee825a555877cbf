#include "checklists/readiness.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/checklists/on_the_day.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::HowSure;
using screening::ReadinessKind;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;

using enum ReadinessState;
using enum Verdict;
using enum ReadinessKind;

// --- which items apply ---------------------------------------------------------------------------------

TEST(ChecklistOfTheDay, HoldsAnItemUnlessItsConditionIsNo)
{
    for (const auto& [answer, listed] :
         {std::pair{std::optional<bool>{true}, true}, std::pair{std::optional<bool>{}, true},
          std::pair{std::optional<bool>{false}, false}}) {
        SmallUnit unit = on_the_day();
        confirmed(unit, "identity_confirmed", true).when = unit.is("worry");
        if (answer) {
            unit.answer("worry", *answer);
        }
        EXPECT_EQ(unit.look().readiness.items.size(), listed ? 1U : 0U);
        EXPECT_EQ(verdict(unit), listed ? not_ready : may_go_in);
    }
}

TEST(ChecklistOfTheDay, NamesWhatWouldSettleWhetherAnItemApplies)
{
    SmallUnit unit = on_the_day();
    confirmed(unit, "identity_confirmed", true).when = unit.is("worry");
    EXPECT_THAT(unit.look().readiness.reasons, Contains(HasSubstr("worry")));
}

TEST(ChecklistOfTheDay, KeepsTheOrderOfTheProtocol)
{
    SmallUnit unit = on_the_day();
    for (const char* id : {"second", "first", "third"}) {
        unit.readiness(id, to_be_noted);
    }
    const auto items = unit.look().readiness.items;
    ASSERT_EQ(items.size(), 3U);
    EXPECT_EQ(items[0].id, "second");
    EXPECT_EQ(items[1].id, "first");
    EXPECT_EQ(items[2].id, "third");
}

// --- the verdict ---------------------------------------------------------------------------------------

/// One item of each kind and outcome: `answer` none is blank, true met, false not met.
SmallUnit with_item(ReadinessKind kind, std::optional<bool> answer)
{
    SmallUnit unit = on_the_day();
    confirmed(unit, "identity_confirmed", true).kind = kind;
    if (answer) {
        unit.answer("identity_confirmed", *answer);
    }
    return unit;
}

TEST(ReadinessVerdict, ByKindAndOutcome)
{
    struct Row {
        ReadinessKind kind;
        std::optional<bool> answer;
        Verdict verdict;
    };
    const Row rows[] = {
        {holds_the_patient, true, may_go_in},
        {holds_the_patient, false, not_ready},
        {holds_the_patient, {}, not_ready},
        {needs_a_clinician, true, may_go_in},
        {needs_a_clinician, false, waiting_for_a_clinician},
        {needs_a_clinician, {}, not_ready},
        {to_be_noted, true, may_go_in},
        {to_be_noted, false, may_go_in},
        {to_be_noted, {}, may_go_in},
    };
    for (const Row& row : rows) {
        const SmallUnit unit = with_item(row.kind, row.answer);
        EXPECT_EQ(verdict(unit), row.verdict) << screening::name_of(row.kind);
        EXPECT_EQ(unit.look().readiness.reasons.empty(), row.verdict == may_go_in);
    }
}

TEST(ReadinessVerdict, AnItemAClinicianHasLetPassNoLongerKeepsThePatient)
{
    for (const ReadinessKind kind : {holds_the_patient, needs_a_clinician}) {
        for (const std::optional<bool> answer : {std::optional<bool>{false}, std::optional<bool>{}}) {
            SmallUnit unit = with_item(kind, answer);
            unit.record.arrival->let_pass = {{"about identity_confirmed", ""}};
            EXPECT_NE(verdict(unit), may_go_in);  // another item
            unit.record.arrival->let_pass = {{"identity_confirmed", ""}};
            EXPECT_EQ(only_item(unit).state, let_pass);
            EXPECT_EQ(verdict(unit), may_go_in);
        }
    }
}

TEST(ReadinessVerdict, AnItemIsLetPassAsItReadThenAndNotAsItReadsByNow)
{
    SmallUnit unit = with_item(needs_a_clinician, false);
    const std::string read_then = only_item(unit).why;
    unit.record.arrival->let_pass = {{"identity_confirmed", read_then}};
    EXPECT_EQ(only_item(unit).state, let_pass);
    EXPECT_EQ(only_item(unit).why, read_then);
    unit.record.arrival->let_pass = {{"identity_confirmed", read_then + ", and more"}};
    EXPECT_EQ(only_item(unit).state, not_met);
    EXPECT_EQ(verdict(unit), waiting_for_a_clinician);
}

TEST(ReadinessVerdict, WhatIsMetStaysMetThoughLetPass)
{
    SmallUnit unit = with_item(needs_a_clinician, true);
    unit.record.arrival->let_pass = {{"identity_confirmed", ""}};
    EXPECT_EQ(only_item(unit).state, met);
}

TEST(ReadinessVerdict, NotReadyComesBeforeWaitingAndEveryReasonIsGiven)
{
    SmallUnit unit = on_the_day();
    confirmed(unit, "alone_at_home", false).kind = needs_a_clinician;
    confirmed(unit, "identity_confirmed", true);
    unit.answer("alone_at_home", true);
    EXPECT_EQ(verdict(unit), not_ready);
    EXPECT_THAT(unit.look().readiness.reasons,
                ElementsAre(HasSubstr("identity_confirmed"), HasSubstr("alone_at_home")));
}

TEST(ReadinessVerdict, NotHereYetWhileThePatientIsNotHere)
{
    SmallUnit unit = with_item(holds_the_patient, true);
    unit.record.arrival->here_since.reset();
    EXPECT_EQ(verdict(unit), not_here_yet);
    EXPECT_THAT(unit.look().readiness.reasons, ElementsAre(HasSubstr("not here")));
    EXPECT_EQ(unit.look().readiness.items.size(), 1U);  // the list is there to be worked on
    unit.record.arrival.reset();
    EXPECT_EQ(verdict(unit), not_here_yet);
}

TEST(ReadinessVerdict, HereFromTheMinuteThePatientWasReceived)
{
    SmallUnit unit = with_item(holds_the_patient, true);  // received at 09:00
    unit.last_answer("identity_confirmed").at = at("2027-06-17T08:00-04:00");
    EXPECT_EQ(verdict(unit.look("2027-06-17T08:59-04:00")), not_here_yet);
    EXPECT_EQ(verdict(unit.look("2027-06-17T09:00-04:00")), may_go_in);
}

TEST(ReadinessVerdict, WithoutAClearanceWaitsForAClinician)
{
    SmallUnit unit = with_item(holds_the_patient, true);
    unit.record.clearance.reset();
    EXPECT_EQ(verdict(unit), waiting_for_a_clinician);
    EXPECT_THAT(unit.look().readiness.reasons, ElementsAre(HasSubstr("cleared")));
}

TEST(ReadinessVerdict, WithALapsedClearanceWaitsAndSaysWhy)
{
    SmallUnit unit = with_item(holds_the_patient, true);
    unit.start("2027-06-17T10:30");
    EXPECT_EQ(verdict(unit), waiting_for_a_clinician);
    EXPECT_THAT(unit.look().readiness.reasons, ElementsAre(AllOf(HasSubstr("lapsed"), HasSubstr("moved"))));
}

TEST(ReadinessVerdict, ANewAskOfTheDayTakesItBackAndNamesIt)
{
    SmallUnit unit = with_item(holds_the_patient, true);
    EXPECT_EQ(verdict(unit), may_go_in);
    unit.finding("breathless", screening::Level::ask, always());
    EXPECT_EQ(verdict(unit), waiting_for_a_clinician);
    EXPECT_THAT(unit.look().readiness.reasons, Contains(HasSubstr("breathless")));
}

TEST(EarliestPossibleTime, IsTheLatestOfWhatOnlyTimeWillMend)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours");
    fasting(unit, "light meal", "light_meal_hours");
    drank(unit, "clear liquid", "2027-06-17T09:00");  // until 11:00
    drank(unit, "light meal", "2027-06-17T05:30");    // until 11:30
    EXPECT_EQ(verdict(unit), not_ready);
    EXPECT_EQ(text(unit.look().readiness.earliest), "2027-06-17T11:30-04:00");
}

TEST(EarliestPossibleTime, IsNotGivenWhereMoreThanTimeIsMissing)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T09:00");
    EXPECT_EQ(text(unit.look().readiness.earliest), "2027-06-17T11:00-04:00");
    confirmed(unit, "identity_confirmed", true);
    EXPECT_EQ(text(unit.look().readiness.earliest), "none");
    EXPECT_EQ(text(unit.look().readiness.items.front().earliest), "2027-06-17T11:00-04:00");
    unit.answer("identity_confirmed", true);
    unit.record.clearance.reset();
    EXPECT_EQ(text(unit.look().readiness.earliest), "none");
}

TEST(EarliestPossibleTime, IsNotGivenWhereNothingIsMissing)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T06:00");
    EXPECT_FALSE(unit.look().readiness.earliest);
}

TEST(EarliestPossibleTime, DoesNotComeFromWhatIsOnlyNoted)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours").kind = to_be_noted;
    drank(unit, "clear liquid", "2027-06-17T09:00");
    EXPECT_FALSE(unit.look().readiness.earliest);
    EXPECT_EQ(verdict(unit), may_go_in);
}

TEST(ReadinessItems, CarryTheirGround)
{
    SmallUnit unit = on_the_day();
    screening::ReadinessRule& rule = confirmed(unit, "identity_confirmed", true);
    rule.would_make_it_ready = "Name and date of birth said by the patient";
    rule.head.sources = {{"a_document", "on identity"}};
    rule.head.who = {screening::Role::arrival_clerk};
    const ReadinessItem item = only_item(unit);
    EXPECT_EQ(item.would_make_it_ready, "Name and date of birth said by the patient");
    EXPECT_THAT(item.sources, ElementsAre(screening::SourceUse{"a_document", "on identity"}));
    EXPECT_THAT(item.who, ElementsAre(screening::Role::arrival_clerk));
    EXPECT_EQ(item.sure, HowSure::published);
}

}  // namespace
}  // namespace foreday::checklists
