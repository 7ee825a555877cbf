#include "screening/hold_planner.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/hold_cases.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

using enum HoldAction;

const Daily twice = daily({"08:00", "20:00"});

// --- no rule, one rule

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
    tiny.hold_rule("uptake", {"nsaid"}, take_as_usual).conditions = {
        DoseCondition::space_from_the_preparation};
    EXPECT_THAT(tiny.hold().plan.conditions,
                ElementsAre(DoseCondition::with_its_meal, DoseCondition::space_from_the_preparation));
}

// --- levels and agreement

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

// --- one hazard: strictest; pulling apart: a person

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

// --- open rules

std::vector<std::string> options_of(const Hold& hold)
{
    std::vector<std::string> texts;
    texts.reserve(hold.options.size());
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
    EXPECT_THAT(options_of(hold),
                ElementsAre("weak_kidneys: omit days, 2027-06-14 20:00", ": ask first, none"));
}

TEST(OpenRule, BesideOneThatFiresListsWithAndWithoutIt)
{
    TinyCase tiny = on_apixaban();
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{1});
    tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{3}).when = tiny.is("a");
    EXPECT_THAT(options_of(tiny.hold()), ElementsAre("bleeding: omit days, 2027-06-15 20:00",
                                                     "weak_kidneys: omit days, 2027-06-13 20:00"));
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

}  // namespace
}  // namespace foreday::screening
