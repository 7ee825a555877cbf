#include "checklists/calls.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checklists/call_maker.h"
#include "tests/checklists/case_at_work.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using screening::HoldAction;
using screening::Level;

constexpr const char* holiday = "2027-06-14";  // a Monday

/// A draft laid on the working time of Larkmoor: 07:00 to 16:30 from Monday to Friday.
std::string laid(std::string_view due, std::string_view useful, bool monday_off = false)
{
    CaseAtWork unit;
    if (monday_off) {
        unit.rules.policy.calendar.holidays = {day(holiday)};
    }
    const CaseFile file = unit.file();
    const WholeCase whole = unit.look();
    const CallSetting setting{unit.rules, file, whole,   {unit.rules.policy.calendar, unit.rules.zone},
                              {},         {},   unit.now};
    return span(placed(setting, {CallKind::first_call, at(due), at(useful), "", "", {}}));
}

TEST(CallOnWorkingTime, IsDueFromTheNextWorkingMoment)
{
    const auto due = [](std::string_view from, bool monday_off = false) {
        return laid(from, "2027-06-16T12:00-04:00", monday_off).substr(0, 22);
    };
    EXPECT_EQ(due("2027-06-11T06:59-04:00"), "2027-06-11T07:00-04:00");
    EXPECT_EQ(due("2027-06-11T07:00-04:00"), "2027-06-11T07:00-04:00");
    EXPECT_EQ(due("2027-06-11T07:01-04:00"), "2027-06-11T07:01-04:00");
    EXPECT_EQ(due("2027-06-11T16:29-04:00"), "2027-06-11T16:29-04:00");
    EXPECT_EQ(due("2027-06-11T16:30-04:00"), "2027-06-14T07:00-04:00");
    EXPECT_EQ(due("2027-06-12T11:00-04:00"), "2027-06-14T07:00-04:00");
    EXPECT_EQ(due("2027-06-12T11:00-04:00", true), "2027-06-15T07:00-04:00");
}

TEST(CallOnWorkingTime, IsUsefulUntilTheLastWorkingMoment)
{
    const auto useful = [](std::string_view until, bool monday_off = false) {
        return laid("2027-06-03T07:00-04:00", until, monday_off).substr(26);
    };
    EXPECT_EQ(useful("2027-06-15T06:59-04:00"), "2027-06-14T16:30-04:00");
    EXPECT_EQ(useful("2027-06-15T06:59-04:00", true), "2027-06-11T16:30-04:00");
    EXPECT_EQ(useful("2027-06-15T07:00-04:00"), "2027-06-15T07:00-04:00");
    EXPECT_EQ(useful("2027-06-15T16:30-04:00"), "2027-06-15T16:30-04:00");
    EXPECT_EQ(useful("2027-06-15T16:31-04:00"), "2027-06-15T16:30-04:00");
    EXPECT_EQ(useful("2027-06-13T12:00-04:00"), "2027-06-11T16:30-04:00");
}

TEST(CallOnWorkingTime, IsNeverDueAfterItIsUseful)
{
    // Saturday to Sunday: the last working moment there was is Friday's closing.
    EXPECT_EQ(laid("2027-06-12T09:00-04:00", "2027-06-13T18:00-04:00"),
              "2027-06-11T16:30-04:00 .. 2027-06-11T16:30-04:00");
    EXPECT_EQ(laid("2027-06-15T10:01-04:00", "2027-06-15T10:00-04:00"),
              "2027-06-15T10:00-04:00 .. 2027-06-15T10:00-04:00");
}

TEST(FirstCall, IsDueSoManyDaysBeforeTheSessionAndUsefulUntilTheFirstStep)
{
    CaseAtWork unit;
    unit.forget("trouble");
    EXPECT_EQ(span(unit.call(CallKind::first_call)), "2027-06-03T07:00-04:00 .. 2027-06-16T13:00-04:00");
    unit.set("first_call_days", Exact{5});  // Saturday 12 June
    EXPECT_EQ(span(unit.call(CallKind::first_call)), "2027-06-14T07:00-04:00 .. 2027-06-16T13:00-04:00");
    unit.rules.policy.calendar.holidays = {day(holiday)};
    EXPECT_EQ(span(unit.call(CallKind::first_call)), "2027-06-15T07:00-04:00 .. 2027-06-16T13:00-04:00");
}

