#include "checklists/readiness_checks.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/checklists/on_the_day.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using screening::HowSure;
using screening::Operator;
using ::testing::HasSubstr;

using enum ReadinessState;
using enum Verdict;

// --- food and drink ------------------------------------------------------------------------------------

struct FastingRow {
    std::string_view start;  ///< wall clock
    std::string_view last;   ///< wall clock of the last intake
    ReadinessState state;
    std::string_view earliest;
};

TEST(Fasting, IsMetAtExactlyTheHoursAndNotAMinuteBefore)
{
    const FastingRow rows[] = {
        {"2027-06-17T10:00", "2027-06-17T07:59", met, "none"},
        {"2027-06-17T10:00", "2027-06-17T08:00", met, "none"},
        {"2027-06-17T10:00", "2027-06-17T08:01", not_met, "2027-06-17T10:01-04:00"},
        {"2027-06-17T11:30", "2027-06-17T09:31", not_met, "2027-06-17T11:31-04:00"},
    };
    for (const FastingRow& row : rows) {
        SmallUnit unit = on_the_day(row.start);
        fasting(unit, "clear liquid", "clear_liquid_hours");
        drank(unit, "clear liquid", row.last);
        const ReadinessItem item = only_item(unit);
        EXPECT_EQ(item.state, row.state) << row.last;
        EXPECT_EQ(text(item.earliest), row.earliest) << row.last;
    }
}

TEST(Fasting, CountsElapsedHoursInANightWhenTheClocksChange)
{
    const FastingRow rows[] = {
        // Put forward at 02:00 on 14 March: from 01:00 to 08:00 are six hours.
        {"2027-03-14T08:00", "2027-03-14T01:00", met, "none"},
        {"2027-03-14T08:00", "2027-03-14T01:01", not_met, "2027-03-14T08:01-04:00"},
        // Put back at 02:00 on 7 November: from 00:59 to 05:59 are six.
        {"2027-11-07T05:59", "2027-11-07T00:59", met, "none"},
        {"2027-11-07T05:58", "2027-11-07T00:59", not_met, "2027-11-07T05:59-05:00"},
        // 01:30 comes twice; nobody can say that it was the first.
        {"2027-11-07T07:30", "2027-11-07T01:30", met, "none"},
        {"2027-11-07T07:29", "2027-11-07T01:30", not_met, "2027-11-07T07:30-05:00"},
    };
    for (const FastingRow& row : rows) {
        SmallUnit unit = on_the_day(row.start);
        fasting(unit, "light meal", "light_meal_hours");
        drank(unit, "light meal", row.last);
        const ReadinessItem item = only_item(unit);
        EXPECT_EQ(item.state, row.state) << row.start << " after " << row.last;
        EXPECT_EQ(text(item.earliest), row.earliest) << row.start;
    }
}

TEST(Fasting, IsCountedToNowWhereThePlannedStartHasPassed)
{
    SmallUnit unit = on_the_day("2027-06-17T10:00");
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T08:30");
    unit.look("2027-06-17T10:29-04:00");
    EXPECT_EQ(only_item(unit).state, not_met);
    EXPECT_EQ(text(only_item(unit).earliest), "2027-06-17T10:30-04:00");
    unit.look("2027-06-17T10:30-04:00");
    EXPECT_EQ(only_item(unit).state, met);
}

TEST(Fasting, TheLastOfItsKindCountsWhateverTheOrderTheyWereTold)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T09:00");
    drank(unit, "clear liquid", "2027-06-17T05:00");
    EXPECT_EQ(text(only_item(unit).earliest), "2027-06-17T11:00-04:00");
    EXPECT_THAT(only_item(unit).why, HasSubstr("09:00"));
}

TEST(Fasting, OneKindSaysNothingAboutAnother)
{
    SmallUnit unit = on_the_day();
    unit.record.arrival->nothing_else_taken = false;
    fasting(unit, "light meal", "light_meal_hours");
    drank(unit, "clear liquid", "2027-06-17T05:00");
    EXPECT_EQ(only_item(unit).state, blank);
}

