#pragma once
#include <optional>
#include <string>
#include <vector>

#include "data/store/connection.h"
#include "data/store/projection.h"

/// The tables of projections. Each throws SQLite::Exception.
namespace foreday::store {

using CaseRow = std::int64_t;  ///< a case's row in this file; means nothing outside it

void put_projection(const Connection& connection, const CaseProjection& projection);
void drop_projections(const Connection& connection);

[[nodiscard]] std::optional<CaseRow> row_of_case(const Connection& connection, const std::string& case_id);
[[nodiscard]] CaseProjection projection_at(const Connection& connection, CaseRow row);
[[nodiscard]] std::vector<CaseProjection> projections_at(const Connection& connection,
                                                         const std::vector<CaseRow>& rows);

[[nodiscard]] std::vector<CaseRow> rows_with_calls(const Connection& connection, screening::Moment now);
[[nodiscard]] std::vector<CaseRow> rows_undecided(const Connection& connection);
[[nodiscard]] std::vector<CaseRow> rows_on_day(const Connection& connection, screening::Date day);
[[nodiscard]] std::vector<std::string> ids_to_look_at(const Connection& connection,
                                                      const std::string& rules_hash, screening::Moment now,
                                                      std::size_t at_most);

/// As Store::search.
[[nodiscard]] std::vector<CaseRow> rows_found(const Connection& connection,
                                              const std::vector<std::string>& folded_words,
                                              std::optional<screening::Date> born, screening::Date around,
                                              std::size_t at_most);

}  // namespace foreday::store