TEST(FirstCall, IsNotDueBeforeTheBooking)
{
    CaseAtWork unit;
    unit.forget("trouble");
    unit.work.booked_at = at("2027-06-03T06:59-04:00");
    EXPECT_EQ(text(unit.call(CallKind::first_call)->due_from), "2027-06-03T07:00-04:00");
    unit.work.booked_at = at("2027-06-08T15:00-04:00");
    EXPECT_EQ(text(unit.call(CallKind::first_call)->due_from), "2027-06-08T15:00-04:00");
    unit.work.booked_at = at("2027-06-16T15:00-04:00");
    EXPECT_EQ(span(unit.call(CallKind::first_call)), "2027-06-16T13:00-04:00 .. 2027-06-16T13:00-04:00");
}

TEST(FirstCall, SaysWhatIsStillToGoThrough)
{
    CaseAtWork unit;
    unit.forget("trouble");
    EXPECT_EQ(unit.call(CallKind::first_call)->why,
              "The screening is not finished; still to go through: 1 question.");
    unit.forget("slow_stomach").record.medicines.closed.reset();
    EXPECT_EQ(unit.call(CallKind::first_call)->why,
              "The screening is not finished; still to go through: 2 questions and the medicine list.");
    for (const char* asked : {"heart_failure", "diagnostic_only", "journey_minutes", "worry"}) {
        unit.forget(asked);
    }
    EXPECT_EQ(unit.call(CallKind::first_call)->why, "Nobody has screened this patient yet.");
}

TEST(FirstCall, IsNotMadeOnceScreenedClearedOrHere)
{
    CaseAtWork screened;
    EXPECT_EQ(screened.call(CallKind::first_call), std::nullopt);
    CaseAtWork here;
    here.forget("trouble");
    ASSERT_NE(here.call(CallKind::first_call), std::nullopt);
    here.record.arrival.emplace().here_since = wall("2027-06-17T09:00");
    EXPECT_EQ(here.call(CallKind::first_call), std::nullopt);
    CaseAtWork cleared;
    cleared.forget("trouble").clear("2027-06-10T08:00-04:00");
    EXPECT_EQ(cleared.look().clearance.given == ClearanceCheck::Given::stands,
              cleared.call(CallKind::first_call) == std::nullopt);
}

TEST(OutsideAsk, IsRungAboutFromTheDayAfterItsReplyDate)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    auto& ask = unit.ask_outside("finding:breathless", "2027-06-10");
    EXPECT_EQ(span(unit.call(CallKind::outside_ask)), "2027-06-11T07:00-04:00 .. 2027-06-16T09:00-04:00");
    ask.reply_by = day("2027-06-11");
    EXPECT_EQ(span(unit.call(CallKind::outside_ask)), "2027-06-14T07:00-04:00 .. 2027-06-16T09:00-04:00");
    unit.rules.policy.calendar.holidays = {day(holiday)};
    EXPECT_EQ(span(unit.call(CallKind::outside_ask)), "2027-06-15T07:00-04:00 .. 2027-06-16T09:00-04:00");
    EXPECT_EQ(unit.call(CallKind::outside_ask)->id, "outside ask:o1");
}

TEST(OutsideAsk, WithoutAnItemIsUsefulUntilTheLastWorkingHourBeforeTheStart)
{
    CaseAtWork unit;
    unit.ask_outside("", "2027-06-10");
    EXPECT_EQ(span(unit.call(CallKind::outside_ask)), "2027-06-11T07:00-04:00 .. 2027-06-17T09:00-04:00");
}

TEST(OutsideAsk, IsOverOnceItCameOrTheItemIsDecided)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    auto& ask = unit.ask_outside("finding:breathless", "2027-06-10");
    ask.came = at("2027-06-11T08:00-04:00");
    EXPECT_EQ(unit.call(CallKind::outside_ask), std::nullopt);
    ask.came.reset();
    unit.decide("finding:breathless");
    EXPECT_EQ(unit.call(CallKind::outside_ask), std::nullopt);
}

TEST(Undecided, IsACallAtItsDecideBy)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    const auto call = unit.call(CallKind::undecided);
    EXPECT_EQ(span(call), "2027-06-16T09:00-04:00 .. 2027-06-16T09:00-04:00");
    EXPECT_EQ(call->id, "undecided:finding:breathless");
    EXPECT_EQ(call->about, "finding:breathless");
    EXPECT_EQ(call->why,
              "A clinician is to decide by Wed 16 Jun 2027, 09:00: About breathless. If nobody has, ring the "
              "next on the roster.");
    for (const char* asked : {"2027-06-16T08:59-04:00", "2027-06-16T09:00-04:00", "2027-06-16T09:01-04:00"}) {
        unit.look(asked);
        EXPECT_EQ(unit.call(CallKind::undecided), call) << asked;
    }
    unit.decide("finding:breathless");
    EXPECT_EQ(unit.call(CallKind::undecided), std::nullopt);
}

