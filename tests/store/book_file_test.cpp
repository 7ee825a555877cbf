#include <SQLiteCpp/SQLiteCpp.h>
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <sys/stat.h>
#include <unistd.h>

#include <thread>

#include "data/store/sqlite_store.h"
#include "data/store/verify.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using store::BookSettings;
using store::OpenMode;
using store::StoreFault;
using store::Writing;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using Kind = StoreFault::Kind;

/// Runs the work and gives the fault it throws.
template <typename Work>
StoreFault fault_out_of(const Work& work)
{
    try {
        work();
    } catch (const StoreFault& fault) {
        return fault;
    }
    ADD_FAILURE() << "no fault";
    return {Kind::other, "", ""};
}

/// Other people's rights for as long as it lives, where the tests run as root, whom nothing is forbidden.
class AsSomebodyElse {
public:
    AsSomebodyElse()
    {
        if (geteuid() == 0) {
            EXPECT_EQ(seteuid(65534), 0);
        }
    }
    ~AsSomebodyElse()
    {
        if (getuid() == 0) {
            EXPECT_EQ(seteuid(0), 0);
        }
    }
    AsSomebodyElse(const AsSomebodyElse&) = delete;
    AsSomebodyElse& operator=(const AsSomebodyElse&) = delete;
};

class BookFile : public testing::Test {
protected:
    std::filesystem::path book() const { return folder_.path() / "unit.foreday"; }
    std::filesystem::path folder() const { return folder_.path(); }
    std::unique_ptr<store::Store> create() const { return store::create_book(book()); }
    std::unique_ptr<store::Store> open(OpenMode mode = OpenMode::read_write) const
    {
        return store::open_book(book(), mode);
    }
    void give_rights(mode_t of_folder, mode_t of_file) const
    {
        ASSERT_EQ(::chmod(folder().c_str(), of_folder), 0);
        ASSERT_EQ(::chmod(book().c_str(), of_file), 0);
    }
    void set(const std::string& sql) const
    {
        SQLite::Database database{book().string(), SQLite::OPEN_READWRITE};
        database.exec(sql);
    }

private:
    TemporaryFolder folder_;
};

TEST_F(BookFile, ABookIsThereAgainWhenItIsOpenedLater)
{
    const store::Entry written = append(*create(), "c1", "a");
    const auto again = open();
    EXPECT_EQ(again->entries(store::Chain::journal, 0, 10), std::vector{written});
    EXPECT_EQ(again->info().schema_version, 1);
    EXPECT_TRUE(again->info().may_write);
    EXPECT_EQ(again->info().why_not, "");
}

TEST_F(BookFile, NothingIsLeftBesideABookThatIsClosed)
{
    append(*create(), "c1", "a");
    EXPECT_THAT(names_in(folder()), ElementsAre("unit.foreday"));
}

TEST_F(BookFile, EveryCommitIsWrittenAheadAndSyncedInFull)
{
    const auto store = create();
    append(*store, "c1", "a");
    EXPECT_TRUE(std::filesystem::exists(folder() / "unit.foreday-wal"));
    SQLite::Database database{book().string(), SQLite::OPEN_READONLY};
    EXPECT_EQ(database.execAndGet("PRAGMA journal_mode").getString(), "wal");
    EXPECT_EQ(database.execAndGet("PRAGMA application_id").getInt(), 0x46646179);
    EXPECT_EQ(database.execAndGet("PRAGMA user_version").getInt(), 1);
}

TEST_F(BookFile, EveryTableIsStrict)
{
    create();
    SQLite::Database database{book().string(), SQLite::OPEN_READONLY};
    SQLite::Statement tables{
        database,
        "SELECT name FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND "
        "strict = 0 AND name NOT LIKE 'sqlite%'"};
    EXPECT_FALSE(tables.executeStep()) << tables.getColumn(0).getString();
}

