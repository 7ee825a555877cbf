#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <regex>

#include "tests/console/run_program.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

using testing::HasSubstr;

constexpr const char* moment = "2026-11-25T10:00";

/// The demo unit's book, made once for all tests here, which only read it.
const std::string& demo_book()
{
    static const TemporaryFolder folder;
    static const std::string book = [] {
        const Ran made = run_program({"demo", folder.path().string(), "--at", moment});
        EXPECT_EQ(made.status, 0) << made.err;
        return (folder.path() / "larkmoor.foreday").string();
    }();
    return book;
}

/// With every run of blanks and line ends one blank: where a line is broken is no matter here.
std::string shown(const std::string& case_id)
{
    const Ran ran = run_program({"case", "show", demo_book(), case_id, "--at", moment});
    EXPECT_EQ(ran.status, 0) << ran.err;
    return std::regex_replace(ran.out, std::regex{"\\s+"}, " ");
}

TEST(DemoBook, HoldsSixteenPatientsAndIsSound)
{
    const Ran verified = run_program({"book", "verify", demo_book()});
    EXPECT_EQ(verified.status, 0) << verified.err;
    EXPECT_THAT(verified.out, HasSubstr("sound"));
    EXPECT_THAT(run_program({"book", "info", demo_book()}).out, HasSubstr("cases 16"));
}

TEST(DemoBook, HasAPatientInEveryStrandOfTheJob)
{
    EXPECT_THAT(shown("LK-0411"), HasSubstr("Screening has not begun."));
    EXPECT_THAT(shown("LK-0402"), HasSubstr("has not answered: May warfarin pause"));
    EXPECT_THAT(shown("LK-0407"), HasSubstr("to be signed"));
    EXPECT_THAT(shown("LK-0406"), HasSubstr("Tries so far: 2."));
    EXPECT_THAT(shown("LK-0410"), HasSubstr("said back."));
    EXPECT_THAT(shown("LK-0408"), HasSubstr("moved after the patient was told"));
    EXPECT_THAT(shown("LK-0404"), HasSubstr("What to start again is to be decided: dabigatran."));
    EXPECT_THAT(shown("LK-0415"), HasSubstr("INR below the limit: 1.7"));
    EXPECT_THAT(shown("LK-0416"), HasSubstr("Here, and may go in."));
    EXPECT_THAT(shown("LK-0403"), HasSubstr("What to start again is to be decided: warfarin."));
    EXPECT_THAT(shown("LK-0401"), HasSubstr("Closed."));
}

TEST(DemoBook, EveryPageCarriesTheCaution)
{
    for (int number = 401; number <= 416; ++number) {
        EXPECT_THAT(shown("LK-0" + std::to_string(number)), HasSubstr("local policy comes first"));
    }
}

