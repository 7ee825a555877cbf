#include "checklists/restart.h"

#include <gtest/gtest.h>

#include <optional>

#include "tests/checklists/on_the_day.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::BleedingRisk;
using screening::Exact;
using screening::HoldAction;
using screening::HowSure;
using screening::RestartFigure;

RestartFigure figure(int earliest, std::optional<int> latest = {}, HowSure sure = HowSure::published)
{
    RestartFigure made;
    made.earliest = date::days{earliest};
    if (latest) {
        made.latest = date::days{*latest};
    }
    made.sources = {{"a_study", "table of restart"}};
    made.sure = sure;
    return made;
}

/// Apixaban left out for two days before a colonoscopy on 17 June at which polyps may be removed, agreed by
/// the endoscopist. Restart on the next day after a low bleeding risk, on the second to third after a high
/// one.
SmallUnit a_pause()
{
    SmallUnit unit = on_the_day();
    auto& rule = unit.hold_rule("apixaban_two_days", "apixaban", HoldAction::omit_days, Exact{2});
    rule.restart_after_low = figure(1);
    rule.restart_after_high = figure(2, 3);
    unit.take("m1", "apixaban", daily({"08:00", "20:00"}));
    unit.decide("hold:m1");
    unit.record.done = at("2027-06-17T10:40-04:00");
    return unit;
}

void really_done(SmallUnit& unit, std::initializer_list<std::string_view> ids)
{
    unit.record.done_procedures.clear();
    for (const std::string_view id : ids) {
        unit.record.done_procedures.push_back(screening::find_procedure(unit.rules.protocol, id).value());
    }
}

std::optional<RestartProposal> proposed(const SmallUnit& unit)
{
    return unit.look().restart_proposals.front();
}

/// "2027-06-19", "2027-06-19 to 2027-06-20", or "none".
std::string restart(const SmallUnit& unit)
{
    const auto proposal = proposed(unit);
    if (!proposal) {
        return "none";
    }
    const std::string earliest = screening::iso_date(proposal->earliest);
    return proposal->latest ? earliest + " to " + screening::iso_date(*proposal->latest) : earliest;
}

TEST(RestartOfAMarkedMedicine, AfterAHighBleedingRiskIsTheSecondToThirdDayAfterTheDay)
{
    SmallUnit unit = a_pause();
    really_done(unit, {"colonoscopy", "polypectomy"});
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
}

TEST(RestartOfAMarkedMedicine, AfterALowBleedingRiskIsTheNextDay)
{
    SmallUnit unit = a_pause();
    really_done(unit, {"colonoscopy"});
    EXPECT_EQ(restart(unit), "2027-06-18");
    EXPECT_EQ(proposed(unit)->after, BleedingRisk::low);
}

TEST(RestartOfAMarkedMedicine, WithNoDaysBetweenIsTheDayItself)
{
    SmallUnit unit = a_pause();
    unit.rules.protocol.holds.front().restart_after_high = figure(0);
    really_done(unit, {"colonoscopy", "polypectomy"});
    EXPECT_EQ(restart(unit), "2027-06-17");
}

TEST(RestartOfAMarkedMedicine, GoesByWhatWasDoneAlsoWhereMoreThanBookedWasDone)
{
    SmallUnit unit = a_pause();
    unit.answer("diagnostic_only", true);  // said before: nothing will be removed
    EXPECT_EQ(restart(unit), "2027-06-18") << "as booked";
    really_done(unit, {"colonoscopy", "polypectomy"});
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
    EXPECT_FALSE(proposed(unit)->as_booked);
}

TEST(RestartOfAMarkedMedicine, GoesByTheBookingWhereNobodyHasSaidWhatWasDone)
{
    const SmallUnit unit = a_pause();
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20") << "polyps may have been removed";
    EXPECT_TRUE(proposed(unit)->as_booked);
    EXPECT_EQ(proposed(unit)->after, BleedingRisk::high);
}

TEST(RestartOfAMarkedMedicine, AnInterventionCountsAtItsOwnRiskWhateverTheExamination)
{
    SmallUnit unit = a_pause();
    really_done(unit, {"polypectomy"});
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
    really_done(unit, {"upper_endoscopy"});
    EXPECT_EQ(restart(unit), "2027-06-18");
}

