#pragma once
#include <optional>
#include <string>

#include "data/reading/yaml_text.h"
#include "screening/rules.h"

namespace foreday::data {

/// A parameter's value as it is written first, which gives the parameter its type and unit.
struct WrittenParameter {
    screening::ParameterValue value;
    screening::Unit unit = screening::Unit::none;
};
/// A quantity, a time of day or yes/no.
[[nodiscard]] std::optional<WrittenParameter> read_default(const Located& node, Faults& faults);

/// A value of a parameter whose type and unit are known; numbers are converted to its unit.
[[nodiscard]] std::optional<screening::ParameterValue> read_parameter_value(
    const Located& node, const screening::Parameter& parameter, Faults& faults);

/// The number of a value; minutes of a time of day, 1 and 0 of yes and no.
[[nodiscard]] screening::Exact as_number(const screening::ParameterValue& value);
/// Within the range, both ends included. Always so for yes/no.
[[nodiscard]] bool in_range(const screening::ParameterValue& value, const screening::Parameter& parameter);
/// "2 hours to 6 hours", "16:00 to 20:00".
[[nodiscard]] std::string range_text(const screening::Parameter& parameter);
[[nodiscard]] std::string value_text(const screening::ParameterValue& value, screening::Unit unit);

}  // namespace foreday::data
