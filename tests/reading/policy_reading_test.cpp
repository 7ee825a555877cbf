#include "data/reading/policy_reading.h"

#include <gtest/gtest.h>

#include "tests/reading/broken_input.h"
#include "tests/reading/small_rules.h"

namespace foreday::tests {
namespace {

using namespace screening;

const Protocol& small()
{
    return small_rules().protocol;
}

data::ReadPolicy read_small(const std::string& from = "", const std::string& to = "")
{
    const TemporaryFolder folder;
    const std::string text = from.empty() ? small_policy() : changed(small_policy(), from, to);
    return data::read_policy(folder.write("unit.yaml", text), small());
}

const Broken broken_policies[] = {
    {"OutOfRange", "", "3 hours", "7 hours", "7 hours",
     "out of the range of \"liquid_hours\"; from 2 hours to 6 hours"},
    {"BelowItsRange", "", "3 hours", "119 minutes", "119 minutes", "out of the range"},
    {"LooserWithoutReason", "", "reason: a new table, ", "", "{value: 200 kg",
     "looser than the default, without reason"},
    {"LooserWithoutName", "", "a new table, by: Dr Invented, ", "a new table, ", "{value: 200 kg",
     "without by"},
    {"LooserWithoutRole", "", "role: medical director, on: 2026-11-02}\nanswers", "on: 2026-11-02}\nanswers",
     "{value: 200 kg", "without role"},
    {"LooserWithoutDate", "", ", on: 2026-11-02}\nanswers", "}\nanswers", "{value: 200 kg", "without on"},
    {"LooserByANurse", "", "role: medical director, on: 2026-11-02}\nanswers",
     "role: nurse, on: 2026-11-02}\nanswers", "nurse, on", "\"nurse\" is no clinician who may decide this"},
    {"HalfADay", "", "liquid_hours: {value: 3 hours}", "closed_days: {value: 36 hours}", "36 hours",
     "no whole number of days; whole days"},
    {"AnotherUnit", "", "3 hours", "3 kg", "3 kg", "cannot be compared"},
    {"AParameterNobodyKnows", "", "liquid_hours:", "liqid_hours:", "liqid_hours", "perhaps \"liquid_hours\""},
    {"AnOptionNobodyKnows", "", "option: goes_on", "option: stops", "stops",
     "\"stops\" is not one of the words"},
    {"AQuestionNobodyKnows", "", "{thinner_low_risk:", "{thinner_risk:", "thinner_risk",
     "there is no policy question"},
    {"AConfirmationOfNothing", "", "items: [iron_seven_days", "items: [iron_six_days", "iron_six_days",
     "perhaps \"iron_seven_days\""},
    {"AConfirmationTwice", "", "items: [iron_seven_days, large_jug]", "items: [large_jug, large_jug]",
     "large_jug], by", "confirmed twice"},
    {"AConfirmationWithoutAName", "", "large_jug], by: Dr Invented,", "large_jug],", "{items",
     "a confirmation has no \"by\""},
    {"AnOrderOnAMarkedMedicine", "", "{holds: [iron_seven_days]", "{holds: [thinner_low]", "thinner_low",
     "a standing order on a marked medicine (apixaban)"},
    {"AnOrderThatEndsBeforeItBegins", "", "until: 2027-10-31", "until: 2026-11-01", "2026-11-01",
     "the order ends before it begins"},
    {"AnOrderWithoutADirector", "", "director: Dr Invented, ", "", "{holds",
     "a standing order has no \"director\""},
    {"APreparationTwice", "", "preparations: [large_jug]", "preparations: [large_jug, large_jug]",
     "large_jug]", "stands twice"},
    {"ClosedBeforeItOpens", "", "closes: \"16:30\"", "closes: \"07:00\"", "\"07:00\", days",
     "the unit closes before it opens"},
    {"ADayNobodyKnows", "", "tuesday", "tusday", "tusday", "perhaps \"tuesday\""},
    {"AHolidayThatDoesNotExist", "", "2027-05-31", "2027-06-31", "2027-06-31", "2027-06-31"},
    {"AZoneNobodyKnows", "", "America/New_York", "America/Larkmoor", "America/Larkmoor", "America/Larkmoor"},
    {"ATopicNobodyKnows", "", "{blood thinners:", "{blood thinner:", "blood thinner",
     "perhaps \"blood thinners\""},
    {"ANurseWhoMayAgree", "", "[endoscopist, cardiology]", "[endoscopist, nurse]", "[endoscopist, nurse]",
     "\"nurse\" is no clinician who may agree"},
    {"ALocalNameOfNothing", "", "{large_jug: [the jug]}", "{larg_jug: [the jug]}", "larg_jug",
     "perhaps \"large_jug\""},
};

class BrokenPolicy : public testing::TestWithParam<Broken> {};

TEST_P(BrokenPolicy, ThatOneFaultIsToldAtItsPlace)
{
    const Broken& broken = GetParam();
    const TemporaryFolder folder;
    const std::string text = changed(small_policy(), broken.from, broken.to);
    const auto file = folder.write("unit.yaml", text);
    const auto read = data::read_policy(file, small());
    EXPECT_FALSE(read.policy.has_value());
    EXPECT_EQ(read.faults.size(), 1U) << all_of(read.faults);
    EXPECT_TRUE(is_told(read.faults, file.string(), text, broken)) << all_of(read.faults);
}

INSTANTIATE_TEST_SUITE_P(Small, BrokenPolicy, testing::ValuesIn(broken_policies), name_of_broken);

TEST(ReadPolicy, WhatTheUnitSaysStandsInItsPlace)
{
    const auto read = read_small();
    ASSERT_TRUE(read.policy.has_value()) << all_of(read.faults);
    const UnitPolicy& policy = *read.policy;
    EXPECT_EQ(policy.unit, "An Invented Unit");
    EXPECT_EQ(read.zone, "America/New_York");
    EXPECT_EQ(policy.calendar.closes, std::chrono::minutes{16 * 60 + 30});
    EXPECT_EQ(policy.calendar.working_weekdays, (std::vector<unsigned>{1, 2, 5}));
    EXPECT_EQ(std::get<Exact>(policy.parameters.at(*find_parameter(small(), "liquid_hours"))), Exact{3});
    EXPECT_EQ(std::get<Exact>(policy.parameters.at(*find_parameter(small(), "journey"))), Exact{45});
    EXPECT_EQ(policy.options, (std::vector<std::uint32_t>{1}));
    EXPECT_EQ(policy.confirmations.size(), 2U);
    EXPECT_EQ(rank_in(policy, "iron_seven_days", HowSure::common_practice), HowSure::unit_policy);
    EXPECT_EQ(rank_in(policy, "weekly_injection", HowSure::from_memory), HowSure::from_memory);
    EXPECT_EQ(policy.may_agree.at(Topic::blood_thinners),
              (std::vector<Role>{Role::endoscopist, Role::cardiology}));
    EXPECT_EQ(policy.may_agree.size(), 19U);
    ASSERT_EQ(read.changes.size(), 3U);
    EXPECT_EQ(read.changes.at(1).item, "table_limit");
    EXPECT_EQ(read.changes.at(1).by, "Dr Invented");
    EXPECT_EQ(read.roster.at(1).phone, "7001");
    EXPECT_EQ(read.local_names.at("large_jug"), (std::vector<std::string>{"the jug"}));
}

TEST(ReadPolicy, NumbersAreConvertedToTheUnitOfTheParameter)
{
    const auto read = read_small("3 hours", "150 minutes");
    ASSERT_TRUE(read.policy.has_value()) << all_of(read.faults);
    EXPECT_EQ(std::get<Exact>(read.policy->parameters.at(*find_parameter(small(), "liquid_hours"))),
              Exact::ratio(5, 2));
}

TEST(ReadPolicy, BothEndsOfARangeMayBeSet)
{
    EXPECT_TRUE(read_small("3 hours", "2 hours").policy.has_value());
    EXPECT_TRUE(read_small("3 hours", "6 hours").policy.has_value());
    EXPECT_FALSE(read_small("3 hours", "361 minutes").policy.has_value());
}

TEST(ReadPolicy, OnlyALooserChangeMustBeSignedFor)
{
    // Higher is looser for the list's days, and any change of the second portion's start is.
    const auto set = [](const char* line) {
        return read_small("  liquid_hours: {value: 3 hours}\n", line).policy.has_value();
    };
    EXPECT_TRUE(set("  closed_days: {value: 13 days}\n"));
    EXPECT_TRUE(set("  closed_days: {value: 14 days}\n"));
    EXPECT_FALSE(set("  closed_days: {value: 15 days}\n"));
    EXPECT_TRUE(set("  second_start: {value: 5 hours}\n"));
    EXPECT_FALSE(set("  second_start: {value: 299 minutes}\n"));
    EXPECT_FALSE(set("  second_start: {value: 301 minutes}\n"));
    EXPECT_TRUE(set("  journey: {value: 46 minutes}\n"));
    EXPECT_FALSE(set("  journey: {value: 44 minutes}\n"));
    EXPECT_FALSE(set("  ask_twice: {value: no}\n"));
    EXPECT_FALSE(set("  evening: {value: \"17:59\"}\n"));
    EXPECT_TRUE(
        set("  evening: {value: \"17:59\", reason: trains, by: Dr Invented, role: anaesthesia, on: "
            "2026-11-02}\n"));
}

TEST(DefaultPolicy, IsTheDesignsTableOfWhoMayAgree)
{
    const UnitPolicy policy = data::default_policy(small());
    EXPECT_EQ(policy.may_agree.at(Topic::blood_thinners), (std::vector<Role>{Role::endoscopist}));
    EXPECT_EQ(policy.may_agree.at(Topic::sugar),
              (std::vector<Role>{Role::endoscopist, Role::anaesthesia, Role::diabetes}));
    EXPECT_EQ(policy.may_agree.at(Topic::lungs_and_airway), (std::vector<Role>{Role::anaesthesia}));
    EXPECT_EQ(policy.may_agree.at(Topic::sedation_and_site), (std::vector<Role>{Role::anaesthesia}));
    EXPECT_EQ(policy.may_agree.at(Topic::record), (std::vector<Role>{Role::endoscopist}));
    EXPECT_EQ(policy.may_agree.size(), 19U);
}

TEST(DefaultPolicy, ConfirmsNothing)
{
    const UnitPolicy policy = data::default_policy(small());
    EXPECT_TRUE(policy.confirmations.empty());
    EXPECT_TRUE(policy.standing_orders.empty());
    EXPECT_EQ(policy.parameters.size(), small().parameters.size());
    const auto open = data::unconfirmed_under(small(), policy);
    const auto stands = [&](const char* id) {
        return std::ranges::find(open, id, &data::Unconfirmed::id) != open.end();
    };
    EXPECT_TRUE(stands("iron_seven_days"));
    EXPECT_TRUE(stands("large_jug"));
    EXPECT_TRUE(stands("jug_too_light"));
    EXPECT_FALSE(stands("thinner_two_days"));
    EXPECT_FALSE(stands("liquid_hours"));
}

TEST(UnconfirmedUnder, WhatThePolicyConfirmsIsNoLongerInIt)
{
    const auto read = read_small();
    const auto open = data::unconfirmed_under(small(), *read.policy);
    EXPECT_EQ(std::ranges::find(open, "iron_seven_days", &data::Unconfirmed::id), open.end());
    EXPECT_NE(std::ranges::find(open, "weekly_injection", &data::Unconfirmed::id), open.end());
}

TEST(ReadPolicy, ConfirmingWhatIsPublishedIsAWarning)
{
    const auto read = read_small("items: [iron_seven_days,", "items: [thinner_two_days,");
    ASSERT_TRUE(read.policy.has_value()) << all_of(read.faults);
    EXPECT_NE(all_of(read.warnings).find("\"thinner_two_days\" needs no confirmation: it is published"),
              std::string::npos);
}

TEST(ExpiredOrders, AnOrderIsInForceOnItsLastDayAndOverOnTheNext)
{
    const auto read = read_small();
    const Date last = *parse_date("2027-10-31");
    EXPECT_TRUE(data::expired_orders(*read.policy, last).empty());
    EXPECT_EQ(data::expired_orders(*read.policy, last + date::days{1}).size(), 1U);
}

}  // namespace
}  // namespace foreday::tests