CaseAtWork with_ibuprofen()
{
    CaseAtWork unit;
    unit.hold_rule("one day", "ibuprofen", HoldAction::omit_days, Exact{1});
    unit.take("m2", "ibuprofen", daily({"08:00"}));
    return unit;
}

TEST(ToTell, IsDueWhenTheLastThingIsSettledAndUsefulUntilTheFirstStep)
{
    CaseAtWork unit = with_ibuprofen();  // the last dose is on Tuesday 15 June at 08:00
    EXPECT_EQ(span(unit.call(CallKind::to_tell)), "2027-06-10T09:00-04:00 .. 2027-06-15T08:00-04:00");
    EXPECT_EQ(unit.call(CallKind::to_tell)->why, "To be told about: ibuprofen and the preparation.");
    unit.close_list("2027-06-12T10:00-04:00").look("2027-06-12T10:00-04:00");
    EXPECT_EQ(span(unit.call(CallKind::to_tell)), "2027-06-14T07:00-04:00 .. 2027-06-15T08:00-04:00");
}

TEST(ToTell, WaitsForWhatIsOpenAsLongAsItCan)
{
    CaseAtWork unit = with_ibuprofen();
    unit.finding("breathless", Level::ask, always());
    // Four working hours before Tuesday 08:00: one on Tuesday, three on Monday.
    EXPECT_EQ(span(unit.call(CallKind::to_tell)), "2027-06-14T13:30-04:00 .. 2027-06-15T08:00-04:00");
    unit.rules.policy.calendar.holidays = {day(holiday)};
    EXPECT_EQ(span(unit.call(CallKind::to_tell)), "2027-06-11T13:30-04:00 .. 2027-06-15T08:00-04:00");
}

TEST(ToTell, IsOverOnceTold)
{
    CaseAtWork unit = with_ibuprofen();
    unit.tell_hold("hold:m2", "2027-06-10T09:30-04:00", "2027-06-15");
    EXPECT_EQ(unit.call(CallKind::to_tell), std::nullopt);
    EXPECT_EQ(unit.calls(), std::vector<Call>{});
}

TEST(AfterAChange, IsDueAtOnceWhenTheSessionIsMovedAfterTelling)
{
    CaseAtWork unit = with_ibuprofen();
    unit.tell_hold("hold:m2", "2027-06-10T09:30-04:00", "2027-06-15");
    unit.work.moved_at = at("2027-06-10T09:30-04:00");  // not after it
    EXPECT_EQ(unit.call(CallKind::after_a_change), std::nullopt);
    unit.work.moved_at = at("2027-06-10T09:31-04:00");
    EXPECT_EQ(span(unit.call(CallKind::after_a_change)), "2027-06-10T09:31-04:00 .. 2027-06-15T08:00-04:00");
    EXPECT_EQ(unit.call(CallKind::after_a_change)->why, "The session was moved after the patient was told.");
    EXPECT_EQ(unit.call(CallKind::to_tell), std::nullopt);
    unit.work.moved_at = at("2027-06-12T11:00-04:00");  // a Saturday
    EXPECT_EQ(span(unit.call(CallKind::after_a_change)), "2027-06-14T07:00-04:00 .. 2027-06-15T08:00-04:00");
}

TEST(AfterAChange, NamesTheMedicineThatWasToldOtherwise)
{
    CaseAtWork unit = with_warfarin_told();
    unit.decide("hold:m1").when = at("2027-06-10T11:30-04:00");
    unit.record.decisions.back().answer = screening::DecisionAnswer::change;
    unit.record.decisions.back().last_dose = day("2027-06-10");
    const auto call = unit.call(CallKind::after_a_change);
    EXPECT_EQ(span(call), "2027-06-10T11:30-04:00 .. 2027-06-11T16:30-04:00");
    ASSERT_TRUE(call);
    EXPECT_EQ(call->why, "What the patient was told about warfarin is no longer right.");
}

