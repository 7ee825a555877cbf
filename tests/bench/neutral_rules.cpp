#include "tests/bench/neutral_rules.h"

#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>

namespace foreday::bench {
namespace {

const std::string folder = std::string{FOREDAY_SOURCE_DIR} + "/tests/bench/neutral/";

FieldKind kind_of(const std::string& word)
{
    if (word == "num") {
        return FieldKind::number;
    }
    return word == "bool" ? FieldKind::yes_no : FieldKind::choice;
}

NeutralCase split(const std::string& line, std::size_t fields)
{
    NeutralCase values;
    std::istringstream in(line);
    for (std::string cell; std::getline(in, cell, ',');) {
        values.push_back(cell);
    }
    values.resize(fields);
    return values;
}

double code(FieldKind kind, const std::string& text)
{
    if (text.empty()) {
        return std::numeric_limits<double>::quiet_NaN();
    }
    if (kind == FieldKind::number) {
        return std::stod(text);
    }
    return kind == FieldKind::yes_no ? (text == "true" ? 1.0 : 0.0) : static_cast<double>(text.at(1) - 'a');
}

int op_code(const std::string& op)
{
    const std::vector<std::string> ops{"<", "<=", ">", ">="};
    for (std::size_t place = 0; place < ops.size(); ++place) {
        if (ops[place] == op) {
            return static_cast<int>(place);
        }
    }
    return static_cast<int>(ops.size());
}

bool holds(double value, int op, double limit, unsigned allowed)
{
    switch (op) {
        case 0:
            return value < limit;
        case 1:
            return value <= limit;
        case 2:
            return value > limit;
        case 3:
            return value >= limit;
        default:
            return !std::isnan(value) && ((allowed >> static_cast<unsigned>(value)) & 1U) != 0;
    }
}

}  // namespace

NeutralSet read_neutral_set()
{
    std::ifstream in(folder + "rules.txt");
    std::size_t fields = 0;
    std::size_t rules = 0;
    std::size_t cases = 0;
    if (!(in >> fields >> rules >> cases)) {
        throw std::runtime_error("no neutral rules in " + folder);
    }
    NeutralSet set;
    for (std::size_t place = 0; place < fields; ++place) {
        std::string name;
        std::string kind;
        in >> name >> kind;
        set.names.push_back(name);
        set.kinds.push_back(kind_of(kind));
    }
    for (std::size_t place = 0; place < rules; ++place) {
        std::size_t id = 0;
        std::size_t count = 0;
        in >> id >> count;
        NeutralRule rule(count);
        for (NeutralTest& test : rule) {
            std::size_t values = 0;
            in >> test.field >> test.op >> values;
            test.values.resize(values);
            for (std::string& value : test.values) {
                in >> value;
            }
        }
        set.rules.push_back(std::move(rule));
    }
    std::ifstream lines(folder + "cases.csv");
    for (std::string line; std::getline(lines, line);) {
        set.cases.push_back(split(line, fields));
    }
    if (!in || set.cases.size() != cases) {
        throw std::runtime_error("the neutral rules or cases are cut short");
    }
    return set;
}

Agreement agreement_of(const std::vector<std::uint8_t>& matrix)
{
    Agreement result{0x811c9dc5U, 0};  // the offset basis and prime are FNV-1a's own
    for (const std::uint8_t hit : matrix) {
        result.hits += hit;
        result.hash = (result.hash ^ hit) * 0x01000193U;
    }
    return result;
}

Agreement expected_agreement()
{
    std::ifstream in(folder + "expected.txt");
    Agreement result;
    if (!(in >> result.hits >> std::hex >> result.hash)) {
        throw std::runtime_error("no expected answer in " + folder);
    }
    return result;
}

FlatYardstick::FlatYardstick(const NeutralSet& set) : fields_(set.names.size())
{
    for (const NeutralRule& rule : set.rules) {
        for (const NeutralTest& test : rule) {
            Test flat{test.field, op_code(test.op), 0, 0};
            for (const std::string& value : test.values) {
                flat.limit = code(set.kinds[test.field], value);
                if (set.kinds[test.field] != FieldKind::number) {
                    flat.allowed |= 1U << static_cast<unsigned>(flat.limit);
                }
            }
            tests_.push_back(flat);
        }
        ends_.push_back(tests_.size());
    }
    for (const NeutralCase& one : set.cases) {
        for (std::size_t field = 0; field < fields_; ++field) {
            values_.push_back(code(set.kinds[field], one[field]));
        }
    }
}

void FlatYardstick::run(std::vector<std::uint8_t>& matrix) const
{
    std::size_t place = 0;
    for (std::size_t first = 0; first < values_.size(); first += fields_) {
        std::size_t test = 0;
        for (const std::size_t end : ends_) {
            bool all = true;
            for (; test < end && all; ++test) {
                const Test& one = tests_[test];
                all = holds(values_[first + one.field], one.op, one.limit, one.allowed);
            }
            test = end;
            matrix[place++] = all ? 1 : 0;
        }
    }
}

}  // namespace foreday::bench
