#include "data/store/migration.h"

#include <SQLiteCpp/SQLiteCpp.h>
#include <gmock/gmock.h>

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
using testing::ElementsAre;
using testing::HasSubstr;

/// A program of some later year, whose books are of version 3.
BookSettings later_program()
{
    BookSettings settings;
    settings.schema = {3,
                       {{1, "ALTER TABLE cases ADD COLUMN room TEXT NOT NULL DEFAULT ''"},
                        {2,
                         "CREATE TABLE tokens(token TEXT PRIMARY KEY, case_id TEXT NOT NULL) STRICT;"
                         "INSERT INTO tokens SELECT 'T' || number, subject FROM journal"}}};
    settings.wait = std::chrono::milliseconds{100};
    return settings;
}

class Migration : public testing::Test {
protected:
    void SetUp() override
    {
        const auto store = store::create_book(book());
        append(*store, "c1", "a");
        append(*store, "c2", "b");
        append(*store, "c1", "seen", store::Chain::looks);
        project(*store, projection_of("c1", 1));
    }
    std::filesystem::path book() const { return folder_.path() / "unit.foreday"; }
    std::filesystem::path folder() const { return folder_.path(); }

    StoreFault fault_of_opening(const BookSettings& settings) const
    {
        try {
            static_cast<void>(store::open_book(book(), OpenMode::read_write, settings));
        } catch (const StoreFault& fault) {
            return fault;
        }
        ADD_FAILURE() << "no fault";
        return {StoreFault::Kind::other, "", ""};
    }

    /// As expect_unchanged(), and nothing lies beside it.
    void expect_untouched() const
    {
        EXPECT_THAT(names_in(folder()), ElementsAre("unit.foreday"));
        expect_unchanged();
    }

    /// The book is as it was: of version 1, sound, and can be written.
    void expect_unchanged() const
    {
        const auto store = store::open_book(book(), OpenMode::read_write);
        EXPECT_EQ(store->info().schema_version, 1);
        EXPECT_TRUE(store->info().may_write);
        EXPECT_THAT(payloads_of(*store), ElementsAre("a", "b"));
        EXPECT_EQ(damages_in(*store), "");
        EXPECT_EQ(append(*store, "c1", "c").number, 3);
    }

private:
    TemporaryFolder folder_;
};

TEST_F(Migration, AnOlderBookIsBroughtUpToDateWhenItIsOpenedAndTheOldOneIsKept)
{
    {
        const auto store = store::open_book(book(), OpenMode::read_write, later_program());
        EXPECT_EQ(store->info().schema_version, 3);
        EXPECT_TRUE(store->info().may_write);
        EXPECT_THAT(payloads_of(*store), ElementsAre("a", "b"));
        EXPECT_EQ(store->projection("c1"), projection_of("c1", 1));
        EXPECT_EQ(append(*store, "c1", "c").number, 3);
        EXPECT_EQ(damages_in(*store), "");
    }
    EXPECT_THAT(names_in(folder()), ElementsAre("unit.foreday", "unit.foreday.version-1"));
    SQLite::Database database{book().string(), SQLite::OPEN_READONLY};
    EXPECT_EQ(database.execAndGet("SELECT count(*) FROM tokens").getInt(), 2);
    const auto old = store::open_book(folder() / "unit.foreday.version-1", OpenMode::read_write);
    EXPECT_EQ(old->info().schema_version, 1);
    EXPECT_THAT(payloads_of(*old), ElementsAre("a", "b"));
}

TEST_F(Migration, AnEarlierProgramThenOpensItForReadingOnly)
{
    static_cast<void>(store::open_book(book(), OpenMode::read_write, later_program()));
    const auto store = store::open_book(book(), OpenMode::read_write);
    EXPECT_FALSE(store->info().may_write);
    EXPECT_THAT(payloads_of(*store), ElementsAre("a", "b"));
}

TEST_F(Migration, OpenedOnlyForReadingAnOlderBookIsNotChanged)
{
    EXPECT_THROW(static_cast<void>(store::open_book(book(), OpenMode::read_only, later_program())),
                 StoreFault);
    // Who opens a book only for reading makes SQLite's side files and may not clear them away.
    EXPECT_THAT(names_in(folder()), testing::Not(testing::Contains("unit.foreday.version-1")));
    expect_unchanged();
}