TEST(DemoBook, ACaseOfTheBookIsAssessedInTheSameFormAsACaseFile)
{
    const Ran ran = run_program({"assess", "--book", demo_book(), "LK-0402", "--at", moment, "--json"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    const auto from_book = nlohmann::json::parse(ran.out);
    const auto from_file =
        nlohmann::json::parse(run_program({"assess", demo_case("warfarin_mechanical_valve"), "--json"}).out);
    for (const auto& [key, value] : from_file.items()) {
        EXPECT_TRUE(from_book.contains(key)) << key;
    }
    EXPECT_EQ(from_book["holds"][0]["action"], from_file["holds"][0]["action"]);
    EXPECT_EQ(from_book["holds"][0]["level"], from_file["holds"][0]["level"]);
}

TEST(DemoBook, IsNotMadeOverAnotherBook)
{
    const std::string before = bytes_of(demo_book());
    const Ran again = run_program({"demo", std::filesystem::path(demo_book()).parent_path().string()});
    EXPECT_EQ(again.status, 1);
    EXPECT_THAT(again.err, HasSubstr("already"));
    EXPECT_EQ(bytes_of(demo_book()), before);
}

TEST(DemoBook, RebuiltListsLeaveTheJournalAsItIs)
{
    const TemporaryFolder folder;
    const auto copy = folder.path() / "copy.foreday";
    std::filesystem::copy_file(demo_book(), copy);
    const std::string before = run_program({"book", "verify", copy.string()}).out;
    const Ran rebuilt = run_program({"book", "rebuild", copy.string()});
    EXPECT_EQ(rebuilt.status, 0) << rebuilt.err;
    EXPECT_THAT(rebuilt.out, HasSubstr("16 cases"));
    EXPECT_EQ(run_program({"book", "verify", copy.string()}).out, before);
}

TEST(BookCommands, AChangedByteIsFoundAndTheEndOfTheChainMayBeGiven)
{
    const TemporaryFolder folder;
    const auto copy = folder.path() / "copy.foreday";
    std::filesystem::copy_file(demo_book(), copy);
    const std::string sound = run_program({"book", "verify", copy.string()}).out;
    const std::string head = sound.substr(0, sound.find('\n'));
    EXPECT_EQ(run_program({"book", "verify", copy.string(), "--head", head}).status, 0);
    EXPECT_EQ(
        run_program({"book", "verify", copy.string(), "--head", "journal 1 " + std::string(64, 'a')}).status,
        1);
    EXPECT_EQ(run_program({"book", "verify", copy.string(), "--head", "journal one"}).status, 2);

    std::string bytes = bytes_of(copy.string());
    const std::string name = "Marit Oldenshaw";  // stands in the journal and in the lists
    std::size_t times = 0;
    for (auto place = bytes.find(name); place != std::string::npos;
         place = bytes.find(name, place + 1), ++times) {
        bytes[place] = 'B';
    }
    ASSERT_GE(times, 2U);
    std::ofstream(copy, std::ios::binary) << bytes;
    const Ran changed = run_program({"book", "verify", copy.string()});
    EXPECT_EQ(changed.status, 1);
    EXPECT_THAT(changed.err, HasSubstr("journal"));
    EXPECT_THAT(changed.out, HasSubstr("NOT SOUND"));
}

TEST(BookCommands, ANewBookNeedsARoleThatMayPutRulesInForceAndLeavesNothingBehindOtherwise)
{
    const TemporaryFolder folder;
    const std::string file = (folder.path() / "new.foreday").string();
    const Ran nurse = run_program(
        {"book", "new", file, "--policy", demo_policy(), "--by", "Ilse Marrack", "--role", "nurse"});
    EXPECT_EQ(nurse.status, 1);
    EXPECT_FALSE(std::filesystem::exists(file));
    EXPECT_EQ(run_program({"book", "new", file, "--policy", demo_policy(), "--by", "Dr X", "--role", "king"})
                  .status,
              2);
    const Ran made =
        run_program({"book", "new", file, "--policy", demo_policy(), "--by", "Dr Imke Sandvoort"});
    EXPECT_EQ(made.status, 0) << made.err;
    EXPECT_EQ(
        run_program({"book", "new", file, "--policy", demo_policy(), "--by", "Dr Imke Sandvoort"}).status, 1);
}

TEST(BookCommands, AFaultyPolicyIsToldWithItsPlaceAndNoBookIsMade)
{
    const TemporaryFolder folder;
    const auto policy = folder.write("policy.yaml", "unit: Larkmoor\nzone: America/New_York\nzone: again\n");
    const std::string file = (folder.path() / "new.foreday").string();
    const Ran ran = run_program({"book", "new", file, "--policy", policy.string(), "--by", "Dr X"});
    EXPECT_EQ(ran.status, 1);
    EXPECT_THAT(ran.err, HasSubstr(":3:"));
    EXPECT_FALSE(std::filesystem::exists(file));
}

TEST(BookCommands, WhatIsNoBookIsSaidPlainly)
{
    const TemporaryFolder folder;
    const auto text = folder.write("letter.txt", "not a book");
    for (const char* command : {"verify", "rebuild", "info"}) {
        const Ran missing = run_program({"book", command, (folder.path() / "nowhere.foreday").string()});
        EXPECT_EQ(missing.status, 1) << command;
        EXPECT_THAT(missing.err, HasSubstr("There is no book"));
        const Ran other = run_program({"book", command, text.string()});
        EXPECT_EQ(other.status, 1) << command;
        EXPECT_THAT(other.err, HasSubstr("not a book"));
    }
    EXPECT_EQ(run_program({"case", "show", demo_book(), "LK-9999"}).status, 1);
    EXPECT_EQ(run_program({"assess", "--book", demo_book(), "LK-0401", "--policy", demo_policy()}).status, 2);
    EXPECT_EQ(run_program({"case", "show", demo_book(), "LK-0401", "--at", "yesterday"}).status, 2);
}

}  // namespace
}  // namespace foreday::tests
