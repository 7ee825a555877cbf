#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "screening/assessment.h"
#include "tests/rules/table_case.h"

// Each finding and each limit of a preparation fired by a case, and kept from firing by one that differs in a
// single fact; limits just below, at and just above. Written by somebody who read the rules and had not seen
// the code.

namespace foreday::tests {
namespace {

using namespace screening;

const std::vector<Row>& rows()
{
    static const std::vector<Row> all = rows_of_rules("findings_apart.tsv");
    return all;
}

/// Findings by rule, and limits of the preparation that was ordered, as they stand in the result. Empty: not
/// there.
std::optional<ItemState> state_of(const std::string& rule, const TableCase& table)
{
    const CaseRecord record = table.record();
    const Assessment assessment = assess(table.rules(), record, call_moment(table.rules()));
    std::vector<Item> all = assessment.findings;
    for (const PreparationStanding& standing : assessment.preparations) {
        if (standing.preparation != record.booking.ordered) {
            continue;
        }
        for (const auto* limits : {&standing.against, &standing.cautions, &standing.open}) {
            all.insert(all.end(), limits->begin(), limits->end());
        }
    }
    const auto found = std::ranges::find(all, rule, &Item::rule);
    return found == all.end() ? std::nullopt : std::optional{found->state};
}

TEST(FindingsApart, AFindingIsThereInTheOneCaseAndNotInTheOther)
{
    for (const Row& row : rows()) {
        SCOPED_TRACE(row.at("id") + " " + row.at("rule") + ": " + row.at("note"));
        const Pair pair(row);
        EXPECT_EQ(state_of(row.at("rule"), pair.fires), ItemState::fired) << row.at("fires");
        EXPECT_EQ(state_of(row.at("rule"), pair.does_not), std::nullopt) << row.at("does_not");
    }
}

TEST(FindingsApart, NoFindingIsWithoutARow)
{
    std::set<std::string> in_table;
    for (const Row& row : rows()) {
        in_table.insert(row.at("rule"));
    }
    const Protocol protocol = real_rules().protocol;
    for (const FindingRule& rule : protocol.findings) {
        // What the record itself says has tests of its own, on records made for it.
        EXPECT_TRUE(rule.about_the_record || in_table.contains(rule.head.id)) << rule.head.id;
    }
    for (const Preparation& preparation : protocol.preparations) {
        for (const PreparationLimit& limit : preparation.limits) {
            EXPECT_TRUE(in_table.contains(limit.finding.head.id)) << limit.finding.head.id;
        }
    }
}

}  // namespace
}  // namespace foreday::tests
