#include "data/reading/parameter_value.h"

#include <fmt/format.h>

#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {

using screening::Exact;
using screening::Parameter;
using screening::ParameterValue;
using screening::TimeOfDay;

namespace {

/// Days and longer are counted on the calendar, so a part of one means nothing.
bool countable(const Exact& number, screening::Unit unit, const Located& node, Faults& faults)
{
    using screening::Unit;
    const bool counted = unit == Unit::day || unit == Unit::week || unit == Unit::month || unit == Unit::year;
    if (!counted || number.is_whole()) {
        return true;
    }
    faults.add(node,
               fmt::format("{} is no whole number of {}", screening::as_written(node.text),
                           screening::unit_text(unit)),
               fmt::format("whole {}", screening::unit_text(unit)));
    return false;
}

}  // namespace

std::optional<WrittenParameter> read_default(const Located& node, Faults& faults)
{
    const bool scalar = node.kind == Located::Kind::scalar;
    if (scalar && (node.text == "yes" || node.text == "no")) {
        return WrittenParameter{node.text == "yes", screening::Unit::none};
    }
    if (scalar && node.text.find(':') != std::string::npos) {
        const auto time = read_time_of_day(node, faults);
        return time ? std::optional{WrittenParameter{*time, screening::Unit::none}} : std::nullopt;
    }
    const auto quantity = read_quantity(node, faults);
    if (!quantity || !countable(quantity->value, quantity->unit, node, faults)) {
        return std::nullopt;
    }
    return WrittenParameter{quantity->value, quantity->unit};
}

std::optional<ParameterValue> read_parameter_value(const Located& node, const Parameter& parameter,
                                                   Faults& faults)
{
    if (std::holds_alternative<bool>(parameter.by_default)) {
        const auto value = read_yes_no(node, faults);
        return value ? std::optional<ParameterValue>{*value} : std::nullopt;
    }
    if (std::holds_alternative<TimeOfDay>(parameter.by_default)) {
        const auto value = read_time_of_day(node, faults);
        return value ? std::optional<ParameterValue>{*value} : std::nullopt;
    }
    const std::string what = fmt::format("the parameter \"{}\"", parameter.id);
    const auto value = read_quantity_in(node, parameter.unit, what, faults);
    if (!value || !countable(*value, parameter.unit, node, faults)) {
        return std::nullopt;
    }
    return *value;
}

Exact as_number(const ParameterValue& value)
{
    if (const auto* number = std::get_if<Exact>(&value)) {
        return *number;
    }
    if (const auto* time = std::get_if<TimeOfDay>(&value)) {
        return Exact{time->count()};
    }
    return Exact{std::get<bool>(value) ? 1 : 0};
}

bool in_range(const ParameterValue& value, const Parameter& parameter)
{
    if (std::holds_alternative<bool>(value)) {
        return true;
    }
    const Exact number = as_number(value);
    return number >= parameter.range.lowest && number <= parameter.range.highest;
}

std::string value_text(const ParameterValue& value, screening::Unit unit)
{
    if (const auto* yes = std::get_if<bool>(&value)) {
        return *yes ? "yes" : "no";
    }
    if (const auto* time = std::get_if<TimeOfDay>(&value)) {
        return screening::iso_time_of_day(*time);
    }
    return quantity_text(std::get<Exact>(value), unit);
}

std::string range_text(const Parameter& parameter)
{
    if (std::holds_alternative<bool>(parameter.by_default)) {
        return "yes or no";
    }
    const auto end = [&](const Exact& number) {
        const bool is_time = std::holds_alternative<TimeOfDay>(parameter.by_default);
        return is_time ? screening::iso_time_of_day(TimeOfDay{number.floor()})
                       : quantity_text(number, parameter.unit);
    };
    return fmt::format("{} to {}", end(parameter.range.lowest), end(parameter.range.highest));
}

}  // namespace foreday::data
