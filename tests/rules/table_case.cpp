#include "tests/rules/table_case.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>
#include <stdexcept>

namespace foreday::tests {

using namespace screening;

namespace {

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

const Rules& shared_rules()
{
    static const Rules rules = real_rules();
    return rules;
}

}  // namespace

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

TableCase::TableCase(const Row& row) : rules_(shared_rules())
{
    if (row.at("medicines") != "-") {
        wish_.medicines = split(row.at("medicines"), ',');
    }
    for (const Said& one : said_in(row.at("policy"))) {
        rules_ = with_option(std::move(rules_), one.what, one.value);
    }
    for (const Said& one : said_in(row.at("base"))) {
        say(one);
    }
}

void TableCase::say(const Said& one)
{
    if (one.what == "option") {
        const auto parts = split(one.value, '/');
        rules_ = with_option(std::move(rules_), parts.at(0), parts.at(1));
    } else if (one.what == "clearance") {
        wish_.clearance = Exact::parse(one.value).value();
    } else if (one.what == "medicine") {
        wish_.medicines.front() = one.value;
    } else if (one.what == "medicines") {
        wish_.medicines = one.value == "-" ? std::vector<std::string>{} : split(one.value, ',');
    } else if (one.what == "procedures") {
        procedures_ = split(one.value, ',');
    } else if (one.what == "ordered") {
        ordered_ = one.value;
    } else {
        facts_.push_back(one);
    }
}

CaseRecord TableCase::record() const
{
    CaseRecord record = healthy_case(rules_, wish_);
    if (!ordered_.empty()) {
        record.booking.ordered = find_preparation(rules_.protocol, ordered_).value();
    }
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

Pair::Pair(const Row& row) : fires(row), does_not(row)
{
    const auto there = said_in(row.at("fires"));
    const auto here = said_in(row.at("does_not"));
    if (there.size() != 1 || here.size() != 1 || there.front().what != here.front().what ||
        there.front().value == here.front().value) {
        ADD_FAILURE() << row.at("id") << ": the two cases differ in something else than one thing";
        return;
    }
    fires.say(there.front());
    does_not.say(here.front());
}

std::vector<Row> rows_of_rules(const std::string& name)
{
    return read_rows(FOREDAY_SOURCE_DIR "/tests/rules/" + name);
}

}  // namespace foreday::tests
