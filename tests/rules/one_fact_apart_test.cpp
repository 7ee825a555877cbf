#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <stdexcept>

#include "screening/assessment.h"
#include "screening/judge.h"
#include "tests/published/healthy_case.h"
#include "tests/support/rows.h"

// Each hold rule fired by a case, and kept from firing by one that differs in a single fact; the limits just
// below, at and just above. The table was written by somebody who read the rules and had not seen the code.

namespace foreday::tests {
namespace {

using namespace screening;

const std::vector<Row>& rows()
{
    static const std::vector<Row> all = read_rows(FOREDAY_SOURCE_DIR "/tests/rules/one_fact_apart.tsv");
    return all;
}

std::vector<std::string> split(const std::string& text, char at)
{
    std::vector<std::string> parts;
    std::stringstream stream(text);
    for (std::string part; std::getline(stream, part, at);) {
        part.erase(0, part.find_first_not_of(' '));
        parts.push_back(part);
    }
    return parts;
}

struct Said {
    std::string what;
    std::string value;
};

std::vector<Said> said_in(const std::string& cell)
{
    std::vector<Said> all;
    for (const std::string& part : split(cell, ';')) {
        if (part != "-") {
            const auto at = part.find('=');
            all.push_back({part.substr(0, at), part.substr(at + 1)});
        }
    }
    return all;
}

Date date_of_text(const std::string& text)
{
    const auto parts = split(text, '-');
    return Date{date::year{std::stoi(parts.at(0))} / std::stoi(parts.at(1)) / std::stoi(parts.at(2))};
}

Value value_of(const FactDefinition& fact, const std::string& text)
{
    switch (fact.type) {
        case FactType::yes_no:
            return text == "yes";
        case FactType::choice: {
            const auto choice = std::ranges::find(fact.choices, text);
            if (choice == fact.choices.end()) {
                throw std::runtime_error(fact.id + " has no choice " + text);
            }
            return Choice{static_cast<std::uint32_t>(choice - fact.choices.begin())};
        }
        case FactType::number: {
            const Exact number = Exact::parse(text).value();
            return NumberInterval{number, number};
        }
        case FactType::date:
            return DateInterval{date_of_text(text), date_of_text(text)};
        case FactType::time:
        case FactType::text:
            break;
    }
    throw std::runtime_error("the table cannot say " + fact.id);
}

/// A case of the table, built up fact by fact.
class TableCase {
public:
    explicit TableCase(const Row& row) : rules_(shared_rules())
    {
        wish_.medicines = split(row.at("medicines"), ',');
        for (const Said& one : said_in(row.at("policy"))) {
            rules_ = with_option(std::move(rules_), one.what, one.value);
        }
        for (const Said& one : said_in(row.at("base"))) {
            say(one);
        }
    }

    void say(const Said& one)
    {
        if (one.what == "option") {
            const auto parts = split(one.value, '/');
            rules_ = with_option(std::move(rules_), parts.at(0), parts.at(1));
        } else if (one.what == "clearance") {
            wish_.clearance = Exact::parse(one.value).value();
        } else if (one.what == "medicine") {
            wish_.medicines.front() = one.value;
        } else if (one.what == "medicines") {
            wish_.medicines = split(one.value, ',');
        } else if (one.what == "procedures") {
            procedures_ = split(one.value, ',');
        } else {
            facts_.push_back(one);
        }
    }

    [[nodiscard]] const Rules& rules() const { return rules_; }
    [[nodiscard]] const std::string& medicine() const { return wish_.medicines.front(); }

    [[nodiscard]] CaseRecord record() const
    {
        CaseRecord record = healthy_case(rules_, wish_);
        if (!procedures_.empty()) {
            record.booking.procedures.clear();
            for (const std::string& id : procedures_) {
                record.booking.procedures.push_back(find_procedure(rules_.protocol, id).value());
            }
        }
        for (const Said& one : facts_) {
            const auto place = find_fact(rules_.protocol, one.what);
            if (!place) {
                throw std::runtime_error("the protocol has no fact " + one.what);
            }
            Answer answer;
            answer.value = value_of(rules_.protocol.facts[*place], one.value);
            answer.at = call_moment(rules_);
            record.answers[*place] = {answer};
            if (one.what == "birth_date") {
                record.booking.patient.born = date_of_text(one.value);
            }
        }
        return record;
    }

private:
    static const Rules& shared_rules()
    {
        static const Rules rules = real_rules();
        return rules;
    }

    Rules rules_;
    CaseWish wish_;
    std::vector<std::string> procedures_;
    std::vector<Said> facts_;
};

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
    const bool about = std::ranges::binary_search(rule->medicines, *medicine) ||
                       std::ranges::any_of(rule->classes, [&](ClassIndex group) {
                           return std::ranges::binary_search(protocol.medicines[*medicine].classes, group);
                       });
    if (!about || !in_force(rule->policies, table.rules().policy.options)) {
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
        TableCase fires(row);
        TableCase does_not(row);
        for (const Said& one : said_in(row.at("fires"))) {
            fires.say(one);
        }
        for (const Said& one : said_in(row.at("does_not"))) {
            does_not.say(one);
        }
        EXPECT_EQ(rule_in(row.at("rule"), fires), Truth::yes) << row.at("fires");
        EXPECT_TRUE(shown(row.at("rule"), fires)) << row.at("fires");
        EXPECT_EQ(rule_in(row.at("rule"), does_not), Truth::no) << row.at("does_not");
        EXPECT_FALSE(shown(row.at("rule"), does_not)) << row.at("does_not");
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

TEST(OneFactApart, ThePairOfARowDiffersInOneThing)
{
    for (const Row& row : rows()) {
        SCOPED_TRACE(row.at("id"));
        const auto fires = said_in(row.at("fires"));
        const auto does_not = said_in(row.at("does_not"));
        ASSERT_EQ(fires.size(), 1U);
        ASSERT_EQ(does_not.size(), 1U);
        EXPECT_EQ(fires.front().what, does_not.front().what);
        EXPECT_NE(fires.front().value, does_not.front().value);
    }
}

}  // namespace
}  // namespace foreday::tests
