#include "screening/hold_planner.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "screening/hold_words.h"
#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

using enum HoldAction;

const Daily twice = daily({"08:00", "20:00"});

/// Apixaban at 08:00 and 20:00 before Thursday 17 June 2027 at 09:00, seen on 1 June.
TinyCase on_apixaban()
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", twice);
    return tiny;
}

/// Ibuprofen (not marked) with the same times.
TinyCase on_ibuprofen()
{
    TinyCase tiny;
    tiny.take("m1", "ibuprofen", twice);
    return tiny;
}

// --- no rule, one rule ---------------------------------------------------------------------------------

TEST(NoRule, IsAskFirstNeverNoHoldNeeded)
{
    const Hold hold = on_apixaban().hold();
    EXPECT_EQ(hold.plan.action, ask_first);
    EXPECT_EQ(hold.item.level, Level::ask);
    EXPECT_TRUE(hold.needs_agreement);
    EXPECT_FALSE(hold.plan.last_dose);
    EXPECT_FALSE(hold.item.meanwhile.empty());
}

TEST(NoRule, ARuleOfAnotherMedicineDoesNotSpeakAboutIt)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("pain_killers", {"nsaid"}, omit_days, Exact{1});
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
}

TEST(NoRule, ARuleThatIsFalseDoesNotSpeakEither)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("kidneys", {"apixaban"}, omit_days, Exact{2}).when = tiny.is("a");
    tiny.answer("a", no());
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
}

TEST(OneRule, GivesItsPlanOnThePatientsOwnTimes)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"anticoagulant"}, omit_days, Exact{2});
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.item.id, "hold:m1");
    EXPECT_EQ(hold.item.rule, "bleeding");
    EXPECT_EQ(hold.plan.action, omit_days);
    EXPECT_EQ(text_of(hold.plan.last_dose), "2027-06-14 20:00");
    EXPECT_THAT(hold.warnings, IsEmpty());
}

TEST(OneRule, TakesItsNumberFromAParameter)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"anticoagulant"}, omit_days, tiny.parameter("limit"));
    tiny.set_parameter("limit", Exact{3});
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-13 20:00");
}

TEST(OneRule, CarriesConditionsOnTheDosesThatRemain)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("stomach", {"nsaid"}, take_as_usual).conditions = {DoseCondition::with_its_meal};
    tiny.hold_rule("uptake", {"nsaid"}, take_as_usual).conditions = {DoseCondition::space_from_the_preparation};
    EXPECT_THAT(tiny.hold().plan.conditions,
                ElementsAre(DoseCondition::with_its_meal, DoseCondition::space_from_the_preparation));
}

// --- levels and agreement --------------------------------------------------------------------------------

TEST(Agreement, IsNeededToOmitADoseOfAMarkedMedicineAndOfNoOther)
{
    TinyCase marked = on_apixaban();
    marked.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    EXPECT_TRUE(marked.hold().marked);
    EXPECT_TRUE(marked.hold().needs_agreement);
    EXPECT_EQ(marked.hold().item.level, Level::ask);

    TinyCase unmarked = on_ibuprofen();
    unmarked.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    EXPECT_FALSE(unmarked.hold().needs_agreement);
    EXPECT_EQ(unmarked.hold().item.level, Level::act);
}

TEST(Agreement, IsNotNeededToTakeAsUsualAspirinIncluded)
{
    for (const HoldAction action : {take_as_usual, sip_on_the_morning}) {
        TinyCase tiny;
        tiny.take("m1", "aspirin", twice);
        tiny.hold_rule("heart", {"platelet"}, action).protects = Protects::by_taking;
        EXPECT_FALSE(tiny.hold().needs_agreement);
        EXPECT_EQ(tiny.hold().item.level, Level::note);
        EXPECT_EQ(tiny.hold().plan.day_of, action == take_as_usual ? DayOf::take : DayOf::sip);
    }
}

