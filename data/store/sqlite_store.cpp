#include "data/store/sqlite_store.h"

#include <sqlite3.h>

#include <mutex>
#include <stdexcept>
#include <type_traits>

#include "data/store/entries_table.h"
#include "data/store/opened_book.h"
#include "data/store/projections.h"
#include "data/store/sqlite_writing.h"

namespace foreday::store {
namespace {

class SqliteStore : public Store {
public:
    explicit SqliteStore(OpenedBook book) : book_{std::move(book)} {}

    void write(const std::function<void(Writing&)>& work) override
    {
        transact([&] {
            SqliteWriting writing{connection()};
            work(writing);
            writing.throw_fault();
        });
    }

    [[nodiscard]] Head head(Chain chain) const override
    {
        return asking([&] { return head_in(connection(), chain); });
    }
    [[nodiscard]] std::vector<Entry> entries(Chain chain, std::int64_t after,
                                             std::size_t at_most) const override
    {
        return asking([&] { return entries_in(connection(), chain, after, at_most); });
    }
    [[nodiscard]] std::vector<Entry> entries_of(const std::string& subject) const override
    {
        return asking([&] { return entries_about(connection(), subject); });
    }
    [[nodiscard]] std::optional<std::string> document(const std::string& hash) const override
    {
        return asking([&]() -> std::optional<std::string> {
            const std::optional<KeptDocument> kept = document_in(connection(), hash);
            if (kept && !kept->bytes) {
                throw broken(book_.file, "the bytes of document " + hash);
            }
            return kept ? kept->bytes : std::nullopt;
        });
    }
    [[nodiscard]] std::vector<std::string> documents(const std::string& after,
                                                     std::size_t at_most) const override
    {
        return asking([&] { return document_hashes(connection(), after, at_most); });
    }

    [[nodiscard]] std::optional<CaseProjection> projection(const std::string& case_id) const override
    {
        return asking([&]() -> std::optional<CaseProjection> {
            const std::optional<CaseRow> row = row_of_case(connection(), case_id);
            return row ? std::optional{projection_at(connection(), *row)} : std::nullopt;
        });
    }
    [[nodiscard]] std::vector<CaseProjection> with_calls(screening::Moment now) const override
    {
        return asking([&] { return projections_at(connection(), rows_with_calls(connection(), now)); });
    }
    [[nodiscard]] std::vector<CaseProjection> undecided() const override
    {
        return asking([&] { return projections_at(connection(), rows_undecided(connection())); });
    }
    [[nodiscard]] std::vector<CaseProjection> on_day(screening::Date day) const override
    {
        return asking([&] { return projections_at(connection(), rows_on_day(connection(), day)); });
    }
    [[nodiscard]] std::vector<CaseProjection> search(const std::vector<std::string>& folded_words,
                                                     std::optional<screening::Date> born,
                                                     screening::Date around,
                                                     std::size_t at_most) const override
    {
        return asking([&] {
            return projections_at(connection(),
                                  rows_found(connection(), folded_words, born, around, at_most));
        });
    }
    [[nodiscard]] std::vector<std::string> to_look_at_again(const std::string& rules_hash,
                                                            screening::Moment now,
                                                            std::size_t at_most) const override
    {
        return asking([&] { return ids_to_look_at(connection(), rules_hash, now, at_most); });
    }

    [[nodiscard]] bool elect(const std::string& program, screening::Moment now,
                             screening::Moment until) override
    {
        bool elected = false;
        transact([&] {
            with_faults(connection(), [&] {
                Query query = connection().query(
                    "UPDATE upkeep SET elected = ?1, elected_until = ?3 "
                    "WHERE elected = ?1 OR elected_until <= ?2 RETURNING 1");
                query.with(program, now, until);
                elected = query.next();
                if (elected) {
                    query.run();
                }
            });
        });
        return elected;
    }

    void copy_to(const std::filesystem::path& file) const override
    {
        const std::lock_guard lock{mutex_};
        refuse_inside();
        require_same_file();
        UnfinishedFile copy{whole_path(file)};
        with_faults(connection(),
                    [&] { connection().query("VACUUM INTO ?1").with(copy.path().string()).run(); });
        copy.put_in_place();
    }

