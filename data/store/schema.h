#pragma once
#include <cstdint>
#include <string>
#include <vector>

namespace foreday::store {

/// "Fday": says of a SQLite file that it is a book.
inline constexpr std::int32_t book_application_id = 0x46646179;

/// Brings a book from the version `from` to the next one. The entries of both chains must stay as they are.
struct SchemaStep {
    int from = 0;
    std::string sql;
};

/// Which version this program writes, and how older ones become it, a step a version.
struct SchemaHistory {
    int current = 0;
    std::vector<SchemaStep> steps;
};
[[nodiscard]] SchemaHistory schema_history();

/// The tables, indexes and triggers of an empty book of version schema_history().current, in one transaction.
[[nodiscard]] const char* schema_sql();

}  // namespace foreday::store
