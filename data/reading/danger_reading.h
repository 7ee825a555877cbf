#pragma once
#include <optional>

#include "data/reading/yaml_text.h"
#include "screening/fact.h"

namespace foreday::data {

/// Which way a fact of this type moves towards more harm. Type, unit, choices and range of the fact must
/// be known.
[[nodiscard]] screening::Danger read_danger(const Located& node, const screening::FactDefinition& fact,
                                            Faults& faults);

/// `[25 kg, 400 kg]` in the unit of the fact, both ends included.
[[nodiscard]] std::optional<screening::NumberInterval> read_number_range(
    const Located& node, const screening::FactDefinition& fact, Faults& faults);

}  // namespace foreday::data
