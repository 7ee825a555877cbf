#pragma once
#include <SQLiteCpp/SQLiteCpp.h>

#include <chrono>
#include <cstdint>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "data/store/faults.h"
#include "screening/calendar.h"

namespace foreday::store {

struct Blob {
    std::string_view bytes;
};

/// One use of a prepared statement. Columns count from 0.
class Query {
public:
    explicit Query(SQLite::Statement& statement) : statement_{statement} {}
    ~Query() { statement_.tryReset(); }
    Query(const Query&) = delete;
    Query& operator=(const Query&) = delete;

    /// Binds the values to ?1, ?2 ... in turn, after those bound already.
    template <typename... Values>
    Query& with(const Values&... values)
    {
        (bind(values), ...);
        return *this;
    }
    [[nodiscard]] bool next() { return statement_.executeStep(); }
    void run()
    {
        while (next()) {
        }
    }
    [[nodiscard]] bool empty(int column) const { return statement_.isColumnNull(column); }
    [[nodiscard]] std::int64_t integer(int column) const { return statement_.getColumn(column).getInt64(); }
    [[nodiscard]] std::string text(int column) const { return statement_.getColumn(column).getString(); }
    [[nodiscard]] screening::Moment moment(int column) const;
    [[nodiscard]] std::optional<screening::Moment> maybe_moment(int column) const;
    [[nodiscard]] screening::Date date(int column) const;

private:
    void bind(std::int64_t value) { statement_.bind(++bound_, value); }
    void bind(int value) { statement_.bind(++bound_, value); }
    void bind(bool value) { statement_.bind(++bound_, value ? 1 : 0); }
    void bind(const std::string& value) { statement_.bind(++bound_, value); }
    void bind(const Blob& value);
    void bind(screening::Moment value) { bind(std::int64_t{value.time_since_epoch().count()}); }
    void bind(screening::Date value) { bind(std::int64_t{value.time_since_epoch().count()}); }
    void bind(const std::optional<screening::Moment>& value);

    SQLite::Statement& statement_;
    int bound_ = 0;
};

/// A file opened by SQLite, with the statements prepared for it. For one thread at a time; two queries of the
/// same words must not be in use together. Everything here throws SQLite::Exception; the store makes
/// StoreFaults of them with fault().
class Connection {
public:
    struct Options {
        int flags = SQLite::OPEN_READONLY;
        std::chrono::milliseconds wait{0};
        std::string vfs;
        bool immutable = false;           ///< nobody writes it: read without locks or side files
        std::filesystem::path spoken_of;  ///< what faults call the file; empty: as it is named
    };
    /// @throws StoreFault
    Connection(const std::filesystem::path& file, const Options& options);

    [[nodiscard]] Query query(const std::string& sql) const;
    /// One or several statements without results, not kept prepared.
    void run(const std::string& sql) const { database_->exec(sql); }
    [[nodiscard]] std::int64_t integer(const std::string& sql) const;
    [[nodiscard]] std::string text(const std::string& sql) const;

    [[nodiscard]] bool in_transaction() const;
    /// Undoes what is open, if something is. Never throws: SQLite may have undone it itself.
    void roll_back() const noexcept;
    /// The file or its folder lets nobody like us write.
    [[nodiscard]] bool read_only() const;

    [[nodiscard]] StoreFault fault(const SQLite::Exception& exception) const;

private:
    std::filesystem::path spoken_of_;
    mutable std::optional<SQLite::Database> database_;
    mutable std::map<std::string, SQLite::Statement, std::less<>> statements_;  // gone before the database
};

/// Runs `work` and gives what it gives; a SQLite::Exception out of it becomes a StoreFault.
template <typename Work>
auto with_faults(const Connection& connection, const Work& work)
{
    try {
        return work();
    } catch (const SQLite::Exception& exception) {
        throw connection.fault(exception);
    }
}

}  // namespace foreday::store