TEST_F(BookFile, NoStatementOfSqlChangesOrRemovesWhatStands)
{
    const auto store = create();
    append(*store, "c1", "a");
    append(*store, "c1", "b");
    append(*store, "c1", "seen", store::Chain::looks);
    store->write([](Writing& writing) { writing.keep_document("page"); });
    const std::string other(64, 'f');
    const std::string values = "'c1', 0, '', '', 'note', 1, 'x', '" + other + "')";
    for (const std::string& sql : std::vector<std::string>{
             "UPDATE journal SET payload = 'x' WHERE number = 1", "DELETE FROM journal WHERE number = 1",
             "DELETE FROM journal", "UPDATE looks SET who = 'x'", "DELETE FROM looks",
             "UPDATE documents SET compressed = x'00'", "DELETE FROM documents",
             "REPLACE INTO documents SELECT hash, length, x'00' FROM documents",
             "REPLACE INTO journal VALUES (1, " + values, "INSERT INTO journal VALUES (4, " + values,
             "REPLACE INTO looks VALUES (1, " + values, "INSERT INTO looks VALUES (3, " + values,
             "UPDATE heads SET number = 1, hash = '" + other + "' WHERE chain = 'journal'",
             "UPDATE heads SET hash = '" + other + "'", "DELETE FROM heads",
             "REPLACE INTO heads VALUES ('journal', 0, '" + other + "')"}) {
        EXPECT_THROW(set(sql), SQLite::Exception) << sql;
    }
    EXPECT_EQ(damages_in(*store), "");
    EXPECT_THAT(payloads_of(*store), ElementsAre("a", "b"));
}

TEST_F(BookFile, AnExistingFileIsNeverReplacedByANewBook)
{
    append(*create(), "c1", "a");
    const StoreFault fault = fault_out_of([&] { create(); });
    EXPECT_EQ(fault.kind(), Kind::other);
    EXPECT_THAT(fault.what(), HasSubstr("There is already a file"));
    EXPECT_THAT(payloads_of(*open()), ElementsAre("a"));
    EXPECT_THAT(names_in(folder()), ElementsAre("unit.foreday"));
}

TEST_F(BookFile, OfTwoWhoMakeTheSameBookAtOnceOneGetsIt)
{
    for (int round = 0; round < 10; ++round) {
        std::atomic<int> made = 0;
        std::atomic<int> refused = 0;
        {
            std::vector<std::jthread> threads;
            for (int i = 0; i < 4; ++i) {
                threads.emplace_back([&] {
                    try {
                        append(*create(), "c1", "a");
                        ++made;
                    } catch (const StoreFault&) {
                        ++refused;
                    }
                });
            }
        }
        EXPECT_EQ(made, 1);
        EXPECT_EQ(refused, 3);
        EXPECT_THAT(payloads_of(*open()), ElementsAre("a"));
        EXPECT_THAT(names_in(folder()), ElementsAre("unit.foreday"));
        std::filesystem::remove(book());
    }
}

TEST_F(BookFile, AWriteAheadFileLeftOverFromAnotherBookIsNotTakenForTheNewOnes)
{
    std::ofstream{folder() / "unit.foreday-wal"} << "left over";
    const StoreFault fault = fault_out_of([&] { create(); });
    EXPECT_THAT(fault.what(), HasSubstr("left over from another book"));
    EXPECT_THAT(names_in(folder()), ElementsAre("unit.foreday-wal"));
}

TEST_F(BookFile, AFolderThatIsNotThereIsNamed)
{
    const auto path = folder() / "moved" / "unit.foreday";
    const StoreFault creating = fault_out_of([&] { static_cast<void>(store::create_book(path)); });
    EXPECT_EQ(creating.kind(), Kind::gone);
    EXPECT_THAT(creating.what(), HasSubstr("moved\" is not there"));
    const StoreFault opening =
        fault_out_of([&] { static_cast<void>(store::open_book(path, OpenMode::read_write)); });
    EXPECT_EQ(opening.kind(), Kind::gone);
    EXPECT_THAT(opening.what(), HasSubstr("There is no book"));
}

TEST_F(BookFile, WhatIsNotABookIsLeftAsItIs)
{
    const auto opening = [](const std::filesystem::path& path) {
        return fault_out_of([&] { static_cast<void>(store::open_book(path, OpenMode::read_write)); });
    };
    std::ofstream{folder() / "letter.txt"} << std::string(5000, 'x');
    std::ofstream{folder() / "empty"} << std::flush;
    {
        SQLite::Database other{(folder() / "other.db").string(),
                               SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE};
        other.exec("CREATE TABLE t(x); PRAGMA user_version = 1");
    }
    for (const char* name : {"letter.txt", "empty", "other.db", ""}) {
        const StoreFault fault = opening(folder() / name);
        EXPECT_EQ(fault.kind(), Kind::damaged) << name;
        EXPECT_THAT(fault.what(), HasSubstr("is not a book")) << name;
    }
    EXPECT_EQ(std::filesystem::file_size(folder() / "letter.txt"), 5000U);
    EXPECT_EQ(std::filesystem::file_size(folder() / "empty"), 0U);
    EXPECT_THAT(names_in(folder()), ElementsAre("empty", "letter.txt", "other.db"));
}

