#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <chrono>
#include <map>
#include <random>
#include <thread>

#include "data/store/sqlite_store.h"
#include "data/store/verify.h"
#include "tests/store/writers.h"
#include "tests/support/seed.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

std::map<std::string, int> payloads_in(const store::Store& book)
{
    std::map<std::string, int> times;
    for (const store::Entry& entry : book.entries(store::Chain::journal, 0, SIZE_MAX / 2)) {
        ++times[entry.said.payload];
    }
    return times;
}

TEST(RunSeveralPrograms, EightOnOneBookLoseAndDoubleNothingAndNoneIsToldThatItIsLocked)
{
    const TemporaryFolder folder;
    const auto file = folder.path() / "unit.foreday";
    store::create_book(file).reset();
    Writers writers(file);
    constexpr int programs = 8;
    constexpr int each = 100;
    writers.start(programs, each);
    for (const int status : writers.wait_for_all()) {
        EXPECT_EQ(status, 0);
    }
    const auto book = store::open_book(file, store::OpenMode::read_only);
    const auto times = payloads_in(*book);
    EXPECT_EQ(times.size(), static_cast<std::size_t>(programs * each));
    for (const auto& [payload, count] : times) {
        EXPECT_EQ(count, 1) << payload;
    }
    EXPECT_EQ(writers.acknowledged().size(), times.size());
    EXPECT_THAT(store::verify(*book).damages, testing::IsEmpty());
}

TEST(RunSeveralPrograms, SixtyTimesFourWritersAreKilledAndEveryAcknowledgedEntryIsThere)
{
    const TemporaryFolder folder;
    const auto file = folder.path() / "unit.foreday";
    store::create_book(file).reset();
    std::mt19937_64 random{seed_of_this_run()};
    Writers writers(file);
    std::size_t before = 0;
    for (int round = 0; round < 60; ++round) {
        writers.start(4, 0);
        std::this_thread::sleep_for(std::chrono::milliseconds{any_between(random, 20, 150)});
        writers.kill_all();
        const auto book = store::open_book(file, store::OpenMode::read_write);
        const auto times = payloads_in(*book);
        for (const std::string& payload : writers.acknowledged()) {
            const auto found = times.find(payload);
            ASSERT_TRUE(found != times.end() && found->second == 1) << payload << " in round " << round;
        }
        ASSERT_THAT(store::verify(*book).damages, testing::IsEmpty()) << "round " << round;
        ASSERT_GE(times.size(), before);
        before = times.size();
    }
    EXPECT_GT(writers.acknowledged().size(), 60U) << "too little was written to say anything";
}

}  // namespace
}  // namespace foreday::tests