TEST(Fasting, BlankBlocksUntilSomebodyHasAskedForAnythingElse)
{
    SmallUnit unit = on_the_day();
    unit.record.arrival->nothing_else_taken = false;
    fasting(unit, "light meal", "light_meal_hours");
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_EQ(verdict(unit), not_ready);
    unit.record.arrival->nothing_else_taken = true;
    EXPECT_EQ(only_item(unit).state, met);
    EXPECT_EQ(verdict(unit), may_go_in);
}

TEST(Fasting, OfAnIntakeThatLiesAheadIsNotMet)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T10:15");
    EXPECT_EQ(only_item(unit).state, not_met);
}

TEST(Fasting, ByHoursTheUnitHasNotConfirmedShowsNobodyReady)
{
    SmallUnit unit = on_the_day();
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T05:00");
    unit.parameter("clear_liquid_hours").sure = HowSure::from_memory;
    EXPECT_EQ(only_item(unit).state, open);
    unit.confirm("clear_liquid_hours");
    EXPECT_EQ(only_item(unit).state, met);
}

// --- measures ------------------------------------------------------------------------------------------

/// A case that needs an INR below 1.5.
SmallUnit with_inr()
{
    SmallUnit unit = on_the_day();
    measured(unit, "inr_today", Operator::below, unit.place_of("inr_limit"));
    return unit;
}

TEST(Measure, OfInrMustBeBelowItsLimit)
{
    for (const auto& [inr, state] : {std::pair{"1.4", met}, std::pair{"1.49", met}, std::pair{"1.5", not_met},
                                     std::pair{"1.51", not_met}, std::pair{"1.7", not_met}}) {
        SmallUnit unit = with_inr();
        unit.number("inr_today", inr);
        EXPECT_EQ(only_item(unit).state, state) << inr;
        EXPECT_THAT(only_item(unit).why, HasSubstr(inr));
        EXPECT_FALSE(only_item(unit).earliest);  // waiting mends no INR
    }
}

TEST(Measure, EveryOperatorHoldsJustBelowAtAndJustAbove)
{
    struct Row {
        Operator op;
        bool below, at, above;
    };
    const Row rows[] = {{Operator::below, true, false, false},
                        {Operator::at_most, true, true, false},
                        {Operator::equals, false, true, false},
                        {Operator::at_least, false, true, true},
                        {Operator::above, false, false, true}};
    for (const Row& row : rows) {
        for (const auto& [glucose, right] :
             {std::pair{"69", row.below}, std::pair{"70", row.at}, std::pair{"71", row.above}}) {
            SmallUnit unit = on_the_day();
            measured(unit, "glucose_today", row.op, Exact{70});
            unit.number("glucose_today", glucose);
            EXPECT_EQ(only_item(unit).state, right ? met : not_met)
                << static_cast<int>(row.op) << " " << glucose;
        }
    }
}

TEST(Measure, MustKeepEveryOneOfItsLimits)
{
    for (const auto& [glucose, state] :
         {std::pair{"69", not_met}, std::pair{"70", met}, std::pair{"250", met}, std::pair{"251", not_met}}) {
        SmallUnit unit = on_the_day();
        auto& rule = measured(unit, "glucose_today", Operator::at_least, Exact{70});
        std::get<screening::MeasuredCheck>(rule.check).bounds.push_back({Operator::at_most, Exact{250}});
        unit.number("glucose_today", glucose);
        EXPECT_EQ(only_item(unit).state, state) << glucose;
    }
}

TEST(Measure, OfWhichOnlyPartKeepsTheLimitDoesNotKeepIt)
{
    SmallUnit unit = with_inr();
    unit.answer("inr_today", screening::NumberInterval{num("1.4"), num("1.5")});
    EXPECT_EQ(only_item(unit).state, not_met);
}

TEST(Measure, PastItsAgeAtTheStartIsBlankAndSaysSo)
{
    const std::pair<std::string_view, ReadinessState> rows[] = {
        {"2027-06-17T09:01-04:00", met}, {"2027-06-17T09:00-04:00", met}, {"2027-06-17T08:59-04:00", blank}};
    for (const auto& [moment, state] : rows) {
        SmallUnit unit = on_the_day();  // sixty minutes before 10:00
        measured(unit, "glucose_today", Operator::at_least, Exact{70});
        unit.number("glucose_today", "100").last_answer("glucose_today").at = at(moment);
        EXPECT_EQ(only_item(unit).state, state) << moment;
        if (state == blank) {
            EXPECT_THAT(only_item(unit).why, HasSubstr("age"));
            EXPECT_EQ(verdict(unit), not_ready);
        }
    }
}

