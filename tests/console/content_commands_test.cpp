#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "gui/console/item_words.h"
#include "screening/condition_words.h"
#include "screening/references.h"
#include "tests/console/run_program.h"

namespace foreday::tests {
namespace {

using namespace screening;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

const Protocol& real_protocol()
{
    static const Protocol protocol =
        *data::read_protocol(std::filesystem::path{FOREDAY_SOURCE_DATA_DIR} / "protocol").protocol;
    return protocol;
}

const Condition& when_of_finding(const std::string& id)
{
    const auto& findings = real_protocol().findings;
    return std::ranges::find(findings, id, [](const FindingRule& rule) { return rule.head.id; })->when;
}

TEST(ContentToSign, TheTableHoldsEveryRuleMedicineAndQuestionOfPolicy)
{
    const Ran ran = run_program({"protocol", "table", "medicines"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    for (const HoldRule& rule : real_protocol().holds) {
        EXPECT_THAT(ran.out, HasSubstr("\n" + rule.head.id + "\n"));
    }
    for (const PolicyQuestion& question : real_protocol().policy_questions) {
        EXPECT_THAT(ran.out, HasSubstr("\n" + question.id + "\n"));
        for (const PolicyOption& option : question.options) {
            EXPECT_THAT(ran.out, HasSubstr(option.id + ": "));
        }
    }
    for (const MedicineDefinition& medicine : real_protocol().medicines) {
        EXPECT_THAT(ran.out,
                    HasSubstr(fmt::format("\n{}\n  id                {}\n", medicine.generic, medicine.id)));
    }
}

TEST(ContentToSign, ItOpensWithWhatNobodyHasReadAndEndsWithALineToSign)
{
    const std::string text = on_one_line(run_program({"protocol", "table", "medicines"}).out);
    EXPECT_THAT(text, HasSubstr("No clinician has read or signed it"));
    EXPECT_THAT(text, HasSubstr("The clinician decides, and local policy comes first."));
    EXPECT_LT(text.find("No clinician has read"), text.find("Questions of policy ="));
    EXPECT_GT(text.find(" signature ____"), text.find("zonisamide"));
}

TEST(ContentToSign, UnderAUnitsPolicyItSaysWhichOptionHoldsThere)
{
    const Ran by_default = run_program({"protocol", "table", "medicines"});
    const Ran of_unit = run_program({"protocol", "table", "medicines", "--policy", demo_policy()});
    ASSERT_EQ(of_unit.status, 0) << of_unit.err;
    EXPECT_THAT(by_default.out, HasSubstr("Unit: none"));
    EXPECT_THAT(of_unit.out, HasSubstr("Unit: Larkmoor Endoscopy"));
    EXPECT_THAT(of_unit.out, HasSubstr("[holds here]"));
    EXPECT_NE(by_default.out, of_unit.out) << "what the unit has confirmed stands as its policy";
}

TEST(ContentToSign, NoLineIsWiderThanAPage)
{
    const std::string text = run_program({"protocol", "table", "medicines"}).out;
    std::size_t start = 0;
    while (start < text.size()) {
        const std::size_t end = text.find('\n', start);
        EXPECT_LE(end - start, 100U) << text.substr(start, end - start);
        start = end + 1;
    }
}

TEST(OneItem, EveryItemOfTheProtocolCanBeShown)
{
    const UnitPolicy policy = data::default_policy(real_protocol());
    const auto items = items_of(real_protocol());
    EXPECT_GT(items.size(), 1400U);
    for (const ItemName& item : items) {
        const std::string block = console::item_block(item, real_protocol(), policy);
        EXPECT_THAT(block, HasSubstr(item.id));
        EXPECT_GT(std::ranges::count(block, '\n'), 1) << block;
    }
}

TEST(OneItem, WhateverIsNamedIsThere)
{
    const auto items = items_of(real_protocol());
    for (const Reference& reference : references_in(real_protocol())) {
        EXPECT_TRUE(std::ranges::binary_search(items, reference.to))
            << reference.from.id << " names " << reference.to.id;
    }
}

TEST(OneItem, AParameterNamesTheRuleAndTheFindingThatHangOnIt)
{
    const Ran ran = run_program({"protocol", "show", "stent_months"});
    ASSERT_EQ(ran.status, 0) << ran.err;
    const std::string text = on_one_line(ran.out);
    EXPECT_THAT(text, HasSubstr("parameter: stent_months"));
    EXPECT_THAT(text, HasSubstr("a unit may set 6 months to 24 months"));
    EXPECT_THAT(text, HasSubstr("finding stent_in_window hold rule stent_recent"));
}

TEST(OneItem, AnInputOfTheClearanceIsNamedByTheRulesThatComputeIt)
{
    const std::string text = on_one_line(run_program({"protocol", "show", "creatinine"}).out);
    EXPECT_THAT(text, HasSubstr("hold rule dabigatran_high_risk_reduced"));
    EXPECT_THAT(text, HasSubstr("the program itself"));
}

TEST(OneItem, AnIdThatIsNotThereIsRefusedWithTheNearestOne)
{
    const Ran ran = run_program({"protocol", "show", "apixban"});
    EXPECT_EQ(ran.status, 1);
    EXPECT_EQ(ran.out, "");
    EXPECT_THAT(ran.err, HasSubstr("\"apixban\" is no id of the protocol; perhaps \"apixaban\""));
}

TEST(OneItem, ARuleUnderAnOptionThatWasNotChosenSaysSo)
{
    const std::string text =
        on_one_line(run_program({"protocol", "show", "warfarin_high_risk_four_days"}).out);
    EXPECT_THAT(text, HasSubstr("(does not hold here)"));
    EXPECT_THAT(text, Not(HasSubstr("(holds here)")));
}

TEST(ConditionsInWords, AWindowSaysTheUnitsFigureAndWhatSetsIt)
{
    const UnitPolicy policy = data::default_policy(real_protocol());
    EXPECT_THAT(
        condition_in_words(when_of_finding("stent_in_window"), real_protocol(), policy),
        ElementsAre("all of:", "  stent in a heart artery: yes",
                    "  date of the last heart stent within 12 months (stent_months, which a unit may set) "
                    "of the procedure"));
}

TEST(ConditionsInWords, ACountOfFactsSaysHowManyAndListsThem)
{
    const auto& findings = real_protocol().findings;
    const auto counting = std::ranges::find_if(findings, [](const FindingRule& rule) {
        const auto& parts = rule.when.children;
        return std::ranges::any_of(
            parts, [](const Condition& part) { return part.kind == Condition::Kind::at_least; });
    });
    ASSERT_NE(counting, findings.end());
    const UnitPolicy policy = data::default_policy(real_protocol());
    const auto lines = condition_in_words(counting->when, real_protocol(), policy);
    EXPECT_THAT(lines, testing::Contains("  at least 3 (sleep_apnoea_facts, which a unit may set) of:"));
    EXPECT_GT(std::ranges::count_if(lines, [](const std::string& line) { return line.starts_with("    "); }),
              3);
}

TEST(ConditionsInWords, WhatAlwaysHoldsHasNoLine)
{
    EXPECT_TRUE(
        condition_in_words(Condition{}, real_protocol(), data::default_policy(real_protocol())).empty());
}

}  // namespace
}  // namespace foreday::tests
