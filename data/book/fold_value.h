#pragma once
#include <optional>
#include <string>
#include <vector>

#include "data/book/contents.h"
#include "screening/protocol.h"
#include "screening/record.h"

/// Between what entries say by name and what a record holds by place.
namespace foreday::book {

/// A value by its names, in the unit the fact has now.
/// @throws std::out_of_range for a choice the fact does not have
[[nodiscard]] StatedValue stated(const screening::FactDefinition& fact, const screening::Value& value);

/// The value in today's protocol. What is wrong is one sentence, and what would be right is to ask again: a
/// choice that is gone, another type, another unit, an interval turned round.
[[nodiscard]] screening::Result<screening::Value> value_of(const screening::FactDefinition& fact,
                                                           const StatedValue& stated);

/// An answer as an entry says it; when, at which desk and whether unseen is the entry's to say.
[[nodiscard]] Answered answered(const screening::FactDefinition& fact, const screening::Answer& answer);
[[nodiscard]] StatedMedicine stated(const screening::Protocol& protocol, const screening::MedicineItem& item);

}  // namespace foreday::book