TEST(Agreement, IsNotNeededWhereNoDoseIsLeftOut)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"apixaban"}, omit_on_the_day);
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.plan.day_of, DayOf::nothing_due);
    EXPECT_EQ(hold.plan.doses_missed, 0);
    EXPECT_FALSE(hold.needs_agreement);
}

TEST(Agreement, IsNeededForAskFirstAndADoseToBeStatedMarkedOrNot)
{
    for (const HoldAction action : {ask_first, dose_to_be_stated}) {
        TinyCase tiny = on_ibuprofen();
        tiny.hold_rule("kidneys", {"ibuprofen"}, action).published_fraction = "half";
        EXPECT_TRUE(tiny.hold().needs_agreement);
        EXPECT_EQ(tiny.hold().item.level, Level::ask);
        EXPECT_EQ(tiny.hold().published_fraction, "half");
    }
}

TEST(Agreement, OfAMarkedMedicineWithoutAScheduleIsNeededToo)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", PatternNotKnown{});
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    EXPECT_TRUE(tiny.hold().needs_agreement);
}

// --- one hazard: strictest; pulling apart: a person --------------------------------------------------------

TEST(OneHazard, TheStrictestIsUsedTheOthersStandBeneath)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("one_day", {"apixaban"}, omit_days, Exact{1});
    tiny.hold_rule("three_days", {"anticoagulant"}, omit_days, Exact{3});
    tiny.hold_rule("two_days", {"apixaban"}, omit_days, Exact{2});
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.item.rule, "three_days");
    EXPECT_EQ(text_of(hold.plan.last_dose), "2027-06-13 20:00");
    EXPECT_THAT(hold.beneath, ElementsAre("one_day", "two_days"));
    EXPECT_THAT(hold.pulling_apart, IsEmpty());
}

TEST(OneHazard, HourAndDayRulesAreComparedOnThePatientsOwnTimes)
{
    // 48 hours leave out one dose less than two days, and one more than one day.
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("hours", {"apixaban"}, last_dose_at_least_hours, Exact{48});
    tiny.hold_rule("one_day", {"apixaban"}, omit_days, Exact{1});
    EXPECT_EQ(tiny.hold().item.rule, "hours");
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-15 08:00");
    tiny.hold_rule("two_days", {"apixaban"}, omit_days, Exact{2});
    EXPECT_EQ(tiny.hold().item.rule, "two_days");
    EXPECT_THAT(tiny.hold().beneath, ElementsAre("hours", "one_day"));
}

TEST(OneHazard, OfTwoThatSayToTakeTheOneThatSaysMoreIsUsed)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("a_plain", {"ibuprofen"}, take_as_usual).protects = Protects::by_taking;
    tiny.hold_rule("b_sip", {"ibuprofen"}, sip_on_the_morning).protects = Protects::by_taking;
    EXPECT_EQ(tiny.hold().plan.action, sip_on_the_morning);
}

TEST(OneHazard, OtherHazardsThatOmitDoNotPullApart)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{1});
    tiny.hold_rule("kidneys", {"apixaban"}, omit_days, Exact{2}).head.hazard = Hazard::kidney;
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.item.rule, "kidneys");
    EXPECT_THAT(hold.pulling_apart, IsEmpty());
}

TEST(PullingApart, ARuleThatForbidsADoseAnotherRequiresIsAskFirstWithBothNamed)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    HoldRule& clot = tiny.hold_rule("clot", {"apixaban"}, take_as_usual);
    clot.protects = Protects::by_taking;
    clot.head.hazard = Hazard::clot;
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.plan.action, ask_first);
    EXPECT_EQ(hold.item.level, Level::ask);
    EXPECT_FALSE(hold.plan.last_dose);
    EXPECT_THAT(hold.plan.dates_omitted, IsEmpty());
    EXPECT_THAT(hold.pulling_apart, ElementsAre("bleeding", "clot"));
    EXPECT_FALSE(hold.item.meanwhile.empty());
}

