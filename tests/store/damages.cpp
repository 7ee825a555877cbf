#include "tests/store/damages.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>

#include <array>
#include <functional>
#include <numeric>
#include <vector>

#include "data/reading/hashing.h"
#include "tests/support/seed.h"

namespace foreday::tests {
namespace {

using store::Chain;

constexpr std::array columns{"number", "subject",      "at",      "who", "desk",
                             "kind",   "kind_version", "payload", "hash"};
constexpr auto all_but_number = "subject, at, who, desk, kind, kind_version, payload, hash";

/// The file with nothing left in it that would refuse a change.
class Defenceless {
public:
    explicit Defenceless(const std::filesystem::path& book) : database_{book.string(), SQLite::OPEN_READWRITE}
    {
        std::string drops;
        SQLite::Statement names{database_, "SELECT name FROM sqlite_schema WHERE type = 'trigger'"};
        while (names.executeStep()) {
            drops += "DROP TRIGGER " + names.getColumn(0).getString() + ';';
        }
        names.reset();
        database_.exec("PRAGMA synchronous = OFF; PRAGMA ignore_check_constraints = ON;" + drops);
    }
    SQLite::Database& database() { return database_; }
    int integer(const std::string& sql) { return database_.execAndGet(sql).getInt(); }
    std::string text(const std::string& sql) { return database_.execAndGet(sql).getString(); }
    void run(const std::string& sql) { database_.exec(sql); }

private:
    SQLite::Database database_;
};

std::string any_chain(std::mt19937_64& random)
{
    return any_between(random, 0, 2) == 0 ? "looks" : "journal";
}

int any_entry(Defenceless& book, const std::string& chain, std::mt19937_64& random)
{
    return static_cast<int>(any_between(random, 1, book.integer("SELECT max(number) FROM " + chain)));
}

/// Flips one bit of one value.
std::string flip(Defenceless& book, const std::string& table, const std::string& column,
                 const std::string& where, std::mt19937_64& random)
{
    SQLite::Statement read{book.database(), "SELECT " + column + " FROM " + table + " WHERE " + where};
    if (!read.executeStep()) {
        throw std::runtime_error("no row " + where + " in " + table);
    }
    const SQLite::Column value = read.getColumn(0);
    SQLite::Statement write{book.database(), "UPDATE " + table + " SET " + column + " = ?1 WHERE " + where};
    std::string which;
    if (value.isInteger()) {
        const auto bit = static_cast<unsigned>(any_between(random, 0, 63));
        write.bind(1, static_cast<std::int64_t>(static_cast<std::uint64_t>(value.getInt64()) ^
                                                (std::uint64_t{1} << bit)));
        which = fmt::format("bit {}", bit);
    } else {
        std::string bytes = value.getString();
        if (bytes.empty()) {
            bytes = "x";
            which = "was empty";
        } else {
            const auto at =
                static_cast<std::size_t>(any_between(random, 0, static_cast<std::int64_t>(bytes.size()) - 1));
            const auto bit = static_cast<unsigned>(any_between(random, 0, 7));
            bytes[at] = static_cast<char>(static_cast<unsigned char>(bytes[at]) ^ (1U << bit));
            which = fmt::format("byte {} bit {}", at, bit);
        }
        if (value.isBlob()) {
            write.bind(1, bytes.data(), static_cast<int>(bytes.size()));
        } else {
            write.bind(1, bytes);
        }
    }
    read.reset();
    write.exec();
    return fmt::format("{} where {}, {}: {}", table, where, column, which);
}

Damaged change_entry(Defenceless& book, std::mt19937_64& random)
{
    const std::string chain = any_chain(random);
    const std::string column = columns.at(static_cast<std::size_t>(any_between(random, 0, 8)));
    std::string where = fmt::format("number = {}", any_entry(book, chain, random));
    while (true) {
        try {
            return {flip(book, chain, column, where, random), false, {}};
        } catch (const SQLite::Exception&) {
            // That number is taken; another bit, then.
        }
    }
}

Damaged change_head(Defenceless& book, std::mt19937_64& random)
{
    const std::array parts{"chain", "number", "hash"};
    const auto part = parts.at(static_cast<std::size_t>(any_between(random, 0, 2)));
    return {flip(book, "heads", part, "chain = '" + any_chain(random) + '\'', random), false, {}};
}

Damaged change_document(Defenceless& book, std::mt19937_64& random)
{
    const int row = any_entry(book, "(SELECT max(rowid) AS number FROM documents)", random);
    const std::string where = fmt::format("rowid = {}", row);
    const std::array parts{"hash", "length", "compressed"};
    const auto part = static_cast<std::size_t>(any_between(random, 0, 2));
    const std::string hash = book.text("SELECT hash FROM documents WHERE " + where);
    return {flip(book, "documents", parts.at(part), where, random), false, part == 2 ? hash : ""};
}

/// Closes the gap that a removed entry leaves, or makes one for an added one.
void shift(Defenceless& book, const std::string& chain, int above, int by)
{
    book.run(
        fmt::format("UPDATE {0} SET number = -number WHERE number > {1};"
                    "UPDATE {0} SET number = -number + {2} WHERE number < 0",
                    chain, above, by));
}

/// Both in the book: as careful a hand would leave it.
void set_head(Defenceless& book, const std::string& chain)
{
    book.run(
        fmt::format("UPDATE heads SET (number, hash) = (SELECT number, hash FROM {0} ORDER BY number DESC) "
                    "WHERE chain = '{0}'",
                    chain));
}

Damaged remove_entry(Defenceless& book, std::mt19937_64& random)
{
    const std::string chain = any_chain(random);
    const int last = book.integer("SELECT max(number) FROM " + chain);
    const int number = any_entry(book, chain, random);
    book.run(fmt::format("DELETE FROM {} WHERE number = {}", chain, number));
    const bool closed = any_between(random, 0, 1) == 1 && number < last;
    if (closed) {
        shift(book, chain, number, -1);
        set_head(book, chain);
    }
    return {fmt::format("{} {} removed{}", chain, number, closed ? ", gap closed" : ""), false, {}};
}

Damaged insert_entry(Defenceless& book, std::mt19937_64& random)
{
    const std::string chain = any_chain(random);
    const int copied = any_entry(book, chain, random);
    int number = any_entry(book, chain, random) + 1;
    if (any_between(random, 0, 5) == 0) {
        number = static_cast<int>(any_between(random, -5, 0));
    } else {
        shift(book, chain, number - 1, 1);
    }
    book.run(fmt::format("INSERT INTO {0}(number, {1}) SELECT {2}, {1} FROM {0} WHERE number = {3}", chain,
                         all_but_number, number, copied + (number > 0 && copied >= number ? 1 : 0)));
    const bool careful = any_between(random, 0, 1) == 1;
    if (careful) {
        set_head(book, chain);
    }
    return {
        fmt::format("{} {} put in as {}{}", chain, copied, number, careful ? ", head set" : ""), false, {}};
}

Damaged swap_entries(Defenceless& book, std::mt19937_64& random)
{
    const std::string one_chain = any_chain(random);
    const std::string other_chain = any_between(random, 0, 3) == 0 ? any_chain(random) : one_chain;
    const int one = any_entry(book, one_chain, random);
    int other = any_entry(book, other_chain, random);
    if (one_chain == other_chain && one == other) {
        other = one == 1 ? 2 : one - 1;
    }
    const std::string what = any_between(random, 0, 1) == 1
                                 ? all_but_number
                                 : "subject, at, who, desk, kind, kind_version, payload";
    book.run(
        fmt::format("CREATE TEMP TABLE kept AS SELECT {0} FROM {1} WHERE number = {2};"
                    "UPDATE {1} SET ({0}) = (SELECT {0} FROM {3} WHERE number = {4}) WHERE number = {2};"
                    "UPDATE {3} SET ({0}) = (SELECT {0} FROM kept) WHERE number = {4}",
                    what, one_chain, one, other_chain, other));
    return {fmt::format("{} {} and {} {} swapped ({})", one_chain, one, other_chain, other, what), false, {}};
}

Damaged cut_tail(Defenceless& book, std::mt19937_64& random)
{
    const std::string chain = any_chain(random);
    const int from = any_entry(book, chain, random);
    book.run(fmt::format("DELETE FROM {} WHERE number >= {}", chain, from));
    if (from == 1) {
        book.run(fmt::format("UPDATE heads SET number = 0, hash = '{}' WHERE chain = '{}'",
                             std::string(64, '0'), chain));
    } else {
        set_head(book, chain);
    }
    return {fmt::format("{} cut off from {} on, head set", chain, from), true, {}};
}

/// Says something else and computes the hashes anew from there on, to the end or not quite.
Damaged rewrite(Defenceless& book, std::mt19937_64& random)
{
    const Chain chain = any_between(random, 0, 2) == 0 ? Chain::looks : Chain::journal;
    const std::string table{name_of(chain)};
    const int from = any_entry(book, table, random);
    const int last = book.integer("SELECT max(number) FROM " + table);
    const int to = any_between(random, 0, 1) == 1 ? last : static_cast<int>(any_between(random, from, last));
    book.run(fmt::format("UPDATE {} SET payload = payload || ' not' WHERE number = {}", table, from));
    std::string before =
        from == 1 ? std::string(64, '0')
                  : book.text(fmt::format("SELECT hash FROM {} WHERE number = {}", table, from - 1));
    for (int number = from; number <= to; ++number) {
        SQLite::Statement read{book.database(), fmt::format("SELECT {} FROM {} WHERE number = {}",
                                                            all_but_number, table, number)};
        read.executeStep();
        store::Entry entry;
        entry.number = number;
        entry.said.subject = read.getColumn(0).getString();
        entry.said.at = screening::Moment{std::chrono::seconds{read.getColumn(1).getInt64()}};
        entry.said.who = read.getColumn(2).getString();
        entry.said.desk = read.getColumn(3).getString();
        entry.said.kind = read.getColumn(4).getString();
        entry.said.kind_version = read.getColumn(5).getInt();
        entry.said.payload = read.getColumn(6).getString();
        before = data::sha256_hex(hash_bytes(chain, entry, before));
        read.reset();
        book.run(fmt::format("UPDATE {} SET hash = '{}' WHERE number = {}", table, before, number));
    }
    const bool whole = to == last;
    if (whole) {
        set_head(book, table);
    }
    return {fmt::format("{} {} rewritten, hashes made anew to {} of {}", table, from, to, last), whole, {}};
}

}  // namespace

Damaged damage_at_random(const std::filesystem::path& book, std::mt19937_64& random)
{
    const std::vector<std::function<Damaged(Defenceless&, std::mt19937_64&)>> ways{
        change_entry, change_entry, change_entry, change_head, change_document,
        remove_entry, insert_entry, swap_entries, cut_tail,    rewrite};
    Defenceless open{book};
    return ways.at(static_cast<std::size_t>(
        any_between(random, 0, static_cast<std::int64_t>(ways.size()) - 1)))(open, random);
}

}  // namespace foreday::tests