TEST(AfterAChange, ComesOfAnotherSheetThanTheOneTold)
{
    CaseAtWork unit = with_ibuprofen();
    unit.tell_hold("hold:m2", "2027-06-10T09:30-04:00", "2027-06-15");
    unit.work.tellings.back().sheet = "another";
    const auto call = unit.call(CallKind::after_a_change);
    ASSERT_TRUE(call);
    EXPECT_EQ(call->why, "The sheet has changed since the patient was told it.");
}

TEST(WhatToStartAgain, IsDueThatWorkingDay)
{
    CaseAtWork unit = with_warfarin_told();
    const auto ended = [&](std::string_view iso) {
        unit.end(EndingKind::called_off, iso);
        return span(unit.call(CallKind::what_to_start_again));
    };
    EXPECT_EQ(ended("2027-06-11T16:29-04:00"), "2027-06-11T16:29-04:00 .. 2027-06-11T16:30-04:00");
    EXPECT_EQ(ended("2027-06-11T16:30-04:00"), "2027-06-14T07:00-04:00 .. 2027-06-14T16:30-04:00");
    EXPECT_EQ(ended("2027-06-15T06:59-04:00"), "2027-06-15T07:00-04:00 .. 2027-06-15T16:30-04:00");
    EXPECT_EQ(ended("2027-06-15T07:00-04:00"), "2027-06-15T07:00-04:00 .. 2027-06-15T16:30-04:00");
    unit.rules.policy.calendar.holidays = {day(holiday)};
    EXPECT_EQ(ended("2027-06-12T10:00-04:00"), "2027-06-15T07:00-04:00 .. 2027-06-15T16:30-04:00");
    EXPECT_EQ(
        unit.call(CallKind::what_to_start_again)->why,
        "The session was called off while the patient leaves out warfarin, or is about to; what to start "
        "again is for Dr Example to decide.");
}

TEST(WhatToStartAgain, IsOverOnceDecidedAndTold)
{
    CaseAtWork unit = with_warfarin_told();
    unit.end(EndingKind::did_not_come, "2027-06-17T10:30-04:00");
    unit.restart("hold:m1", "2027-06-17T10:29-04:00").told = at("2027-06-17T12:00-04:00");
    ASSERT_TRUE(unit.call(CallKind::what_to_start_again)) << "decided before it was known";
    unit.restart("hold:m1", "2027-06-17T10:30-04:00");
    EXPECT_THAT(unit.call(CallKind::what_to_start_again)->why,
                testing::HasSubstr("decided and still to be told"));
    unit.work.restarts.back().told = at("2027-06-17T12:00-04:00");
    EXPECT_EQ(unit.calls(), std::vector<Call>{});
}

CaseAtWork cleared_and_told()
{
    CaseAtWork unit;
    unit.clear("2027-06-01T09:00-04:00").close_list("2027-06-10T09:00-04:00");
    unit.tell("2027-06-10T09:30-04:00");
    return unit;
}

TEST(ClearanceLapsed, IsDueTheSecondItIsTooOld)
{
    CaseAtWork unit = cleared_and_told();
    unit.look("2027-06-15T09:00-04:00");
    EXPECT_EQ(unit.call(CallKind::clearance_lapsed), std::nullopt);
    unit.look("2027-06-15T09:01-04:00");
    const auto call = unit.call(CallKind::clearance_lapsed);
    ASSERT_TRUE(call);
    EXPECT_EQ(call->due_from, at("2027-06-15T09:00-04:00") + std::chrono::seconds{1});
    EXPECT_EQ(text(call->useful_until), "2027-06-16T13:00-04:00");
}

TEST(ClearanceLapsed, IsOnlyForWhoWasToldAndNotReachedSince)
{
    CaseAtWork unit = cleared_and_told();
    unit.look("2027-06-15T09:01-04:00");
    const Try no_answer{"clearance lapsed", at("2027-06-15T09:05-04:00"), "Nurse Example",
                        TryOutcome::no_answer, ""};
    unit.work.tries = {no_answer};
    ASSERT_TRUE(unit.call(CallKind::clearance_lapsed));
    EXPECT_EQ(unit.call(CallKind::clearance_lapsed)->tries, 1);
    unit.work.tries.push_back(no_answer);
    unit.work.tries.back().outcome = TryOutcome::reached;
    EXPECT_EQ(unit.call(CallKind::clearance_lapsed), std::nullopt);
    CaseAtWork untold = cleared_and_told();
    untold.look("2027-06-15T09:01-04:00");
    untold.work.tellings.clear();
    EXPECT_EQ(untold.call(CallKind::clearance_lapsed), std::nullopt);
}