TEST(Measure, GrowsOldWhileThePatientWaitsBeyondThePlannedStart)
{
    SmallUnit unit = on_the_day();
    measured(unit, "glucose_today", Operator::at_least, Exact{70});
    unit.number("glucose_today", "100").last_answer("glucose_today").at = at("2027-06-17T09:10-04:00");
    EXPECT_EQ(only_item(unit.look("2027-06-17T10:10-04:00")).state, met);
    EXPECT_EQ(only_item(unit.look("2027-06-17T10:11-04:00")).state, blank);
}

TEST(Measure, NotDoneNotKnownUnconfirmedOrInConflictIsBlank)
{
    SmallUnit unit = with_inr();
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_THAT(only_item(unit).why, HasSubstr("not done"));

    unit.number("inr_today", "1.2").last_answer("inr_today").value.reset();
    unit.last_answer("inr_today").why_not_known = screening::WhyNotKnown::could_not_be_measured;
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_THAT(only_item(unit).why, HasSubstr("not known"));

    unit.forget("inr_today").number("inr_today", "1.2").last_answer("inr_today").origin =
        screening::Origin::import;
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_THAT(only_item(unit).why, HasSubstr("not confirmed"));

    unit.forget("inr_today").number("inr_today", "1.2").number("inr_today", "1.3");
    unit.last_answer("inr_today").unseen = true;
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_THAT(only_item(unit).why, HasSubstr("differ"));
}

TEST(Measure, ALaterOneThatSawTheEarlierReplacesIt)
{
    SmallUnit unit = with_inr();
    unit.number("inr_today", "1.7").number("inr_today", "1.4");
    EXPECT_EQ(only_item(unit).state, met);
}

TEST(Measure, WithinALimitTheUnitHasNotConfirmedShowsNobodyReady)
{
    SmallUnit unit = with_inr();
    unit.number("inr_today", "1.2").parameter("inr_limit").sure = HowSure::common_practice;
    EXPECT_EQ(only_item(unit).state, open);
    EXPECT_EQ(verdict(unit), not_ready);
    unit.number("inr_today", "1.7");
    EXPECT_EQ(only_item(unit).state, not_met);  // the limit still warns
    unit.number("inr_today", "1.2").confirm("inr_limit");
    EXPECT_EQ(only_item(unit).state, met);
}

// --- confirmed -----------------------------------------------------------------------------------------

TEST(Confirmed, IsMetByTheAnswerItExpects)
{
    struct Row {
        std::string_view fact;
        bool expected;
        bool said;
        ReadinessState state;
    };
    const Row rows[] = {{"identity_confirmed", true, true, met},
                        {"identity_confirmed", true, false, not_met},
                        {"alone_at_home", false, false, met},
                        {"alone_at_home", false, true, not_met}};
    for (const Row& row : rows) {
        SmallUnit unit = on_the_day();
        confirmed(unit, row.fact, row.expected);
        EXPECT_EQ(only_item(unit).state, blank);
        unit.answer(row.fact, row.said);
        EXPECT_EQ(only_item(unit).state, row.state) << row.fact << " " << row.said;
    }
}

TEST(Confirmed, OnTheDayDoesNotComeFromThePhoneCall)
{
    SmallUnit unit = on_the_day();
    confirmed(unit, "identity_confirmed", true);
    unit.answer("identity_confirmed", true).last_answer("identity_confirmed").at =
        at("2027-06-16T23:59-04:00");
    EXPECT_EQ(only_item(unit).state, blank);
    unit.last_answer("identity_confirmed").at = at("2027-06-17T00:00-04:00");
    EXPECT_EQ(only_item(unit).state, met);
}

TEST(Confirmed, TwoAnswersThatDifferAreBlank)
{
    SmallUnit unit = on_the_day();
    confirmed(unit, "identity_confirmed", true);
    unit.answer("identity_confirmed", true).answer("identity_confirmed", false);
    unit.last_answer("identity_confirmed").unseen = true;
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_EQ(verdict(unit), not_ready);
}

}  // namespace
}  // namespace foreday::checklists
