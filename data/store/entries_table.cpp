#include "data/store/entries_table.h"

#include <sqlite3.h>

#include <algorithm>
#include <limits>

#include "data/reading/hashing.h"
#include "data/store/documents.h"

namespace foreday::store {
namespace {

/// LIMIT takes a signed number.
std::int64_t limit_of(std::size_t at_most)
{
    return static_cast<std::int64_t>(
        std::min(at_most, static_cast<std::size_t>(std::numeric_limits<std::int64_t>::max())));
}

Entry entry_at(const Query& query)
{
    Entry entry;
    entry.number = query.integer(0);
    entry.said.subject = query.text(1);
    entry.said.at = query.moment(2);
    entry.said.who = query.text(3);
    entry.said.desk = query.text(4);
    entry.said.kind = query.text(5);
    // A version that no entry can have must not turn into one by being cut: 0 fits no hash.
    const std::int64_t version = query.integer(6);
    const bool possible = version >= 1 && version <= std::numeric_limits<int>::max();
    entry.said.kind_version = possible ? static_cast<int>(version) : 0;
    entry.said.payload = query.text(7);
    entry.hash = query.text(8);
    return entry;
}

/// A broken page gives rows out of their order, and then whoever asks for what comes after the last one would
/// be given the same rows for ever.
template <class Value>
void check_order(const Value& before, const Value& next)
{
    if (!(before < next)) {
        throw SQLite::Exception("rows are not in their order", SQLITE_CORRUPT);
    }
}

/// Entries above `after`.
std::vector<Entry> all_of(Query& query, std::int64_t after)
{
    std::vector<Entry> entries;
    while (query.next()) {
        entries.push_back(entry_at(query));
        check_order(after, entries.back().number);
        after = entries.back().number;
    }
    return entries;
}

}  // namespace

Head head_in(const Connection& connection, Chain chain)
{
    Query query = connection.query("SELECT number, hash FROM heads WHERE chain = ?1");
    query.with(std::string(name_of(chain)));
    return query.next() ? Head{query.integer(0), query.text(1)} : Head{};
}

Entry put_entry(const Connection& connection, Chain chain, const NewEntry& said)
{
    Entry entry = entry_after(chain, head_in(connection, chain), said);
    connection
        .query(chain == Chain::journal
                   ? "INSERT INTO journal(number, subject, at, who, desk, kind, kind_version, payload, hash) "
                     "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)"
                   : "INSERT INTO looks(number, subject, at, who, desk, kind, kind_version, payload, hash) "
                     "VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9)")
        .with(entry.number, said.subject, said.at, said.who, said.desk, said.kind, said.kind_version,
              said.payload, entry.hash)
        .run();
    return entry;
}

std::vector<Entry> entries_in(const Connection& connection, Chain chain, std::int64_t after,
                              std::size_t at_most)
{
    Query query = connection.query(
        chain == Chain::journal
            ? "SELECT number, subject, at, who, desk, kind, kind_version, payload, hash FROM journal "
              "WHERE number > ?1 ORDER BY number LIMIT ?2"
            : "SELECT number, subject, at, who, desk, kind, kind_version, payload, hash FROM looks "
              "WHERE number > ?1 ORDER BY number LIMIT ?2");
    return all_of(query.with(after, limit_of(at_most)), after);
}

std::vector<Entry> entries_about(const Connection& connection, const std::string& subject)
{
    Query query = connection.query(
        "SELECT number, subject, at, who, desk, kind, kind_version, payload, hash FROM journal "
        "WHERE subject = ?1 ORDER BY number");
    return all_of(query.with(subject), std::numeric_limits<std::int64_t>::min());
}

std::string put_document(const Connection& connection, std::string_view bytes)
{
    refuse_too_long(bytes);
    std::string hash = data::sha256_hex(bytes);
    {
        Query query = connection.query("SELECT 1 FROM documents WHERE hash = ?1");
        query.with(hash);
        if (query.next()) {
            return hash;
        }
    }
    const std::string compressed = compress(bytes);
    connection.query("INSERT INTO documents(hash, length, compressed) VALUES (?1, ?2, ?3)")
        .with(hash, static_cast<std::int64_t>(bytes.size()), Blob{compressed})
        .run();
    return hash;
}

std::optional<KeptDocument> document_in(const Connection& connection, const std::string& hash)
{
    Query query = connection.query("SELECT length, compressed FROM documents WHERE hash = ?1");
    query.with(hash);
    if (!query.next()) {
        return std::nullopt;
    }
    const std::int64_t length = query.integer(0);
    KeptDocument document;
    if (length >= 0) {
        document.bytes = uncompress(query.text(1), static_cast<std::size_t>(length));
    }
    if (document.bytes && data::sha256_hex(*document.bytes) != hash) {
        document.bytes.reset();
    }
    return document;
}

std::vector<std::string> document_hashes(const Connection& connection, const std::string& after,
                                         std::size_t at_most)
{
    Query query = connection.query("SELECT hash FROM documents WHERE hash > ?1 ORDER BY hash LIMIT ?2");
    query.with(after, limit_of(at_most));
    std::vector<std::string> hashes;
    while (query.next()) {
        hashes.push_back(query.text(0));
        check_order(hashes.size() > 1 ? hashes[hashes.size() - 2] : after, hashes.back());
    }
    return hashes;
}

}  // namespace foreday::store
