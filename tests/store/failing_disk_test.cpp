#include "tests/store/failing_disk.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "data/store/sqlite_store.h"
#include "data/store/verify.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using store::OpenMode;
using store::StoreFault;

/// What a person at the desk was told of a piece of work.
struct Told {
    bool made = false;                   ///< the book
    std::set<std::string> acknowledged;  ///< payloads
    std::set<std::string> unsure;        ///< "it may stand or not"
    std::vector<StoreFault::Kind> faults;
};

store::BookSettings on_the_failing_disk()
{
    store::BookSettings settings;
    settings.vfs = FailingDisk::name;
    settings.wait = std::chrono::milliseconds{200};
    return settings;
}

void write_one(store::Store& book, const std::string& payload, int number)
{
    book.write([&](store::Writing& writing) {
        writing.append(store::Chain::journal, entry_about("case", payload, number));
        writing.append(store::Chain::looks, entry_about("case", payload, number));
        writing.keep_document("document of " + payload);
        writing.project(projection_of("case", number));
    });
}

/// A whole piece of work: a book is made, written to, closed, opened, written to. After a fault the desk goes
/// on with the next thing to be written, on the same book or on the book opened anew.
Told work(const std::filesystem::path& file)
{
    Told told;
    std::unique_ptr<store::Store> book;
    const auto open = [&] {
        try {
            if (!book) {
                book = told.made ? store::open_book(file, OpenMode::read_write, on_the_failing_disk())
                                 : store::create_book(file, on_the_failing_disk());
                told.made = true;
            }
        } catch (const StoreFault& fault) {
            told.faults.push_back(fault.kind());
        }
    };
    for (int number = 1; number <= 6; ++number) {
        open();
        if (!book) {
            continue;
        }
        const std::string payload = "entry " + std::to_string(number);
        try {
            write_one(*book, payload, number);
            told.acknowledged.insert(payload);
        } catch (const StoreFault& fault) {
            told.faults.push_back(fault.kind());
            if (fault.kind() == StoreFault::Kind::unsure) {
                told.unsure.insert(payload);
            }
        }
        if (number == 3) {
            book.reset();
        }
    }
    return told;
}

/// On a sound disk again: what was acknowledged is there, what was refused is not, and the book is sound.
void expect_nothing_lost(const std::filesystem::path& file, const Told& told)
{
    if (!told.made) {
        return;
    }
    const auto book = store::open_book(file, OpenMode::read_write);
    const auto payloads = payloads_of(*book);
    const std::set<std::string> there(payloads.begin(), payloads.end());
    EXPECT_EQ(there.size(), payloads.size()) << "an entry stands twice";
    for (const std::string& payload : told.acknowledged) {
        EXPECT_TRUE(there.contains(payload)) << payload << " was acknowledged and is lost";
    }
    for (const std::string& payload : there) {
        EXPECT_TRUE(told.acknowledged.contains(payload) || told.unsure.contains(payload))
            << payload << " was refused and is there";
    }
    EXPECT_THAT(store::verify(*book).damages, testing::IsEmpty());
    EXPECT_EQ(payloads_of(*book, store::Chain::looks), payloads);
}

/// Fails the n-th call, n from 1 to `most` or until nothing fails any more. Returns the last n that failed.
int fail_one_after_the_other(DiskFails what, int most)
{
    for (int nth = 1; nth <= most; ++nth) {
        SCOPED_TRACE("call " + std::to_string(nth));
        const TemporaryFolder folder;
        const auto file = folder.path() / "unit.foreday";
        bool failed = false;
        Told told;
        {
            const FailingDisk disk(what, nth);
            told = work(file);
            failed = disk.has_failed();
        }
        expect_nothing_lost(file, told);
        if (!failed) {
            EXPECT_EQ(told.acknowledged.size(), 6U) << "a sound disk, and something was refused";
            return nth - 1;
        }
        if (testing::Test::HasFailure()) {
            return nth;
        }
    }
    return most;
}

constexpr int first_ones = 60;
constexpr int all_of_them = 100'000;

class RunFailingDisk : public testing::TestWithParam<DiskFails> {};

TEST_P(RunFailingDisk, LosesNothingThatWasAcknowledged)
{
    EXPECT_GT(fail_one_after_the_other(GetParam(), first_ones), 0) << "nothing ever failed";
}

class LongFailingDisk : public testing::TestWithParam<DiskFails> {};

TEST_P(LongFailingDisk, LosesNothingThatWasAcknowledgedWhicheverCallFails)
{
    const int last = fail_one_after_the_other(GetParam(), all_of_them);
    EXPECT_GT(last, 0);
    EXPECT_LT(last, all_of_them) << "it never came to an end";
    std::cout << "calls that were made to fail: " << last << '\n';
}

std::string name_of_failure(const testing::TestParamInfo<DiskFails>& info)
{
    constexpr std::array<const char*, 4> names{"Write", "Sync", "Open", "WriteForWantOfRoom"};
    return names.at(static_cast<std::size_t>(info.param));
}

const auto every_failure =
    testing::Values(DiskFails::write, DiskFails::sync, DiskFails::open, DiskFails::write_for_want_of_room);
INSTANTIATE_TEST_SUITE_P(OfABook, RunFailingDisk, every_failure, name_of_failure);
INSTANTIATE_TEST_SUITE_P(OfABook, LongFailingDisk, every_failure, name_of_failure);

TEST(FullDisk, IsSaidPlainlyAndNothingOfTheWriteStands)
{
    const TemporaryFolder folder;
    const auto file = folder.path() / "unit.foreday";
    {
        const auto book = store::create_book(file);
        write_one(*book, "entry 0", 0);
    }
    const FailingDisk disk(DiskFails::write_for_want_of_room, 1);
    const auto book = store::open_book(file, OpenMode::read_write, on_the_failing_disk());
    try {
        write_one(*book, "entry 1", 1);
        FAIL() << "it was written";
    } catch (const StoreFault& fault) {
        EXPECT_EQ(fault.kind(), StoreFault::Kind::full);
        EXPECT_THAT(fault.what(), testing::HasSubstr("room"));
    }
    EXPECT_EQ(payloads_of(*book), std::vector<std::string>{"entry 0"});
}

}  // namespace
}  // namespace foreday::tests
