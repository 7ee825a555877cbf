#include <fmt/format.h>

#include <algorithm>
#include <span>

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

/// What is looked for, with no word that another one begins with: where "marlow" fits, "mar" does.
struct Wanted {
    std::vector<std::string> words;  ///< those that fit the fewest cases first, as far as that was counted
    std::optional<screening::Date> born;
    std::int64_t around = 0;  ///< a day
    std::size_t at_most = 0;
};

/// What fits fewer search words than this is rare: its cases are looked at one by one.
constexpr std::int64_t few_words = 3000;
/// So many cases around the day are looked at one by one before the index is read through for what is
/// frequent.
constexpr std::int64_t cases_near = 3000;
/// More words are not put into one statement: nobody's name has so many, and SQLite would refuse it.
constexpr std::size_t most_in_a_statement = 20;

std::vector<Found> those(Query& query, std::int64_t around)
{
    std::vector<Found> found;
    while (query.next()) {
        const std::int64_t away = query.integer(1) - around;
        found.push_back({away < 0 ? -away : away, query.integer(0)});
    }
    return found;
}

/// " AND the case has a word that each begins", the words being ?first and ?first+1 and so on.
std::string with_each_word(std::size_t words, int first)
{
    std::string sql;
    for (; words > 0; --words, first += 2) {
        sql += fmt::format(
            " AND EXISTS (SELECT 1 FROM search_words w WHERE w.case_row = c.case_row AND w.word >= ?{} "
            "AND w.word < ?{})",
            first, first + 1);
    }
    return sql;
}

void bind_words(Query& query, std::span<const std::string> words)
{
    for (const std::string& word : words) {
        query.with(word, after_all_that_begin_with(word));
    }
}

/// From the index of the first word; the others are looked for in each case it gives.
std::vector<Found> with_a_rare_word(const Connection& connection, const Wanted& wanted)
{
    Query query = connection.query(
        "SELECT c.case_row, c.day FROM search_words c INDEXED BY search_words_by_word "
        "WHERE c.word >= ?1 AND c.word < ?2" +
        with_each_word(wanted.words.size() - 1, 3));
    bind_words(query, wanted.words);
    return those(query, wanted.around);
}

/// Day by day away from the one looked around, while these are not too many cases. Empty: the nearest
/// `at_most` are not all among them.
std::optional<std::vector<Found>> near_the_day(const Connection& connection, const Wanted& wanted)
{
    constexpr std::int64_t farthest = 100'000;  // days
    for (std::int64_t away = 1; away < farthest; away *= 3) {
        Query number = connection.query("SELECT count(*) FROM cases WHERE day BETWEEN ?1 AND ?2");
        number.with(wanted.around - away, wanted.around + away);
        if (!number.next() || number.integer(0) > cases_near) {
            return std::nullopt;
        }
        Query query = connection.query(
            "SELECT c.case_row, c.day FROM cases c INDEXED BY cases_by_day WHERE c.day BETWEEN ?1 AND ?2" +
            with_each_word(wanted.words.size(), 3));
        bind_words(query.with(wanted.around - away, wanted.around + away), wanted.words);
        std::vector<Found> found = those(query, wanted.around);
        if (found.size() >= wanted.at_most) {
            return found;
        }
    }
    return std::nullopt;
}

std::vector<Found> with_word(const Connection& connection, const std::string& word, std::int64_t around)
{
    Query query = connection.query(
        "SELECT case_row, day FROM search_words INDEXED BY search_words_by_word "
        "WHERE word >= ?1 AND word < ?2");
    return those(query.with(word, after_all_that_begin_with(word)), around);
}

/// What is in the first and in each of the others: the whole index of each word is read.
std::vector<Found> in_all(const Connection& connection, std::vector<Found> found,
                          std::span<const std::string> others, std::int64_t around)
{
    for (const std::string& word : others) {
        if (found.empty()) {
            break;
        }
        std::vector<Found> those_of_it = with_word(connection, word, around);
        std::ranges::sort(those_of_it);
        std::erase_if(found, [&](const Found& one) { return !std::ranges::binary_search(those_of_it, one); });
    }
    return found;
}

std::vector<Found> born_on(const Connection& connection, const Wanted& wanted)
{
    const std::span words = std::span{wanted.words}.first(std::min(wanted.words.size(), most_in_a_statement));
    Query query =
        connection.query("SELECT c.case_row, c.day FROM cases c INDEXED BY cases_by_birth WHERE c.born = ?1" +
                         with_each_word(words.size(), 2));
    bind_words(query.with(*wanted.born), words);
    return in_all(connection, those(query, wanted.around), std::span{wanted.words}.subspan(words.size()),
                  wanted.around);
}

std::vector<Found> in_the_whole_book(const Connection& connection, const Wanted& wanted)
{
    if (wanted.words.empty()) {
        Query query = connection.query("SELECT case_row, day FROM cases INDEXED BY cases_by_day");
        return those(query, wanted.around);
    }
    return in_all(connection, with_word(connection, wanted.words.front(), wanted.around),
                  std::span{wanted.words}.subspan(1), wanted.around);
}

/// How many search words begin with it; not counted further than `few_words`.
std::int64_t how_many(const Connection& connection, const std::string& word)
{
    Query query = connection.query(
        "SELECT count(*) FROM (SELECT 1 FROM search_words INDEXED BY search_words_by_word "
        "WHERE word >= ?1 AND word < ?2 LIMIT ?3)");
    query.with(word, after_all_that_begin_with(word), few_words);
    return query.next() ? query.integer(0) : 0;
}

std::vector<Found> all_found(const Connection& connection, Wanted wanted)
{
    if (wanted.born) {
        return born_on(connection, wanted);
    }
    std::int64_t fewest = few_words;
    for (std::string& word : wanted.words) {
        if (const std::int64_t number = how_many(connection, word); number < fewest) {
            fewest = number;
            std::swap(word, wanted.words.front());
        }
    }
    if (wanted.words.size() > most_in_a_statement) {
        return in_the_whole_book(connection, wanted);
    }
    if (fewest < few_words) {
        return with_a_rare_word(connection, wanted);
    }
    auto found = near_the_day(connection, wanted);
    return found ? *std::move(found) : in_the_whole_book(connection, wanted);
}

/// Without the empty ones, and without those that another begins with.
std::vector<std::string> that_say_something(std::vector<std::string> words)
{
    std::ranges::sort(words);  // what begins others stands right before them
    std::vector<std::string> kept;
    for (std::size_t place = 0; place < words.size(); ++place) {
        const bool said_by_the_next = place + 1 < words.size() && words[place + 1].starts_with(words[place]);
        if (!words[place].empty() && !said_by_the_next) {
            kept.push_back(words[place]);
        }
    }
    return kept;
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
    std::vector<Found> found = all_found(
        connection, {that_say_something(folded_words), born, around.time_since_epoch().count(), at_most});
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
