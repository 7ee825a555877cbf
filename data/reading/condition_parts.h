#pragma once
#include <optional>

#include "data/reading/condition_reading.h"

/// The comparisons a condition is made of. Each gives empty after telling its faults.
namespace foreday::data {

/// {fact: weight, at_least: 150 kg} and the other forms of a fact.
[[nodiscard]] std::optional<screening::Comparison> read_fact_comparison(const Located& node,
                                                                        ProtocolDraft& draft);
/// {calculated: cockcroft_gault, below: 50 mL/min}
[[nodiscard]] std::optional<screening::Comparison> read_calculated(const Located& node, ProtocolDraft& draft);
/// The value of `ordered:`, one id or a list.
[[nodiscard]] std::optional<screening::Comparison> read_ordered(const Located& node, ProtocolDraft& draft);
/// The value of `record:`.
[[nodiscard]] std::optional<screening::Comparison> read_record_test(const Located& node, RecordTests record,
                                                                    ProtocolDraft& draft);

/// One value or a list of them, as a list.
[[nodiscard]] std::vector<const Located*> one_or_many(const Located& node);

}  // namespace foreday::data