TEST(PullingApart, ADoseForbiddenOnTheDayAndRequiredWithASipIsAskFirst)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("kidney", {"nsaid"}, omit_on_the_day);
    tiny.hold_rule("pain", {"nsaid"}, sip_on_the_morning).protects = Protects::by_taking;
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
    EXPECT_THAT(tiny.hold().pulling_apart, ElementsAre("kidney", "pain"));
}

TEST(PullingApart, DoesNotHappenWhereNoDoseFallsIntoTheTimeLeftOut)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"apixaban"}, omit_on_the_day);
    tiny.hold_rule("clot", {"apixaban"}, take_as_usual).protects = Protects::by_taking;
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.plan.action, take_as_usual);
    EXPECT_THAT(hold.pulling_apart, IsEmpty());
    EXPECT_THAT(hold.beneath, ElementsAre("bleeding"));
}

TEST(PullingApart, WithoutAScheduleNobodyCanSayThatNoDoseFallsIntoIt)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", PatternNotKnown{});
    tiny.hold_rule("bleeding", {"apixaban"}, omit_on_the_day);
    tiny.hold_rule("clot", {"apixaban"}, take_as_usual).protects = Protects::by_taking;
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
}

TEST(AlwaysWins, AskFirstAndADoseToBeStatedOverAnyOmission)
{
    for (const HoldAction action : {ask_first, dose_to_be_stated}) {
        TinyCase tiny = on_apixaban();
        tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{5});
        tiny.hold_rule("valve", {"apixaban"}, action);
        const Hold hold = tiny.hold();
        EXPECT_EQ(hold.plan.action, action);
        EXPECT_EQ(hold.item.rule, "valve");
        EXPECT_FALSE(hold.plan.last_dose);
        EXPECT_THAT(hold.beneath, ElementsAre("bleeding"));
    }
}

TEST(AlwaysWins, AskFirstOverADoseToBeStated)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("a_dose", {"apixaban"}, dose_to_be_stated);
    tiny.hold_rule("b_ask", {"apixaban"}, ask_first);
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
    EXPECT_EQ(tiny.hold().item.rule, "b_ask");
}

// --- open rules -----------------------------------------------------------------------------------------------

/// A medicine whose two rules hang on fact "a": two days when no, `otherwise` when yes.
TinyCase two_ways(HoldAction otherwise, int number)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("good_kidneys", {"apixaban"}, omit_days, Exact{2}).when = tiny.is("a", false);
    tiny.hold_rule("weak_kidneys", {"apixaban"}, otherwise, Exact{number}).when = tiny.is("a");
    return tiny;
}

std::vector<std::string> options_of(const Hold& hold)
{
    std::vector<std::string> texts;
    for (const HoldOption& option : hold.options) {
        texts.push_back(option.rule + ": " + std::string{name_of(option.plan.action)} + ", " +
                        text_of(option.plan.last_dose));
    }
    return texts;
}

TEST(OpenRule, IsAskFirstWithEveryActionStillPossibleAndWhatWouldSettleIt)
{
    const Hold hold = two_ways(omit_days, 4).hold();
    EXPECT_EQ(hold.plan.action, ask_first);
    EXPECT_EQ(hold.item.level, Level::ask);
    EXPECT_EQ(hold.item.state, ItemState::open);
    EXPECT_FALSE(hold.plan.last_dose);
    EXPECT_THAT(names_of(hold.item.open_on), ElementsAre("a: not asked"));
    EXPECT_THAT(options_of(hold), ElementsAre("good_kidneys: omit days, 2027-06-14 20:00",
                                              "weak_kidneys: omit days, 2027-06-12 20:00"));
    EXPECT_FALSE(hold.item.meanwhile.empty());
}

TEST(OpenRule, SettlesOnceTheFactIsKnown)
{
    TinyCase tiny = two_ways(omit_days, 4);
    tiny.answer("a", yes());
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-12 20:00");
    EXPECT_THAT(tiny.hold().options, IsEmpty());
    EXPECT_EQ(tiny.hold().item.state, ItemState::fired);
}

