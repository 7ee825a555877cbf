#include <algorithm>

#include "data/store/projections.h"

namespace foreday::store {
namespace {

/// A case that has the words, and how many days from the day looked around.
struct Found {
    std::int64_t away = 0;
    CaseRow row = 0;
    auto operator<=>(const Found&) const = default;
};

/// The least text that is above every text beginning with `start`. Bytes compare as SQLite compares them.
std::string after_all_that_begin_with(std::string start)
{
    while (!start.empty() && static_cast<unsigned char>(start.back()) == 0xFFU) {
        start.pop_back();
    }
    if (!start.empty()) {
        start.back() = static_cast<char>(static_cast<unsigned char>(start.back()) + 1U);
    }
    return start;
}

std::string parameter(int number)
{
    return '?' + std::to_string(number);
}

/// Which cases may be it, by row and day, from one index: the birth date's if it is given, else the longest
/// word's, as the longest leaves the fewest. The other words are then looked for in each.
std::string search_sql(bool by_birth, std::size_t words)
{
    int next = 1;
    std::string sql;
    std::size_t looked_for = 0;
    if (by_birth) {
        sql = "SELECT c.case_row, c.day FROM cases c INDEXED BY cases_by_birth WHERE c.born = ?1";
        next = 2;
    } else if (words > 0) {
        sql =
            "SELECT c.case_row, c.day FROM search_words c INDEXED BY search_words_by_word "
            "WHERE c.word >= ?1 AND c.word < ?2";
        next = 3;
        looked_for = 1;
    } else {
        return "SELECT c.case_row, c.day FROM cases c INDEXED BY cases_by_day";
    }
    for (; looked_for < words; ++looked_for) {
        sql += " AND EXISTS (SELECT 1 FROM search_words w WHERE w.case_row = c.case_row AND w.word >= " +
               parameter(next) + " AND w.word < " + parameter(next + 1) + ')';
        next += 2;
    }
    return sql;
}

std::vector<Found> all_found(const Connection& connection, const std::vector<std::string>& words,
                             std::optional<screening::Date> born, screening::Date around)
{
    Query query = connection.query(search_sql(born.has_value(), words.size()));
    if (born) {
        query.with(*born);
    }
    for (const std::string& word : words) {
        query.with(word, after_all_that_begin_with(word));
    }
    const std::int64_t middle = around.time_since_epoch().count();
    std::vector<Found> found;
    while (query.next()) {
        const std::int64_t away = query.integer(1) - middle;
        found.push_back({away < 0 ? -away : away, query.integer(0)});
    }
    return found;
}

/// Cuts off what is farther than the last one wanted; those as far as it stay.
void keep_nearest(std::vector<Found>& found, std::size_t at_most)
{
    std::ranges::sort(found);
    found.erase(std::ranges::unique(found).begin(), found.end());  // a case may have two such words
    if (found.size() > at_most) {
        const auto farther = std::ranges::upper_bound(found, found[at_most - 1].away, {}, &Found::away);
        found.erase(farther, found.end());
    }
}

struct Named {
    std::int64_t away = 0;
    std::string case_id;
    CaseRow row = 0;
};

/// By distance, then case id.
std::vector<Named> in_order(const Connection& connection, const std::vector<Found>& found)
{
    std::vector<Named> named;
    for (const Found& one : found) {
        Query query = connection.query("SELECT case_id FROM cases WHERE case_row = ?1");
        query.with(one.row);
        if (query.next()) {
            named.push_back({one.away, query.text(0), one.row});
        }
    }
    std::ranges::sort(named, [](const Named& a, const Named& b) {
        return a.away != b.away ? a.away < b.away : a.case_id.compare(b.case_id) < 0;
    });
    return named;
}

}  // namespace

std::vector<CaseRow> rows_found(const Connection& connection, const std::vector<std::string>& folded_words,
                                std::optional<screening::Date> born, screening::Date around,
                                std::size_t at_most)
{
    if (at_most == 0) {
        return {};
    }
    std::vector<std::string> words;
    std::ranges::copy_if(folded_words, std::back_inserter(words),
                         [](const auto& word) { return !word.empty(); });
    std::ranges::stable_sort(words, std::ranges::greater{}, &std::string::size);
    std::vector<Found> found = all_found(connection, words, born, around);
    keep_nearest(found, at_most);

    std::vector<CaseRow> rows;
    for (const Named& one : in_order(connection, found)) {
        if (rows.size() < at_most) {
            rows.push_back(one.row);
        }
    }
    return rows;
}

}  // namespace foreday::store
