#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <string>
#include <vector>

#include "tests/console/run_program.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using nlohmann::ordered_json;
using Keys = std::vector<std::string>;

const Keys top_keys = {"at",          "unit",           "case",      "protocol",  "findings", "holds",
                       "preparation", "open_questions", "not_asked", "clearance", "readiness"};
const Keys item_keys = {"id",      "level",   "state",   "topic", "hazard",    "now",         "title",
                        "because", "open_on", "sources", "who",   "meanwhile", "fingerprint", "decision"};
const Keys hold_keys = {"medicine",      "action", "conditions",   "stage",           "warnings", "last_dose",
                        "dates_omitted", "day_of", "doses_missed", "earliest_resume", "options"};

ordered_json parsed(const Ran& ran)
{
    EXPECT_EQ(ran.status, 0) << ran.err;
    return ordered_json::parse(ran.out, nullptr, false);
}

Keys keys_of(const ordered_json& object)
{
    Keys keys;
    for (const auto& entry : object.items()) {
        keys.push_back(entry.key());
    }
    return keys;
}

void expect_keys(const ordered_json& object, const Keys& keys)
{
    for (const std::string& key : keys) {
        EXPECT_TRUE(object.contains(key)) << key;
    }
}

const std::vector<ordered_json>& reports()
{
    static const std::vector<ordered_json> all = [] {
        std::vector<ordered_json> made;
        for (const std::string& name : demo_case_names()) {
            made.push_back(parsed(run_program({"assess", demo_case(name), "--json"})));
        }
        return made;
    }();
    return all;
}

void every_text(const ordered_json& value, std::vector<std::string>& texts)
{
    if (value.is_string()) {
        texts.push_back(value.get<std::string>());
    } else if (value.is_structured()) {
        for (const ordered_json& part : value) {
            every_text(part, texts);
        }
    }
}

TEST(JsonForm, TheKeysOfAReportStandThereInTheirOrder)
{
    ASSERT_EQ(reports().size(), 16U);
    for (const ordered_json& report : reports()) {
        expect_keys(report, top_keys);
        EXPECT_EQ(keys_of(report), keys_of(reports()[0]));
        EXPECT_EQ(keys_of(report).front(), "at") << "the moment used comes first";
        expect_keys(report.at("preparation"),
                    {"regimen", "steps", "last_solid", "last_clear_liquid", "leave_home", "notes"});
        expect_keys(report.at("clearance"), {"possible", "lacks"});
        expect_keys(report.at("readiness"), {"verdict", "reasons", "earliest", "items"});
        expect_keys(report.at("protocol"), {"version"});
        for (const char* part : {"protocol", "preparation", "clearance", "readiness"}) {
            EXPECT_EQ(keys_of(report.at(part)), keys_of(reports()[0].at(part))) << part;
        }
    }
}

TEST(JsonForm, TheIssuesTopKeysFollowOneAnotherAsItNamesThem)
{
    Keys named;
    for (const std::string& key : keys_of(reports()[0])) {
        if (std::ranges::find(top_keys, key) != top_keys.end()) {
            named.push_back(key);
        }
    }
    EXPECT_EQ(named, top_keys);
}

TEST(JsonForm, FindingsAndHoldsHaveTheirKeysAlwaysInOneOrder)
{
    Keys finding_order;
    Keys hold_order;
    for (const ordered_json& report : reports()) {
        for (const ordered_json& finding : report.at("findings")) {
            expect_keys(finding, item_keys);
            finding_order = finding_order.empty() ? keys_of(finding) : finding_order;
            EXPECT_EQ(keys_of(finding), finding_order);
        }
        for (const ordered_json& hold : report.at("holds")) {
            expect_keys(hold, item_keys);
            expect_keys(hold, hold_keys);
            hold_order = hold_order.empty() ? keys_of(hold) : hold_order;
            EXPECT_EQ(keys_of(hold), hold_order);
        }
        for (const ordered_json& question : report.at("open_questions")) {
            EXPECT_EQ(keys_of(question), (Keys{"fact", "state", "why", "would_settle"}));
        }
        for (const ordered_json& step : report.at("preparation").at("steps")) {
            EXPECT_EQ(keys_of(step), (Keys{"at", "what"}));
        }
    }
    EXPECT_FALSE(finding_order.empty());
    EXPECT_FALSE(hold_order.empty());
}

TEST(JsonForm, WordsOfAClosedListAreTheOnesTheIssueNames)
{
    const auto is_one_of = [](const ordered_json& value, const Keys& words) {
        return std::ranges::find(words, value.get<std::string>()) != words.end();
    };
    for (const ordered_json& report : reports()) {
        EXPECT_TRUE(is_one_of(report.at("readiness").at("verdict"),
                              {"may go in", "waiting for a clinician", "not ready", "not here yet"}));
        for (const char* kind : {"findings", "holds"}) {
            for (const ordered_json& item : report.at(kind)) {
                EXPECT_TRUE(is_one_of(item.at("level"), {"note", "act", "ask", "stop"}));
                EXPECT_TRUE(is_one_of(item.at("state"), {"fired", "open"}));
                EXPECT_TRUE(is_one_of(item.at("decision"), {"none", "standing", "opened again"}));
                EXPECT_TRUE(item.at("now").is_boolean());
                EXPECT_TRUE(
                    std::regex_match(item.at("fingerprint").get<std::string>(), std::regex("[0-9a-f]{64}")));
            }
        }
        for (const ordered_json& hold : report.at("holds")) {
            EXPECT_TRUE(is_one_of(hold.at("stage"), {"proposed", "agreed", "told"}));
            for (const ordered_json& warning : hold.at("warnings")) {
                EXPECT_TRUE(is_one_of(warning, {"too late", "stopped too early", "not as told"}));
            }
        }
    }
}

