#pragma once
#include <string>

#include "data/book/contents_value.h"
#include "screening/protocol.h"
#include "screening/result.h"

namespace foreday::present {

/// What a person typed as the value of a fact.
///
/// Numbers with or without a unit ("84.6", "186 lb", "5 ft 10 in"; a comma for the point is taken), without
/// one in the fact's own, and inside its plausible range; "80-90 kg" or "80 to 90" for a range, of which the
/// unit at its end holds for both ends. Dates as "2026-11-03", "3 Nov 2026", "Nov 2026", "2026-11" or "2026",
/// the last three any day of it; what is asked for is behind, so a day still to come is refused. Times as
/// "2026-11-03 08:30", or "08:30" for `today`. Choices by their words.
/// @param today  the day a time without a date lies on, and the last one a date may be
[[nodiscard]] screening::Result<book::StatedValue> typed_value(const screening::FactDefinition& fact,
                                                               const std::string& typed,
                                                               screening::Date today);

/// A date as a person types it, as typed_value() takes it.
[[nodiscard]] screening::Result<screening::DateInterval> typed_date(const std::string& typed);
/// "08:30", "8:30", "0830".
[[nodiscard]] screening::Result<screening::TimeOfDay> typed_time(const std::string& typed);

/// A choice as people read it: "not sure" for `not_sure`.
[[nodiscard]] std::string choice_in_words(const std::string& id);
/// "84.6 kg", "no", "Tuesday 3 November 2026", "some day from ... to ...".
[[nodiscard]] std::string value_in_words(const screening::FactDefinition& fact,
                                         const screening::Value& value);

}  // namespace foreday::present