/// Something of nearly every kind at once.
CaseAtWork with_much_to_call_about()
{
    CaseAtWork unit = with_warfarin();
    unit.hold_rule("one day", "ibuprofen", HoldAction::omit_days, Exact{1});
    unit.take("m2", "ibuprofen", daily({"08:00"}));
    unit.finding("breathless", Level::ask, always());
    unit.forget("trouble");
    unit.ask_outside("finding:breathless", "2027-06-09");
    return unit;
}

TEST(Calls, StandByUseThenTriesThenName)
{
    CaseAtWork unit = with_much_to_call_about();
    const auto calls = unit.calls();
    ASSERT_GE(calls.size(), 5U);
    for (std::size_t place = 1; place < calls.size(); ++place) {
        const Call& before = calls[place - 1];
        const Call& after = calls[place];
        EXPECT_LE(std::tie(before.useful_until, before.tries, before.id),
                  std::tie(after.useful_until, after.tries, after.id));
    }
}

TEST(Calls, FallOnWorkingTimeAndAreNeverLaterThanUseful)
{
    CaseAtWork unit = with_much_to_call_about();
    unit.rules.policy.calendar.holidays = {day(holiday)};
    const WorkingTime time{unit.rules.policy.calendar, unit.rules.zone};
    int seen = 0;
    for (unit.look("2027-06-01T00:00-04:00"); unit.now < unit.record.booking.start_moment;
         unit.now += std::chrono::minutes{197}) {
        for (const Call& call : unit.calls()) {
            EXPECT_LE(call.due_from, call.useful_until) << call.id << ' ' << text(unit.now);
            EXPECT_EQ(last_working_moment(time, call.due_from), call.due_from) << call.id;
            EXPECT_EQ(last_working_moment(time, call.useful_until), call.useful_until) << call.id;
            EXPECT_LE(call.useful_until, unit.record.booking.start_moment) << call.id;
            EXPECT_THAT(call.why, testing::EndsWith(".")) << call.id;
            ++seen;
        }
    }
    EXPECT_GT(seen, 500);
}

TEST(Calls, ATryCountsUnlessThePatientRangIn)
{
    CaseAtWork unit;
    unit.forget("trouble");
    const auto tried = [&](TryOutcome outcome) {
        unit.work.tries.push_back({"first call", at("2027-06-09T09:00-04:00"), "Nurse Example", outcome, ""});
        return unit.call(CallKind::first_call)->tries;
    };
    EXPECT_EQ(tried(TryOutcome::no_answer), 1);
    EXPECT_EQ(tried(TryOutcome::rang_in), 1);
    EXPECT_EQ(tried(TryOutcome::message_left), 2);
    unit.work.tries.back().call = "to tell";
    EXPECT_EQ(unit.call(CallKind::first_call)->tries, 1);
}

TEST(Calls, EndOnceThePatientHasGoneInIsDoneOrTheCaseIsClosed)
{
    CaseAtWork unit = with_much_to_call_about();
    ASSERT_FALSE(unit.calls().empty());
    CaseAtWork gone_in = unit;
    gone_in.work.gone_in = at("2027-06-17T10:05-04:00");
    EXPECT_EQ(gone_in.calls(), std::vector<Call>{});
    CaseAtWork done = unit;
    done.record.done = at("2027-06-17T10:40-04:00");
    EXPECT_EQ(done.calls(), std::vector<Call>{});
    CaseAtWork closed = with_warfarin_told();
    closed.end(EndingKind::called_off, "2027-06-15T09:00-04:00");
    ASSERT_EQ(closed.calls().size(), 1U);
    closed.work.closed = at("2027-06-15T10:00-04:00");
    EXPECT_EQ(closed.calls(), std::vector<Call>{});
}

TEST(Calls, OfAnEndedSessionLeaveOnlyWhatToStartAgain)
{
    CaseAtWork unit = with_much_to_call_about();
    unit.decide("hold:m1");
    unit.tell_hold("hold:m1", "2027-06-10T11:00-04:00", "2027-06-11");
    unit.end(EndingKind::not_today, "2027-06-17T10:00-04:00");
    ASSERT_EQ(unit.calls().size(), 1U);
    EXPECT_EQ(unit.calls().front().kind, CallKind::what_to_start_again);
}

}  // namespace
}  // namespace foreday::checklists
