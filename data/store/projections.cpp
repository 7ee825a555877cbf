#include "data/store/projections.h"

#include <algorithm>
#include <limits>

namespace foreday::store {
namespace {

constexpr std::size_t most_rows = std::numeric_limits<std::int64_t>::max();  // LIMIT is signed

CaseRow put_case(const Connection& connection, const CaseProjection& one)
{
    Query query = connection.query(
        "INSERT INTO cases(case_id, patient_id, rules_hash, up_to, look_again, finished, name, number, born, "
        "day, start, procedures, here_since, gone_in, ended) "
        "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14, ?15) "
        "ON CONFLICT(case_id) DO UPDATE SET patient_id = excluded.patient_id, "
        "rules_hash = excluded.rules_hash, up_to = excluded.up_to, look_again = excluded.look_again, "
        "finished = excluded.finished, name = excluded.name, number = excluded.number, born = excluded.born, "
        "day = excluded.day, start = excluded.start, procedures = excluded.procedures, "
        "here_since = excluded.here_since, gone_in = excluded.gone_in, ended = excluded.ended "
        "RETURNING case_row");
    query.with(one.case_id, one.patient_id, one.rules_hash, one.up_to, one.look_again, one.finished, one.name,
               one.number, one.born, one.day, one.start, one.procedures, one.here_since, one.gone_in,
               one.ended);
    if (!query.next()) {
        throw SQLite::Exception("a case was not put into its table");
    }
    const CaseRow row = query.integer(0);
    query.run();
    return row;
}

void drop_parts(const Connection& connection, CaseRow row)
{
    for (const char* sql :
         {"DELETE FROM search_words WHERE case_row = ?1", "DELETE FROM calls WHERE case_row = ?1",
          "DELETE FROM undecided WHERE case_row = ?1"}) {
        connection.query(sql).with(row).run();
    }
}

std::vector<CaseRow> rows_of(Query& query)
{
    std::vector<CaseRow> rows;
    while (query.next()) {
        rows.push_back(query.integer(0));
    }
    return rows;
}

std::vector<std::string> words_at(const Connection& connection, CaseRow row)
{
    std::vector<std::string> words;
    Query query = connection.query("SELECT word FROM search_words WHERE case_row = ?1 ORDER BY position");
    query.with(row);
    while (query.next()) {
        words.push_back(query.text(0));
    }
    return words;
}

std::vector<ProjectedCall> calls_at(const Connection& connection, CaseRow row)
{
    std::vector<ProjectedCall> calls;
    Query query = connection.query(
        "SELECT id, due_from, useful_until, tries, why FROM calls WHERE case_row = ?1 ORDER BY position");
    query.with(row);
    while (query.next()) {
        calls.push_back({query.text(0), query.moment(1), query.moment(2), static_cast<int>(query.integer(3)),
                         query.text(4)});
    }
    return calls;
}

std::vector<ProjectedItem> undecided_at(const Connection& connection, CaseRow row)
{
    std::vector<ProjectedItem> items;
    Query query = connection.query(
        "SELECT id, level, decide_by, title FROM undecided WHERE case_row = ?1 ORDER BY position");
    query.with(row);
    while (query.next()) {
        // The table lets no other name in; the most urgent one is the safe reading of a damaged row.
        const auto level = screening::find_level(query.text(1)).value_or(screening::Level::stop);
        items.push_back({query.text(0), level, query.moment(2), query.text(3)});
    }
    return items;
}

}  // namespace

void put_projection(const Connection& connection, const CaseProjection& projection)
{
    const CaseRow row = put_case(connection, projection);
    drop_parts(connection, row);
    std::int64_t position = 0;
    for (const std::string& word : projection.search_words) {
        connection.query("INSERT INTO search_words(case_row, position, word, day) VALUES (?1, ?2, ?3, ?4)")
            .with(row, ++position, word, projection.day)
            .run();
    }
    position = 0;
    for (const ProjectedCall& call : projection.calls) {
        connection
            .query(
                "INSERT INTO calls(case_row, position, id, due_from, useful_until, tries, why, finished) "
                "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)")
            .with(row, ++position, call.id, call.due_from, call.useful_until, call.tries, call.why,
                  projection.finished)
            .run();
    }
    position = 0;
    for (const ProjectedItem& item : projection.undecided) {
        connection
            .query(
                "INSERT INTO undecided(case_row, position, id, level, decide_by, title) "
                "VALUES (?1, ?2, ?3, ?4, ?5, ?6)")
            .with(row, ++position, item.id, std::string(screening::name_of(item.level)), item.decide_by,
                  item.title)
            .run();
    }
}

void drop_projections(const Connection& connection)
{
    for (const char* sql :
         {"DELETE FROM search_words", "DELETE FROM calls", "DELETE FROM undecided", "DELETE FROM cases"}) {
        connection.query(sql).run();
    }
}

std::optional<CaseRow> row_of_case(const Connection& connection, const std::string& case_id)
{
    Query query = connection.query("SELECT case_row FROM cases WHERE case_id = ?1");
    query.with(case_id);
    return query.next() ? std::optional{query.integer(0)} : std::nullopt;
}

CaseProjection projection_at(const Connection& connection, CaseRow row)
{
    CaseProjection one;
    {
        Query query = connection.query(
            "SELECT case_id, patient_id, rules_hash, up_to, look_again, finished, name, number, born, day, "
            "start, procedures, here_since, gone_in, ended FROM cases WHERE case_row = ?1");
        query.with(row);
        if (!query.next()) {
            throw SQLite::Exception("a case has gone from its table");
        }
        one.case_id = query.text(0);
        one.patient_id = query.text(1);
        one.rules_hash = query.text(2);
        one.up_to = query.integer(3);
        one.look_again = query.moment(4);
        one.finished = query.integer(5) != 0;
        one.name = query.text(6);
        one.number = query.text(7);
        one.born = query.date(8);
        one.day = query.date(9);
        one.start = query.moment(10);
        one.procedures = query.text(11);
        one.here_since = query.maybe_moment(12);
        one.gone_in = query.maybe_moment(13);
        one.ended = query.maybe_moment(14);
    }
    one.search_words = words_at(connection, row);
    one.calls = calls_at(connection, row);
    one.undecided = undecided_at(connection, row);
    return one;
}

std::vector<CaseProjection> projections_at(const Connection& connection, const std::vector<CaseRow>& rows)
{
    std::vector<CaseProjection> found;
    found.reserve(rows.size());
    for (const CaseRow row : rows) {
        found.push_back(projection_at(connection, row));
    }
    return found;
}

std::vector<CaseRow> rows_with_calls(const Connection& connection, screening::Moment now)
{
    Query query =
        connection.query("SELECT DISTINCT case_row FROM calls WHERE finished = 0 AND due_from <= ?1");
    return rows_of(query.with(now));
}

std::vector<CaseRow> rows_undecided(const Connection& connection)
{
    Query query = connection.query("SELECT DISTINCT case_row FROM undecided");
    return rows_of(query);
}

std::vector<CaseRow> rows_on_day(const Connection& connection, screening::Date day)
{
    Query query = connection.query("SELECT case_row FROM cases WHERE day = ?1");
    return rows_of(query.with(day));
}

std::vector<std::string> ids_to_look_at(const Connection& connection, const std::string& rules_hash,
                                        screening::Moment now, std::size_t at_most)
{
    Query query = connection.query(
        "SELECT case_id FROM cases WHERE finished = 0 AND (rules_hash <> ?1 OR look_again <= ?2) "
        "ORDER BY case_id LIMIT ?3");
    query.with(rules_hash, now, static_cast<std::int64_t>(std::min(at_most, most_rows)));
    std::vector<std::string> ids;
    while (query.next()) {
        ids.push_back(query.text(0));
    }
    return ids;
}

}  // namespace foreday::store
