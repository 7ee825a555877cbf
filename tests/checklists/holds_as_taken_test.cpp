#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "screening/hold_plan.h"
#include "tests/checklists/on_the_day.h"

/// Every medicine that was to be left out, as really taken against as agreed.
namespace foreday::checklists {
namespace {

using namespace build;
using screening::DecisionAnswer;
using screening::Exact;
using screening::HoldAction;
using ::testing::AllOf;
using ::testing::HasSubstr;

using enum ReadinessState;
using enum Verdict;

/// One medicine, one rule on it, and the item of the checklist. The procedure is on 17 June at 10:00.
SmallUnit taking(std::string_view medicine, HoldAction action, Exact number,
                 const screening::Pattern& pattern = daily({"18:00"}))
{
    SmallUnit unit = on_the_day();
    unit.hold_rule("the_rule", medicine, action, number);
    unit.take("m1", medicine, pattern).at = at("2027-06-01T09:00-04:00");
    unit.readiness("holds_as_taken", screening::ReadinessKind::needs_a_clinician);
    return unit;
}

/// Warfarin at 18:00, five days left out: the last dose is that of the 11th. The endoscopist has agreed.
SmallUnit on_warfarin()
{
    SmallUnit unit = taking("warfarin", HoldAction::omit_days, Exact{5});
    unit.decide("hold:m1").when = at("2027-06-10T09:00-04:00");
    return unit;
}

/// Told on the day given, so that the case of the day does not find the telling late.
void told(SmallUnit& unit, std::string_view last_dose)
{
    unit.record.told = {{"hold:m1", at("2027-06-02T09:00-04:00"), day(last_dose)}};
}

struct DoseRow {
    std::string_view date;
    std::string_view hour;
    ReadinessState state;
    std::string_view said = {};
};

TEST(HoldsAsTaken, AMarkedMedicineIsStoppedOnTheDayAgreedNeitherLaterNorEarlier)
{
    const DoseRow rows[] = {{"2027-06-10", "18:00", not_met, "last dose Thu 10 Jun 2027"},
                            {"2027-06-11", "18:00", met, "last dose Fri 11 Jun 2027"},
                            {"2027-06-11", "", met, "last dose Fri 11 Jun 2027"},
                            {"2027-06-12", "18:00", not_met, "last dose Sat 12 Jun 2027"},
                            {"2027-06-12", "", not_met, "last dose Sat 12 Jun 2027"}};
    for (const DoseRow& row : rows) {
        SmallUnit unit = on_warfarin();
        told(unit, "2027-06-11");
        really_took(unit, "m1", row.date, row.hour);
        EXPECT_EQ(only_item(unit).state, row.state)
            << row.date << " " << row.hour << ": " << only_item(unit).why;
        EXPECT_THAT(only_item(unit).why, AllOf(HasSubstr("warfarin"), HasSubstr(std::string{row.said}),
                                               HasSubstr("agreed Fri 11 Jun 2027")));
    }
}

TEST(HoldsAsTaken, SayWhichWayItWentWrong)
{
    SmallUnit unit = on_warfarin();
    really_took(unit, "m1", "2027-06-12", "18:00");
    EXPECT_THAT(only_item(unit).why, HasSubstr("too late"));
    really_took(unit, "m1", "2027-06-10", "18:00");
    EXPECT_THAT(only_item(unit).why, HasSubstr("too early"));
}

TEST(HoldsAsTaken, AnUnmarkedMedicineStoppedEarlyIsAsAgreed)
{
    const DoseRow rows[] = {
        {"2027-06-12", "18:00", met}, {"2027-06-15", "18:00", met}, {"2027-06-16", "18:00", not_met}};
    for (const DoseRow& row : rows) {
        SmallUnit unit = taking("ibuprofen", HoldAction::omit_days, Exact{1});
        told(unit, "2027-06-15");
        really_took(unit, "m1", row.date, row.hour);
        EXPECT_EQ(only_item(unit).state, row.state) << row.date;
    }
}

TEST(HoldsAsTaken, ShorterThanToldAndNotTooShortIsNotedOnly)
{
    // Seven days are told, fewer than five are too short: the last dose told is that of the 9th.
    const DoseRow rows[] = {{"2027-06-09", "08:00", met},
                            {"2027-06-10", "08:00", met},
                            {"2027-06-11", "08:00", met},
                            {"2027-06-12", "08:00", not_met}};
    for (const DoseRow& row : rows) {
        SmallUnit unit = taking("iron", HoldAction::omit_days, Exact{7}, daily({"08:00"}));
        unit.rules.protocol.holds.front().too_short_below = Exact{5};
        told(unit, "2027-06-09");
        really_took(unit, "m1", row.date, row.hour);
        EXPECT_EQ(only_item(unit).state, row.state) << row.date;
    }
    SmallUnit unit = taking("iron", HoldAction::omit_days, Exact{7}, daily({"08:00"}));
    unit.rules.protocol.holds.front().too_short_below = Exact{5};
    told(unit, "2027-06-09");
    really_took(unit, "m1", "2027-06-10", "08:00");
    EXPECT_THAT(only_item(unit).why, HasSubstr("shorter"));
}

TEST(HoldsAsTaken, NobodyAskedIsBlank)
{
    SmallUnit unit = on_warfarin();
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_EQ(verdict(unit), not_ready);
    really_took(unit, "m2", "2027-06-11");
    EXPECT_EQ(only_item(unit).state, blank);
}

TEST(HoldsAsTaken, UndecidedIsNotMetWhateverWasTaken)
{
    SmallUnit unit = taking("warfarin", HoldAction::omit_days, Exact{5});
    really_took(unit, "m1", "2027-06-11", "18:00");
    EXPECT_EQ(only_item(unit).state, not_met);
    EXPECT_EQ(verdict(unit), waiting_for_a_clinician);
}

TEST(HoldsAsTaken, ADecisionOpenedAgainIsUndecided)
{
    SmallUnit unit = on_warfarin();
    really_took(unit, "m1", "2027-06-11", "18:00");
    unit.record.decisions.front().fingerprint = "00";
    EXPECT_EQ(only_item(unit).state, not_met);
}

TEST(HoldsAsTaken, WithoutARuleTheMedicineIsAskedAboutFirst)
{
    SmallUnit unit = on_the_day();
    unit.take("m1", "ibuprofen", daily({"18:00"}));
    unit.readiness("holds_as_taken", screening::ReadinessKind::needs_a_clinician);
    really_took(unit, "m1", "2027-06-11", "18:00");
    EXPECT_EQ(only_item(unit).state, not_met);
}

TEST(HoldsAsTaken, TheCliniciansOwnLastDoseCounts)
{
    const DoseRow rows[] = {{"2027-06-12", "18:00", not_met},  // too early now
                            {"2027-06-13", "18:00", met},
                            {"2027-06-14", "18:00", not_met}};
    for (const DoseRow& row : rows) {
        SmallUnit unit = on_warfarin();
        unit.record.decisions.front().answer = DecisionAnswer::change;
        unit.record.decisions.front().last_dose = day("2027-06-13");
        really_took(unit, "m1", row.date, row.hour);
        EXPECT_EQ(only_item(unit).state, row.state) << row.date << ": " << only_item(unit).why;
    }
}

TEST(HoldsAsTaken, TheCliniciansOwnLastDoseCountsWhereTheProtocolGivesNone)
{
    SmallUnit unit = taking("warfarin", HoldAction::ask_first, Exact{0});
    screening::Decision& decision = unit.decide("hold:m1");
    decision.answer = DecisionAnswer::change;
    decision.last_dose = day("2027-06-13");
    EXPECT_EQ(only_item(unit).state, blank);
    really_took(unit, "m1", "2027-06-13");
    EXPECT_EQ(only_item(unit).state, met);
    really_took(unit, "m1", "2027-06-14");
    EXPECT_EQ(only_item(unit).state, not_met);
}

TEST(HoldsAsTaken, AnHourRuleGoesByTheElapsedMinute)
{
    // 48 hours before 10:00 on the 17th is 10:00 on the 15th; the last scheduled dose is that of 08:00.
    const DoseRow rows[] = {
        {"2027-06-15", "08:00", met},     {"2027-06-15", "09:59", met},
        {"2027-06-15", "10:00", met},     {"2027-06-15", "10:01", not_met},
        {"2027-06-15", "20:00", not_met}, {"2027-06-14", "", not_met},  // the dose of the 15th was missed
        {"2027-06-15", "", not_met}};                                   // may have been at the end of the day
    for (const DoseRow& row : rows) {
        SmallUnit unit =
            taking("apixaban", HoldAction::last_dose_at_least_hours, Exact{48}, daily({"08:00", "20:00"}));
        unit.decide("hold:m1");
        really_took(unit, "m1", row.date, row.hour);
        EXPECT_EQ(only_item(unit).state, row.state)
            << row.date << " " << row.hour << ": " << only_item(unit).why;
    }
}

TEST(HoldsAsTaken, AnHourRuleCountsTheHourTheClocksSwallow)
{
    // 24 hours before 10:00 (UTC-4) on 14 March is 09:00 (UTC-5) on the 13th.
    for (const auto& [hour, state] :
         {std::pair{"08:59", met}, std::pair{"09:00", met}, std::pair{"09:01", not_met}}) {
        SmallUnit unit =
            taking("ibuprofen", HoldAction::last_dose_at_least_hours, Exact{24}, daily({"07:00"}));
        unit.start("2027-03-14T10:00").look("2027-03-14T09:30-04:00");
        unit.decide("hold:m1").when = at("2027-03-01T09:00-05:00");
        really_took(unit, "m1", "2027-03-13", hour);
        EXPECT_EQ(only_item(unit).state, state) << hour << ": " << only_item(unit).why;
    }
}

TEST(HoldsAsTaken, ADayRuleNeverChangesUnderAClockChange)
{
    for (const auto& [date, state] : {std::pair{"2027-03-12", met}, std::pair{"2027-03-13", not_met}}) {
        SmallUnit unit = taking("ibuprofen", HoldAction::omit_days, Exact{1}, daily({"23:30"}));
        unit.start("2027-03-14T10:00").look("2027-03-14T09:30-04:00");
        unit.decide("hold:m1").when = at("2027-03-01T09:00-05:00");
        really_took(unit, "m1", date, "23:30");
        EXPECT_EQ(only_item(unit).state, state) << date << ": " << only_item(unit).why;
    }
}

TEST(HoldsAsTaken, AnUnmarkedMedicineTakenAsUsualNeedsNoAsking)
{
    const SmallUnit unit = taking("iron", HoldAction::take_as_usual, Exact{0});
    EXPECT_EQ(only_item(unit).state, met);
    EXPECT_EQ(verdict(unit), may_go_in);
}

TEST(HoldsAsTaken, AMarkedMedicineThatWasToGoOnAndDidNotIsSeenByAClinician)
{
    SmallUnit unit = taking("warfarin", HoldAction::take_as_usual, Exact{0});
    really_took(unit, "m1", "2027-06-16", "18:00");
    EXPECT_EQ(only_item(unit).state, met) << only_item(unit).why;
    really_took(unit, "m1", "2027-06-13", "18:00");
    EXPECT_EQ(only_item(unit).state, not_met);
}

TEST(HoldsAsTaken, WithNoMedicineThereIsNothingToAsk)
{
    SmallUnit unit = on_the_day();
    unit.readiness("holds_as_taken", screening::ReadinessKind::needs_a_clinician);
    EXPECT_EQ(only_item(unit).state, met);
}

TEST(HoldsAsTaken, OneOfSeveralIsEnoughToKeepThePatient)
{
    SmallUnit unit = on_warfarin();
    unit.hold_rule("iron_seven_days", "iron", HoldAction::omit_days, Exact{7});
    unit.take("m2", "iron", daily({"08:00"})).at = at("2027-06-01T09:00-04:00");
    unit.record.told = {{"hold:m2", at("2027-06-02T09:00-04:00"), day("2027-06-09")}};
    auto& doses = unit.record.arrival->doses_taken;
    doses = {{"m1", {day("2027-06-11"), clock("18:00")}}};
    EXPECT_EQ(only_item(unit).state, blank);
    EXPECT_THAT(only_item(unit).why, HasSubstr("iron"));
    doses.push_back({"m2", {day("2027-06-09"), clock("08:00")}});
    EXPECT_EQ(only_item(unit).state, met);
    doses.back().second.day = day("2027-06-12");
    EXPECT_EQ(only_item(unit).state, not_met);
}

}  // namespace
}  // namespace foreday::checklists
