#pragma once
#include "screening/record.h"

namespace foreday::book {

/// The record with every date and time of it so many days later, on the same wall-clock times. Birth dates
/// stay.
/// @param rules  their zone tells the moments, before and after
[[nodiscard]] screening::CaseRecord shifted(const screening::Rules& rules, screening::CaseRecord record,
                                            date::days by);

}  // namespace foreday::book
