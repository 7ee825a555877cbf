#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "tests/console/expected_cases.h"
#include "tests/console/run_program.h"

namespace foreday::tests {
namespace {

using nlohmann::json;
using testing::HasSubstr;

json assessed(const std::string& name)
{
    const Ran ran = run_program({"assess", demo_case(name), "--json"});
    EXPECT_EQ(ran.status, 0) << name << ": " << ran.err;
    return json::parse(ran.out, nullptr, false);
}

std::set<std::string> items_of_level(const json& report, const std::set<std::string>& levels)
{
    std::set<std::string> ids;
    for (const char* kind : {"findings", "holds"}) {
        for (const json& item : report.at(kind)) {
            if (levels.contains(item.at("level").get<std::string>())) {
                ids.insert(item.at("id").get<std::string>());
            }
        }
    }
    return ids;
}

const json& item_of(const json& report, const std::string& kind, const std::string& id)
{
    static const json nothing = json::object();
    for (const json& item : report.at(kind)) {
        if (item.at("id") == id) {
            return item;
        }
    }
    ADD_FAILURE() << "there is no " << id;
    return nothing;
}

template <class Value>
json or_null(const std::optional<Value>& value)
{
    return value ? json(*value) : json(nullptr);
}

class DemoCase : public testing::TestWithParam<CaseExpected> {};

TEST_P(DemoCase, AsksOfPeopleWhatItShould)
{
    const CaseExpected& expected = GetParam();
    const json report = assessed(expected.file);
    EXPECT_EQ(items_of_level(report, {"ask", "stop"}), expected.a_clinician_decides);
    EXPECT_EQ(items_of_level(report, {"act"}), expected.to_do);
    EXPECT_EQ(report.at("clearance").at("possible"), expected.clearance_possible) << report.at("clearance");
    EXPECT_EQ(report.at("clearance").at("lacks").empty(), expected.clearance_possible);
    EXPECT_EQ(report.at("readiness").at("verdict"), expected.verdict) << report.at("readiness").at("reasons");
}

TEST_P(DemoCase, PlansItsMedicinesAsItShould)
{
    const CaseExpected& expected = GetParam();
    const json report = assessed(expected.file);
    EXPECT_EQ(report.at("holds").size(), expected.holds.size());
    for (const HoldExpected& wanted : expected.holds) {
        const json& hold = item_of(report, "holds", wanted.id);
        SCOPED_TRACE(wanted.medicine);
        ASSERT_TRUE(hold.contains("medicine"));
        EXPECT_EQ(hold.at("medicine"), wanted.medicine);
        EXPECT_EQ(hold.at("level"), wanted.level);
        EXPECT_EQ(hold.at("state"), wanted.state);
        EXPECT_EQ(hold.at("action"), wanted.action);
        EXPECT_EQ(hold.at("number"), or_null(wanted.days));
        EXPECT_EQ(hold.at("last_dose"), or_null(wanted.last_dose));
        EXPECT_EQ(hold.at("dates_omitted"), json(wanted.dates_omitted));
        EXPECT_EQ(hold.at("day_of"), or_null(wanted.day_of));
        EXPECT_EQ(hold.at("doses_missed"), or_null(wanted.doses_missed));
    }
}

INSTANTIATE_TEST_SUITE_P(Every, DemoCase, testing::ValuesIn(expected_cases()),
                         [](const auto& one) { return one.param.file; });

TEST(DemoCases, EveryCaseOfTheFolderIsExpectedHere)
{
    std::set<std::string> expected;
    for (const CaseExpected& one : expected_cases()) {
        expected.insert(one.file);
    }
    const auto names = demo_case_names();
    EXPECT_EQ(std::set<std::string>(names.begin(), names.end()), expected);
    EXPECT_EQ(names.size(), 16U);
}

TEST(DemoCases, NobodyIsToldToPauseABloodThinnerBeforeAClinicianAgreed)
{
    for (const char* name : {"warfarin_mechanical_valve", "warfarin_no_valve", "dabigatran_poor_kidneys",
                             "recent_stent", "kidney_function_not_known", "insulin_and_glp1_in_one_pen"}) {
        const json report = assessed(name);
        const json& hold = item_of(report, "holds", "hold:m1");
        EXPECT_EQ(hold.at("stage"), "proposed") << name;
        EXPECT_EQ(hold.at("decision"), "none") << name;
        EXPECT_NE(hold.at("meanwhile"), "") << name;
        EXPECT_FALSE(hold.at("who").empty()) << name;
    }
}

TEST(DemoCases, AMechanicalValveIsWhyNoDateIsGivenForWarfarin)
{
    const json report = assessed("warfarin_mechanical_valve");
    const json& hold = item_of(report, "holds", "hold:m1");
    EXPECT_THAT(hold.at("title").get<std::string>(), HasSubstr("valve"));
    EXPECT_THAT(hold.at("because").dump(), HasSubstr("mechanical_valve"));
    for (const json& option : hold.at("other_policies")) {
        EXPECT_TRUE(option.at("last_dose").is_null()) << "no policy gives a date here: " << option;
    }
}

TEST(DemoCases, AnUnknownCreatinineLeavesEveryActionPossible)
{
    const json report = assessed("kidney_function_not_known");
    const json& hold = item_of(report, "holds", "hold:m1");
    std::set<std::string> possible;
    for (const json& option : hold.at("options")) {
        possible.insert(option.at("action").dump() + option.at("number").dump() +
                        option.at("last_dose").dump());
    }
    // 8 June less two and less four whole days; below 30 mL/min there is no schedule.
    const std::set<std::string> expected = {R"("omit days"2.0"2027-06-05T20:00-04:00")",
                                            R"("omit days"4.0"2027-06-03T20:00-04:00")",
                                            R"("ask first"nullnull)"};
    EXPECT_EQ(possible, expected);
    EXPECT_EQ(hold.at("open_on"), json::parse(R"([{"fact": "creatinine", "why": "not known"}])"));
    const json& questions = report.at("open_questions");
    ASSERT_EQ(questions.size(), 1U) << questions;
    EXPECT_EQ(questions[0].at("fact"), "creatinine");
    EXPECT_EQ(questions[0].at("state"), "not known");
    EXPECT_EQ(questions[0].at("would_settle"), json::parse(R"(["hold:m1"])"));
}

TEST(DemoCases, AnSglt2MedicineStillTakenTwoDaysBeforeIsTooLateAndAtOnce)
{
    const json report = assessed("sglt2_too_late");
    const json& hold = item_of(report, "holds", "hold:m1");
    EXPECT_EQ(hold.at("warnings"), json::parse(R"(["too late"])"));
    EXPECT_EQ(hold.at("hazard"), "ketoacidosis");
    // The last dose should have been before now: somebody is asked while the patient is still on the line.
    EXPECT_EQ(hold.at("now"), true);
    std::map<std::string, json> other_dates;
    for (const json& option : hold.at("other_policies")) {
        other_dates[option.at("last_dose").get<std::string>()] = option.at("number");
    }
    EXPECT_EQ(other_dates["2027-05-09T08:00-04:00"], 2.0);
    EXPECT_EQ(other_dates["2027-05-10T08:00-04:00"], 1.0);
}

TEST(DemoCases, AWeeklyInjectionWithSymptomsIsAQuestionOfAspiration)
{
    const json report = assessed("weekly_glp1_with_symptoms");
    const json& hold = item_of(report, "holds", "hold:m1");
    EXPECT_EQ(hold.at("hazard"), "aspiration");
    EXPECT_THAT(hold.at("because").dump(), HasSubstr("glp1_symptoms"));
    // Under the other policy Sunday 2 May, three days before, is left out; Sunday 25 April, ten days before,
    // is not.
    ASSERT_EQ(hold.at("other_policies").size(), 1U);
    EXPECT_EQ(hold.at("other_policies")[0].at("last_dose"), "2027-04-25T20:00-04:00");
    EXPECT_EQ(hold.at("other_policies")[0].at("dates_omitted"), json::parse(R"(["2027-05-02"])"));
}

TEST(DemoCases, HeartFailureSpeaksAgainstTheSulfateSolutionAndAnotherIsSuggested)
{
    const json report = assessed("heart_failure_wrong_preparation");
    const json& preparation = report.at("preparation");
    EXPECT_EQ(preparation.at("state"), "suggested");
    EXPECT_EQ(preparation.at("regimen"), "peg_els_4l_split");
    EXPECT_THAT(preparation.at("about_the_order").get<std::string>(), HasSubstr("Heart failure"));
    EXPECT_FALSE(preparation.at("steps").empty());
}

TEST(DemoCases, ThePreparationOfAPlainCaseIsTimedFromTheStart)
{
    const json report = assessed("nothing_to_ask");
    const json& preparation = report.at("preparation");
    EXPECT_EQ(preparation.at("regimen"), "peg_els_4l_split");
    // Start 09:30, journey 30 minutes, 60 before at the desk; low-fibre meals end at 13:00; clear liquids two
    // hours before.
    EXPECT_EQ(preparation.at("last_solid"), "2027-04-12T13:00-04:00");
    EXPECT_EQ(preparation.at("last_clear_liquid"), "2027-04-13T07:30-04:00");
    EXPECT_EQ(preparation.at("leave_home"), "2027-04-13T08:00-04:00");
    const json& steps = preparation.at("steps");
    // Two portions of eight glasses and a rest; a glass each quarter of an hour, from 18:00 and from five
    // hours before.
    std::vector<std::string> drinks;
    for (const json& step : steps) {
        if (step.at("what").get<std::string>().starts_with("Drink")) {
            drinks.push_back(step.at("at").get<std::string>());
        }
    }
    ASSERT_EQ(drinks.size(), 18U) << steps;
    EXPECT_EQ(drinks[0], "2027-04-12T18:00-04:00");
    EXPECT_EQ(drinks[7], "2027-04-12T19:45-04:00");
    EXPECT_EQ(drinks[8], "2027-04-12T20:00-04:00");
    EXPECT_EQ(drinks[9], "2027-04-13T04:30-04:00");
    EXPECT_EQ(drinks[16], "2027-04-13T06:15-04:00");
    EXPECT_EQ(drinks[17], "2027-04-13T06:30-04:00");
}

TEST(DemoCases, AnInrOf17IsTheOnlyReasonToWait)
{
    const json report = assessed("arriving_with_inr_1_7");
    const json& readiness = report.at("readiness");
    ASSERT_EQ(readiness.at("reasons").size(), 1U) << readiness.at("reasons");
    const auto reason = readiness.at("reasons")[0].get<std::string>();
    EXPECT_THAT(reason, HasSubstr("INR"));
    EXPECT_THAT(reason, HasSubstr("1.7"));
    EXPECT_THAT(reason, HasSubstr("1.5"));
}

TEST(DemoCases, WithEverythingRightNothingStandsInTheWay)
{
    const json report = assessed("arriving_with_everything_right");
    EXPECT_TRUE(report.at("readiness").at("reasons").empty());
    const json& hold = item_of(report, "holds", "hold:m1");
    EXPECT_EQ(hold.at("decision"), "standing");
    EXPECT_EQ(hold.at("stage"), "told");
    EXPECT_TRUE(hold.at("warnings").empty());
}

TEST(DemoCases, ActsStillToDoAreNamedWhereClearanceIsPossible)
{
    EXPECT_EQ(assessed("no_escort").at("clearance").at("still_to_do").size(), 2U);
    EXPECT_EQ(assessed("iron_and_constipation").at("clearance").at("still_to_do").size(), 2U);
    EXPECT_TRUE(assessed("nothing_to_ask").at("clearance").at("still_to_do").empty());
}

}  // namespace
}  // namespace foreday::tests