TEST(OpenRule, KeepsALastDoseThatAllItsActionsShare)
{
    // 60 hours before 09:00 on the 17th is 21:00 on the 14th: the evening dose, as with two days.
    const Hold hold = two_ways(last_dose_at_least_hours, 60).hold();
    EXPECT_EQ(hold.plan.action, ask_first);
    EXPECT_EQ(hold.item.level, Level::ask);
    EXPECT_EQ(text_of(hold.plan.last_dose), "2027-06-14 20:00");
}

TEST(OpenRule, WithAskFirstAmongItsActionsKeepsNoDate)
{
    EXPECT_FALSE(two_ways(ask_first, 0).hold().plan.last_dose);
}

TEST(OpenRule, AloneMayAlsoComeToNoRuleAndSoKeepsNoDate)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{2}).when = tiny.is("a");
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.plan.action, ask_first);
    EXPECT_FALSE(hold.plan.last_dose) << "should the fact be no, nothing covers the medicine";
    EXPECT_THAT(options_of(hold), ElementsAre("weak_kidneys: omit days, 2027-06-14 20:00", ": ask first, none"));
}

TEST(OpenRule, BesideOneThatFiresListsWithAndWithoutIt)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{1});
    tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{3}).when = tiny.is("a");
    EXPECT_THAT(options_of(tiny.hold()),
                ElementsAre("bleeding: omit days, 2027-06-15 20:00", "weak_kidneys: omit days, 2027-06-13 20:00"));
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
}

TEST(OpenRule, ThatAsksForLessThanOneThatFiresKeepsTheDate)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{3});
    tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{1}).when = tiny.is("a");
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.plan.action, ask_first);
    EXPECT_EQ(text_of(hold.plan.last_dose), "2027-06-13 20:00");
}

TEST(OpenRule, ThatMayPullApartKeepsNoDate)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{3});
    HoldRule& clot = tiny.hold_rule("clot", {"apixaban"}, take_as_usual);
    clot.protects = Protects::by_taking;
    clot.when = tiny.is("a");
    EXPECT_EQ(tiny.hold().plan.action, ask_first);
    EXPECT_FALSE(tiny.hold().plan.last_dose);
}

TEST(OpenRule, OnAnUnconfirmedValueFiresAndIsMarked)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{3}).when = tiny.is("a");
    tiny.answer("a", said(yes()).imported());
    const Hold hold = tiny.hold();
    EXPECT_EQ(hold.plan.action, omit_days);
    EXPECT_TRUE(hold.item.on_unconfirmed);
    EXPECT_THAT(names_of(hold.item.open_on), ElementsAre("a: unconfirmed"));
}

// --- too late -----------------------------------------------------------------------------------------------

TinyCase apixaban_two_days(std::string_view now)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    tiny.now = utc(now);
    return tiny;
}

void tell(TinyCase& tiny, std::string_view when, std::optional<Date> last_dose)
{
    tiny.record.told.push_back({"hold:m1", utc(when), last_dose});
}

TEST(TooLate, JustBeforeAtAndJustAfterTheFirstDoseThatShouldBeLeftOut)
{
    EXPECT_THAT(apixaban_two_days("2027-06-15T07:59").hold().warnings, Not(Contains(HoldWarning::too_late)));
    EXPECT_THAT(apixaban_two_days("2027-06-15T08:00").hold().warnings, Contains(HoldWarning::too_late));
    EXPECT_THAT(apixaban_two_days("2027-06-15T08:01").hold().warnings, Contains(HoldWarning::too_late));
}

TEST(TooLate, MakesAnUnmarkedMedicineAnAsk)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-15T07:59");
    EXPECT_EQ(tiny.hold().item.level, Level::act);
    tiny.now = utc("2027-06-15T08:00");
    EXPECT_EQ(tiny.hold().item.level, Level::ask);
}