TEST_F(BookFile, ABookCutShortIsSaidToBeDamaged)
{
    append(*create(), "c1", "a");
    std::filesystem::resize_file(book(), std::uintmax_t{3} * 4096);
    const StoreFault fault = fault_out_of([&] { static_cast<void>(payloads_of(*open())); });
    EXPECT_EQ(fault.kind(), Kind::damaged);
    EXPECT_THAT(fault.what(), HasSubstr("is damaged"));
}

TEST_F(BookFile, ABookOfALaterVersionOpensForReadingAndSaysSo)
{
    append(*create(), "c1", "a");
    set("PRAGMA user_version = 2");
    const auto store = open();
    EXPECT_EQ(store->info().schema_version, 2);
    EXPECT_FALSE(store->info().may_write);
    EXPECT_THAT(store->info().why_not, HasSubstr("later version"));
    EXPECT_THAT(payloads_of(*store), ElementsAre("a"));
    const StoreFault fault = fault_out_of([&] { append(*store, "c1", "b"); });
    EXPECT_EQ(fault.kind(), Kind::newer);
    EXPECT_EQ(fault_out_of([&] { static_cast<void>(store->elect("x", at_minute(0), at_minute(1))); }).kind(),
              Kind::newer);
    EXPECT_THAT(payloads_of(*store), ElementsAre("a"));
}

TEST_F(BookFile, WhatALaterVersionKeepsOtherwiseIsSaidToBeOfALaterVersion)
{
    create();
    set("DROP TABLE search_words; PRAGMA user_version = 9");
    const auto store = open();
    EXPECT_EQ(fault_out_of([&] { static_cast<void>(store->search({"a"}, {}, {}, 1)); }).kind(), Kind::newer);
}

TEST_F(BookFile, OpenedForReadingItIsReadAndNotWritten)
{
    append(*create(), "c1", "a");
    const auto store = open(OpenMode::read_only);
    EXPECT_THAT(payloads_of(*store), ElementsAre("a"));
    EXPECT_FALSE(store->info().may_write);
    EXPECT_EQ(fault_out_of([&] { append(*store, "c1", "b"); }).kind(), Kind::read_only);
}

TEST_F(BookFile, AReaderSeesWhatAWriterAppendsMeanwhile)
{
    const auto writer = create();
    const auto reader = open(OpenMode::read_only);
    append(*writer, "c1", "a");
    EXPECT_THAT(payloads_of(*reader), ElementsAre("a"));
}

TEST_F(BookFile, AFileThatMayNotBeWrittenIsReadAndSaysSo)
{
    append(*create(), "c1", "a");
    give_rights(0777, 0444);
    const AsSomebodyElse somebody;
    const auto store = open();
    EXPECT_FALSE(store->info().may_write);
    EXPECT_THAT(store->info().why_not, HasSubstr("may not be written"));
    EXPECT_THAT(payloads_of(*store), ElementsAre("a"));
    EXPECT_EQ(fault_out_of([&] { append(*store, "c1", "b"); }).kind(), Kind::read_only);
}

TEST_F(BookFile, AFolderThatMayNotBeWrittenStillLetsTheBookBeRead)
{
    append(*create(), "c1", "a");
    give_rights(0555, 0666);
    const AsSomebodyElse somebody;
    for (const OpenMode mode : {OpenMode::read_write, OpenMode::read_only}) {
        const auto store = open(mode);
        EXPECT_FALSE(store->info().may_write);
        EXPECT_THAT(store->info().why_not, HasSubstr("may not be written"));
        EXPECT_THAT(payloads_of(*store), ElementsAre("a"));
        EXPECT_EQ(damages_in(*store), "");
        EXPECT_EQ(fault_out_of([&] { append(*store, "c1", "b"); }).kind(), Kind::read_only);
    }
}

TEST_F(BookFile, AReaderWithoutLocksStopsAsSoonAsSomebodyWrites)
{
    append(*create(), "c1", "a");
    give_rights(0555, 0644);
    std::unique_ptr<store::Store> reader;
    {
        const AsSomebodyElse somebody;
        reader = open(OpenMode::read_only);
        EXPECT_THAT(payloads_of(*reader), ElementsAre("a"));
    }
    give_rights(0755, 0644);
    append(*open(), "c1", "b");
    const StoreFault fault = fault_out_of([&] { static_cast<void>(payloads_of(*reader)); });
    EXPECT_EQ(fault.kind(), Kind::busy);
    EXPECT_THAT(fault.what(), HasSubstr("Open it again"));
}

