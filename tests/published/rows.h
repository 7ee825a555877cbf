#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace foreday::tests {

/// One row of a table of figures, by the names of its columns.
using Row = std::map<std::string, std::string>;

/// Reads a table of tab-separated cells whose first line names its columns.
/// @throws std::runtime_error for a file that is not there, a row with more or fewer cells than the first
///         line, an `id` that stands twice, and a table without a row
[[nodiscard]] std::vector<Row> read_rows(const std::filesystem::path& file);

/// The rows of a table in tests/published/.
[[nodiscard]] std::vector<Row> published_rows(const std::string& name);

/// The row's figure was read at second hand: its note begins with "reported".
[[nodiscard]] bool is_reported(const Row& row);

}  // namespace foreday::tests
