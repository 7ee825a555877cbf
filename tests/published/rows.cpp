#include "tests/published/rows.h"

namespace foreday::tests {

std::vector<Row> published_rows(const std::string& name)
{
    return read_rows(std::filesystem::path{FOREDAY_SOURCE_DIR "/tests/published"} / name);
}

bool is_reported(const Row& row)
{
    return row.at("note").starts_with("reported");
}

}  // namespace foreday::tests