TEST_F(BookFile, AFolderThatMayNotBeWrittenGetsNoNewBookAndIsNamed)
{
    ASSERT_EQ(::chmod(folder().c_str(), 0555), 0);
    const AsSomebodyElse somebody;
    const StoreFault fault = fault_out_of([&] { create(); });
    EXPECT_EQ(fault.kind(), Kind::read_only);
    EXPECT_THAT(fault.what(), HasSubstr(folder().string()));
    EXPECT_THAT(names_in(folder()), IsEmpty());
}

TEST_F(BookFile, AFileThatMayNotEvenBeReadIsSaidToBeSo)
{
    create();
    give_rights(0777, 0000);
    const AsSomebodyElse somebody;
    const StoreFault fault = fault_out_of([&] { open(); });
    EXPECT_EQ(fault.kind(), Kind::read_only);
    EXPECT_THAT(fault.what(), HasSubstr("may not be read by you"));
}

TEST_F(BookFile, DeletedMovedOrReplacedUnderAnOpenProgramNothingMoreIsWritten)
{
    const auto moved = folder() / "elsewhere";
    const std::vector<std::function<void()>> ways{
        [&] { std::filesystem::remove(book()); },
        [&] { std::filesystem::rename(book(), moved); },
        [&] {
            std::filesystem::rename(book(), moved);
            std::filesystem::copy_file(moved, book());
        },
    };
    for (const auto& happen : ways) {
        const auto store = create();
        append(*store, "c1", "a");
        happen();
        const StoreFault writing = fault_out_of([&] { append(*store, "c1", "b"); });
        EXPECT_EQ(writing.kind(), Kind::gone);
        EXPECT_THAT(writing.what(), HasSubstr("was moved, deleted or replaced while it was open"));
        EXPECT_EQ(fault_out_of([&] { static_cast<void>(payloads_of(*store)); }).kind(), Kind::gone);
        for (const std::string& name : names_in(folder())) {
            std::filesystem::remove(folder() / name);
        }
    }
}

TEST_F(BookFile, PutBackInItsPlaceItIsWrittenAgain)
{
    const auto store = create();
    append(*store, "c1", "a");
    std::filesystem::rename(book(), folder() / "elsewhere");
    EXPECT_EQ(fault_out_of([&] { append(*store, "c1", "b"); }).kind(), Kind::gone);
    std::filesystem::rename(folder() / "elsewhere", book());
    append(*store, "c1", "c");
    EXPECT_THAT(payloads_of(*store), ElementsAre("a", "c"));
    EXPECT_EQ(damages_in(*store), "");
}

TEST_F(BookFile, GoneInTheMiddleOfAStepItIsNotSaidToBeWritten)
{
    const auto store = create();
    append(*store, "c1", "a");
    const StoreFault fault = fault_out_of([&] {
        store->write([&](Writing& writing) {
            writing.append(store::Chain::journal, entry_about("c1", "b"));
            std::filesystem::remove(book());
        });
    });
    EXPECT_EQ(fault.kind(), Kind::unsure);
    EXPECT_THAT(fault.what(), HasSubstr("may stand in the book or not"));
}

TEST_F(BookFile, TheFileBesideItDeletedInTheMiddleOfAStepIsNotSaidToBeWritten)
{
    const auto store = create();
    append(*store, "c1", "a");
    const StoreFault fault = fault_out_of([&] {
        store->write([&](Writing& writing) {
            writing.append(store::Chain::journal, entry_about("c1", "b"));
            std::filesystem::remove(folder() / "unit.foreday-wal");
        });
    });
    EXPECT_EQ(fault.kind(), Kind::unsure);
}

TEST_F(BookFile, WhileOthersWriteForTooLongItIsSaidInPlainWords)
{
    create();
    SQLite::Database other{book().string(), SQLite::OPEN_READWRITE};
    other.exec("BEGIN IMMEDIATE");
    BookSettings settings;
    settings.wait = std::chrono::milliseconds{50};
    const auto store = store::open_book(book(), OpenMode::read_write, settings);
    const StoreFault fault = fault_out_of([&] { append(*store, "c1", "a"); });
    EXPECT_EQ(fault.kind(), Kind::busy);
    EXPECT_THAT(fault.what(), HasSubstr("Others have been writing"));
    EXPECT_THAT(fault.what(), HasSubstr("nothing was written"));
    EXPECT_THAT(fault.what(), Not(HasSubstr("lock")));
    other.exec("COMMIT");
    EXPECT_EQ(append(*store, "c1", "a").number, 1);
}

