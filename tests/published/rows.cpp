#include "tests/published/rows.h"

#include <fstream>
#include <set>
#include <sstream>
#include <stdexcept>

namespace foreday::tests {
namespace {

std::vector<std::string> cells_of(const std::string& line)
{
    std::vector<std::string> cells;
    std::stringstream stream(line);
    for (std::string cell; std::getline(stream, cell, '\t');) {
        cells.push_back(cell);
    }
    return cells;
}

}  // namespace

std::vector<Row> read_rows(const std::filesystem::path& file)
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

std::vector<Row> published_rows(const std::string& name)
{
    return read_rows(std::filesystem::path{FOREDAY_SOURCE_DIR "/tests/published"} / name);
}

bool is_reported(const Row& row)
{
    return row.at("note").starts_with("reported");
}

}  // namespace foreday::tests
