#pragma once
#include <optional>

#include "data/reading/case_draft.h"

namespace foreday::data {

/// A value of a fact, as it is written: `yes`, `84.6 kg`, `2026-11`, a choice, words, or {from: ..., to: ...}
/// of a number, a date or a time. Numbers are converted to the unit of the fact; outside its plausible range
/// they are a fault that names the range.
[[nodiscard]] std::optional<screening::Value> read_value(const Located& node,
                                                         const screening::FactDefinition& fact,
                                                         CaseDraft& draft);

}  // namespace foreday::data