TEST_F(BookFile, ItWaitsForOthersAsLongAsItIsTold)
{
    create();
    SQLite::Database other{book().string(), SQLite::OPEN_READWRITE};
    other.exec("BEGIN IMMEDIATE");
    const auto store = open();
    std::jthread releases{[&] {
        std::this_thread::sleep_for(std::chrono::milliseconds{200});
        other.exec("COMMIT");
    }};
    EXPECT_EQ(append(*store, "c1", "a").number, 1);
}

TEST_F(BookFile, AFaultCaughtInsideAStepStillUndoesTheStep)
{
    const auto store = create();
    append(*store, "c1", "a");
    set("CREATE TRIGGER no_more BEFORE INSERT ON looks BEGIN SELECT RAISE(ROLLBACK, 'as a full disk does'); "
        "END");
    const StoreFault fault = fault_out_of([&] {
        store->write([&](Writing& writing) {
            writing.append(store::Chain::journal, entry_about("c1", "before"));
            EXPECT_THROW(writing.append(store::Chain::looks, entry_about("c1", "seen")), StoreFault);
            // SQLite has undone the transaction by itself; this must not stand alone.
            EXPECT_THROW(writing.append(store::Chain::journal, entry_about("c1", "after")), StoreFault);
        });
    });
    EXPECT_EQ(fault.kind(), Kind::other);
    EXPECT_THAT(payloads_of(*store), ElementsAre("a"));
}

TEST_F(BookFile, ADamagedDocumentIsNeverGivenOut)
{
    std::string hash;
    create()->write([&](Writing& writing) { hash = writing.keep_document(std::string(1000, 'x')); });
    spoil(book(), "UPDATE documents SET compressed = substr(compressed, 1, length(compressed) - 1)");
    const StoreFault fault = fault_out_of([&] { static_cast<void>(open()->document(hash)); });
    EXPECT_EQ(fault.kind(), Kind::damaged);
    EXPECT_THAT(fault.what(), HasSubstr(hash));
}

TEST_F(BookFile, ACopyIsAWholeBookOfItsOwn)
{
    const auto store = create();
    append(*store, "c1", "a");
    std::string hash;
    store->write([&](Writing& writing) { hash = writing.keep_document("page"); });
    project(*store, projection_of("c1", 1));
    const auto copy = folder() / "copy.foreday";
    store->copy_to(copy);
    EXPECT_THAT(names_in(folder()),
                ElementsAre("copy.foreday", "unit.foreday", "unit.foreday-shm", "unit.foreday-wal"));
    append(*store, "c1", "b");
    const auto copied = store::open_book(copy, OpenMode::read_write);
    EXPECT_EQ(damages_in(*copied), "");
    EXPECT_THAT(payloads_of(*copied), ElementsAre("a"));
    EXPECT_EQ(copied->document(hash), "page");
    EXPECT_EQ(copied->projection("c1"), projection_of("c1", 1));
    append(*copied, "c1", "other");
    EXPECT_THAT(payloads_of(*store), ElementsAre("a", "b"));
}

TEST_F(BookFile, ACopyReplacesNothingAndLeavesNothingBehind)
{
    const auto store = create();
    std::ofstream{folder() / "copy.foreday"} << "letters";
    const StoreFault fault = fault_out_of([&] { store->copy_to(folder() / "copy.foreday"); });
    EXPECT_THAT(fault.what(), HasSubstr("There is already a file"));
    EXPECT_EQ(std::filesystem::file_size(folder() / "copy.foreday"), 7U);
    EXPECT_THAT(names_in(folder()),
                ElementsAre("copy.foreday", "unit.foreday", "unit.foreday-shm", "unit.foreday-wal"));
}

TEST_F(BookFile, ItsNameMayHoldAnything)
{
    const auto odd = folder() / "file:a?b=c#d%20e 'f' Ü.foreday";
    append(*store::create_book(odd), "c1", "a");
    EXPECT_THAT(payloads_of(*store::open_book(odd, OpenMode::read_write)), ElementsAre("a"));
    EXPECT_THAT(names_in(folder()), ElementsAre(odd.filename().string()));
}

TEST_F(BookFile, ThroughALinkItIsTheSameBook)
{
    const auto store = create();
    std::filesystem::create_symlink(book(), folder() / "link");
    const auto linked = store::open_book(folder() / "link", OpenMode::read_write);
    append(*linked, "c1", "a");
    append(*store, "c1", "b");
    EXPECT_THAT(payloads_of(*linked), ElementsAre("a", "b"));
}

}  // namespace
}  // namespace foreday::tests
