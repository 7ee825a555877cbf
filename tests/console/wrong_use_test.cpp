#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <string>

#include "tests/console/run_program.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using testing::HasSubstr;
using testing::Not;

/// Faults go to standard error; standard output stays empty, so that no half report is taken for one.
void expect_refused(const Ran& ran, int status)
{
    EXPECT_EQ(ran.status, status) << ran.err;
    EXPECT_EQ(ran.out, "");
    EXPECT_NE(ran.err, "");
}

TEST(WrongUse, NoArgumentsAreAWrongUse)
{
    const Ran ran = run_program({});
    expect_refused(ran, 2);
    EXPECT_THAT(ran.err, HasSubstr("--help"));
}

TEST(WrongUse, HelpIsNoFaultAndNamesEveryCommand)
{
    const Ran ran = run_program({"--help"});
    EXPECT_EQ(ran.status, 0);
    for (const char* command : {"assess", "case", "facts", "protocol", "medicine", "book", "demo"}) {
        EXPECT_THAT(ran.out, HasSubstr(command));
    }
    EXPECT_THAT(ran.out, HasSubstr("clinician decides"));
}

TEST(WrongUse, AnUnknownCommandIsNamed)
{
    const Ran ran = run_program({"asess", demo_case("nothing_to_ask")});
    expect_refused(ran, 2);
    EXPECT_THAT(ran.err, HasSubstr("asess"));
}

TEST(WrongUse, AnUnknownOptionIsNamed)
{
    const Ran ran = run_program({"assess", demo_case("nothing_to_ask"), "--jsno"});
    expect_refused(ran, 2);
    EXPECT_THAT(ran.err, HasSubstr("--jsno"));
}

TEST(WrongUse, AssessWithoutACaseAsksForOne)
{
    const Ran ran = run_program({"assess"});
    expect_refused(ran, 2);
    EXPECT_THAT(ran.err, HasSubstr("case"));
}

TEST(WrongUse, CommandsOfTwoWordsNeedTheSecond)
{
    expect_refused(run_program({"case"}), 2);
    expect_refused(run_program({"protocol"}), 2);
    expect_refused(run_program({"medicine"}), 2);
}

TEST(WrongUse, AWordTooManyIsNamed)
{
    const Ran ran = run_program({"facts", "heart"});
    expect_refused(ran, 2);
    EXPECT_THAT(ran.err, HasSubstr("heart"));
}

TEST(FaultyInput, AMissingFileIsNamed)
{
    const Ran ran = run_program({"assess", "/nowhere/no_such_case.yaml"});
    expect_refused(ran, 1);
    EXPECT_THAT(ran.err, HasSubstr("/nowhere/no_such_case.yaml: there is no such file"));
}

TEST(FaultyInput, AFolderGivenAsACaseIsNotCalledMissing)
{
    const std::string folder = std::string{FOREDAY_SOURCE_DATA_DIR} + "/demo";
    const Ran ran = run_program({"assess", folder});
    expect_refused(ran, 1);
    EXPECT_THAT(ran.err, HasSubstr(folder));
    EXPECT_THAT(ran.err, HasSubstr("folder"));
    EXPECT_THAT(ran.err, Not(HasSubstr("no such file")));
}

TEST(FaultyInput, AMissingPolicyIsNamed)
{
    const Ran ran = run_program({"assess", demo_case("nothing_to_ask"), "--policy", "/nowhere/unit.yaml"});
    expect_refused(ran, 1);
    EXPECT_THAT(ran.err, HasSubstr("/nowhere/unit.yaml"));
}

TEST(FaultyInput, AMomentThatIsNoneSaysWhatWouldBeRight)
{
    for (const char* nonsense :
         {"nonsense", "2027-04-12", "12.04.2027 09:00", "2027-04-31T09:00", "2027-04-12T24:01"}) {
        const Ran ran = run_program({"assess", demo_case("nothing_to_ask"), "--at", nonsense});
        EXPECT_NE(ran.status, 0) << nonsense;
        EXPECT_EQ(ran.out, "") << nonsense;
        EXPECT_THAT(ran.err, HasSubstr("--at")) << nonsense;
        EXPECT_THAT(ran.err, HasSubstr(";")) << "what would be right follows: " << nonsense;
    }
    const Ran ran = run_program({"assess", demo_case("nothing_to_ask"), "--at", "nonsense"});
    EXPECT_THAT(ran.err, HasSubstr("2027-04-12T09:00"));
}

