#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "screening/assessment.h"
#include "screening/judge.h"
#include "tests/rules/table_case.h"

// Each hold rule fired by a case, and kept from firing by one that differs in a single fact; the limits just
// below, at and just above. The table was written by somebody who read the rules and had not seen the code.

namespace foreday::tests {
namespace {

using namespace screening;

const std::vector<Row>& rows()
{
    static const std::vector<Row> all = rows_of_rules("one_fact_apart.tsv");
    return all;
}

/// Whether the rule speaks about the first medicine, under the options in force, and its condition is met.
Truth rule_in(const std::string& id, const TableCase& table)
{
    const Protocol& protocol = table.rules().protocol;
    const auto id_of = [](const HoldRule& rule) -> const std::string& { return rule.head.id; };
    const auto rule = std::ranges::find(protocol.holds, id, id_of);
    if (rule == protocol.holds.end()) {
        throw std::runtime_error("the protocol has no hold rule " + id);
    }
    const auto medicine = find_medicine(protocol, table.medicine());
    if (!medicine) {
        throw std::runtime_error("the protocol has no medicine " + table.medicine());
    }
    if (!speaks_about(*rule, *medicine, protocol) ||
        !in_force(rule->policies, table.rules().policy.options)) {
        return Truth::no;
    }
    const CaseRecord record = table.record();
    return Judge(table.rules(), record, call_moment(table.rules())).truth(rule->when);
}

/// The rules that count for the first medicine in the result as it is shown.
std::vector<std::string> rules_shown(const TableCase& table)
{
    const Assessment assessment = assess(table.rules(), table.record(), call_moment(table.rules()));
    const auto hold = std::ranges::find(assessment.holds, table.medicine(), &Hold::medicine_item);
    if (hold == assessment.holds.end()) {
        return {};
    }
    std::vector<std::string> rules{hold->item.rule};
    rules.insert(rules.end(), hold->beneath.begin(), hold->beneath.end());
    rules.insert(rules.end(), hold->pulling_apart.begin(), hold->pulling_apart.end());
    return rules;
}

bool shown(const std::string& rule, const TableCase& table)
{
    const auto rules = rules_shown(table);
    return std::ranges::find(rules, rule) != rules.end();
}

TEST(OneFactApart, ARuleFiresInTheOneCaseAndNotInTheOther)
{
    for (const Row& row : rows()) {
        SCOPED_TRACE(row.at("id") + " " + row.at("rule") + ": " + row.at("note"));
        const Pair pair(row);
        EXPECT_EQ(rule_in(row.at("rule"), pair.fires), Truth::yes) << row.at("fires");
        EXPECT_TRUE(shown(row.at("rule"), pair.fires)) << row.at("fires");
        EXPECT_EQ(rule_in(row.at("rule"), pair.does_not), Truth::no) << row.at("does_not");
        EXPECT_FALSE(shown(row.at("rule"), pair.does_not)) << row.at("does_not");
    }
}

TEST(OneFactApart, NoHoldRuleIsWithoutARow)
{
    std::set<std::string> in_table;
    for (const Row& row : rows()) {
        in_table.insert(row.at("rule"));
    }
    for (const HoldRule& rule : real_rules().protocol.holds) {
        EXPECT_TRUE(in_table.contains(rule.head.id)) << rule.head.id;
    }
}

}  // namespace
}  // namespace foreday::tests