TEST(RestartOfAMarkedMedicine, IsProposedAndTheEndoscopistDecides)
{
    const SmallUnit unit = a_pause();
    ASSERT_TRUE(proposed(unit));
    EXPECT_TRUE(proposed(unit)->endoscopist_decides);
    EXPECT_EQ(proposed(unit)->rule, "apixaban_two_days");
    EXPECT_EQ(proposed(unit)->sure, HowSure::published);
    ASSERT_EQ(proposed(unit)->sources.size(), 1U);
    EXPECT_EQ(proposed(unit)->sources.front().locator, "table of restart");
}

TEST(RestartOfAMarkedMedicine, IsNotProposedBeforeTheCaseIsDone)
{
    SmallUnit unit = a_pause();
    unit.record.done.reset();
    EXPECT_EQ(restart(unit), "none");
    really_done(unit, {"colonoscopy", "polypectomy"});
    EXPECT_EQ(restart(unit), "none") << "no end of the procedure";
}

TEST(RestartOfAMarkedMedicine, IsNotProposedWithoutAFigureForWhatWasDone)
{
    SmallUnit unit = a_pause();
    unit.rules.protocol.holds.front().restart_after_low.reset();
    really_done(unit, {"colonoscopy"});
    EXPECT_EQ(restart(unit), "none") << "the figure after a high risk is not one after a low risk";
    really_done(unit, {"colonoscopy", "polypectomy"});
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
    unit.rules.protocol.holds.front().restart_after_high.reset();
    EXPECT_EQ(restart(unit), "none");
}

TEST(RestartOfAMarkedMedicine, FromMemoryOrCommonPracticeNeedsTheRuleConfirmed)
{
    for (const HowSure sure : {HowSure::common_practice, HowSure::from_memory}) {
        SmallUnit unit = a_pause();
        unit.rules.protocol.holds.front().restart_after_high = figure(2, 3, sure);
        EXPECT_EQ(restart(unit), "none") << name_of(sure);
        unit.confirm("another_rule");
        EXPECT_EQ(restart(unit), "none") << name_of(sure);
        unit.confirm("apixaban_two_days");
        EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20") << name_of(sure);
        EXPECT_EQ(proposed(unit)->sure, HowSure::unit_policy);
    }
    for (const HowSure sure : {HowSure::published, HowSure::reported, HowSure::unit_policy}) {
        SmallUnit unit = a_pause();
        unit.rules.protocol.holds.front().restart_after_high = figure(2, 3, sure);
        EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20") << name_of(sure);
    }
}

TEST(RestartOfAMarkedMedicine, IsNotProposedForAPauseThatNobodyAgreedTo)
{
    SmallUnit unit = a_pause();
    unit.record.decisions.clear();
    EXPECT_EQ(restart(unit), "none");
    unit.decide("hold:m1", screening::Role::nurse);
    EXPECT_EQ(restart(unit), "none") << "a role that may not agree";
    unit.decide("hold:m1").answer = screening::DecisionAnswer::ask_outside;
    EXPECT_EQ(restart(unit), "none");
    unit.decide("hold:m1").answer = screening::DecisionAnswer::not_go_ahead;
    EXPECT_EQ(restart(unit), "none");
    unit.decide("hold:m1");
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
}

TEST(RestartOfAMarkedMedicine, IsNotProposedForWhatWasTakenOn)
{
    SmallUnit unit = a_pause();
    unit.rules.protocol.holds.clear();
    unit.hold_rule("apixaban_goes_on", "apixaban", HoldAction::take_as_usual).restart_after_high =
        figure(2, 3);
    EXPECT_EQ(restart(unit), "none");
}

/// The same pause, but a second rule asks first.
SmallUnit asked_first()
{
    SmallUnit unit = a_pause();
    unit.record.decisions.clear();
    unit.hold_rule("valve", "apixaban", HoldAction::ask_first);
    return unit;
}