TEST(TooLate, ToldInTimeIsNotTooLateForEver)
{
    TinyCase tiny = apixaban_two_days("2027-06-16T12:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
    tell(tiny, "2027-06-15T07:59", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(TooLate, ToldTooLateStaysTooLate)
{
    TinyCase tiny = apixaban_two_days("2027-06-16T12:00");
    tell(tiny, "2027-06-15T08:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
}

TEST(TooLate, WhoHasStoppedByHimselfIsInTime)
{
    TinyCase tiny = apixaban_two_days("2027-06-15T10:00");
    MedicineItem& item = tiny.record.medicines.items.front();
    item.last_dose = Dose{day("2027-06-14"), clock("20:00")};
    item.at = utc("2027-06-15T10:00");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.now = utc("2027-06-15T20:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late))
        << "a dose has come due since, and nobody has told him to leave it out";
}

TEST(TooLate, AsNeededItCountsFromTheBeginningOfTheTimeLeftOut)
{
    TinyCase tiny;
    tiny.take("m1", "ibuprofen", AsNeeded{});
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-14T23:59");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.now = utc("2027-06-15T00:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
}

TEST(TooLate, AsNeededWhatWasSaidBeforeTheTimeLeftOutDoesNotTellThatNoneWasTakenSince)
{
    TinyCase tiny;
    MedicineItem& item = tiny.take("m1", "ibuprofen", AsNeeded{});
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-16T12:00");
    item.last_dose = Dose{day("2027-05-30"), std::nullopt};
    item.at = utc("2027-06-01T12:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
    item.at = utc("2027-06-16T12:00");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(TooLate, ADoseWithoutATimeIsDueFromTheStartOfItsDay)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({}));
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-14T23:59");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.now = utc("2027-06-15T00:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
}

// --- two numbers -----------------------------------------------------------------------------------------------

TEST(TwoNumbers, BetweenWhatIsToldAndWhatIsTooShortIsANote)
{
    // Told three days, too short below two.
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{3}).too_short_below = Exact{2};
    const auto at = [&](std::string_view now) {
        tiny.now = utc(now);
        return tiny.hold();
    };
    EXPECT_THAT(at("2027-06-14T07:59").warnings, IsEmpty());
    EXPECT_THAT(at("2027-06-14T08:00").warnings, ElementsAre(HoldWarning::shorter_than_told));
    EXPECT_EQ(at("2027-06-14T08:00").item.level, Level::act);
    EXPECT_THAT(at("2027-06-15T07:59").warnings, ElementsAre(HoldWarning::shorter_than_told));
    EXPECT_THAT(at("2027-06-15T08:00").warnings, ElementsAre(HoldWarning::too_late));
    EXPECT_EQ(at("2027-06-15T08:00").item.level, Level::ask);
    EXPECT_EQ(text_of(at("2027-06-14T08:00").plan.last_dose), "2027-06-13 20:00") << "what is told stays three days";
}

TEST(TwoNumbers, WithOneNumberBelowItIsTooLate)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{3});
    tiny.now = utc("2027-06-14T08:00");
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::too_late));
}

// --- stopped too early -------------------------------------------------------------------------------------------

TinyCase stopped(std::string_view medicine, std::string_view last_dose)
{
    TinyCase tiny;
    MedicineItem& item = tiny.take("m1", medicine, daily({"20:00"}));
    item.last_dose = Dose{day(last_dose), clock("20:00")};
    item.at = utc("2027-06-16T12:00");
    tiny.now = utc("2027-06-16T12:00");
    return tiny;
}

TEST(StoppedTooEarly, IsAFindingForMarkedMedicinesOnly)
{
    TinyCase marked = stopped("apixaban", "2027-06-10");
    marked.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    EXPECT_THAT(marked.hold().warnings, Contains(HoldWarning::stopped_too_early));
    TinyCase unmarked = stopped("ibuprofen", "2027-06-10");
    unmarked.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    EXPECT_THAT(unmarked.hold().warnings, Not(Contains(HoldWarning::stopped_too_early)));
}

