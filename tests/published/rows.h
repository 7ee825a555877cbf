#pragma once
#include <string>
#include <vector>

#include "tests/support/rows.h"

namespace foreday::tests {

/// The rows of a table in tests/published/.
[[nodiscard]] std::vector<Row> published_rows(const std::string& name);

/// The row's figure was read at second hand: its note begins with "reported".
[[nodiscard]] bool is_reported(const Row& row);

}  // namespace foreday::tests
