#include "data/store/verify.h"

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <fstream>
#include <sstream>

#include "data/store/sqlite_store.h"
#include "tests/store/damages.h"
#include "tests/store/samples.h"
#include "tests/support/seed.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using store::Chain;
using store::Entry;
using store::OpenMode;
using store::StoreFault;
using store::Writing;
using testing::HasSubstr;
using testing::IsEmpty;

/// A sound book, and copies of it to be damaged one after the other.
class Verify : public testing::Test {
protected:
    static constexpr int last_of_journal = 40;

    void SetUp() override
    {
        const auto store = store::create_book(sound());
        store->write([&](Writing& writing) {
            for (int i = 1; i <= last_of_journal; ++i) {
                writing.append(Chain::journal,
                               entry_about(fmt::format("c{}", i % 5), fmt::format("said {}", i), i));
            }
            for (int i = 1; i <= 12; ++i) {
                writing.append(Chain::looks,
                               entry_about(fmt::format("c{}", i % 5), fmt::format("seen {}", i), i));
            }
            for (int i = 1; i <= 4; ++i) {
                hashes_.push_back(
                    writing.keep_document(fmt::format("page {}: {}", i, std::string(300, 'x'))));
            }
            writing.project(projection_of("c1", 1));
        });
        for (const Chain chain : store::all_chains) {
            noted_.push_back({chain, store->head(chain)});
        }
    }
    std::filesystem::path sound() const { return folder_.path() / "sound.foreday"; }
    std::filesystem::path fresh_copy() const
    {
        auto copy = folder_.path() / "copy.foreday";
        for (const char* ending : {"", "-wal", "-shm", "-journal"}) {
            std::filesystem::remove(copy.string() + ending);
        }
        std::filesystem::copy_file(sound(), copy);
        return copy;
    }
    std::vector<std::string> found_in(const std::filesystem::path& book,
                                      const std::vector<store::NotedHead>& noted = {}) const
    {
        std::vector<std::string> lines;
        const auto store = store::open_book(book, OpenMode::read_only);
        for (const store::Damage& damage : store::verify(*store, noted).damages) {
            lines.push_back(in_words(damage));
        }
        return lines;
    }
    const std::vector<store::NotedHead>& noted() const { return noted_; }
    const std::vector<std::string>& hashes() const { return hashes_; }

private:
    TemporaryFolder folder_;
    std::vector<store::NotedHead> noted_;
    std::vector<std::string> hashes_;
};

TEST_F(Verify, ASoundBookHasNoDamageAndItsEndsAndDocumentsAreSaid)
{
    const auto store = store::open_book(sound(), OpenMode::read_only);
    const store::Verification found = store::verify(*store, noted());
    EXPECT_THAT(found.damages, IsEmpty());
    EXPECT_EQ(found.journal, noted()[0].head);
    EXPECT_EQ(found.looks, noted()[1].head);
    EXPECT_EQ(found.documents, 4);
}

TEST_F(Verify, FourHundredDamagesAtRandomAreAllFound)
{
    std::mt19937_64 random{seed_of_this_run()};
    int harmless = 0;
    for (int trial = 0; trial < 400; ++trial) {
        const auto book = fresh_copy();
        const Damaged damaged = damage_at_random(book, random);
        const std::vector<std::string> found =
            found_in(book, damaged.needs_noted ? noted() : std::vector<store::NotedHead>{});
        if (found.empty() && !damaged.document.empty()) {
            // The last byte of a compressed text has bits that mean nothing. The text is untouched, then.
            const auto store = store::open_book(book, OpenMode::read_only);
            const auto original = store::open_book(sound(), OpenMode::read_only);
            EXPECT_EQ(store->document(damaged.document), original->document(damaged.document)) << damaged.how;
            ++harmless;
            continue;
        }
        EXPECT_THAT(found, testing::Not(IsEmpty())) << "trial " << trial << ": " << damaged.how;
    }
    EXPECT_LT(harmless, 20);
    EXPECT_THAT(found_in(fresh_copy(), noted()), IsEmpty());
}

