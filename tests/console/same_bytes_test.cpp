#include <gtest/gtest.h>
#include <locale.h>

#include <cstdlib>
#include <string>
#include <vector>

#include "tests/console/run_program.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

/// What the program prints for every demo case, for people and for programs.
struct Printed {
    std::string what;
    std::string bytes;
};

Around usual()
{
    return {{{"LC_ALL", "C"}, {"TZ", "UTC"}, {"DISPLAY", ":0"}}, {}, "", ""};
}

std::vector<Printed> print_all(const Around& around, const std::string& path_before)
{
    std::vector<Printed> all;
    for (const std::string& name : demo_case_names()) {
        const std::string file = path_before.empty() ? demo_case(name) : path_before + name + ".yaml";
        for (const bool json : {false, true}) {
            std::vector<std::string> arguments = {"assess", file};
            if (json) {
                arguments.emplace_back("--json");
            }
            const Ran ran = run_program(arguments, around);
            EXPECT_EQ(ran.status, 0) << name << ": " << ran.err;
            all.push_back({name + (json ? " --json" : ""), ran.out});
        }
    }
    return all;
}

const std::vector<Printed>& printed_as_usual()
{
    static const std::vector<Printed> all = print_all(usual(), "");
    return all;
}

void expect_same(const std::vector<Printed>& now)
{
    const auto& first = printed_as_usual();
    ASSERT_EQ(first.size(), 2U * 16U);
    ASSERT_EQ(now.size(), first.size());
    for (std::size_t place = 0; place < first.size(); ++place) {
        EXPECT_FALSE(first[place].bytes.empty()) << first[place].what;
        EXPECT_TRUE(first[place].bytes == now[place].bytes) << first[place].what << " differs";
    }
}

TEST(RunSameBytes, ASecondRunPrintsTheSame)
{
    expect_same(print_all(usual(), ""));
}

TEST(RunSameBytes, ALocaleThatWritesCommasChangesNothing)
{
    if (std::getenv("LOCPATH") == nullptr) {
        GTEST_SKIP() << "ctest sets LOCPATH to the locale that the build has made";
    }
    locale_t comma = newlocale(LC_ALL_MASK, "de_DE.UTF-8", locale_t{});
    ASSERT_NE(comma, locale_t{}) << "no de_DE.UTF-8 under LOCPATH";
    freelocale(comma);
    Around around = usual();
    around.set["LC_ALL"] = "de_DE.UTF-8";
    around.set["LANG"] = "de_DE.UTF-8";
    expect_same(print_all(around, ""));
}

TEST(RunSameBytes, WithoutADisplayNothingChanges)
{
    Around around = usual();
    around.set.erase("DISPLAY");
    around.unset = {"DISPLAY", "WAYLAND_DISPLAY"};
    expect_same(print_all(around, ""));
}

TEST(RunSameBytes, AMachineInAnotherZonePrintsTheSame)
{
    Around around = usual();
    around.set["TZ"] = "Pacific/Kiritimati";
    expect_same(print_all(around, ""));
}

TEST(RunSameBytes, FromAnotherFolderTheSameIsPrinted)
{
    const TemporaryFolder elsewhere;
    Around around = usual();
    around.folder = elsewhere.path().string();
    expect_same(print_all(around, ""));
}

TEST(RunSameBytes, ACaseNamedByAPathFromHereIsTheSameCase)
{
    Around around = usual();
    around.folder = std::string{FOREDAY_SOURCE_DATA_DIR} + "/demo/cases";
    expect_same(print_all(around, "./"));
}

}  // namespace
}  // namespace foreday::tests