TEST(RestartAfterAskFirst, IsNotProposedWithoutAnAgreedPlan)
{
    SmallUnit unit = asked_first();
    EXPECT_EQ(restart(unit), "none");
    unit.decide("hold:m1");
    EXPECT_EQ(restart(unit), "none") << "agreed to what? no last dose was stated";
    unit.decide("hold:m1").answer = screening::DecisionAnswer::change;
    EXPECT_EQ(restart(unit), "none") << "changed, and no last dose was stated";
}

TEST(RestartAfterAskFirst, IsProposedOnceAClinicianStatedTheLastDose)
{
    SmallUnit unit = asked_first();
    auto& decision = unit.decide("hold:m1");
    decision.answer = screening::DecisionAnswer::change;
    decision.last_dose = day("2027-06-14");
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
    EXPECT_EQ(proposed(unit)->rule, "apixaban_two_days") << "the rule that has the figure";
    unit.record.decisions.front().role = screening::Role::nurse;
    EXPECT_EQ(restart(unit), "none");
}

TEST(RestartAfterAskFirst, TakesTheLaterOfTwoFigures)
{
    SmallUnit unit = asked_first();
    unit.hold_rule("apixaban_four_days", "apixaban", HoldAction::omit_days, Exact{4}).restart_after_high =
        figure(4);
    auto& decision = unit.decide("hold:m1");
    decision.answer = screening::DecisionAnswer::change;
    decision.last_dose = day("2027-06-12");
    EXPECT_EQ(restart(unit), "2027-06-21");
}

TEST(RestartAfterAskFirst, IsNotProposedWhileItIsOpenWhichRuleHolds)
{
    SmallUnit unit = a_pause();
    unit.rules.protocol.holds.front().when = unit.is("worry");  // not asked
    unit.record.decisions.clear();
    auto& decision = unit.decide("hold:m1");
    decision.answer = screening::DecisionAnswer::change;
    decision.last_dose = day("2027-06-14");
    EXPECT_EQ(restart(unit), "none");
}

TEST(RestartAfterAskFirst, FollowsRulesThatPullApartOnceAPersonDecided)
{
    SmallUnit unit = a_pause();
    auto& keeps = unit.hold_rule("apixaban_protects", "apixaban", HoldAction::take_as_usual);
    keeps.protects = screening::Protects::by_taking;
    EXPECT_EQ(unit.look().assessment.holds.front().plan.action, HoldAction::ask_first);
    EXPECT_EQ(restart(unit), "none");
    auto& decision = unit.decide("hold:m1");
    decision.answer = screening::DecisionAnswer::change;
    decision.last_dose = day("2027-06-14");
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
}

TEST(RestartInCivilDays, CountsFromTheUnitsDayOnWhichTheProcedureEnded)
{
    SmallUnit unit = a_pause();
    unit.record.done = at("2027-06-17T23:59-04:00");  // the 18th in UTC
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
    unit.record.done = at("2027-06-18T00:00-04:00");
    EXPECT_EQ(restart(unit), "2027-06-20 to 2027-06-21");
    unit.record.done = at("2027-06-17T00:00-04:00");
    EXPECT_EQ(restart(unit), "2027-06-19 to 2027-06-20");
}

TEST(RestartInCivilDays, AClockChangeMovesNoDate)
{
    struct Change {
        const char* start;
        const char* done;
        const char* next_day;
        const char* later;
    };
    const Change changes[] = {
        // The clocks go forward on Sunday 14 March and back on Sunday 7 November.
        {"2027-03-12T10:00", "2027-03-12T23:30-05:00", "2027-03-13", "2027-03-14 to 2027-03-15"},
        {"2027-03-13T10:00", "2027-03-13T23:30-05:00", "2027-03-14", "2027-03-15 to 2027-03-16"},
        {"2027-03-14T10:00", "2027-03-14T00:30-05:00", "2027-03-15", "2027-03-16 to 2027-03-17"},
        {"2027-11-05T10:00", "2027-11-05T23:30-04:00", "2027-11-06", "2027-11-07 to 2027-11-08"},
        {"2027-11-06T10:00", "2027-11-06T23:30-04:00", "2027-11-07", "2027-11-08 to 2027-11-09"},
        {"2027-11-07T10:00", "2027-11-07T00:30-04:00", "2027-11-08", "2027-11-09 to 2027-11-10"},
        {"2027-11-07T10:00", "2027-11-07T23:30-05:00", "2027-11-08", "2027-11-09 to 2027-11-10"},
    };
    for (const Change& change : changes) {
        SCOPED_TRACE(change.done);
        SmallUnit unit = a_pause();
        unit.start(change.start);
        unit.record.done = at(change.done);
        EXPECT_EQ(restart(unit), change.later);
        really_done(unit, {"colonoscopy"});
        EXPECT_EQ(restart(unit), change.next_day);
    }
}

