#pragma once
#include <string_view>
#include <vector>

#include "data/reading/faults.h"

namespace foreday::console {

/// Writes to standard output.
void print(std::string_view text);
/// Hands everything printed so far to the system. False when some of it could not be written.
[[nodiscard]] bool all_printed();
/// Writes to standard error.
void print_error(std::string_view text);
/// Every fault on a line of its own, and how many there are.
void print_faults(const std::vector<data::LocatedFault>& faults);

}  // namespace foreday::console
