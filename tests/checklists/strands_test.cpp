#include "checklists/strands.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/checklists/case_at_work.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Level;

TEST(ScreeningStrandOfACase, GoesFromNotBegunToFinished)
{
    CaseAtWork unit;
    EXPECT_EQ(unit.strands().screening, ScreeningStrand::finished);
    EXPECT_EQ(unit.strands().screening_words, "Screening is finished.");
    unit.record.medicines.closed.reset();
    EXPECT_EQ(unit.strands().screening, ScreeningStrand::begun);
    EXPECT_EQ(unit.strands().screening_words,
              "Screening is begun; every question is asked, and the medicine list is not closed.");
    unit.forget("trouble");
    EXPECT_EQ(unit.strands().screening_words, "Screening is begun; 1 question is not asked yet.");
    unit.forget("slow_stomach");
    EXPECT_EQ(unit.strands().screening_words, "Screening is begun; 2 questions are not asked yet.");
    for (const char* asked : {"heart_failure", "diagnostic_only", "journey_minutes", "worry"}) {
        unit.forget(asked);
    }
    EXPECT_EQ(unit.strands().screening, ScreeningStrand::not_begun);
}

TEST(ScreeningStrandOfACase, IsBegunAgainOnceTheListIsTooOld)
{
    CaseAtWork unit;
    unit.close_list("2027-06-01T09:00-04:00").look("2027-06-15T09:00-04:00");
    EXPECT_EQ(unit.strands().screening, ScreeningStrand::finished);
    unit.look("2027-06-15T09:01-04:00");
    EXPECT_EQ(unit.strands().screening, ScreeningStrand::begun);
}

TEST(DecisionStrandOfACase, WaitsThenIsDecidedThenOpensAgain)
{
    CaseAtWork unit;
    EXPECT_EQ(unit.strands().decision, DecisionStrand::nothing_to_decide);
    unit.finding("breathless", Level::ask, always());
    EXPECT_EQ(unit.strands().decision, DecisionStrand::waiting);
    EXPECT_EQ(unit.strands().waiting_for, "endoscopist");
    EXPECT_EQ(text(unit.strands().decide_by), "2027-06-16T09:00-04:00");
    EXPECT_EQ(unit.strands().decision_words,
              "To be decided: 1 item undecided by Wed 16 Jun 2027, 09:00; waiting for endoscopist.");
    unit.decide("finding:breathless");
    EXPECT_EQ(unit.strands().decision, DecisionStrand::decided);
    EXPECT_EQ(unit.strands().decision_words, "Everything is decided.");
}

TEST(DecisionStrandOfACase, OpensAgainWhenWhatWasDecidedOnHasChanged)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    auto& decision = unit.decide("finding:breathless");
    decision.fingerprint = "of another result";
    EXPECT_EQ(unit.strands().decision, DecisionStrand::opened_again);
    EXPECT_THAT(unit.strands().decision_words, testing::StartsWith("Opened again, "));
}

TEST(DecisionStrandOfACase, SaysWhomTheMostUrgentItemWaitsForOutside)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    auto& ask = unit.ask_outside("finding:breathless", "2027-06-14");
    EXPECT_EQ(unit.strands().waiting_for, "the cardiologist");
    ask.came = at("2027-06-11T09:00-04:00");
    EXPECT_EQ(unit.strands().waiting_for, "endoscopist");
}

TEST(ToldStrandOfACase, GoesFromNothingToToldToNoLongerRight)
{
    CaseAtWork unit;
    unit.forget("trouble");
    EXPECT_EQ(unit.strands().told, ToldStrand::nothing_to_tell_yet);
    unit.answer("trouble", false);
    EXPECT_EQ(unit.strands().told, ToldStrand::to_be_told);
    EXPECT_EQ(text(unit.strands().tell_by), "2027-06-16T13:00-04:00");
    EXPECT_EQ(unit.strands().told_words, "To be told by Wed 16 Jun 2027, 13:00.");
    unit.tell("2027-06-10T09:30-04:00");
    EXPECT_EQ(unit.strands().told, ToldStrand::told);
    EXPECT_EQ(unit.strands().tell_by, std::nullopt);
    EXPECT_EQ(unit.strands().told_words,
              "Told by Nurse Example on Thu 10 Jun 2027, 09:30; without a sheet, said back.");
    unit.work.moved_at = at("2027-06-10T09:31-04:00");
    EXPECT_EQ(unit.strands().told, ToldStrand::no_longer_right);
    EXPECT_EQ(unit.strands().told_words,
              "Told something that is no longer right; to be told anew by Wed 16 Jun 2027, 13:00.");
}

CaseAtWork arrived()
{
    CaseAtWork unit;
    unit.look("2027-06-17T09:30-04:00");
    unit.close_list("2027-06-10T09:00-04:00").clear("2027-06-16T16:00-04:00");
    unit.record.arrival.emplace().here_since = wall("2027-06-17T09:00");
    unit.record.arrival->nothing_else_taken = true;
    return unit;
}