/// Puts a byte in place of the one so many bytes from the beginning of what stands in the file once.
void change_byte(const std::filesystem::path& book, const std::string& near_by, std::ptrdiff_t away,
                 char byte)
{
    std::stringstream bytes;
    bytes << std::ifstream{book, std::ios::binary}.rdbuf();
    const std::size_t place = bytes.str().find(near_by);
    ASSERT_NE(place, std::string::npos);
    ASSERT_EQ(bytes.str().find(near_by, place + 1), std::string::npos);
    std::fstream file{book, std::ios::in | std::ios::out | std::ios::binary};
    file.seekp(static_cast<std::streamoff>(place) + away);
    file.put(byte);
}

/// All that can be read of entries and documents.
std::string all_that_is_said(const store::Store& store)
{
    std::string all;
    for (const Chain chain : store::all_chains) {
        for (const Entry& entry : store.entries(chain, INT64_MIN, 1000)) {
            all += hash_bytes(chain, entry, entry.hash);
        }
    }
    for (int i = 0; i < 5; ++i) {
        for (const Entry& entry : store.entries_of(fmt::format("c{}", i))) {
            all += hash_bytes(Chain::journal, entry, entry.hash);
        }
    }
    for (const std::string& hash : store.documents("", 1000)) {
        all += hash + store.document(hash).value_or("none");
    }
    return all;
}

TEST_F(Verify, AChangedBitAnywhereInTheFileIsFoundOrChangesNothingThatIsRead)
{
    std::mt19937_64 random{seed_of_this_run()};
    const auto size = static_cast<std::int64_t>(std::filesystem::file_size(sound()));
    const std::string expected = all_that_is_said(*store::open_book(sound(), OpenMode::read_only));
    int found = 0;
    for (int trial = 0; trial < 300; ++trial) {
        const auto book = fresh_copy();
        const std::int64_t place = any_between(random, 0, size * 8 - 1);
        {
            std::fstream file{book, std::ios::in | std::ios::out | std::ios::binary};
            file.seekg(place / 8);
            const int byte = file.get() ^ (1 << (place % 8));
            file.seekp(place / 8);
            file.put(static_cast<char>(byte));
        }
        try {
            if (found_in(book, noted()).empty()) {
                EXPECT_EQ(all_that_is_said(*store::open_book(book, OpenMode::read_only)), expected)
                    << "trial " << trial << ": byte " << place / 8 << " bit " << place % 8;
            } else {
                ++found;
            }
        } catch (const StoreFault& fault) {
            ++found;
            EXPECT_THAT(fault.kind(), testing::AnyOf(StoreFault::Kind::damaged, StoreFault::Kind::other,
                                                     StoreFault::Kind::newer))
                << fault.what();
        }
    }
    EXPECT_GT(found, 0);
}

TEST_F(Verify, AnEntryWithANumberBelowOneWasAdded)
{
    const auto book = fresh_copy();
    spoil(book,
          "INSERT INTO journal SELECT 0, subject, at, who, desk, kind, kind_version, payload, hash FROM "
          "journal "
          "WHERE number = 1");
    EXPECT_THAT(found_in(book), testing::Contains("journal: it was added: the first entry has the number 1"));
}

TEST_F(Verify, AVersionOfAKindThatOnlyLooksRightInThirtyTwoBitsIsFound)
{
    const auto book = fresh_copy();
    spoil(book,
          "PRAGMA ignore_check_constraints = ON;"
          "UPDATE journal SET kind_version = kind_version - 4294967296 WHERE number = 5");
    EXPECT_THAT(found_in(book), testing::ElementsAre(HasSubstr("journal 5: its hash is not that")));
}

