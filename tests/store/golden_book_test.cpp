#include "tests/store/golden_book.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>

#include "data/store/memory_store.h"
#include "data/store/sqlite_store.h"
#include "data/store/verify.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

const std::filesystem::path golden = FOREDAY_SOURCE_DIR "/tests/store/golden/book_v1.foreday";

/// A copy, so that no test can change the file that is kept for ever.
std::filesystem::path copy_in(const TemporaryFolder& folder)
{
    auto copy = folder.path() / "book.foreday";
    std::filesystem::copy_file(golden, copy);
    return copy;
}

TEST(GoldenBook, OfTheFirstSchemaOpensForEverAndIsSound)
{
    const TemporaryFolder folder;
    const auto book = store::open_book(copy_in(folder), store::OpenMode::read_write);
    EXPECT_THAT(store::verify(*book).damages, testing::IsEmpty());
    EXPECT_EQ(payloads_of(*book).size(), static_cast<std::size_t>(golden_entries));
    EXPECT_TRUE(book->info().may_write) << book->info().why_not;
    append(*book, "case", "written today");
    EXPECT_THAT(store::verify(*book).damages, testing::IsEmpty());
}

TEST(GoldenBook, TheSameEntriesWrittenTodayHaveTheSameHashes)
{
    const TemporaryFolder folder;
    const auto then = store::open_book(copy_in(folder), store::OpenMode::read_only);
    const auto today = store::make_memory_store();
    fill_as_golden(*today);
    for (const auto chain : {store::Chain::journal, store::Chain::looks}) {
        EXPECT_EQ(today->head(chain), then->head(chain));
        EXPECT_EQ(today->entries(chain, 0, 1000), then->entries(chain, 0, 1000));
    }
    EXPECT_EQ(today->documents("", 100), then->documents("", 100));
    for (const std::string& hash : then->documents("", 100)) {
        EXPECT_EQ(today->document(hash), then->document(hash));
    }
}

TEST(GoldenBook, ItsListsAreReadAsTheyWereWritten)
{
    const TemporaryFolder folder;
    const auto then = store::open_book(copy_in(folder), store::OpenMode::read_only);
    EXPECT_EQ(then->projection("case 1"), projection_of("case 1", 1));
}

}  // namespace
}  // namespace foreday::tests