TEST_F(Migration, AStepThatFailsLeavesTheBookAsItWas)
{
    BookSettings settings = later_program();
    settings.schema.steps[1].sql = "CREATE TABLE halfway(x TEXT) STRICT; SELECT no_such_column FROM journal";
    EXPECT_EQ(fault_of_opening(settings).kind(), StoreFault::Kind::other);
    expect_untouched();
}

TEST_F(Migration, AMissingStepLeavesTheBookAsItWas)
{
    BookSettings settings = later_program();
    settings.schema.steps.pop_back();
    EXPECT_THAT(fault_of_opening(settings).what(), HasSubstr("nothing leads on from version 2"));
    expect_untouched();
}

TEST_F(Migration, AStepThatTouchesAnEntryIsNotLetThrough)
{
    BookSettings settings = later_program();
    settings.schema.steps[0].sql =
        "DROP TRIGGER journal_not_changed;"
        "UPDATE journal SET payload = 'better' WHERE number = 1";
    EXPECT_THAT(fault_of_opening(settings).what(), HasSubstr("journal 1: its hash is not that"));
    expect_untouched();
}

TEST_F(Migration, AStepThatCutsTheJournalOffIsNotLetThrough)
{
    BookSettings settings = later_program();
    settings.schema.steps[0].sql =
        "DROP TRIGGER journal_not_removed; DROP TRIGGER heads_go_up; DELETE FROM journal WHERE number = 2;"
        "UPDATE heads SET (number, hash) = (SELECT number, hash FROM journal) WHERE chain = 'journal'";
    EXPECT_THAT(fault_of_opening(settings).what(), HasSubstr("journal 2: it and what follows are missing"));
    expect_untouched();
}

TEST_F(Migration, WhileOthersHaveTheBookOpenItIsNotReplacedUnderThem)
{
    {
        const auto other = store::open_book(book(), OpenMode::read_write);
        const StoreFault fault = fault_of_opening(later_program());
        EXPECT_EQ(fault.kind(), StoreFault::Kind::busy);
        EXPECT_THAT(fault.what(), HasSubstr("others have it open"));
        append(*other, "c9", "written meanwhile");
    }
    const auto store = store::open_book(book(), OpenMode::read_write, later_program());
    EXPECT_THAT(payloads_of(*store), ElementsAre("a", "b", "written meanwhile"));
}

TEST_F(Migration, OfManyWhoOpenItAtOnceOneBringsItUpToDateAndNothingIsLost)
{
    BookSettings settings = later_program();
    settings.wait = std::chrono::seconds{20};
    std::atomic<int> written = 0;
    {
        std::vector<std::jthread> threads;
        for (int i = 0; i < 4; ++i) {
            threads.emplace_back([&] {
                for (int attempt = 0; attempt < 200; ++attempt) {
                    try {
                        append(*store::open_book(book(), OpenMode::read_write, settings), "c1", "more");
                        ++written;
                        return;
                    } catch (const StoreFault& fault) {
                        // Another one has it open at this moment; a person would open it again.
                        EXPECT_THAT(fault.kind(),
                                    testing::AnyOf(StoreFault::Kind::busy, StoreFault::Kind::gone))
                            << fault.what();
                        std::this_thread::sleep_for(std::chrono::milliseconds{10});
                    }
                }
            });
        }
    }
    EXPECT_EQ(written, 4);
    const auto store = store::open_book(book(), OpenMode::read_write, settings);
    EXPECT_EQ(payloads_of(*store).size(), 6U);
    EXPECT_EQ(damages_in(*store), "");
}

TEST_F(Migration, AnOldBookKeptFromAnEarlierTimeIsNotOverwritten)
{
    std::ofstream{folder() / "unit.foreday.version-1"} << "kept";
    static_cast<void>(store::open_book(book(), OpenMode::read_write, later_program()));
    EXPECT_THAT(names_in(folder()),
                ElementsAre("unit.foreday", "unit.foreday.version-1", "unit.foreday.version-1-2"));
    EXPECT_EQ(std::filesystem::file_size(folder() / "unit.foreday.version-1"), 4U);
}

TEST_F(Migration, TheProgramKeepsAStepForEveryVersionBelowItsOwn)
{
    const store::SchemaHistory history = store::schema_history();
    EXPECT_EQ(history.steps.size(), static_cast<std::size_t>(history.current - 1));
    for (int version = 1; version < history.current; ++version) {
        EXPECT_EQ(std::ranges::count(history.steps, version, &store::SchemaStep::from), 1) << version;
    }
}

}  // namespace
}  // namespace foreday::tests
