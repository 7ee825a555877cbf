#include <fmt/format.h>
#include <gmock/gmock.h>
#include <sys/wait.h>

#include <array>
#include <cstdio>
#include <memory>

#include "data/reading/hashing.h"
#include "data/store/sqlite_store.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

/// A book verified by another program, written from data/store/FORMAT.md alone.
namespace foreday::tests {
namespace {

using store::Chain;
using store::Writing;
using testing::HasSubstr;

struct Verdict {
    int status = -1;
    std::string words;
};

class VerifyBookPy : public testing::Test {
protected:
    void SetUp() override
    {
        const auto store = store::create_book(book());
        store->write([&](Writing& writing) {
            for (int i = 1; i <= 20; ++i) {
                writing.append(Chain::journal,
                               entry_about(fmt::format("c{}", i % 3), fmt::format("{}", i), i));
                writing.append(Chain::looks, entry_about(fmt::format("c{}", i % 3), "seen", i));
            }
            store::NewEntry odd = entry_about("case Ł", std::string("a\0b\n\xF0\x9F\x92\x8A", 8));
            odd.who.clear();
            odd.kind_version = 2'147'483'647;
            for (const date::sys_days day :
                 {date::sys_days{date::year{0} / 2 / 29}, date::sys_days{date::year{33} / 4 / 3},
                  date::sys_days{date::year{1969} / 12 / 31}, date::sys_days{date::year{9999} / 12 / 31}}) {
                odd.at = screening::Moment{day} + std::chrono::seconds{86'399};
                writing.append(Chain::journal, odd);
            }
            writing.keep_document("");
            writing.keep_document(std::string(100'000, 'x'));
        });
    }
    std::filesystem::path book() const { return folder_.path() / "the unit's.foreday"; }

    Verdict verdict(const std::string& noted = {}) const
    {
        const std::string command = fmt::format("python3 '{}/tests/store/verify_book.py' \"{}\" {} 2>&1",
                                                FOREDAY_SOURCE_DIR, book().string(), noted);
        FILE* pipe = ::popen(command.c_str(), "r");
        if (pipe == nullptr) {
            return {};
        }
        Verdict said;
        std::array<char, 4096> some{};
        for (std::size_t got = 0; (got = std::fread(some.data(), 1, some.size(), pipe)) > 0;) {
            said.words.append(some.data(), got);
        }
        const int status = ::pclose(pipe);
        said.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
        return said;
    }
    void expect_damage(const std::string& words) const
    {
        const Verdict said = verdict();
        EXPECT_EQ(said.status, 1);
        EXPECT_THAT(said.words, HasSubstr(words));
    }

private:
    TemporaryFolder folder_;
};

TEST_F(VerifyBookPy, ASoundBookIsFoundSound)
{
    const Verdict said = verdict();
    EXPECT_EQ(said.words, "sound\n");
    EXPECT_EQ(said.status, 0);
}

TEST_F(VerifyBookPy, ABookInUseIsFoundSoundWithItsLastEntry)
{
    const auto store = store::open_book(book(), store::OpenMode::read_write);
    const store::Entry last = append(*store, "c1", "just now");
    const Verdict said = verdict(fmt::format("journal {} {}", last.number, last.hash));
    EXPECT_EQ(said.words, "sound\n");
    EXPECT_EQ(said.status, 0);
}

TEST_F(VerifyBookPy, AChangedEntryIsFound)
{
    spoil(book(), "UPDATE journal SET who = 'n.brandt' WHERE number = 7");
    expect_damage("journal 7: its hash is not that");
}

TEST_F(VerifyBookPy, AnEntryMovedByASecondIsFound)
{
    spoil(book(), "UPDATE journal SET at = at + 1 WHERE number = 21");
    expect_damage("journal 21: its hash is not that");
}

TEST_F(VerifyBookPy, ARemovedEntryIsFound)
{
    spoil(book(), "DELETE FROM looks WHERE number = 3");
    expect_damage("looks 3: it is missing");
}

TEST_F(VerifyBookPy, ADamagedDocumentIsFound)
{
    spoil(book(), "UPDATE documents SET length = length + 1 WHERE length > 0");
    expect_damage("documents: " + data::sha256_hex(std::string(100'000, 'x')));
}

TEST_F(VerifyBookPy, AChainCutOffWithItsHeadIsFoundByANotedHead)
{
    std::string noted;
    {
        const store::Head head = store::open_book(book(), store::OpenMode::read_only)->head(Chain::journal);
        noted = fmt::format("journal {} {}", head.number, head.hash);
    }
    EXPECT_EQ(verdict(noted).status, 0);
    spoil(book(),
          "DELETE FROM journal WHERE number = 24;"
          "UPDATE heads SET (number, hash) = (SELECT number, hash FROM journal WHERE number = 23) "
          "WHERE chain = 'journal'");
    EXPECT_EQ(verdict().status, 0);
    const Verdict said = verdict(noted);
    EXPECT_EQ(said.status, 1);
    EXPECT_THAT(said.words, HasSubstr("journal 24: it is not the entry that was noted"));
}

TEST_F(VerifyBookPy, PagesThatCannotBeReadAreDamage)
{
    std::filesystem::resize_file(book(), std::filesystem::file_size(book()) / 4096 / 2 * 4096);
    EXPECT_EQ(verdict().status, 1);
}

/// The numbers that data/store/FORMAT.md gives as an example.
TEST(TheExampleOfTheFormat, IsWhatTheProgramMakesOfIt)
{
    const store::Entry entry = store::entry_after(Chain::journal, {}, entry_about("c1", "{}"));
    EXPECT_EQ(at_minute(0).time_since_epoch().count(), 1'807'534'800);
    EXPECT_EQ(store::hash_bytes(Chain::journal, entry, std::string(64, '0')).size(), 156U);
    EXPECT_EQ(entry.hash, "bda4662a7a8ae5e86e06f0338c11f48e3d7950394be3c12c8151e14910892744");
}

}  // namespace
}  // namespace foreday::tests
