#include "data/reading/protocol_reading.h"

#include <gtest/gtest.h>

#include "data/reading/yaml_text.h"
#include "tests/reading/broken_input.h"
#include "tests/reading/small_rules.h"

namespace foreday::tests {
namespace {

using namespace screening;

data::ReadProtocol read_small(const std::string& file = "", const std::string& from = "",
                              const std::string& to = "")
{
    auto files = small_protocol();
    if (!file.empty()) {
        files[file] = changed(files[file], from, to);
    }
    const TemporaryFolder folder;
    write_all(folder, files);
    return data::read_protocol(folder.path());
}

const Protocol& small()
{
    return small_rules().protocol;
}

TEST(ReadProtocol, EverythingStandsInTheOrderOfItsId)
{
    const auto sorted = [](const auto& entries, auto id_of) {
        return std::ranges::is_sorted(entries, {}, id_of);
    };
    EXPECT_TRUE(sorted(small().facts, &FactDefinition::id));
    EXPECT_TRUE(sorted(small().medicines, &MedicineDefinition::id));
    EXPECT_TRUE(sorted(small().parameters, &Parameter::id));
    EXPECT_TRUE(sorted(small().holds, [](const HoldRule& rule) { return rule.head.id; }));
    EXPECT_TRUE(sorted(small().findings, [](const FindingRule& rule) { return rule.head.id; }));
    EXPECT_EQ(small().sections, (std::vector<std::string>{"booking", "body", "medicines", "day"}));
}

TEST(ReadProtocol, ALimitStandsInTheUnitOfWhatItLimits)
{
    const auto read =
        read_small("findings.yaml", "{fact: weight, below: 45 kg}", "{fact: weight, below: 100 lb}");
    ASSERT_TRUE(read.protocol.has_value()) << all_of(read.faults);
    const auto& very_light = read.protocol->findings.back();
    ASSERT_EQ(very_light.head.id, "very_light");
    const auto& test = std::get<FactCompares>(very_light.when.children.at(0).comparison);
    EXPECT_EQ(std::get<Exact>(test.limit), Exact::ratio(45359237, 1000000));
    EXPECT_EQ(test.op, Operator::below);
}

TEST(ReadProtocol, AParameterUsedAsALimitIsFoundByItsPlace)
{
    const auto& rule = small().findings.at(1);
    ASSERT_EQ(rule.head.id, "stroke_recent");
    const auto& within = std::get<FactWithin>(rule.when.children.at(1).comparison);
    EXPECT_EQ(std::get<ParameterIndex>(within.length), find_parameter(small(), "age_limit_months"));
    EXPECT_EQ(within.unit, Unit::month);
    EXPECT_EQ(within.fact, find_fact(small(), "stroke_date"));
}

TEST(ReadProtocol, WhatAFactSaysOfItselfIsKept)
{
    const auto& weight = small().facts.at(*find_fact(small(), "weight"));
    EXPECT_EQ(weight.plausible, (NumberInterval{Exact{25}, Exact{400}}));
    EXPECT_EQ(weight.age_limit, std::chrono::minutes{90 * 24 * 60});
    EXPECT_EQ(weight.danger.kind, Danger::Kind::away_from);
    EXPECT_EQ(weight.danger.safe, (NumberInterval{Exact{50}, Exact{120}}));
    EXPECT_EQ(weight.scope, FactScope::booked_case);
    const auto& born = small().facts.at(*find_fact(small(), "born"));
    EXPECT_TRUE(born.compare);
    EXPECT_EQ(born.danger.reason, "both ends of life have risks of their own");
    const auto& sex = small().facts.at(*find_fact(small(), "sex"));
    EXPECT_EQ(sex.danger.order, (std::vector<std::uint32_t>{1, 0}));
    EXPECT_EQ(small().calculators.female.place, 0U);
    const auto& stroke_date = small().facts.at(*find_fact(small(), "stroke_date"));
    ASSERT_NE(stroke_date.asked_when, nullptr);
    EXPECT_EQ(std::get<FactIs>(stroke_date.asked_when->comparison).fact, find_fact(small(), "had_stroke"));
}

TEST(ReadProtocol, AMedicineIsMarkedThroughItsClass)
{
    EXPECT_TRUE(small().medicines.at(*find_medicine(small(), "apixaban")).marked);
    EXPECT_FALSE(small().medicines.at(*find_medicine(small(), "iron_tablet")).marked);
    EXPECT_EQ(small().medicines.at(*find_medicine(small(), "iron_tablet")).ingredients,
              (std::vector<std::string>{"ferrous sulfate"}));
}

TEST(ReadProtocol, AHoldKeepsItsNumbersItsPolicyAndWhomItSpeaksAbout)
{
    const auto& iron = small().holds.at(0);
    ASSERT_EQ(iron.head.id, "iron_seven_days");
    EXPECT_EQ(std::get<Exact>(iron.number), Exact{7});
    EXPECT_EQ(std::get<Exact>(iron.too_short_below.value()), Exact{5});
    EXPECT_EQ(iron.medicines, (std::vector<MedicineIndex>{*find_medicine(small(), "iron_tablet")}));
    const auto& low = small().holds.at(1);
    ASSERT_EQ(low.policies.size(), 1U);
    EXPECT_EQ(low.policies.front().options, std::vector<std::uint32_t>{0});
    const auto& ask = small().holds.at(3);
    EXPECT_EQ(ask.action, HoldAction::ask_first);
    EXPECT_EQ(ask.when.kind, Condition::Kind::all);
    EXPECT_TRUE(ask.when.children.empty());
}

TEST(ReadProtocol, APreparationKeepsItsTimesInMinutes)
{
    const auto& jug = small().preparations.at(0);
    EXPECT_EQ(jug.windows.at(0).earliest, std::chrono::hours{6});
    EXPECT_EQ(jug.windows.at(0).latest, std::chrono::hours{4});
    EXPECT_EQ(jug.between_starts->highest, std::chrono::hours{12});
    EXPECT_EQ(jug.last_solid, std::chrono::hours{12});
    EXPECT_EQ(length_of(jug.first), std::chrono::minutes{120});
    EXPECT_EQ(jug.spaced_before, std::chrono::hours{2});
    EXPECT_EQ(jug.limits.at(0).finding.head.id, "jug_too_light");
}

TEST(ReadProtocol, ParametersMayBeNumbersTimesOfDayAndYesOrNo)
{
    const auto value = [&](const char* id) {
        return small().parameters.at(*find_parameter(small(), id)).by_default;
    };
    EXPECT_EQ(std::get<Exact>(value("second_start")), Exact{300});
    EXPECT_EQ(std::get<TimeOfDay>(value("evening")), std::chrono::hours{18});
    EXPECT_TRUE(std::get<bool>(value("ask_twice")));
    // Its range is written in hours and stands in minutes, as the default does.
    EXPECT_EQ(small().parameters.at(*find_parameter(small(), "second_start")).range,
              (Interval<Exact>{Exact{240}, Exact{360}}));
}

TEST(ReadProtocol, ReadinessChecksKeepAllTheirBounds)
{
    const auto& inr = small().readiness.at(1);
    ASSERT_EQ(inr.head.id, "inr_low_enough");
    const auto& check = std::get<MeasuredCheck>(inr.check);
    ASSERT_EQ(check.bounds.size(), 2U);
    EXPECT_EQ(check.bounds[0].op, Operator::at_least);
    EXPECT_EQ(std::get<Exact>(check.bounds[0].limit), Exact::ratio(4, 5));
    EXPECT_EQ(check.bounds[1].op, Operator::below);
    EXPECT_TRUE(std::holds_alternative<HoldsCheck>(small().readiness.at(0).check));
}

TEST(ReadProtocol, AnAtLeastConditionMayTakeItsCountFromAParameter)
{
    const auto read = read_small("findings.yaml", "{fact: weight, below: 45 kg}",
                                 "{at_least: {count: 2, of: [{fact: weight, below: 45 kg}, {fact: weight, "
                                 "below: 5 kg}, {procedure: colonoscopy}]}}");
    ASSERT_TRUE(read.protocol.has_value()) << all_of(read.faults);
    const auto& condition = read.protocol->findings.back().when.children.at(0);
    EXPECT_EQ(condition.kind, Condition::Kind::at_least);
    EXPECT_EQ(condition.children.size(), 3U);
    EXPECT_EQ(std::get<Exact>(condition.count), Exact{2});
}

TEST(ReadProtocol, AGuardMayStandInPartsBesideTheFact)
{
    auto files = small_protocol();
    files["facts.yaml"] =
        changed(files["facts.yaml"], "asked_when: {fact: had_stroke, is: yes}",
                "asked_when: {all: [{fact: had_stroke, is: yes}, {fact: only_looks, is: no}]}");
    files["findings.yaml"] =
        changed(files["findings.yaml"], "{all: [{fact: had_stroke, is: yes}, {fact: stroke_date",
                "{all: [{is: no, fact: only_looks}, {fact: had_stroke, is: yes}, {fact: stroke_date");
    const TemporaryFolder folder;
    write_all(folder, files);
    const auto read = data::read_protocol(folder.path());
    EXPECT_TRUE(read.faults.empty()) << all_of(read.faults);
}

TEST(ReadProtocol, AGuardInAnOuterAllCountsForWhatIsInside)
{
    const auto read =
        read_small("findings.yaml", "{fact: stroke_date, within: {parameter: age_limit_months}}",
                   "{any: [{not: {fact: stroke_date, within: 1 year}}, {fact: weight, below: 50 kg}]}");
    EXPECT_TRUE(read.protocol.has_value()) << all_of(read.faults);
}

TEST(ReadProtocol, WhatNothingUsesIsAWarningAndNoFault)
{
    const auto read = read_small();
    EXPECT_TRUE(read.faults.empty());
    std::vector<std::string> told;
    for (const auto& warning : read.warnings) {
        told.push_back(warning.what);
    }
    EXPECT_EQ(told, (std::vector<std::string>{"nothing uses the class \"patches\"",
                                              "nothing uses the fact \"last_meal\"",
                                              "nothing uses the parameter \"ask_twice\""}));
}

TEST(ReadProtocol, ALimitThatNoAnswerCanReachIsAWarning)
{
    const auto read = read_small("findings.yaml", "below: 45 kg", "below: 20 kg");
    ASSERT_TRUE(read.protocol.has_value());
    EXPECT_NE(all_of(read.warnings)
                  .find("the limit lies outside what \"weight\" can be; a limit from 25 kg to 400 kg"),
              std::string::npos);
}

TEST(ReadProtocol, AMissingFileIsAFaultAndNamesOfItsEntriesAreNot)
{
    auto files = small_protocol();
    files.erase("sources.yaml");
    const TemporaryFolder folder;
    write_all(folder, files);
    const auto read = data::read_protocol(folder.path());
    ASSERT_EQ(read.faults.size(), 1U) << all_of(read.faults);
    EXPECT_EQ(read.faults.front().what, "there is no such file");
}

TEST(ReadProtocol, AFileThatBelongsToNoProtocolIsAFault)
{
    auto files = small_protocol();
    files["finding.yaml"] = "- {}\n";
    files["FORMAT.md"] = "words\n";
    const TemporaryFolder folder;
    write_all(folder, files);
    const auto read = data::read_protocol(folder.path());
    ASSERT_EQ(read.faults.size(), 1U) << all_of(read.faults);
    EXPECT_EQ(read.faults.front().what, "this file is none of a protocol's");
}

TEST(ReadProtocol, AFolderThatIsNotThereIsAFault)
{
    const auto read = data::read_protocol("/nowhere/protocol");
    ASSERT_EQ(read.faults.size(), 1U);
    EXPECT_EQ(text_of(read.faults.front()),
              "/nowhere/protocol: there is no such folder; the folder of a protocol");
}

TEST(ReadProtocol, AnUnmarkedCombinationOfAMarkedMedicineIsRefused)
{
    const auto read = read_small("medicines.yaml", "- {id: semaglutide",
                                 "- {id: both, generic: both in one, ingredients: [apixaban, ferrous "
                                 "sulfate], classes: [weight_loss]}\n- {id: semaglutide");
    ASSERT_EQ(read.faults.size(), 1U) << all_of(read.faults);
    EXPECT_EQ(read.faults.front().what, "\"both\" is not marked, but its ingredient apixaban is");
}

TEST(ReadProtocol, TheProtocolOfTheProgramHasNoFault)
{
    const auto read = data::read_protocol(std::filesystem::path(FOREDAY_SOURCE_DATA_DIR) / "protocol");
    EXPECT_TRUE(read.faults.empty()) << all_of(read.faults);
}

TEST(ProtocolHash, TheOrderOfEntriesCommentsAndBlanksChangeNothing)
{
    const std::string before = read_small().hash;
    EXPECT_EQ(before.size(), 64U);
    EXPECT_EQ(read_small("sources.yaml", "- {id: paper", "# a remark\n\n- {id: paper").hash, before);
    EXPECT_EQ(
        read_small("sources.yaml", "{id: paper, title: A paper,", "{title: \"A paper\",   id: paper,").hash,
        before);
    EXPECT_EQ(read_small("sources.yaml",
                         "- {id: book, title: A book, by: Somebody, where: A shelf, year: 2020}\n"
                         "- {id: paper, title: A paper, by: Somebody else, where: A journal, year: 2021}\n",
                         "- {id: paper, title: A paper, by: Somebody else, where: A journal, year: 2021}\n"
                         "- {id: book, title: A book, by: Somebody, where: A shelf, year: 2020}\n")
                  .hash,
              before);
}

TEST(ProtocolHash, OneLetterChangesIt)
{
    const std::string before = read_small().hash;
    EXPECT_NE(read_small("sources.yaml", "title: A paper", "title: A Paper").hash, before);
    EXPECT_NE(read_small("holds.yaml", "number: 7 days", "number: 8 days").hash, before);
    EXPECT_NE(read_small("protocol.yaml", "sections: [booking, body", "sections: [body, booking").hash,
              before);
}

}  // namespace
}  // namespace foreday::tests