TEST(JsonForm, EveryTimeCarriesItsOffset)
{
    const std::regex begins_as_a_time(R"(\d{4}-\d\d-\d\dT.*)");
    const std::regex whole(R"(\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?[+-]\d\d:\d\d)");
    std::size_t times = 0;
    for (const ordered_json& report : reports()) {
        std::vector<std::string> texts;
        every_text(report, texts);
        for (const std::string& text : texts) {
            if (std::regex_match(text, begins_as_a_time)) {
                ++times;
                EXPECT_TRUE(std::regex_match(text, whole)) << text;
            }
        }
    }
    EXPECT_GE(times, 16U * 18U) << "the portions alone are more";
}

TEST(JsonForm, NoDateLeftOutLiesOnOrAfterTheDay)
{
    std::size_t dates = 0;
    for (const ordered_json& report : reports()) {
        const std::string day = report.at("start").get<std::string>().substr(0, 10);
        for (const ordered_json& hold : report.at("holds")) {
            std::vector<ordered_json> plans = {hold};
            for (const char* kind : {"options", "other_policies"}) {
                plans.insert(plans.end(), hold.at(kind).begin(), hold.at(kind).end());
            }
            for (const ordered_json& plan : plans) {
                for (const ordered_json& date : plan.at("dates_omitted")) {
                    ++dates;
                    EXPECT_LT(date.get<std::string>(), day) << hold.at("medicine");
                    EXPECT_EQ(date.get<std::string>().size(), 10U);
                }
            }
        }
    }
    EXPECT_GE(dates, 5U + 4U + 3U + 7U + 5U + 5U);
}

/// The hold of the case "warfarin_no_valve" with its one line on the medicine written otherwise.
ordered_json warfarin_taken(const std::string& taken)
{
    const TemporaryFolder folder;
    const std::string usual = "taken: daily, times: [\"18:00\"],\n       last_dose: 2027-04-07T18:00";
    const std::string text = replaced(bytes_of(demo_case("warfarin_no_valve")), usual, taken);
    const std::string file = folder.write("case.yaml", text).string();
    const ordered_json report = parsed(run_program({"assess", file, "--policy", demo_policy(), "--json"}));
    EXPECT_EQ(report.at("holds").size(), 1U);
    return report.at("holds")[0];
}

TEST(JsonForm, ALastDoseIsADateAloneWhereNoTimeOfDayIsKnown)
{
    const ordered_json hold = warfarin_taken("taken: daily, last_dose: 2027-04-07");
    EXPECT_EQ(hold.at("last_dose"), "2027-04-16");
    EXPECT_EQ(hold.at("dates_omitted"),
              ordered_json::parse(R"(["2027-04-17","2027-04-18","2027-04-19","2027-04-20","2027-04-21"])"));
}

TEST(JsonForm, DosesMissedAreNullWhereThePatternIsNotKnown)
{
    const ordered_json hold = warfarin_taken("taken: not known, last_dose: 2027-04-07T18:00");
    EXPECT_TRUE(hold.at("doses_missed").is_null());
    EXPECT_EQ(
        warfarin_taken("taken: daily, times: [\"18:00\"], last_dose: 2027-04-07T18:00").at("doses_missed"),
        5);
}

TEST(JsonForm, RestartIsProposedOnlyFromWhatWasDone)
{
    for (const ordered_json& report : reports()) {
        for (const ordered_json& hold : report.at("holds")) {
            EXPECT_TRUE(hold.at("earliest_resume").is_null()) << "no demo case says that it was done";
        }
    }
}

TEST(JsonForm, TheMomentGivenOnTheCommandLineIsTheOneUsed)
{
    const Ran ran =
        run_program({"assess", demo_case("nothing_to_ask"), "--at", "2027-04-12T09:00", "--json"});
    EXPECT_EQ(parsed(ran).at("at"), "2027-04-12T09:00-04:00");
    const Ran with_offset =
        run_program({"assess", demo_case("nothing_to_ask"), "--at", "2027-04-12T09:00-07:00", "--json"});
    EXPECT_EQ(parsed(with_offset).at("at"), "2027-04-12T12:00-04:00");
    const Ran without = run_program({"assess", demo_case("warfarin_no_valve"), "--json"});
    EXPECT_EQ(parsed(without).at("at"), "2027-04-08T11:00-04:00") << "the case's own";
    const Ran words = run_program({"assess", demo_case("nothing_to_ask"), "--at", "2027-04-12T09:00"});
    EXPECT_TRUE(words.out.starts_with("As of Monday 12 April 2027 at 09:00 (UTC-04:00)\n"))
        << words.out.substr(0, 200);
}

}  // namespace
}  // namespace foreday::tests
