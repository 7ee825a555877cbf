#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cmath>
#include <fstream>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "screening/calculator.h"
#include "screening/quantity.h"

namespace foreday::screening {
namespace {

using Row = std::map<std::string, std::string>;

std::vector<std::string> cells_of(const std::string& line)
{
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, '\t');) {
        cells.push_back(cell);
    }
    return cells;
}

std::vector<Row> read_rows()
{
    std::ifstream file(FOREDAY_SOURCE_DIR "/tests/published/calculators.tsv");
    std::string line;
    std::getline(file, line);
    const std::vector<std::string> names = cells_of(line);
    std::vector<Row> rows;
    while (std::getline(file, line)) {
        const std::vector<std::string> cells = cells_of(line);
        if (cells.size() != names.size()) {
            throw std::runtime_error("a row of calculators.tsv has another number of cells: " + line);
        }
        Row row;
        for (std::size_t place = 0; place < names.size(); ++place) {
            row[names[place]] = cells[place];
        }
        rows.push_back(std::move(row));
    }
    return rows;
}

Exact number(const Row& row, const std::string& column)
{
    const auto parsed = Exact::parse(row.at(column));
    if (!parsed) {
        throw std::runtime_error(row.at("id") + ", " + column + ": " + parsed.error().what);
    }
    return *parsed;
}

/// mg/dL. A row whose author divides by another number than ours says so, and is fed his way.
Exact creatinine_of(const Row& row)
{
    const Exact value = number(row, "creatinine");
    if (row.at("creatinine_unit") == "mg/dL") {
        return value;
    }
    const std::string other = row.at("other");
    if (other.starts_with("conversion=")) {
        return value / *Exact::parse(other.substr(other.find('=') + 1));
    }
    return convert(value, Unit::umol_per_l_creatinine, Unit::mg_per_dl_creatinine);
}

/// Points by the items a row lists, through the same door as the program: calculate().
double score_of(const Row& row, Calculator calculator)
{
    CalculatorBinding binding;
    std::map<FactIndex, Value> values;
    const Date procedure{date::year{2027} / 6 / 17};
    const int age = std::stoi(row.at("age_years"));
    const Date born{date::year{2027 - age} / 6 / 17};
    const std::string listed = "," + row.at("other") + ",";
    for (std::size_t place = 0; place < calculator_input_count; ++place) {
        const auto input = static_cast<CalculatorInput>(place);
        const auto fact = static_cast<FactIndex>(place);
        binding.facts[place] = fact;
        if (type_of(input) == FactType::yes_no) {
            values[fact] = listed.find("," + std::string{name_of(input)} + ",") != std::string::npos;
        }
    }
    values[static_cast<FactIndex>(CalculatorInput::birth_date)] = DateInterval{born, born};
    values[static_cast<FactIndex>(CalculatorInput::sex)] = Choice{row.at("sex") == "female" ? 0U : 1U};
    const Calculated calculated =
        calculate(calculator, binding, procedure, [&](FactIndex fact) -> const Value* {
            const auto found = values.find(fact);
            return found == values.end() ? nullptr : &found->second;
        });
    EXPECT_TRUE(calculated.value && calculated.value->exact()) << row.at("id");
    return calculated.value ? calculated.value->lowest.to_double() : std::nan("");
}

double value_of(const Row& row)
{
    const std::string& formula = row.at("formula");
    const bool female = row.at("sex") == "female";
    if (formula == "bmi") {
        return body_mass_index(number(row, "weight_kg"), number(row, "height_cm")).to_double();
    }
    if (formula == "chads2") {
        return score_of(row, Calculator::chads2);
    }
    if (formula == "cha2ds2_vasc") {
        return score_of(row, Calculator::cha2ds2_vasc);
    }
    const int age = std::stoi(row.at("age_years"));
    if (formula == "ckd_epi_2021") {
        return ckd_epi_2021(creatinine_of(row).to_double(), age, female);
    }
    if (formula == "cockcroft_gault") {
        return cockcroft_gault(age, number(row, "weight_kg"), creatinine_of(row), female).to_double();
    }
    throw std::runtime_error(row.at("id") + ": no such formula: " + formula);
}

/// As the document rounds: "whole", "one_decimal", "4_decimals", or cut off: "truncated_one_decimal".
std::string as_published(double value, std::string rounding, const std::string& id)
{
    const std::string cut = "truncated_";
    const bool truncated = rounding.starts_with(cut);
    if (truncated) {
        rounding.erase(0, cut.size());
    }
    int decimals = 0;
    if (rounding == "one_decimal") {
        decimals = 1;
    } else if (rounding.ends_with("_decimals")) {
        decimals = std::stoi(rounding);
    } else if (rounding != "whole") {
        throw std::runtime_error(id + ": no such rounding: " + rounding);
    }
    const double scale = std::pow(10.0, decimals);
    const double shown = truncated ? std::trunc(value * scale) / scale : std::round(value * scale) / scale;
    return fmt::format("{:.{}f}", shown, decimals);
}

TEST(PublishedCalculators, EveryRowGivesThePublishedFigure)
{
    std::map<std::string, int> counts;
    const auto rows = read_rows();
    for (const Row& row : rows) {
        SCOPED_TRACE(row.at("id") + ", " + row.at("document") + ", " + row.at("locator"));
        const double value = value_of(row);
        const double published = number(row, "published").to_double();
        const std::string& rounding = row.at("rounding");
        const std::string& id = row.at("id");
        // The published figure is written with all the decimals its rounding has, or fewer where they are 0.
        EXPECT_EQ(as_published(value, rounding, id), as_published(published, rounding, id))
            << "unrounded: " << value;
        ++counts[row.at("formula")];
    }
    for (const auto& [formula, count] : counts) {
        fmt::print("published {}: {} rows\n", formula, count);
        RecordProperty(formula, count);
    }
    fmt::print("published calculators: {} rows\n", rows.size());
    for (const char* formula : {"bmi", "cha2ds2_vasc", "chads2", "ckd_epi_2021", "cockcroft_gault"}) {
        EXPECT_GT(counts[formula], 0) << formula << " has no published check";
    }
}

TEST(PublishedCalculators, EveryRowSaysWhereItWasReadAndWhen)
{
    for (const Row& row : read_rows()) {
        for (const char* column : {"document", "locator", "date_read", "published", "rounding"}) {
            EXPECT_TRUE(!row.at(column).empty() && row.at(column) != "-") << row.at("id") << " " << column;
        }
    }
}

}  // namespace
}  // namespace foreday::screening
