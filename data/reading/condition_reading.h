#pragma once
#include "data/reading/protocol_draft.h"
#include "screening/condition.h"

namespace foreday::data {

/// Rules about the record may ask the record; no other condition may.
enum class RecordTests { refused, allowed };

/// Reads one condition. Facts, calculators' bindings, medicines, classes, procedures, parameters and the
/// table of preparations must stand in the draft. After a fault the place of the condition is filled with
/// one that is always true.
[[nodiscard]] screening::Condition read_condition(const Located& node, RecordTests record,
                                                  ProtocolDraft& draft);

/// Ids of classes and medicines as one list: `anticoagulant` or `[sglt2, ibuprofen]`.
[[nodiscard]] screening::TakesMedicine read_medicine_ids(const Located& node, ProtocolDraft& draft);

/// The operators `below`, `at_most`, `equals`, `at_least`, `above`, by the order of screening::Operator.
[[nodiscard]] const std::vector<std::string_view>& operator_names();

}  // namespace foreday::data