TEST(DayStrandOfACase, IsExpectedUntilThePatientIsHere)
{
    CaseAtWork unit = arrived();
    unit.look("2027-06-17T08:59-04:00");
    EXPECT_EQ(unit.strands().day, DayStrand::expected);
    EXPECT_EQ(unit.strands().day_words, "Expected for Thu 17 Jun 2027, 10:00.");
    unit.look("2027-06-17T09:00-04:00");
    EXPECT_NE(unit.strands().day, DayStrand::expected);
}

TEST(DayStrandOfACase, HereMayGoInGoneInAndDone)
{
    CaseAtWork unit = arrived();
    EXPECT_EQ(unit.strands().day, DayStrand::may_go_in) << unit.strands().day_words;
    auto& rule = unit.readiness("identity", screening::ReadinessKind::holds_the_patient);
    rule.check = screening::ConfirmedCheck{unit.fact("identity_confirmed"), true};
    EXPECT_EQ(unit.strands().day, DayStrand::here);
    EXPECT_THAT(unit.strands().day_words, testing::StartsWith("Here, and not ready yet"));
    unit.work.gone_in = at("2027-06-17T10:05-04:00");
    EXPECT_EQ(unit.strands().day, DayStrand::gone_in);
    EXPECT_EQ(unit.strands().day_words, "Gone in on Thu 17 Jun 2027, 10:05.");
    unit.record.done = at("2027-06-17T10:40-04:00");
    EXPECT_EQ(unit.strands().day, DayStrand::done);
    EXPECT_EQ(unit.strands().day_words, "Done; the procedure ended on Thu 17 Jun 2027, 10:40.");
}

TEST(DayStrandOfACase, WaitsForAClinician)
{
    CaseAtWork unit = arrived();
    auto& rule = unit.readiness("alone", screening::ReadinessKind::needs_a_clinician);
    rule.check = screening::ConfirmedCheck{unit.fact("alone_at_home"), false};
    unit.answer("alone_at_home", true);
    EXPECT_EQ(unit.strands().day, DayStrand::waiting_for_a_clinician);
    EXPECT_EQ(unit.strands().day_words, "Here, waiting for endoscopist.");
}

TEST(DayStrandOfACase, SaysHowTheSessionEnded)
{
    CaseAtWork unit;
    const auto ended = [&](EndingKind kind) {
        unit.end(kind, "2027-06-17T10:30-04:00");
        EXPECT_EQ(unit.strands().day, DayStrand::called_off);
        return unit.strands().day_words;
    };
    EXPECT_EQ(ended(EndingKind::called_off), "Called off: a fall, noted by Nurse Example.");
    EXPECT_EQ(ended(EndingKind::did_not_come), "Did not come: a fall, noted by Nurse Example.");
    EXPECT_EQ(ended(EndingKind::not_today), "Not today: a fall, noted by Nurse Example.");
}

TEST(ClosingStrandOfACase, GoesFromNotYetToClosed)
{
    CaseAtWork unit = with_warfarin_told();
    EXPECT_EQ(unit.strands().closing, ClosingStrand::not_yet);
    unit.record.done = at("2027-06-17T10:40-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::restart_to_be_decided);
    EXPECT_EQ(unit.strands().closing_words, "What to start again is to be decided: warfarin.");
    unit.restart("hold:m1", "2027-06-17T10:50-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::restart_to_be_told);
    unit.work.restarts.back().told = at("2027-06-17T11:00-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::restart_told);
    EXPECT_EQ(unit.strands().closing_words, "What to start again is told: warfarin; the case can be closed.");
    unit.work.closed = at("2027-06-17T11:05-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::closed);
}

TEST(ClosingStrandOfACase, IsOpenAgainWhileARestartDecidedOnceClosedIsUntold)
{
    CaseAtWork unit = with_warfarin_told();
    unit.record.done = at("2027-06-17T10:40-04:00");
    unit.restart("hold:m1", "2027-06-17T10:50-04:00").told = at("2027-06-17T11:00-04:00");
    unit.work.closed = at("2027-06-17T11:05-04:00");
    ASSERT_EQ(unit.strands().closing, ClosingStrand::closed);
    unit.restart("hold:m1", "2027-06-17T11:05-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::restart_to_be_told);
    unit.work.restarts.back().told = at("2027-06-17T11:20-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::closed);
}

TEST(ClosingStrandOfACase, HasNothingToStartAgainWhereNothingWasLeftOut)
{
    CaseAtWork unit;
    unit.record.done = at("2027-06-17T10:40-04:00");
    EXPECT_EQ(unit.strands().closing, ClosingStrand::nothing_to_start_again);
}

TEST(ClosingStrandOfACase, AfterACalledOffSessionTheToldPauseIsStillToBeEnded)
{
    CaseAtWork unit = with_warfarin_told();
    unit.end(EndingKind::called_off, "2027-06-10T11:30-04:00");  // told, and not begun
    EXPECT_EQ(unit.strands().closing, ClosingStrand::restart_to_be_decided);
    CaseAtWork untold = with_warfarin();
    untold.end(EndingKind::called_off, "2027-06-10T11:30-04:00");
    EXPECT_EQ(untold.strands().closing, ClosingStrand::nothing_to_start_again);
}

}  // namespace
}  // namespace foreday::checklists