TEST(StoppedTooEarly, ADayEarlierThanTheLastDoseIsOnItIsNot)
{
    const auto warnings = [](std::string_view last_dose) {
        TinyCase tiny = stopped("apixaban", last_dose);
        tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
        return tiny.hold().warnings;
    };
    EXPECT_THAT(warnings("2027-06-13"), Contains(HoldWarning::stopped_too_early));
    EXPECT_THAT(warnings("2027-06-14"), IsEmpty());
}

TEST(StoppedTooEarly, OfOneThatShouldBeTakenAsUsual)
{
    TinyCase tiny = stopped("aspirin", "2027-06-14");
    tiny.hold_rule("heart", {"aspirin"}, take_as_usual).protects = Protects::by_taking;
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::stopped_too_early));
    EXPECT_EQ(tiny.hold().item.level, Level::ask);
}

TEST(StoppedTooEarly, IsSaidWhereAClinicianIsAskedFirstToo)
{
    TinyCase valve = stopped("warfarin", "2027-06-10");
    valve.hold_rule("valve", {"warfarin"}, ask_first);
    EXPECT_THAT(valve.hold().warnings, ElementsAre(HoldWarning::stopped_too_early));
    EXPECT_THAT(stopped("warfarin", "2027-06-10").hold().warnings, ElementsAre(HoldWarning::stopped_too_early))
        << "no rule covers it";
}

TEST(StoppedTooEarly, WhileOpenItIsMeasuredAgainstTheLongestHoldStillPossible)
{
    const auto warnings = [](std::string_view last_dose) {
        TinyCase tiny = stopped("apixaban", last_dose);
        tiny.hold_rule("good_kidneys", {"apixaban"}, omit_days, Exact{2}).when = tiny.is("a", false);
        tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{4}).when = tiny.is("a");
        return tiny.hold().warnings;
    };
    EXPECT_THAT(warnings("2027-06-11"), Contains(HoldWarning::stopped_too_early));
    EXPECT_THAT(warnings("2027-06-12"), IsEmpty());
}

TEST(StoppedTooEarly, ADoseThatIsNotDueYetWasNotLeftOut)
{
    TinyCase tiny = stopped("apixaban", "2027-06-10");
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    tiny.record.medicines.items.front().at = utc("2027-06-11T12:00");
    tiny.now = utc("2027-06-11T12:00");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

// --- told something that is no longer right ----------------------------------------------------------------------

TEST(NotAsTold, WhenTheDateHasMoved)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.start("2027-06-18T09:00");
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

TEST(NotAsTold, TheLatestTellingCounts)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", day("2027-06-12"));
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
    tell(tiny, "2027-06-03T12:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(NotAsTold, WhenADateWasToldAndNowAClinicianIsAskedFirst)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", day("2027-06-14"));
    tiny.hold_rule("valve", {"apixaban"}, ask_first);
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

TEST(NotAsTold, WhenADateWasToldAndNowItIsTakenAsUsual)
{
    TinyCase tiny;
    tiny.take("m1", "aspirin", daily({"08:00"}));
    tiny.hold_rule("heart", {"aspirin"}, take_as_usual).protects = Protects::by_taking;
    tell(tiny, "2027-06-02T12:00", std::nullopt);
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tell(tiny, "2027-06-02T13:00", day("2027-06-09"));
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

TEST(NotAsTold, NotWhileAnOpenRuleKeepsTheDateThatWasTold)
{
    TinyCase tiny = two_ways(last_dose_at_least_hours, 60);
    tell(tiny, "2027-06-02T12:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(NotAsTold, WhenNothingWasToldToStopAndNowADoseIsLeftOut)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", std::nullopt);
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

// --- how sure, policy, scope ------------------------------------------------------------------------------------

TEST(HowSureARuleIs, FromMemoryOrCommonPracticeGivesNoDateUntilTheUnitConfirmsIt)
{
    for (const HowSure sure : {HowSure::common_practice, HowSure::from_memory}) {
        TinyCase tiny = on_ibuprofen();
        tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2}).head.sure = sure;
        const Hold hold = tiny.hold();
        EXPECT_EQ(hold.plan.action, omit_days);
        EXPECT_FALSE(hold.plan.last_dose);
        EXPECT_THAT(hold.plan.dates_omitted, IsEmpty());
        EXPECT_THAT(hold.warnings, ElementsAre(HoldWarning::no_date_until_confirmed));
        EXPECT_EQ(hold.item.level, Level::act) << "an unmarked medicine: the nurse follows the unit's own list";

        tiny.rules.policy.confirmations = {{"bleeding", "Dr Example", Role::medical_director, day("2026-11-02")}};
        EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00");
        EXPECT_EQ(tiny.hold().item.sure, HowSure::unit_policy);
        EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    }
}

TEST(HowSureARuleIs, PublishedReportedAndUnitPolicyGiveDates)
{
    for (const HowSure sure : {HowSure::published, HowSure::reported, HowSure::unit_policy}) {
        TinyCase tiny = on_ibuprofen();
        tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2}).head.sure = sure;
        EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00");
        EXPECT_EQ(tiny.hold().item.sure, sure);
    }
}

