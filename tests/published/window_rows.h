#pragma once
#include <optional>

#include "tests/published/healthy_case.h"
#include "tests/published/rows.h"

namespace foreday::tests {

/// Whether the protocol keeps a row of windows.tsv, figure and boundary. Empty: the protocol has no place for
/// what the row is about.
[[nodiscard]] std::optional<bool> keeps_window(const Row& row, const screening::Rules& rules);

}  // namespace foreday::tests
