#include "data/store/connection.h"

#include <fmt/format.h>
#include <sqlite3.h>

namespace foreday::store {
namespace {

/// As a URI, every byte but letters, digits and the slash in hexadecimal.
std::string as_uri(const std::filesystem::path& file, std::string_view query)
{
    std::string uri = "file:";
    for (const char c : file.string()) {
        const bool plain =
            (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '/';
        uri += plain ? std::string(1, c) : fmt::format("%{:02X}", static_cast<unsigned char>(c));
    }
    return uri + '?' + std::string(query);
}

}  // namespace

screening::Moment Query::moment(int column) const
{
    return screening::Moment{std::chrono::seconds{integer(column)}};
}

std::optional<screening::Moment> Query::maybe_moment(int column) const
{
    return empty(column) ? std::nullopt : std::optional{moment(column)};
}

screening::Date Query::date(int column) const
{
    return screening::Date{date::days{static_cast<date::days::rep>(integer(column))}};
}

void Query::bind(const Blob& value)
{
    statement_.bind(++bound_, static_cast<const void*>(value.bytes.data()),
                    static_cast<int>(value.bytes.size()));
}

void Query::bind(const std::optional<screening::Moment>& value)
{
    if (value) {
        bind(*value);
    } else {
        statement_.bind(++bound_);
    }
}

Connection::Connection(const std::filesystem::path& file, const Options& options)
    : spoken_of_{options.spoken_of.empty() ? file : options.spoken_of}
{
    const std::string name = as_uri(file, options.immutable ? "immutable=1" : "");
    // The exception of a failed opening carries no errno: the handle is closed by then.
    try {
        database_.emplace(name, options.flags | SQLITE_OPEN_EXRESCODE | SQLITE_OPEN_URI,
                          static_cast<int>(options.wait.count()), options.vfs);
        sqlite3_db_config(database_->getHandle(), SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
        run("PRAGMA foreign_keys = ON; PRAGMA synchronous = FULL; PRAGMA recursive_triggers = ON;"
            "PRAGMA trusted_schema = OFF; PRAGMA cell_size_check = ON; PRAGMA temp_store = MEMORY");
    } catch (const SQLite::Exception& exception) {
        throw fault(exception);
    }
}

Query Connection::query(const std::string& sql) const
{
    auto found = statements_.find(sql);
    if (found == statements_.end()) {
        found = statements_.emplace(sql, SQLite::Statement{*database_, sql}).first;
    }
    return Query{found->second};
}

std::int64_t Connection::integer(const std::string& sql) const
{
    SQLite::Statement statement{*database_, sql};
    return statement.executeStep() ? statement.getColumn(0).getInt64() : 0;
}

std::string Connection::text(const std::string& sql) const
{
    SQLite::Statement statement{*database_, sql};
    return statement.executeStep() ? statement.getColumn(0).getString() : std::string{};
}

bool Connection::in_transaction() const
{
    return sqlite3_get_autocommit(database_->getHandle()) == 0;
}

void Connection::roll_back() const noexcept
{
    if (in_transaction()) {
        sqlite3_exec(database_->getHandle(), "ROLLBACK", nullptr, nullptr, nullptr);
    }
}

bool Connection::read_only() const
{
    return sqlite3_db_readonly(database_->getHandle(), "main") == 1;
}

StoreFault Connection::fault(const SQLite::Exception& exception) const
{
    const int system = database_ ? sqlite3_system_errno(database_->getHandle()) : 0;
    return fault_of_sqlite(exception.getErrorCode(), system, exception.what(), spoken_of_);
}

}  // namespace foreday::store
