#include "checklists/look_again.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "tests/checklists/case_at_work.h"

namespace foreday::checklists {
namespace {

using namespace build;

std::string next(CaseAtWork& unit, std::string_view iso)
{
    unit.look(iso);
    return text(look_again(unit.rules, unit.file(), unit.look(), unit.now, hash));
}

TEST(LookAgain, AtTheNextOpeningClosingOrMidnight)
{
    CaseAtWork unit;
    unit.tell("2027-06-10T09:00-04:00");
    EXPECT_EQ(next(unit, "2027-06-14T06:59-04:00"), "2027-06-14T07:00-04:00");
    EXPECT_EQ(next(unit, "2027-06-14T07:00-04:00"), "2027-06-14T16:30-04:00");
    EXPECT_EQ(next(unit, "2027-06-14T16:30-04:00"), "2027-06-15T00:00-04:00");
    EXPECT_EQ(next(unit, "2027-06-14T23:59-04:00"), "2027-06-15T00:00-04:00");
    EXPECT_EQ(next(unit, "2027-06-15T00:00-04:00"), "2027-06-15T07:00-04:00");
}

TEST(LookAgain, WhenADoseFallsDueOrADecisionDoes)
{
    CaseAtWork unit = with_warfarin();
    EXPECT_EQ(next(unit, "2027-06-11T12:29-04:00"), "2027-06-11T12:30-04:00");
    EXPECT_EQ(next(unit, "2027-06-11T17:59-04:00"), "2027-06-11T18:00-04:00");
}

TEST(LookAgain, ASecondAfterTheListOfMedicinesGrewTooOld)
{
    CaseAtWork unit;
    unit.tell("2027-06-01T09:30-04:00");
    unit.close_list("2027-06-01T09:00-04:00");
    unit.look("2027-06-15T08:59-04:00");
    EXPECT_EQ(look_again(unit.rules, unit.file(), unit.look(), unit.now, hash),
              at("2027-06-15T09:00-04:00") + std::chrono::seconds{1});
}

TEST(LookAgain, AtTheStart)
{
    CaseAtWork unit;
    unit.tell("2027-06-10T09:30-04:00");
    EXPECT_EQ(next(unit, "2027-06-17T09:59-04:00"), "2027-06-17T10:00-04:00");
}

/// What a list says about a case, in one text.
std::string seen(const CaseAtWork& unit)
{
    const WholeCase whole = unit.look();
    const CaseFile file = unit.file();
    const Strands strands = strands_of(unit.rules, file, whole, unit.now, hash);
    std::string all = strands.screening_words + strands.decision_words + strands.told_words +
                      strands.day_words + strands.closing_words;
    for (const Call& call : calls_of(unit.rules, file, whole, hash)) {
        all += fmt::format("|{} {} {} {}", call.id, text(call.due_from), text(call.useful_until), call.why);
    }
    for (const screening::Item* item : all_items(whole.assessment)) {
        all += "|" + item->title + item->fingerprint_bytes;
    }
    for (const HoldStage stage : whole.stages) {
        all += name_of(stage);
    }
    return all;
}

TEST(LookAgain, NothingSaidChangesBeforeIt)
{
    CaseAtWork unit = with_warfarin();
    unit.hold_rule("one day", "ibuprofen", screening::HoldAction::omit_days, screening::Exact{1});
    unit.take("m2", "ibuprofen", daily({"08:00", "20:00"}));
    unit.finding("breathless", screening::Level::ask, always());
    unit.close_list("2027-06-01T09:00-04:00").clear("2027-06-02T09:00-04:00");
    unit.tell("2027-06-02T09:30-04:00");
    int looks = 0;
    for (unit.look("2027-06-10T08:00-04:00"); unit.now < at("2027-06-18T00:00-04:00"); ++looks) {
        const auto until = look_again(unit.rules, unit.file(), unit.look(), unit.now, hash);
        ASSERT_GT(until, unit.now);
        const std::string before = seen(unit);
        for (const auto& later : {unit.now + (until - unit.now) / 2, until - std::chrono::seconds{1}}) {
            if (later > unit.now) {
                const auto then = unit.now;
                unit.now = later;
                EXPECT_EQ(seen(unit), before) << text(then) << " until " << text(until);
                unit.now = then;
            }
        }
        unit.now = until;
    }
    EXPECT_GT(looks, 24);
}

}  // namespace
}  // namespace foreday::checklists
