#include <fmt/format.h>
#include <gtest/gtest.h>
#include <sys/resource.h>

#include <string>

#include "data/reading/case_reading.h"
#include "data/reading/protocol_reading.h"
#include "data/reading/yaml_text.h"
#include "tests/reading/small_protocol.h"
#include "tests/reading/small_rules.h"
#include "tests/support/seed.h"

namespace foreday::tests {
namespace {

#if defined(__SANITIZE_ADDRESS__)
constexpr bool sanitized = true;
#else
constexpr bool sanitized = false;
#endif

/// Time this process has been given by the processor, so that a busy machine makes no test fail.
double seconds_used()
{
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    constexpr double microseconds = 1e6;
    return static_cast<double>(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
           static_cast<double>(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / microseconds;
}

long most_memory_so_far_kb()
{
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return usage.ru_maxrss;
}

std::string repeated(std::string_view text, std::size_t times)
{
    std::string result;
    result.reserve(text.size() * times);
    for (std::size_t i = 0; i < times; ++i) {
        result += text;
    }
    return result;
}

/// Ten aliases of ten aliases of ten ...: a few hundred bytes that would be a billion values.
std::string alias_bomb()
{
    std::string text = "a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
    for (int i = 1; i < 10; ++i) {
        const std::string aliases = repeated(fmt::format("*a{}, ", i - 1), 9);
        text += fmt::format("a{}: &a{} [{}*a{}]\n", i, i, aliases, i - 1);
    }
    return text;
}

struct Hostile {
    const char* name;
    std::string text;
};

std::vector<Hostile> hostile_texts()
{
    return {
        {"ANestOfBrackets", repeated("[", 200'000)},
        {"ANestOfBracketsEachOnItsLine", repeated("[\n", 200'000)},
        {"ANestOfBracketsJustBelowTheLimit", repeated("[\n", 99'900)},
        {"ANestOfBracesJustBelowTheLimit", repeated("{a: \n", 49'900)},
        {"ANestOfBraces", repeated("{a: \n", 200'000)},
        {"ANestOfDashes", repeated("- ", 1'900) + "\n"},
        {"ANestOfDashesOverManyLines",
         [] {
             std::string text;
             for (std::size_t i = 0; i < 1'000; ++i) {
                 text += std::string(i, ' ') + "-\n";
             }
             return text;
         }()},
        {"ANestOfQuestionMarks", repeated("? ", 1'900) + "\n"},
        {"ABombOfAliases", alias_bomb()},
        {"ALineOfTenMegabytes", "a: " + repeated("x", 10'000'000) + "\n"},
        {"ALineBelowTwoMegabytes", "a: " + repeated("x", 1'900'000) + "\n"},
        {"FullOfSmallValues", "[" + repeated("a,\n", 600'000) + "]"},
        {"FullOfPairsJustBelowTheLimit", "[" + repeated("a: b,\n", 49'900)},
        {"FullOfQuotationsJustBelowTheLimit", "[" + repeated("\"a\"\n", 49'900)},
        {"FullOfQuestionsJustBelowTheLimit", "[" + repeated("? \n", 99'900)},
        {"FullOfBracketsJustBelowTheLimit", "[" + repeated("[],\n", 33'000)},
        {"FullOfEmptyEntries", repeated("-\n", 900'000)},
        {"FullOfKeys", repeated("a: 1\n", 380'000)},
        {"FullOfAnchors", repeated("- &a x\n", 190'000)},
        {"FullOfOpenQuotationMarks", repeated("\"\n", 900'000)},
        {"FullOfDocuments", repeated("---\n", 450'000)},
        {"FullOfColons", repeated(":\n", 900'000)},
        {"FullOfTags", repeated("- !<x> y\n", 190'000)},
        {"FullOfZeroBytes", std::string(1'000'000, '\0')},
        {"OnlyContinuationBytes", std::string(1'000'000, '\x80')},
    };
}

class HostileText : public testing::TestWithParam<Hostile> {};

TEST_P(HostileText, IsRefusedQuicklyAndWithBoundedMemory)
{
    const TemporaryFolder folder;
    const auto file = folder.write("hostile.yaml", GetParam().text);
    const long before = most_memory_so_far_kb();
    const double start = seconds_used();
    data::Faults faults;
    static_cast<void>(data::read_yaml(file, faults));
    const auto told = faults.sorted();
    const double seconds = seconds_used() - start;
    EXPECT_FALSE(told.empty());
    EXPECT_LE(told.size(), 201U);
    EXPECT_LT(seconds, sanitized ? 20.0 : 1.0);
    if (!sanitized) {  // the sanitizer keeps what was freed
        EXPECT_LT(most_memory_so_far_kb() - before, 64 * 1024);
    }
}

INSTANTIATE_TEST_SUITE_P(All, HostileText, testing::ValuesIn(hostile_texts()),
                         [](const auto& row) { return row.param.name; });

TEST(HostileProtocol, AFaultOfEachEntryIsTold200TimesAndThenCounted)
{
    auto files = small_protocol();
    std::string sources;
    for (int i = 0; i < 5'000; ++i) {
        sources += "- {id: s" + std::to_string(i) + ", title: T, by: B, where: W, year: no}\n";
    }
    files["sources.yaml"] += sources;
    const TemporaryFolder folder;
    write_all(folder, files);
    const auto read = data::read_protocol(folder.path());
    ASSERT_EQ(read.faults.size(), 201U);
    EXPECT_EQ(read.faults.back().what, "4800 more faults are not shown");
}

/// A text with a few bytes dropped, doubled, replaced or moved.
std::string damaged(std::string text, std::mt19937_64& random)
{
    constexpr std::string_view marks = "[]{}:,-#&*!|>'\"%@`? \n\t0aZ\xFF";
    const auto place = [&] {
        return static_cast<std::size_t>(any_between(random, 0, static_cast<std::int64_t>(text.size()) - 1));
    };
    for (std::int64_t i = any_between(random, 1, 4); i > 0; --i) {
        switch (any_between(random, 0, 3)) {
            case 0:
                text.erase(place(), static_cast<std::size_t>(any_between(random, 1, 40)));
                break;
            case 1:
                text.insert(place(),
                            text.substr(place(), static_cast<std::size_t>(any_between(random, 1, 200))));
                break;
            case 2:
                text[place()] = marks[static_cast<std::size_t>(
                    any_between(random, 0, static_cast<std::int64_t>(marks.size()) - 1))];
                break;
            default:
                text.insert(place(), 1,
                            marks[static_cast<std::size_t>(
                                any_between(random, 0, static_cast<std::int64_t>(marks.size()) - 1))]);
        }
        if (text.empty()) {
            text = "x";
        }
    }
    return text;
}

TEST(RunDamagedFiles, ADamagedProtocolIsReadOrRefusedAndNothingElse)
{
    std::mt19937_64 random(seed_of_this_run());
    const auto whole = small_protocol();
    const TemporaryFolder folder;
    write_all(folder, whole);
    int refused = 0;
    for (int i = 0; i < 600; ++i) {
        auto file = whole.begin();
        std::advance(file, any_between(random, 0, static_cast<std::int64_t>(whole.size()) - 1));
        folder.write(file->first, damaged(file->second, random));
        const auto read = data::read_protocol(folder.path());
        EXPECT_NE(read.protocol.has_value(), !read.faults.empty());
        refused += read.faults.empty() ? 0 : 1;
        folder.write(file->first, file->second);
    }
    EXPECT_GT(refused, 250);
}

TEST(RunDamagedFiles, ADamagedCaseIsReadOrRefusedAndNothingElse)
{
    std::mt19937_64 random(seed_of_this_run());
    const TemporaryFolder folder;
    int refused = 0;
    for (int i = 0; i < 1'500; ++i) {
        const auto file = folder.write("case.yaml", damaged(small_case(), random));
        static_cast<void>(data::peek_case(file, data::PolicyNamed::by_the_case));
        const auto read = data::read_case(file, small_rules(), {});
        EXPECT_NE(read.record.has_value(), !read.faults.empty());
        refused += read.faults.empty() ? 0 : 1;
    }
    EXPECT_GT(refused, 700);
}

}  // namespace
}  // namespace foreday::tests