TEST(HowSureARuleIs, AMarkedMedicineFromMemoryIsStillAnAskForAgreement)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2}).head.sure = HowSure::from_memory;
    EXPECT_FALSE(tiny.hold().plan.last_dose);
    EXPECT_TRUE(tiny.hold().needs_agreement);
    EXPECT_EQ(tiny.hold().item.level, Level::ask);
}

/// Two options of one question: two days (in force) or 48 hours.
TinyCase with_policy_question()
{
    TinyCase tiny = on_apixaban();
    PolicyQuestion question;
    question.id = "apixaban_pause";
    question.options = {{"days", "two days", {}, HowSure::published}, {"hours", "48 hours", {}, HowSure::published}};
    tiny.rules.protocol.policy_questions = {question};
    tiny.rules.policy.options = {0};
    tiny.hold_rule("by_days", {"apixaban"}, omit_days, Exact{2}).policy = PolicyUse{0, 0};
    tiny.hold_rule("by_hours", {"apixaban"}, last_dose_at_least_hours, Exact{48}).policy = PolicyUse{0, 1};
    return tiny;
}

TEST(PolicyQuestions, TheOptionInForceCountsAndTheOthersStandBeside)
{
    TinyCase tiny = with_policy_question();
    EXPECT_EQ(tiny.hold().item.rule, "by_days");
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00");
    ASSERT_EQ(tiny.hold().other_policies.size(), 1U);
    EXPECT_EQ(tiny.hold().other_policies.front().label, "apixaban_pause: 48 hours");
    EXPECT_EQ(tiny.hold().other_policies.front().rule, "by_hours");
    EXPECT_EQ(text_of(tiny.hold().other_policies.front().plan.last_dose), "2027-06-15 08:00");
    EXPECT_THAT(tiny.hold().beneath, IsEmpty()) << "what is not in force does not count";

    tiny.rules.policy.options = {1};
    EXPECT_EQ(tiny.hold().item.rule, "by_hours");
    EXPECT_EQ(text_of(tiny.hold().other_policies.front().plan.last_dose), "2027-06-14 20:00");
}

TEST(PolicyQuestions, AnOptionFromMemoryGivesNoDateUntilItIsConfirmed)
{
    TinyCase tiny = with_policy_question();
    tiny.rules.protocol.policy_questions.front().options.front().sure = HowSure::from_memory;
    EXPECT_FALSE(tiny.hold().plan.last_dose);
    tiny.rules.policy.confirmations = {{"days", "Dr Example", Role::medical_director, day("2026-11-02")}};
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00");
}

