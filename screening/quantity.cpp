#include "screening/quantity.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "screening/as_written.h"

namespace foreday::screening {
namespace {

/// What a unit measures. Units of one measure compare; those of `own` only with themselves.
enum class Measure { own, weight, length, creatinine, temperature, volume, elapsed_time, calendar_time };

struct Row {
    Unit unit;
    std::string_view text;
    Measure measure;
    // One of this unit is numerator / denominator of the measure's first unit. Not used for temperature.
    std::int64_t numerator;
    std::int64_t denominator;
};

// In the order of the enumerators. Sources of the factors: see convert() in the header. A litre is 1,000 mL,
// an hour 60 minutes and so on by definition.
constexpr std::array rows{
    Row{Unit::none, "", Measure::own, 1, 1},
    Row{Unit::kilogram, "kg", Measure::weight, 1, 1},
    Row{Unit::pound, "lb", Measure::weight, 45359237, 100000000},
    Row{Unit::centimetre, "cm", Measure::length, 1, 1},
    Row{Unit::inch, "in", Measure::length, 254, 100},
    Row{Unit::mg_per_dl_creatinine, "mg/dL creatinine", Measure::creatinine, 884, 10},
    Row{Unit::umol_per_l_creatinine, "umol/L creatinine", Measure::creatinine, 1, 1},
    Row{Unit::mg_per_dl_glucose, "mg/dL glucose", Measure::own, 1, 1},
    Row{Unit::mmol_per_l_ketones, "mmol/L ketones", Measure::own, 1, 1},
    Row{Unit::celsius, "degrees C", Measure::temperature, 1, 1},
    Row{Unit::fahrenheit, "degrees F", Measure::temperature, 5, 9},
    Row{Unit::millilitre, "mL", Measure::volume, 1, 1},
    Row{Unit::fluid_ounce, "fl oz", Measure::volume, 295735, 10000},
    Row{Unit::ml_per_min, "mL/min", Measure::own, 1, 1},
    Row{Unit::ml_per_min_per_1_73_m2, "mL/min/1.73 m2", Measure::own, 1, 1},
    Row{Unit::kg_per_m2, "kg/m2", Measure::own, 1, 1},
    Row{Unit::millimetre_mercury, "mmHg", Measure::own, 1, 1},
    Row{Unit::per_minute, "/min", Measure::own, 1, 1},
    Row{Unit::percent, "%", Measure::own, 1, 1},
    Row{Unit::milligram, "mg", Measure::own, 1, 1},
    Row{Unit::minute, "minutes", Measure::elapsed_time, 1, 1},
    Row{Unit::hour, "hours", Measure::elapsed_time, 60, 1},
    Row{Unit::day, "days", Measure::elapsed_time, 1440, 1},
    Row{Unit::week, "weeks", Measure::elapsed_time, 10080, 1},
    Row{Unit::month, "months", Measure::calendar_time, 1, 1},
    Row{Unit::year, "years", Measure::calendar_time, 12, 1},
    Row{Unit::tablet, "tablets", Measure::own, 1, 1},
    Row{Unit::glass, "glasses", Measure::own, 1, 1},
};
static_assert(
    [] {
        for (std::size_t i = 0; i < rows.size(); ++i) {
            if (static_cast<std::size_t>(rows[i].unit) != i) {
                return false;
            }
        }
        return rows.back().unit == Unit::glass;
    }(),
    "one row for each unit, in their order");

/// Other ways to write a unit that cannot mean anything else.
constexpr std::array other_spellings{
    std::pair<std::string_view, Unit>{"\u00b5mol/L creatinine", Unit::umol_per_l_creatinine},  // micro sign
    std::pair<std::string_view, Unit>{"\u03bcmol/L creatinine", Unit::umol_per_l_creatinine},  // Greek mu
    std::pair<std::string_view, Unit>{"C", Unit::celsius},
    std::pair<std::string_view, Unit>{"\u00b0C", Unit::celsius},
    std::pair<std::string_view, Unit>{"F", Unit::fahrenheit},
    std::pair<std::string_view, Unit>{"\u00b0F", Unit::fahrenheit},
    std::pair<std::string_view, Unit>{"lbs", Unit::pound},
    std::pair<std::string_view, Unit>{"pounds", Unit::pound},
    std::pair<std::string_view, Unit>{"kilos", Unit::kilogram},
    std::pair<std::string_view, Unit>{"inches", Unit::inch},
    std::pair<std::string_view, Unit>{"min", Unit::minute},
    std::pair<std::string_view, Unit>{"minute", Unit::minute},
    std::pair<std::string_view, Unit>{"h", Unit::hour},
    std::pair<std::string_view, Unit>{"hour", Unit::hour},
    std::pair<std::string_view, Unit>{"day", Unit::day},
    std::pair<std::string_view, Unit>{"week", Unit::week},
    std::pair<std::string_view, Unit>{"month", Unit::month},
    std::pair<std::string_view, Unit>{"year", Unit::year},
    std::pair<std::string_view, Unit>{"tablet", Unit::tablet},
    std::pair<std::string_view, Unit>{"glass", Unit::glass},
};

const Row& row_of(Unit unit)
{
    return rows.at(static_cast<std::size_t>(unit));
}

/// How many of the measure's first unit one of this unit is.
Exact size_of(const Row& row)
{
    return Exact::ratio(row.numerator, row.denominator);
}

/// The scales of temperature differ in their zero, so a factor is not enough.
Exact convert_temperature(const Exact& value, Unit from)
{
    const Exact zero_in_fahrenheit = 32;
    const Exact degree = size_of(row_of(Unit::fahrenheit));  // of Fahrenheit, in degrees of Celsius
    return from == Unit::fahrenheit ? (value - zero_in_fahrenheit) * degree
                                    : value / degree + zero_in_fahrenheit;
}

Fault unknown_unit(std::string_view text, std::string_view unit)
{
    // "mg/dL" is asked back with what it could be: the substance decides what the number means.
    const std::string beginning = std::string(unit) + ' ';
    std::vector<std::string_view> all;
    std::vector<std::string_view> begin_so;
    for (const Row& row : rows) {
        if (row.unit != Unit::none) {
            all.push_back(row.text);
        }
        if (row.text.starts_with(beginning)) {
            begin_so.push_back(row.text);
        }
    }
    return {fmt::format("{}: {} is not a unit we know", as_written(text), as_written(unit)),
            fmt::format("one of: {}", fmt::join(begin_so.empty() ? all : begin_so, ", "))};
}

/// A number that is not below 0; empty for anything else.
std::optional<Exact> length_number(std::string_view text)
{
    const auto number = Exact::parse(text);
    if (!number || text.starts_with('-')) {
        return std::nullopt;
    }
    return *number;
}

}  // namespace

std::optional<Unit> find_unit(std::string_view written)
{
    const auto row = std::ranges::find(rows, written, &Row::text);
    if (row != rows.end()) {
        return row->unit;
    }
    const auto other = std::ranges::find(other_spellings, written, &std::pair<std::string_view, Unit>::first);
    if (other != other_spellings.end()) {
        return other->second;
    }
    return std::nullopt;
}

std::string_view unit_text(Unit unit)
{
    return row_of(unit).text;
}

std::vector<std::string_view> units_like(Unit unit)
{
    std::vector<std::string_view> texts;
    for (const Row& row : rows) {
        if (row.unit != Unit::none && comparable(row.unit, unit)) {
            texts.push_back(row.text);
        }
    }
    return texts;
}

std::string_view substance_of(Unit unit)
{
    switch (unit) {
        case Unit::mg_per_dl_creatinine:
        case Unit::umol_per_l_creatinine:
            return "creatinine";
        case Unit::mg_per_dl_glucose:
            return "glucose";
        case Unit::mmol_per_l_ketones:
            return "ketones";
        default:
            return "";
    }
}

bool comparable(Unit a, Unit b)
{
    return a == b || (row_of(a).measure != Measure::own && row_of(a).measure == row_of(b).measure);
}

Exact convert(const Exact& value, Unit from, Unit to)
{
    if (!comparable(from, to)) {
        throw std::invalid_argument(
            fmt::format("{} and {} do not measure the same", unit_text(from), unit_text(to)));
    }
    if (from == to) {
        return value;
    }
    if (row_of(from).measure == Measure::temperature) {
        return convert_temperature(value, from);
    }
    return value * (size_of(row_of(from)) / size_of(row_of(to)));
}

std::optional<Exact> parse_feet_and_inches(std::string_view text)
{
    const Exact inches_a_foot = 12;
    constexpr std::string_view foot = " ft";
    constexpr std::string_view inch = " in";
    const auto foot_at = text.find(foot);
    if (foot_at == std::string_view::npos) {
        return text.ends_with(inch) ? length_number(text.substr(0, text.size() - inch.size())) : std::nullopt;
    }
    const auto feet = length_number(text.substr(0, foot_at));
    // Parts of a foot are refused: whoever says 5.5 ft may mean 5 ft 5 in.
    if (!feet || !feet->is_whole()) {
        return std::nullopt;
    }
    std::string_view rest = text.substr(foot_at + foot.size());
    if (rest.empty()) {
        return *feet * inches_a_foot;
    }
    if (!rest.starts_with(' ') || !rest.ends_with(inch)) {
        return std::nullopt;
    }
    rest.remove_prefix(1);
    const auto inches = length_number(rest.substr(0, rest.size() - std::min(rest.size(), inch.size())));
    if (!inches || *inches >= inches_a_foot) {
        return std::nullopt;
    }
    return *feet * inches_a_foot + *inches;
}

Result<Quantity> parse_quantity(std::string_view text)
{
    if (const auto inches = parse_feet_and_inches(text)) {
        return Quantity{*inches, Unit::inch};
    }
    const std::string_view number = text.substr(0, text.find_first_not_of("-.0123456789"));
    std::string_view unit = text.substr(number.size());
    // "38.2 degrees C", and "98%" as it is mostly written: the blank may be left out.
    if (unit.size() > 1 && unit.front() == ' ') {
        unit.remove_prefix(1);
    }
    const auto value = Exact::parse(number);
    if (!value) {
        return tl::unexpected(Fault{fmt::format("{} does not begin with a number", as_written(text)),
                                    value.error().would_be_right + ", then its unit"});
    }
    const auto found = find_unit(unit);
    if (!found) {
        return tl::unexpected(unknown_unit(text, unit));
    }
    return Quantity{*value, *found};
}

}  // namespace foreday::screening
