#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "screening/hold_planner.h"
#include "screening/hold_words.h"
#include "tests/screening/hold_cases.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

using enum HoldAction;

// --- how sure, policy, scope

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
        EXPECT_EQ(hold.item.level, Level::act)
            << "an unmarked medicine: the nurse follows the unit's own list";

        tiny.rules.policy.confirmations = {
            {"bleeding", "Dr Example", Role::medical_director, day("2026-11-02")}};
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
    question.question = "Apixaban before a procedure of high bleeding risk";
    question.options = {{"days", "two days", {}, HowSure::published},
                        {"hours", "48 hours", {}, HowSure::published}};
    tiny.rules.protocol.policy_questions = {question};
    tiny.rules.policy.options = {0};
    tiny.hold_rule("by_days", {"apixaban"}, omit_days, Exact{2}).policies = {PolicyUse{0, {0}}};
    tiny.hold_rule("by_hours", {"apixaban"}, last_dose_at_least_hours, Exact{48}).policies = {
        PolicyUse{0, {1}}};
    return tiny;
}

TEST(PolicyQuestions, TheOptionInForceCountsAndTheOthersStandBeside)
{
    TinyCase tiny = with_policy_question();
    EXPECT_EQ(tiny.hold().item.rule, "by_days");
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00");
    ASSERT_EQ(tiny.hold().other_policies.size(), 1U);
    EXPECT_EQ(tiny.hold().other_policies.front().label,
              "Apixaban before a procedure of high bleeding risk: 48 hours");
    EXPECT_EQ(tiny.hold().other_policies.front().rule, "by_hours");
    EXPECT_EQ(text_of(tiny.hold().other_policies.front().plan.last_dose), "2027-06-15 08:00");
    EXPECT_THAT(tiny.hold().beneath, IsEmpty()) << "what is not in force does not count";

    tiny.rules.policy.options = {1};
    EXPECT_EQ(tiny.hold().item.rule, "by_hours");
    EXPECT_EQ(text_of(tiny.hold().other_policies.front().plan.last_dose), "2027-06-14 20:00");
}

TEST(PolicyQuestions, ARuleUnderOneOfTwoOptionsCountsUnderEither)
{
    TinyCase tiny = with_policy_question();
    tiny.rules.protocol.policy_questions.front().options.push_back(
        {"continued", "taken on", {}, HowSure::published});
    tiny.rules.protocol.holds.front().policies = {PolicyUse{0, {0, 2}}};
    for (const std::uint32_t chosen : {0U, 2U}) {
        tiny.rules.policy.options = {chosen};
        EXPECT_EQ(tiny.hold().item.rule, "by_days");
    }
    tiny.rules.policy.options = {1};
    EXPECT_EQ(tiny.hold().item.rule, "by_hours");
}

TEST(PolicyQuestions, ARuleUnderTwoQuestionsCountsOnlyWhereBothAreAnsweredSo)
{
    TinyCase tiny = with_policy_question();
    PolicyQuestion second;
    second.id = "kidneys";
    second.question = "Kidneys at the limit";
    second.options = {{"normal", "count as normal", {}, HowSure::published},
                      {"weak", "count as weak", {}, HowSure::published}};
    tiny.rules.protocol.policy_questions.push_back(second);
    tiny.rules.protocol.holds.front().policies = {PolicyUse{0, {0}}, PolicyUse{1, {0}}};
    tiny.rules.policy.options = {0, 0};
    EXPECT_EQ(tiny.hold().item.rule, "by_days");
    EXPECT_EQ(tiny.hold().other_policies.size(), 2U) << "one other option of each question";
    tiny.rules.policy.options = {0, 1};
    EXPECT_NE(tiny.hold().item.rule, "by_days");
    EXPECT_FALSE(tiny.hold().plan.last_dose);
}

TEST(PolicyQuestions, AnOptionFromMemoryGivesNoDateUntilItIsConfirmed)
{
    TinyCase tiny = with_policy_question();
    tiny.rules.protocol.policy_questions.front().options.front().sure = HowSure::from_memory;
    EXPECT_FALSE(tiny.hold().plan.last_dose);
    tiny.rules.policy.confirmations = {{"days", "Dr Example", Role::medical_director, day("2026-11-02")}};
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00");
}

TEST(PolicyQuestions, AnotherOptionFromMemoryStandsBesideWithoutADate)
{
    TinyCase tiny = with_policy_question();
    tiny.rules.protocol.policy_questions.front().options.back().sure = HowSure::from_memory;
    ASSERT_EQ(tiny.hold().other_policies.size(), 1U);
    EXPECT_FALSE(tiny.hold().other_policies.front().plan.last_dose);
    tiny.rules.policy.confirmations = {{"hours", "Dr Example", Role::medical_director, day("2026-11-02")}};
    EXPECT_EQ(text_of(tiny.hold().other_policies.front().plan.last_dose), "2027-06-15 08:00");
}

TEST(PolicyQuestions, OfTwoOptionsOfOneRuleTheOneInQuestionMustBeSure)
{
    TinyCase tiny = with_policy_question();
    auto& options = tiny.rules.protocol.policy_questions.front().options;
    options.push_back({"continued", "taken on", {}, HowSure::from_memory});
    tiny.rules.protocol.holds.front().policies = {PolicyUse{0, {0, 2}}};
    EXPECT_EQ(text_of(tiny.hold().plan.last_dose), "2027-06-14 20:00") << "its own option is published";
    tiny.rules.policy.options = {2};
    EXPECT_FALSE(tiny.hold().plan.last_dose);
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

// --- now

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
    tiny.rules.policy.options = {1};     // 48 hours: Tuesday 08:00
    tiny.now = utc("2027-06-14T08:00");  // the other option ends on Monday evening
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
