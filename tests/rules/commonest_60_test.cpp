#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <iostream>
#include <stdexcept>

#include "data/reading/policy_reading.h"
#include "tests/published/healthy_case.h"
#include "tests/support/rows.h"

namespace foreday::tests {
namespace {

using namespace screening;

/// The rules as the demo unit lets them be used: what rests on practice or memory is confirmed there.
Rules rules_of_the_unit()
{
    Rules rules = real_rules();
    const std::filesystem::path file{FOREDAY_SOURCE_DIR "/data/demo/larkmoor.yaml"};
    auto policy = data::read_policy(file, rules.protocol);
    if (!policy.policy) {
        throw std::runtime_error("the demo unit's policy has faults");
    }
    rules.policy = std::move(*policy.policy);
    return rules;
}

/// The patient can be told what to do before any clinician has looked at it.
bool told_by_the_nurse(const Hold& hold)
{
    const HoldAction action = hold.plan.action;
    const bool says_what_to_do = action != HoldAction::ask_first && action != HoldAction::dose_to_be_stated;
    return says_what_to_do && !hold.needs_agreement && hold.item.state == ItemState::fired &&
           hold.warnings.empty();
}

TEST(CommonestMedicines, MostGetAnInstructionWithoutAPhysician)
{
    const auto rows = read_rows(FOREDAY_SOURCE_DIR "/tests/rules/commonest_60.tsv");
    ASSERT_EQ(rows.size(), 60U);
    const Rules rules = rules_of_the_unit();
    int told = 0;
    std::string asked;
    for (const Row& row : rows) {
        CaseWish wish;
        wish.medicines = {row.at("medicine")};
        if (told_by_the_nurse(hold_of(rules, wish))) {
            ++told;
        } else {
            asked += " " + row.at("medicine");
        }
    }
    std::cout << fmt::format("{} of {} told without a physician; a clinician decides about:{}\n", told,
                             rows.size(), asked);
    EXPECT_GE(told * 100, 70 * 60) << "asking about everything is a failure too";
    EXPECT_LT(told, 60) << "blood thinners and insulin are a clinician's";
}

TEST(CommonestMedicines, ALaxativeOfUnknownKindIsToldByTheNurseAndAnUnknownMedicineIsNot)
{
    const Rules rules = rules_of_the_unit();
    CaseWish wish;
    wish.medicines = {"laxative_not_named"};
    EXPECT_TRUE(told_by_the_nurse(hold_of(rules, wish)));

    CaseRecord record = healthy_case(rules, wish);
    record.medicines.items.front().medicine.reset();
    const Assessment unknown = assess(rules, record, call_moment(rules));
    const auto asked = std::ranges::find(unknown.findings, "unrecognised_medicine", &Item::rule);
    ASSERT_NE(asked, unknown.findings.end());
    EXPECT_EQ(asked->level, Level::ask);
}

}  // namespace
}  // namespace foreday::tests
