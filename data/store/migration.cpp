#include "data/store/migration.h"

#include <fmt/format.h>
#include <sqlite3.h>

#include <algorithm>

#include "data/store/entries_table.h"
#include "data/store/folder_lock.h"
#include "data/store/opened_book.h"
#include "data/store/verify.h"

namespace foreday::store {
namespace {

using Kind = StoreFault::Kind;

StoreFault in_use(const std::filesystem::path& file)
{
    return {
        Kind::busy,
        fmt::format("{} must be brought up to date for this version of the program, and others have it open.",
                    shown(file)),
        "Close it everywhere, then open it here again."};
}

StoreFault does_not_come_out(const std::filesystem::path& file, const std::string& why)
{
    return {Kind::other,
            fmt::format("{} could not be brought up to date ({}); it was left as it is.", shown(file), why),
            "Go on with the version of the program that wrote it, and report this sentence as it stands."};
}

/// Leaves no side file of the old book, which SQLite would take for one of the new book, and keeps everybody
/// out until the connection is closed.
void take_alone(const Connection& old, const std::filesystem::path& file)
{
    try {
        if (old.text("PRAGMA journal_mode = DELETE") != "delete") {
            throw in_use(file);
        }
        old.run("PRAGMA locking_mode = EXCLUSIVE");
        old.run("BEGIN EXCLUSIVE; COMMIT");
        // Somebody may have come in between the two.
        if (old.text("PRAGMA journal_mode") != "delete") {
            throw in_use(file);
        }
    } catch (const SQLite::Exception& exception) {
        throw(exception.getErrorCode() & 0xff) == SQLITE_BUSY ? in_use(file) : old.fault(exception);
    }
}

void apply_steps(const std::filesystem::path& copy, const std::filesystem::path& file, int version,
                 const BookSettings& settings)
{
    const Connection connection{copy, {SQLite::OPEN_READWRITE, settings.wait, settings.vfs, false, file}};
    with_faults(connection, [&] {
        connection.run("BEGIN EXCLUSIVE");
        for (; version < settings.schema.current; ++version) {
            const auto step = std::ranges::find(settings.schema.steps, version, &SchemaStep::from);
            if (step == settings.schema.steps.end()) {
                throw does_not_come_out(file, fmt::format("nothing leads on from version {}", version));
            }
            connection.run(step->sql);
        }
        connection.run(fmt::format("PRAGMA user_version = {}", settings.schema.current));
        connection.run("COMMIT");
        if (const std::string found = connection.text("PRAGMA integrity_check"); found != "ok") {
            throw does_not_come_out(file, found);
        }
        if (const std::string table = connection.text("PRAGMA foreign_key_check"); !table.empty()) {
            throw does_not_come_out(file, "rows of " + table + " lead nowhere");
        }
    });
}

/// The folder's lock is ours already, so open_book() would wait for it in vain.
std::unique_ptr<Store> open_for_reading(const std::filesystem::path& copy, const BookSettings& settings)
{
    OpenedBook book;
    book.file = copy;
    book.identity = identity_of(copy).value_or(FileIdentity{});
    book.connection = std::make_unique<Connection>(
        copy, Connection::Options{SQLite::OPEN_READONLY, settings.wait, settings.vfs, false, {}});
    book.version = settings.schema.current;
    book.our_version = settings.schema.current;
    book.why_not = may_not_be_written(copy);
    return make_sqlite_store(std::move(book));
}

/// Both chains are sound and end where they ended.
void verify_copy(const std::filesystem::path& copy, const std::filesystem::path& file,
                 const std::vector<NotedHead>& heads, const BookSettings& settings)
{
    const std::unique_ptr<Store> store = open_for_reading(copy, settings);
    const Verification found = verify(*store, heads);
    if (!found.damages.empty()) {
        throw does_not_come_out(file, in_words(found.damages.front()));
    }
    for (const NotedHead& noted : heads) {
        if (store->head(noted.chain) != noted.head) {
            throw does_not_come_out(file, fmt::format("the {} has another end", name_of(noted.chain)));
        }
    }
}

std::filesystem::path name_for_old(const std::filesystem::path& file, int version)
{
    std::filesystem::path name = file;
    name += fmt::format(".version-{}", version);
    const std::filesystem::path first = name;
    for (int again = 2; identity_of(name); ++again) {
        name = first;
        name += fmt::format("-{}", again);
    }
    return name;
}

}  // namespace

void bring_up_to_date(const std::filesystem::path& file, const BookSettings& settings)
{
    const FolderLock nobody_else{file, FolderLock::Use::alone, settings.wait};
    const Connection old{file, {SQLite::OPEN_READWRITE, settings.wait, settings.vfs, false, {}}};
    if (with_faults(old, [&] { return old.read_only(); })) {
        throw may_not_be_written(file);
    }
    const auto version =
        static_cast<int>(with_faults(old, [&] { return old.integer("PRAGMA user_version"); }));
    if (version >= settings.schema.current) {
        return;  // somebody else has done it while we waited
    }
    take_alone(old, file);
    with_faults(old, [&] {
        std::vector<NotedHead> heads;
        for (const Chain chain : all_chains) {
            heads.push_back({chain, head_in(old, chain)});
        }
        UnfinishedFile copy{file};
        old.query("VACUUM INTO ?1").with(copy.path().string()).run();
        apply_steps(copy.path(), file, version, settings);
        verify_copy(copy.path(), file, heads, settings);
        give_second_name(file, name_for_old(file, version));
        copy.put_in_place_of_old();
    });
}

}  // namespace foreday::store