TEST_F(Verify, AnEntryThatItsCaseDoesNotFindIsFound)
{
    const auto book = fresh_copy();
    // An index over other rows than it says: what a broken page of it would do.
    spoil(book,
          "PRAGMA writable_schema = ON;"
          "DROP INDEX journal_by_subject;"
          "CREATE INDEX journal_by_subject ON journal(subject, number) WHERE number <> 8;"
          "UPDATE sqlite_schema SET sql = 'CREATE INDEX journal_by_subject ON journal(subject, number)' "
          "WHERE name = 'journal_by_subject'");
    EXPECT_THAT(found_in(book), testing::ElementsAre(HasSubstr("journal 8: it is not found"),
                                                     HasSubstr("pages: row 8 missing from index"),
                                                     HasSubstr("pages: wrong # of entries")));
}

TEST_F(Verify, AnEntryThatItsCaseFindsUnderAnotherSubjectIsFound)
{
    // One byte of the index journal_by_subject, which gives the subject of an entry without looking at it.
    const auto book = fresh_copy();
    change_byte(book,
                "\x04\x11\x01\x01"
                "c2\x16\x16",  // its header, the subject, entry 22, its row
                4, 'b');
    EXPECT_THAT(found_in(book, noted()),
                testing::ElementsAre(HasSubstr("journal 22: among the entries about \"c2\" it stands under"),
                                     HasSubstr("pages: row 22 missing from index")));
}

TEST_F(Verify, AListThatMissesACaseIsFoundThoughNoEntryIsTouched)
{
    const auto book = fresh_copy();
    spoil(book,
          "PRAGMA writable_schema = ON;"
          "DROP INDEX cases_to_look_at;"
          "CREATE INDEX cases_to_look_at ON cases(rules_hash, look_again, case_id) WHERE finished = 2;"
          "UPDATE sqlite_schema SET sql = 'CREATE INDEX cases_to_look_at ON "
          "cases(rules_hash, look_again, case_id) WHERE finished = 0' WHERE name = 'cases_to_look_at'");
    EXPECT_THAT(found_in(book, noted()),
                testing::Contains(HasSubstr("pages: row 1 missing from index cases_to_look_at")));
}

TEST_F(Verify, ComesToAnEndWhereABrokenPageGivesTheLastEntryAnEarlierNumber)
{
    const auto book = fresh_copy();
    // Before what is said of the last look stand 25 bytes of the row, 11 of its header, and its number.
    change_byte(book, "seen 12", -37, 8);
    EXPECT_THAT(found_in(book, noted()), testing::Contains(HasSubstr("looks 12: it and what follows")));
    const auto store = store::open_book(book, OpenMode::read_only);
    EXPECT_EQ(store->entries(Chain::looks, 0, 11).size(), 11U);
    EXPECT_THROW(static_cast<void>(store->entries(Chain::looks, 0, 12)), StoreFault);
}

TEST_F(Verify, DocumentsThatAreThereAndNotFoundByTheirHashAreFound)
{
    const auto book = fresh_copy();
    // An index without rows in the place of theirs: what a broken page of it would do.
    spoil(book,
          "CREATE TABLE other(hash TEXT PRIMARY KEY);"
          "PRAGMA writable_schema = ON;"
          "UPDATE sqlite_schema SET rootpage = "
          "(SELECT rootpage FROM sqlite_schema WHERE name = 'sqlite_autoindex_other_1') "
          "WHERE name = 'sqlite_autoindex_documents_1'");
    EXPECT_THAT(found_in(book), testing::Contains("documents: 4 of 4 are not found by their hash"));
}

TEST_F(Verify, ADocumentThatAnEntryNamesAndThatIsNotThereIsFound)
{
    const auto store = store::open_book(sound(), OpenMode::read_only);
    const std::string unknown(64, 'a');
    const auto named = [&](const Entry& entry) {
        return entry.number == 3 ? std::vector{hashes()[0], unknown} : std::vector<std::string>{};
    };
    const store::Verification found = store::verify(*store, {}, named);
    ASSERT_EQ(found.damages.size(), 2U);  // both chains have an entry 3
    EXPECT_EQ(in_words(found.damages[0]), "journal 3: it names document " + unknown + ", which is not there");
}

}  // namespace
}  // namespace foreday::tests