TEST(OutOfScope, NoDateIsProposed)
{
    TinyCase other = apixaban_two_days("2027-06-01T12:00");
    other.procedures({"bronchoscopy"});
    EXPECT_FALSE(other.hold().plan.last_dose);
    EXPECT_THAT(other.hold().plan.dates_omitted, IsEmpty());

    TinyCase child = apixaban_two_days("2027-06-01T12:00");
    child.record.booking.patient.born = day("2009-06-18");  // 17 on the day
    EXPECT_FALSE(child.hold().plan.last_dose);
    child.record.booking.patient.born = day("2009-06-17");  // 18 on the day
    EXPECT_EQ(text_of(child.hold().plan.last_dose), "2027-06-14 20:00");
}

// --- now ---------------------------------------------------------------------------------------------------------

TEST(NowForTheRoster, WhenTheLastDoseComesBeforeTheUnitWorksAgain)
{
    // The last dose is on Monday 14 June at 20:00; the unit opens at 07:00 from Monday to Friday.
    EXPECT_FALSE(apixaban_two_days("2027-06-11T12:00").hold().item.now) << "Friday noon: it opens on Monday";
    EXPECT_FALSE(apixaban_two_days("2027-06-14T06:59").hold().item.now) << "it opens in a minute";
    EXPECT_TRUE(apixaban_two_days("2027-06-14T07:00").hold().item.now) << "it opens next on Tuesday";
    EXPECT_TRUE(apixaban_two_days("2027-06-14T19:00").hold().item.now);
}

TEST(NowForTheRoster, LooksOverAWeekendAndHolidays)
{
    TinyCase tiny = apixaban_two_days("2027-06-11T12:00");
    tiny.start("2027-06-16T09:00");  // last dose on Sunday the 13th
    EXPECT_TRUE(tiny.hold().item.now) << "Friday noon: it opens after the last dose";
    TinyCase holiday = apixaban_two_days("2027-06-11T12:00");
    EXPECT_FALSE(holiday.hold().item.now);
    holiday.rules.policy.calendar.holidays = {day("2027-06-14")};
    EXPECT_TRUE(holiday.hold().item.now);
}

TEST(NowForTheRoster, LooksAtTheEarliestOfAllOptions)
{
    TinyCase tiny = two_ways(omit_days, 4);  // Monday evening or Saturday evening
    tiny.now = utc("2027-06-11T12:00");      // Friday
    EXPECT_TRUE(tiny.hold().item.now);
    tiny.answer("a", no());
    EXPECT_FALSE(tiny.hold().item.now);
}

TEST(NowForTheRoster, LooksAtTheOptionsOfAPolicyQuestionToo)
{
    TinyCase tiny = with_policy_question();
    tiny.rules.policy.options = {1};         // 48 hours: Tuesday 08:00
    tiny.now = utc("2027-06-14T08:00");      // the other option ends on Monday evening
    EXPECT_TRUE(tiny.hold().item.now);
}

TEST(NowForTheRoster, NotForWhatTheNurseTellsByHerself)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-14T19:00");
    EXPECT_FALSE(tiny.hold().item.now);
}

TEST(NextOpening, IsTodayBeforeOpeningAndTheNextWorkingDayFromThenOn)
{
    const Calendar weekdays{clock("07:00"), clock("16:30"), {1, 2, 3, 4, 5}, {day("2027-06-21")}};
    const auto next = [&](std::string_view after) { return iso_local(next_opening(weekdays, wall(after))); };
    EXPECT_EQ(next("2027-06-17T06:59"), "2027-06-17T07:00");
    EXPECT_EQ(next("2027-06-17T07:00"), "2027-06-18T07:00");
    EXPECT_EQ(next("2027-06-18T17:00"), "2027-06-22T07:00") << "over the weekend and the holiday";
    EXPECT_EQ(next("2027-06-19T06:00"), "2027-06-22T07:00");
}

}  // namespace
}  // namespace foreday::screening