TEST(RestartInCivilDays, AMonthsAndAYearsEndAreNothingSpecial)
{
    SmallUnit unit = a_pause();
    unit.start("2027-12-30T10:00");
    unit.record.done = at("2027-12-30T10:40-05:00");
    EXPECT_EQ(restart(unit), "2028-01-01 to 2028-01-02");
    unit.start("2028-02-27T10:00");
    unit.record.done = at("2028-02-27T10:40-05:00");
    EXPECT_EQ(restart(unit), "2028-02-29 to 2028-03-01");
}

TEST(RestartOutOfScope, IsNeverProposed)
{
    SmallUnit unit = a_pause();
    really_done(unit, {"bronchoscopy"});
    EXPECT_EQ(restart(unit), "none") << "done, and no procedure we have plans for";
    really_done(unit, {"colonoscopy"});
    EXPECT_EQ(restart(unit), "2027-06-18");
    unit.record.booking.patient.born = day("2009-06-18");  // eighteen a day after
    EXPECT_EQ(restart(unit), "none");
    unit.record.booking.patient.born = day("2009-06-17");
    EXPECT_EQ(restart(unit), "2027-06-18");
}

SmallUnit an_unmarked_pause()
{
    SmallUnit unit = on_the_day();
    unit.hold_rule("ibuprofen_one_day", "ibuprofen", HoldAction::omit_days, Exact{1});
    unit.take("m1", "ibuprofen", daily({"08:00"}));
    return unit;
}

TEST(RestartOfAnUnmarkedMedicine, MayGoOnOnTheDayWhereNoFigureSaysOtherwise)
{
    SmallUnit unit = an_unmarked_pause();
    EXPECT_EQ(restart(unit), "none") << "not done";
    unit.record.done = at("2027-06-17T10:40-04:00");
    EXPECT_EQ(restart(unit), "2027-06-17");
    EXPECT_FALSE(proposed(unit)->endoscopist_decides);
}

TEST(RestartOfAnUnmarkedMedicine, IsTheUnitsDateNotThatOfUtc)
{
    SmallUnit unit = an_unmarked_pause();
    unit.record.done = at("2027-06-17T20:30-04:00");  // the 18th in UTC
    EXPECT_EQ(restart(unit), "2027-06-17");
}

TEST(RestartOfAnUnmarkedMedicine, FollowsAFigureWhereItsRuleHasOne)
{
    SmallUnit unit = an_unmarked_pause();
    unit.record.done = at("2027-06-17T10:40-04:00");
    auto& rule = unit.rules.protocol.holds.front();
    rule.restart_after_high = figure(5);
    EXPECT_EQ(restart(unit), "2027-06-22");
    EXPECT_FALSE(proposed(unit)->endoscopist_decides);
    rule.restart_after_high = figure(5, {}, HowSure::from_memory);
    EXPECT_EQ(restart(unit), "none") << "not earlier than a figure nobody has confirmed";
    really_done(unit, {"colonoscopy"});
    EXPECT_EQ(restart(unit), "2027-06-17") << "no figure after a low risk";
}

TEST(RestartOfAnUnmarkedMedicine, IsNotGivenForWhatWasNotLeftOut)
{
    SmallUnit unit = on_the_day();
    unit.hold_rule("iron_goes_on", "iron", HoldAction::take_as_usual);
    unit.take("m1", "iron", daily({"08:00"}));
    unit.record.done = at("2027-06-17T10:40-04:00");
    EXPECT_EQ(restart(unit), "none");
}

}  // namespace
}  // namespace foreday::checklists