TEST(FaultyInput, AMomentThatTheClocksSkipIsRefused)
{
    const Ran ran = run_program({"assess", demo_case("nothing_to_ask"), "--at", "2027-03-14T02:30"});
    EXPECT_NE(ran.status, 0);
    EXPECT_EQ(ran.out, "");
    EXPECT_THAT(ran.err, HasSubstr("2027-03-14T03:00-04:00"));
}

TEST(FaultyInput, ACaseWithoutUnitAndZoneSaysWhichOfThemItNeeds)
{
    const TemporaryFolder folder;
    const std::string text = replaced(bytes_of(demo_case("nothing_to_ask")), "unit: ../larkmoor.yaml\n", "");
    const Ran ran = run_program({"assess", folder.write("case.yaml", text).string()});
    expect_refused(ran, 1);
    EXPECT_THAT(ran.err, HasSubstr("unit:"));
    EXPECT_THAT(ran.err, HasSubstr("zone:"));
}

TEST(FaultyInput, ACaseThatNamesItsZoneNeedsNoUnit)
{
    const TemporaryFolder folder;
    const std::string text = replaced(bytes_of(demo_case("nothing_to_ask")), "unit: ../larkmoor.yaml\n",
                                      "zone: America/New_York\n");
    const Ran ran = run_program({"assess", folder.write("case.yaml", text).string()});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_THAT(ran.out, HasSubstr("As of"));
}

TEST(FaultyInput, EveryFaultOfACaseIsGivenWithFileLineAndColumn)
{
    const TemporaryFolder folder;
    std::string text = bytes_of(demo_case("nothing_to_ask"));
    text = replaced(text, "  constipation: no\n", "  constipation: perhaps\n");
    text = replaced(text, "  weight: 70 kg\n", "  weight: 70 cm\n");
    text = replaced(text, "medicine: levothyroxine", "medicine: levothyroxime");
    const std::string file = folder.write("case.yaml", text).string();
    const Ran ran = run_program({"assess", file, "--policy", demo_policy(), "--json"});
    expect_refused(ran, 1);
    // Places counted here by hand, as an editor shows them: from 1 on.
    const auto place_of = [&](const std::string& line_with, const std::string& value) {
        const auto found = text.find(line_with);
        const auto line_start = text.rfind('\n', found) + 1;
        const auto line =
            1 + std::count(text.begin(), text.begin() + static_cast<std::ptrdiff_t>(found), '\n');
        const auto column = 1 + text.find(value, found) - line_start;
        return file + ":" + std::to_string(line) + ":" + std::to_string(column) + ": ";
    };
    EXPECT_THAT(ran.err, HasSubstr(place_of("constipation: perhaps", "perhaps")));
    EXPECT_THAT(ran.err, HasSubstr(place_of("weight: 70 cm", "70 cm")));
    EXPECT_THAT(ran.err, HasSubstr(place_of("medicine: levothyroxime", "levothyroxime")));
    EXPECT_THAT(ran.err, HasSubstr("3 faults"));
}

TEST(FaultyInput, AFolderThatIsNoProtocolIsRefused)
{
    const TemporaryFolder empty;
    expect_refused(run_program({"protocol", "check", empty.path().string()}), 1);
}

TEST(FaultyInput, AReportThatCouldNotBeWrittenIsNotCalledDone)
{
    Around around;
    around.out_to = "/dev/full";
    const Ran ran = run_program({"assess", demo_case("nothing_to_ask"), "--json"}, around);
    EXPECT_NE(ran.status, 0);
}

}  // namespace
}  // namespace foreday::tests
