#include <fmt/format.h>

#include <thread>

#include "data/store/folder_lock.h"
#include "data/store/migration.h"
#include "data/store/opened_book.h"

namespace foreday::store {
namespace {

using Kind = StoreFault::Kind;

bool is_folder(const std::filesystem::path& path)
{
    std::error_code ignored;
    return std::filesystem::is_directory(path, ignored);
}

/// @return its schema version
int identify(const Connection& connection, const std::filesystem::path& file)
{
    return with_faults(connection, [&] {
        if (connection.integer("PRAGMA application_id") != book_application_id) {
            throw not_a_book(file);
        }
        const auto version = connection.integer("PRAGMA user_version");
        if (version < 1) {
            throw not_a_book(file);
        }
        return static_cast<int>(version);
    });
}

/// A book in a folder that may not be written cannot have side files made for it. While nobody writes it, it
/// can be read all the same.
void open_immutable(OpenedBook& book, Connection::Options options)
{
    std::error_code error;
    if (const auto size = std::filesystem::file_size(wal_of(book.file), error); !error && size > 0) {
        throw StoreFault{Kind::read_only,
                         fmt::format("{} may not be written, and a part of it is still in {}.",
                                     shown(book.file), shown(wal_of(book.file))),
                         "Copy both to a folder you may write, and open it there."};
    }
    options.flags = SQLite::OPEN_READONLY;
    options.immutable = true;
    book.unchanged_since = std::filesystem::last_write_time(book.file, error);
    book.connection = std::make_unique<Connection>(book.file, options);
    book.version = identify(*book.connection, book.file);
    book.why_not = may_not_be_written(book.file);
}

void open_and_identify(OpenedBook& book, OpenMode mode, const BookSettings& settings)
{
    Connection::Options options;
    options.flags = mode == OpenMode::read_only ? SQLite::OPEN_READONLY : SQLite::OPEN_READWRITE;
    options.wait = settings.wait;
    options.vfs = settings.vfs;
    try {
        book.connection = std::make_unique<Connection>(book.file, options);
        book.version = identify(*book.connection, book.file);
    } catch (const StoreFault& fault) {
        if (fault.kind() != Kind::read_only) {
            throw;
        }
        book.connection.reset();
        open_immutable(book, options);
        return;
    }
    if (mode == OpenMode::read_only) {
        book.why_not = StoreFault{Kind::read_only, shown(book.file) + " was opened for reading only.",
                                  "Open it for writing to change something."};
    } else if (book.connection->read_only()) {
        book.why_not = may_not_be_written(book.file);
    }
}

/// Set at creation already; a copy does not have it.
void use_write_ahead(const OpenedBook& book, std::chrono::milliseconds wait)
{
    const auto give_up = std::chrono::steady_clock::now() + wait;
    while (true) {
        // SQLite does not wait for others by itself here.
        try {
            with_faults(*book.connection, [&] {
                if (book.connection->text("PRAGMA journal_mode") != "wal" &&
                    book.connection->text("PRAGMA journal_mode = WAL") != "wal") {
                    throw StoreFault{Kind::other,
                                     shown(book.file) + " lies on a disk that several programs cannot share.",
                                     "Move the book to a disk of this computer."};
                }
            });
            return;
        } catch (const StoreFault& fault) {
            if (fault.kind() != Kind::busy || std::chrono::steady_clock::now() > give_up) {
                throw;
            }
        }
        std::this_thread::sleep_for(std::chrono::milliseconds{20});
    }
}

/// Without a connection: it must first be brought up to date. Empty: look again, as another file has come in
/// its place.
std::optional<OpenedBook> open_once(const std::filesystem::path& file, OpenMode mode,
                                    const BookSettings& settings)
{
    const FolderLock nobody_replaces_it{file, FolderLock::Use::shared, settings.wait};
    const std::optional<FileIdentity> identity = identity_of(file);
    if (!identity) {
        throw not_there(file);
    }
    OpenedBook book;
    book.file = file;
    book.identity = *identity;
    book.our_version = settings.schema.current;
    open_and_identify(book, mode, settings);
    if (identity_of(file) != identity) {
        return std::nullopt;
    }
    if (book.version > book.our_version) {
        with_faults(*book.connection, [&] { book.connection->run("PRAGMA query_only = ON"); });
        book.why_not = of_later_version(file, book.version, book.our_version);
    } else if (book.version < book.our_version) {
        if (book.why_not) {
            throw StoreFault{
                Kind::read_only,
                fmt::format("{} was made by an earlier version of this program and must be brought "
                            "up to date before it can be read.",
                            shown(file)),
                "Open it once for writing, or copy it to a folder you may write."};
        }
        book.connection.reset();
        return book;
    } else if (!book.why_not) {
        use_write_ahead(book, settings.wait);
    }
    return book;
}

void refuse_what_is_there(const std::filesystem::path& file)
{
    if (identity_of(file)) {
        throw fault_of_system(EEXIST, file);
    }
    std::filesystem::path journal = file;
    journal += "-journal";
    for (const std::filesystem::path& side_file : {wal_of(file), journal}) {
        if (identity_of(side_file)) {
            // SQLite would take it for the new book's own and spoil the new book with it.
            throw StoreFault{
                Kind::other,
                fmt::format("{} is there, left over from another book of that name.", shown(side_file)),
                "Put that book back, or choose another name."};
        }
    }
}

}  // namespace

void refuse_network(const std::filesystem::path& file, const BookSettings& settings)
{
    if (const auto why = why_locks_fail(settings.file_system(file))) {
        throw StoreFault{
            Kind::network,
            fmt::format("{} lies on {}. Programs on several computers would write into each other's "
                        "work there, and entries would be lost.",
                        shown(file), *why),
            "Keep the book on a disk of the computer that all desks work on."};
    }
}

std::unique_ptr<Store> create_book(const std::filesystem::path& file, const BookSettings& settings)
{
    const std::filesystem::path path = whole_path(file);
    refuse_network(path, settings);
    refuse_what_is_there(path);
    UnfinishedFile unfinished{path};
    {
        const Connection connection{
            unfinished.path(),
            {SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE, settings.wait, settings.vfs, false, path}};
        with_faults(connection, [&] {
            connection.run(schema_sql());
            connection.run("PRAGMA journal_mode = WAL");
        });
    }
    unfinished.put_in_place();
    return open_book(path, OpenMode::read_write, settings);
}

std::unique_ptr<Store> open_book(const std::filesystem::path& file, OpenMode mode,
                                 const BookSettings& settings)
{
    const std::filesystem::path path = whole_path(file);
    if (is_folder(path)) {
        throw not_a_book(path);
    }
    refuse_network(path, settings);
    for (int attempt = 0; attempt < 5; ++attempt) {
        std::optional<OpenedBook> book = open_once(path, mode, settings);
        if (book && book->connection) {
            return make_sqlite_store(std::move(*book));
        }
        if (book) {
            bring_up_to_date(path, settings);
        }
    }
    throw not_there_any_more(path);
}

}  // namespace foreday::store
