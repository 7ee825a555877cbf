#pragma once
#include <string_view>
#include <vector>

#include "data/reading/faults.h"

namespace foreday::console {

/// Writes to standard output, whole or not at all as far as the stream allows.
void print(std::string_view text);
/// Writes to standard error.
void print_error(std::string_view text);
/// Every fault on a line of its own, and how many there are.
void print_faults(const std::vector<data::LocatedFault>& faults);

}  // namespace foreday::console
