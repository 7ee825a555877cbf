#include "checklists/whole_case.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/checklists/on_the_day.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using screening::HoldAction;

void add(std::string& all, std::string_view part)
{
    all += fmt::format("{}:{};", part.size(), part);
}

void add(std::string& all, const PreparationPlan& plan)
{
    if (const auto* fits = std::get_if<Fitted>(&plan.plan)) {
        for (const Step& step : fits->steps) {
            add(all, text(step.at) + step.what);
        }
        for (const std::string& note : fits->notes) {
            add(all, note);
        }
    } else {
        const auto& why = std::get<Refused>(plan.plan);
        add(all, why.reason);
        for (const std::string& choice : why.choices) {
            add(all, choice);
        }
    }
    add(all, plan.about_the_order);
    add(all, plan.stated);
    for (const auto& choice : plan.choices) {
        add(all, choice.timetable);
    }
}

/// Everything the case says, as one text.
std::string whole_text(const WholeCase& whole)
{
    std::string all;
    const auto items = all_items(whole.assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        add(all, items[place]->id + items[place]->title + items[place]->fingerprint_bytes);
        add(all, name_of(whole.decided[place].state));
        add(all, whole.decided[place].fingerprint);
    }
    for (const HoldStage stage : whole.stages) {
        add(all, name_of(stage));
    }
    for (const auto& proposal : whole.restart_proposals) {
        add(all, proposal ? screening::iso_date(proposal->earliest) : "none");
    }
    add(all, whole.preparation);
    for (const Lack& lack : whole.clearance.lacks) {
        add(all, lack.item + lack.what);
    }
    for (const std::string& act : whole.clearance.still_to_do) {
        add(all, act);
    }
    add(all, whole.clearance.lapsed_because);
    add(all, name_of(whole.readiness.verdict));
    for (const std::string& reason : whole.readiness.reasons) {
        add(all, reason);
    }
    for (const ReadinessItem& item : whole.readiness.items) {
        add(all, item.id + std::string{name_of(item.state)} + item.why + text(item.earliest));
    }
    return all;
}

/// A bit of everything: findings, holds, decisions, a clearance and a checklist.
SmallUnit a_full_case()
{
    SmallUnit unit = on_the_day();
    unit.finding("breathless", screening::Level::ask, always());
    unit.finding("worried", screening::Level::stop, unit.is("worry"));
    unit.hold_rule("warfarin_five_days", "warfarin", HoldAction::omit_days, Exact{5});
    unit.hold_rule("ibuprofen_one_day", "ibuprofen", HoldAction::omit_days, Exact{1});
    unit.take("m1", "warfarin", daily({"18:00"}));
    unit.take("m2", "ibuprofen", daily({"08:00"}));
    unit.decide("hold:m1");
    fasting(unit, "clear liquid", "clear_liquid_hours");
    drank(unit, "clear liquid", "2027-06-17T09:31");
    unit.readiness("holds_as_taken", screening::ReadinessKind::needs_a_clinician);
    return unit;
}

TEST(WholeCaseAtOneMoment, TheSameInputGivesTheSameTwice)
{
    const SmallUnit unit = a_full_case();
    const std::string once = whole_text(unit.look());
    EXPECT_EQ(once, whole_text(unit.look()));
    const SmallUnit the_same_again = a_full_case();
    EXPECT_EQ(once, whole_text(the_same_again.look()));
    EXPECT_GT(once.size(), 1000U);
}

TEST(WholeCaseAtOneMoment, LeavesTheRecordAsItIs)
{
    const SmallUnit unit = a_full_case();
    const std::string before = whole_text(unit.look());
    SmallUnit later = a_full_case();
    later.look("2027-06-17T11:45-04:00");
    EXPECT_NE(before, whole_text(later.look()));
    later.look("2027-06-17T09:30-04:00");
    EXPECT_EQ(before, whole_text(later.look()));
}

TEST(WholeCaseAtOneMoment, HasOneStageAndOneWordOnRestartForEachHold)
{
    const WholeCase whole = a_full_case().look();
    EXPECT_EQ(whole.assessment.holds.size(), 2U);
    EXPECT_EQ(whole.stages.size(), 2U);
    EXPECT_EQ(whole.restart_proposals.size(), 2U);
    EXPECT_EQ(whole.decided.size(), all_items(whole.assessment).size());
}

TEST(WholeCaseAtOneMoment, GoesFromNothingKnownToMayGoIn)
{
    SmallUnit unit = on_the_day();
    unit.hold_rule("warfarin_five_days", "warfarin", HoldAction::omit_days, Exact{5});
    unit.take("m1", "warfarin", daily({"18:00"})).at = at("2027-06-10T09:00-04:00");
    unit.readiness("holds_as_taken", screening::ReadinessKind::needs_a_clinician);
    fasting(unit, "clear liquid", "clear_liquid_hours");
    measured(unit, "inr_today", screening::Operator::below, unit.place_of("inr_limit"));
    EXPECT_EQ(unit.look().stages.front(), HoldStage::proposed);
    EXPECT_FALSE(unit.look().clearance.possible);
    EXPECT_EQ(verdict(unit), Verdict::not_ready);

    unit.decide("hold:m1").when = at("2027-06-10T10:00-04:00");
    unit.record.told = {{"hold:m1", at("2027-06-10T11:00-04:00"), day("2027-06-11")}};
    EXPECT_EQ(unit.look().stages.front(), HoldStage::told);
    EXPECT_EQ(unit.look().clearance.given, ClearanceCheck::Given::stands);

    drank(unit, "clear liquid", "2027-06-17T08:00");
    really_took(unit, "m1", "2027-06-11", "18:00");
    unit.number("inr_today", "1.7");
    EXPECT_EQ(verdict(unit), Verdict::not_ready);
    unit.number("inr_today", "1.4");
    EXPECT_EQ(verdict(unit), Verdict::may_go_in) << ::testing::PrintToString(unit.look().readiness.reasons);
}

}  // namespace
}  // namespace foreday::checklists
