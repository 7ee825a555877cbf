#include "checklists/case_file.h"

#include <gtest/gtest.h>

namespace foreday::checklists {
namespace {

TEST(NamesOfTheCaseFile, AreReadAsTheyAreWritten)
{
    const std::pair<TryOutcome, std::string_view> outcomes[] = {
        {TryOutcome::reached, "reached"},
        {TryOutcome::no_answer, "no answer"},
        {TryOutcome::message_left, "message left"},
        {TryOutcome::wrong_number, "wrong number"},
        {TryOutcome::rang_in, "rang in"},
        {TryOutcome::ended_for_an_emergency, "ended for an emergency"},
    };
    for (const auto& [outcome, name] : outcomes) {
        EXPECT_EQ(name_of(outcome), name);
        EXPECT_EQ(find_try_outcome(name), outcome);
    }
    const std::pair<EndingKind, std::string_view> endings[] = {
        {EndingKind::called_off, "called off"},
        {EndingKind::did_not_come, "did not come"},
        {EndingKind::not_today, "not today"},
    };
    for (const auto& [kind, name] : endings) {
        EXPECT_EQ(name_of(kind), name);
        EXPECT_EQ(find_ending_kind(name), kind);
    }
}

TEST(NamesOfTheCaseFile, ThatAreNoneGiveNothing)
{
    for (const char* name : {"", "no_answer", "No answer", "reached ", "called off today"}) {
        EXPECT_EQ(find_try_outcome(name), std::nullopt) << name;
        EXPECT_EQ(find_ending_kind(name), std::nullopt) << name;
    }
}

}  // namespace
}  // namespace foreday::checklists