    [[nodiscard]] StoreInfo info(PageCheck pages) const override
    {
        return asking([&] {
            StoreInfo info;
            info.schema_version = book_.version;
            info.may_write = !book_.why_not;
            info.why_not = book_.why_not ? book_.why_not->what() : "";
            info.cases = connection().integer("SELECT count(*) FROM cases");
            // Those there, whether or not they are found by their hash.
            info.documents = connection().integer("SELECT count(*) FROM documents NOT INDEXED");
            if (pages == PageCheck::every_page) {
                Query query = connection().query("PRAGMA integrity_check");
                while (query.next()) {
                    if (std::string found = query.text(0); found != "ok") {
                        info.broken_pages.push_back(std::move(found));
                    }
                }
            }
            return info;
        });
    }

private:
    [[nodiscard]] const Connection& connection() const { return *book_.connection; }

    void refuse_inside() const
    {
        if (writing_) {
            throw std::logic_error("a write transaction was begun inside another");
        }
    }

    /// Somebody may have moved the file or put another one, such as a copy from a backup, in its place. What
    /// is written to the one that is open would then be lost.
    [[nodiscard]] bool is_same_file() const { return identity_of(book_.file) == book_.identity; }

    void require_same_file() const
    {
        if (!is_same_file()) {
            throw not_there_any_more(book_.file);
        }
        std::error_code error;
        if (book_.unchanged_since &&
            std::filesystem::last_write_time(book_.file, error) != *book_.unchanged_since) {
            throw StoreFault{StoreFault::Kind::busy, shown(book_.file) + " is being written by others.",
                             "Open it again to see what they wrote."};
        }
    }

    template <typename Work>
    std::invoke_result_t<const Work&> asking(const Work& work) const
    {
        const std::lock_guard lock{mutex_};
        require_same_file();
        try {
            return with_faults(connection(), [&] {
                const Snapshot one_moment{connection()};
                return work();
            });
        } catch (const StoreFault& fault) {
            if (book_.version > book_.our_version && fault.kind() == StoreFault::Kind::other) {
                throw of_later_version(book_.file, book_.version, book_.our_version);
            }
            throw;
        }
    }

    void transact(const std::function<void()>& work)
    {
        const std::lock_guard lock{mutex_};
        refuse_inside();
        if (book_.why_not) {
            throw *book_.why_not;
        }
        writing_ = true;
        try {
            with_faults(connection(), [&] { connection().query("BEGIN IMMEDIATE").run(); });
            // Only now: who puts another file in its place (see migration.cpp) holds this lock while doing
            // so.
            require_same_file();
            work();
            commit();
        } catch (...) {
            connection().roll_back();
            writing_ = false;
            throw;
        }
        writing_ = false;
    }

    void commit()
    {
        try {
            connection().query("COMMIT").run();
        } catch (const SQLite::Exception& exception) {
            const StoreFault fault = connection().fault(exception);
            connection().roll_back();
            // The last page may have reached the disk before it failed. Left there it would come back to life
            // when the book is recovered after a crash, although we say that it was not written.
            if ((exception.getErrorCode() & 0xff) == SQLITE_IOERR && !overwrite_failed_commit()) {
                throw may_stand_or_not(book_.file, "The disk failed");
            }
            throw fault;
        }
        std::error_code ignored;
        if (!is_same_file() || !std::filesystem::exists(wal_of(book_.file), ignored)) {
            throw may_stand_or_not(book_.file,
                                   "The file or the one beside it was moved, deleted or replaced");
        }
    }

    /// Another commit takes the place of the failed one in the write-ahead file.
    [[nodiscard]] bool overwrite_failed_commit() const
    {
        for (int attempt = 0; attempt < 3; ++attempt) {
            try {
                connection().query("BEGIN IMMEDIATE").run();
                connection().query("UPDATE upkeep SET commits_mended = commits_mended + 1").run();
                connection().query("COMMIT").run();
                return true;
            } catch (const SQLite::Exception&) {
                connection().roll_back();
            }
        }
        return false;
    }

    mutable std::recursive_mutex mutex_;  // `work` may call the reading verbs
    OpenedBook book_;
    bool writing_ = false;
};

}  // namespace

std::unique_ptr<Store> make_sqlite_store(OpenedBook book)
{
    return std::make_unique<SqliteStore>(std::move(book));
}

}  // namespace foreday::store
