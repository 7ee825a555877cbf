#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/store/memory_store.h"
#include "data/store/sqlite_store.h"
#include "tests/store/samples.h"
#include "tests/support/temporary_folder.h"

/// A book so large that its file is searched in other ways than a small one: what is rare, what is frequent
/// around the day, and what is frequent far away from it only. The store in memory looks at every case, and
/// both must say the same.
namespace foreday::tests {
namespace {

using screening::Date;
using store::CaseProjection;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using Words = std::vector<std::string>;

constexpr Date today{date::local_days{date::year{2027} / date::June / 10}};
constexpr int cases = 9000;
constexpr int cases_a_day = 10;

/// Case 0 is ten days ahead, the last one two and a half years back. Each has "all", a figure of the day's
/// list, "even" or "odd", and "old" (4,000 of them) or "new".
CaseProjection case_of(int number)
{
    CaseProjection one = projection_of(fmt::format("C{:06}", number), number);
    one.day = today + date::days{10 - number / cases_a_day};
    one.born = today - date::days{20'000 + number % 90};
    one.search_words = {"all", fmt::format("place{}", number % cases_a_day), number % 2 == 0 ? "even" : "odd",
                        number >= 5000 ? "old" : "new", fmt::format("n{}n", number)};
    if (number == 8000) {
        for (int word = 10; word < 50; ++word) {
            one.search_words.push_back(fmt::format("word{}", word));
        }
    }
    return one;
}

class LargeBookSearch : public testing::Test {
protected:
    struct Both {
        TemporaryFolder folder;
        std::unique_ptr<store::Store> file = store::create_book(folder.path() / "unit.foreday");
        std::unique_ptr<store::Store> memory = store::make_memory_store();
        Both()
        {
            for (store::Store* one : {file.get(), memory.get()}) {
                one->write([](store::Writing& writing) {
                    for (int number = 0; number < cases; ++number) {
                        writing.project(case_of(number));
                    }
                });
            }
        }
    };
    /// Made once for all tests, which only read it.
    static void SetUpTestSuite() { both = std::make_unique<Both>(); }
    static void TearDownTestSuite() { both.reset(); }

    /// From the file, and the same from memory.
    static std::vector<std::string> found(const Words& words, std::optional<Date> born, Date around,
                                          std::size_t at_most)
    {
        const auto from_file = both->file->search(words, born, around, at_most);
        EXPECT_EQ(from_file, both->memory->search(words, born, around, at_most))
            << fmt::format("{} around {} days from today, at most {}", fmt::join(words, " "),
                           (around - today).count(), at_most);
        return ids_of(from_file);
    }

private:
    inline static std::unique_ptr<Both> both;
};

TEST_F(LargeBookSearch, SaysWhatLookingAtEveryCaseSays)
{
    const Words asked[] = {{},
                           {"all"},
                           {"a"},
                           {"old"},
                           {"new"},
                           {"even"},
                           {"place3"},
                           {"n"},
                           {"n8"},
                           {"n899"},
                           {"n8999n"},
                           {"nobody"},
                           {"old", "even"},
                           {"new", "even"},
                           {"old", "new"},
                           {"even", "odd"},
                           {"even", "place3"},
                           {"old", "even", "place4"},
                           {"e", "o", "n", "p"},
                           {"all", "al", "a", ""},
                           {"all", "all"}};
    const Date around[] = {today,
                           today + date::days{10},
                           today - date::days{440},
                           today - date::days{890},
                           today - date::days{200'000},
                           today + date::days{30'000}};
    for (const Words& words : asked) {
        for (const Date day : around) {
            for (const std::size_t at_most : {1U, 15U, 50U}) {
                static_cast<void>(found(words, std::nullopt, day, at_most));
            }
        }
        static_cast<void>(found(words, today - date::days{20'007}, today, 15));
        static_cast<void>(found(words, today - date::days{10'000}, today, 15));
    }
}

TEST_F(LargeBookSearch, GivesAllThatFitWhereAllAreWanted)
{
    EXPECT_THAT(found({"all"}, std::nullopt, today, 20'000), SizeIs(9000));
    EXPECT_THAT(found({"old"}, std::nullopt, today, 20'000), SizeIs(4000));
    EXPECT_THAT(found({"old", "even"}, std::nullopt, today, 20'000), SizeIs(2000));
    EXPECT_THAT(found({}, std::nullopt, today, 20'000), SizeIs(9000));
}

TEST_F(LargeBookSearch, WhatIsFrequentButFarAwayIsFoundWithTheNearestFirst)
{
    EXPECT_THAT(found({"old"}, std::nullopt, today, 3), ElementsAre("C005000", "C005001", "C005002"));
    EXPECT_THAT(found({"old", "odd"}, std::nullopt, today, 2), ElementsAre("C005001", "C005003"));
    EXPECT_THAT(found({"old", "new"}, std::nullopt, today, 2), IsEmpty());
}

TEST_F(LargeBookSearch, TheNearestDaysAreThoseOnBothSides)
{
    // Ten a day: case 100 and the nine after it are today's, 90 tomorrow's, 110 yesterday's.
    EXPECT_THAT(found({"place0"}, std::nullopt, today, 3), ElementsAre("C000100", "C000090", "C000110"));
    EXPECT_THAT(found({"all", "place0"}, std::nullopt, today, 3),
                ElementsAre("C000100", "C000090", "C000110"));
}

TEST_F(LargeBookSearch, MoreWordsThanAnyNameHasAreLookedForAllTheSame)
{
    Words words;
    for (int word = 10; word < 35; ++word) {
        words.push_back(fmt::format("word{}", word));
    }
    const Date born = today - date::days{20'000 + 8000 % 90};
    EXPECT_THAT(found(words, std::nullopt, today, 10), ElementsAre("C008000"));
    EXPECT_THAT(found(words, born, today, 10), ElementsAre("C008000"));
    EXPECT_THAT(found(words, born + date::days{1}, today, 10), IsEmpty());
    words.emplace_back("word99");
    EXPECT_THAT(found(words, std::nullopt, today, 10), IsEmpty());
    EXPECT_THAT(found(words, born, today, 10), IsEmpty());
}

TEST_F(LargeBookSearch, AWholeLetterPastedIntoTheFieldFindsNobody)
{
    Words words;
    for (int word = 0; word < 5000; ++word) {
        words.push_back(fmt::format("n{}n", word));
    }
    EXPECT_THAT(found(words, std::nullopt, today, 10), IsEmpty());
    EXPECT_THAT(found(words, today, today, 10), IsEmpty());
}

}  // namespace
}  // namespace foreday::tests
