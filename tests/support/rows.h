#pragma once
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

namespace foreday::tests {

/// One row of a table, by the names of its columns.
using Row = std::map<std::string, std::string>;

[[nodiscard]] inline std::vector<std::string> cells_of(const std::string& line)
{
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, '\t');) {
        cells.push_back(cell);
    }
    return cells;
}

/// Reads a table of tab-separated cells whose first line names its columns.
/// @throws std::runtime_error for a file that is not there, a row with more or fewer cells than the first
///         line, an `id` that stands twice, and a table without a row
[[nodiscard]] inline std::vector<Row> read_rows(const std::filesystem::path& file)
{
    std::ifstream stream(file);
    std::string line;
    if (!std::getline(stream, line)) {
        throw std::runtime_error("cannot read " + file.string());
    }
    const std::vector<std::string> names = cells_of(line);
    std::vector<Row> rows;
    std::set<std::string> ids;
    while (std::getline(stream, line)) {
        const std::vector<std::string> cells = cells_of(line);
        if (cells.size() != names.size()) {
            throw std::runtime_error(file.string() + ": a row has another number of cells: " + line);
        }
        Row row;
        for (std::size_t place = 0; place < names.size(); ++place) {
            row[names[place]] = cells[place];
        }
        if (!ids.insert(row.at("id")).second) {
            throw std::runtime_error(file.string() + ": an id stands twice: " + row.at("id"));
        }
        rows.push_back(std::move(row));
    }
    if (rows.empty()) {
        throw std::runtime_error(file.string() + " has no rows");
    }
    return rows;
}

}  // namespace foreday::tests
