#include <gtest/gtest.h>

#include "data/reading/case_reading.h"
#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "data/reading/zone_reading.h"
#include "tests/reading/broken_input.h"
#include "tests/reading/small_rules.h"

namespace foreday::tests {
namespace {

const Broken broken_cases[] = {
    {"AKeyNobodyKnows", "", "concerns:", "conserns:", "conserns",
     "a case has no key \"conserns\"; perhaps \"concerns\""},
    {"AKeyTwice", "", "  weight: 84.6 kg\n", "  weight: 84.6 kg\n  weight: 90 kg\n", "weight: 90 kg",
     "\"weight\" stands twice"},
    {"NoStart", "", "  start: 2027-04-20T09:30\n", "", "patient:", "the booking has no \"start\""},
    {"AStartThatDoesNotExist", "", "start: 2027-04-20T09:30", "start: 2027-03-14T02:30", "2027-03-14T02:30",
     "2027-03-14T02:30"},
    {"AStartThatExistsTwice", "", "start: 2027-04-20T09:30", "start: 2027-11-07T01:30", "2027-11-07T01:30",
     "-04:00"},
    {"AStartAfter2037", "", "start: 2027-04-20T09:30", "start: 2038-01-01T09:30", "2038-01-01T09:30",
     "a procedure after 2037-12-31; a day up to 2037-12-31"},
    {"ADayThatDoesNotExist", "", "born: 1961-03-02", "born: 1961-02-29", "1961-02-29", "1961-02-29"},
    {"BornAfterTheProcedure", "", "born: 1961-03-02", "born: 2031-03-02", "2027-04-20T09:30",
     "before the patient was born"},
    {"AProcedureNobodyKnows", "", "procedures: [colonoscopy]", "procedures: [colonscopy]", "colonscopy",
     "there is no procedure \"colonscopy\"; perhaps \"colonoscopy\""},
    {"NoProcedure", "", "procedures: [colonoscopy]", "procedures: []", "[]", "a booking without a procedure"},
    {"AFactNobodyKnows", "", "had_stroke: yes", "had_strok: yes", "had_strok",
     "there is no fact \"had_strok\"; perhaps \"had_stroke\""},
    {"AWeightWithoutAUnit", "", "84.6 kg", "84.6", "84.6", "\"84.6\" needs a unit; a number in kg"},
    {"AWeightInCentimetres", "", "84.6 kg", "84.6 cm", "84.6 cm", "cannot be compared with \"weight\""},
    {"AWeightThatCannotBeRight", "", "84.6 kg", "846 kg", "846 kg",
     "cannot be right for \"weight\"; from 25 kg to 400 kg"},
    {"AWeightInPoundsThatCannotBeRight", "", "84.6 kg", "882 lb", "882 lb", "from 25 kg to 400 kg"},
    {"ALeadingZero", "", "84.6 kg", "084.6 kg", "084.6 kg", "\"084.6 kg\""},
    {"YesWrittenTrue", "", "had_stroke: yes", "had_stroke: true", "true", "\"true\" is neither yes nor no"},
    {"AQuestionWithoutItsAnswer", "", "had_stroke: yes", "had_stroke:", "had_stroke",
     "\"had_stroke\" without an answer"},
    {"AnEmptyListOfAnswers", "", "had_stroke: yes", "had_stroke: []", "[]", "an empty list of answers"},
    {"AThirteenthMonth", "", "value: 2026-11,", "value: 2026-13,", "2026-13", "2026-13"},
    {"ARangeThatEndsBeforeItBegins", "", "weight: 84.6 kg", "weight: {from: 90 kg, to: 80 kg}",
     "{from: 90 kg", "the range ends before it begins"},
    {"KnownAndNotKnown", "", "{not known: would not say}", "{not known: would not say, value: yes}",
     "{not known", "known and not known"},
    {"AReasonNobodyKnows", "", "not known: would not say", "not known: forgot", "forgot",
     "\"forgot\" is not one of the words"},
    {"AnInformantNobodyKnows", "", "informant: relative", "informant: neighbour", "neighbour",
     "\"neighbour\" is not one of the words"},
    {"ADocumentDatedAfterItWasRead", "", "dated: 2027-03-30", "dated: 2027-04-13", "2027-04-13",
     "dated after the day on which it was told; a day up to 2027-04-12"},
    {"AMedicineNobodyKnows", "", "medicine: apixaban", "medicine: apixiban", "apixiban",
     "there is no medicine \"apixiban\"; perhaps \"apixaban\""},
    {"AnEntryWithoutAMedicine", "", "heard: little white pill, ", "", "{id: m2",
     "an entry of the list without a medicine"},
    {"AMedicineItemTwice", "", "{id: m2, heard", "{id: m1, heard", "m1, heard", "the id \"m1\" stands twice"},
    {"ATwentyFifthHour", "", "[\"20:00\", \"08:00\"]", "[\"24:00\", \"08:00\"]", "\"24:00\"", "24:00"},
    {"TimesWithoutDays", "", "taken: daily", "taken: as needed", "times:", "times of day without days"},
    {"NoDayOfTheWeek", "", "{weekdays: [monday]}", "{weekdays: []}", "[]", "no day of the week"},
    {"ADecisionOnNothing", "", "item: \"hold:m1\", answer", "item: \"hold:m9\", answer", "\"hold:m9\"",
     "there is no item \"hold:m9\""},
    {"AChangeThatDoesNotSayWhat", "", "answer: agree", "answer: change", "{item",
     "does not say what changes"},
    {"ARoleNobodyHas", "", "role: endoscopist", "role: endoskopist", "endoskopist",
     "perhaps \"endoscopist\""},
    {"AFingerprintCutShort", "", "how: signed,", "how: signed, fingerprint: abc123,", "abc123",
     "is no fingerprint"},
    {"AConcernThatIsOnlyANote", "", "level: ask", "level: note", "note", "\"note\" is not one of the words"},
    {"AnIntakeNobodyKnows", "", "kind: clear liquid", "kind: clear liquids", "clear liquids",
     "perhaps \"clear liquid\""},
    {"ADoseOfNoMedicine", "", "doses_taken: {m1:", "doses_taken: {m3:", "m3", "there is no entry \"m3\""},
    {"AReadinessItemNobodyKnows", "", "[somebody_to_go_home_with]", "[somebody]", "somebody",
     "there is no readiness item \"somebody\""},
    {"AUnitAndAZone", "", "zone: America/New_York\n", "zone: America/New_York\nunit: unit.yaml\n", "zone",
     "a case with a unit and a zone"},
};

class BrokenCase : public testing::TestWithParam<Broken> {};

TEST_P(BrokenCase, ThatOneFaultIsToldAtItsPlace)
{
    const Broken& broken = GetParam();
    const TemporaryFolder folder;
    const std::string text = changed(small_case(), broken.from, broken.to);
    const auto file = folder.write("case.yaml", text);
    const auto read = data::read_case(file, small_rules(), {});
    EXPECT_FALSE(read.record.has_value());
    EXPECT_EQ(read.faults.size(), 1U) << all_of(read.faults);
    EXPECT_TRUE(is_told(read.faults, file.string(), text, broken)) << all_of(read.faults);
}

INSTANTIATE_TEST_SUITE_P(Small, BrokenCase, testing::ValuesIn(broken_cases), name_of_broken);

TEST(BrokenCaseAtOnce, EveryFaultIsToldNotTheFirstAlone)
{
    const TemporaryFolder folder;
    std::string text = changed(small_case(), "84.6 kg", "846 kg");
    text = changed(text, "had_stroke: yes", "had_stroke: 1");
    text = changed(text, "medicine: apixaban", "medicine: apixiban");
    text = changed(text, "nothing_else: yes", "nothing_else: maybe");
    const auto read = data::read_case(folder.write("case.yaml", text), small_rules(), {});
    EXPECT_EQ(read.faults.size(), 4U) << all_of(read.faults);
}

TEST(PeekCase, NeitherUnitNorZoneIsAFault)
{
    const TemporaryFolder folder;
    const auto file = folder.write("case.yaml", changed(small_case(), "zone: America/New_York\n", ""));
    const auto start = data::peek_case(file, data::PolicyNamed::by_the_case);
    ASSERT_EQ(start.faults.size(), 1U) << all_of(start.faults);
    EXPECT_EQ(start.faults.front().what, "the case names neither its unit nor its zone");
    EXPECT_TRUE(data::peek_case(file, data::PolicyNamed::elsewhere).faults.empty());
}

TEST(PeekCase, AZoneNobodyKnowsIsAFaultAtItsPlace)
{
    const TemporaryFolder folder;
    const auto file =
        folder.write("case.yaml", changed(small_case(), "America/New_York", "America/Larkmoor"));
    const auto start = data::peek_case(file, data::PolicyNamed::by_the_case);
    ASSERT_EQ(start.faults.size(), 1U) << all_of(start.faults);
    EXPECT_EQ(start.faults.front().line, 2);
    EXPECT_EQ(start.faults.front().column, 7);
}

TEST(PeekCase, AFileThatIsNotThereIsAFault)
{
    const auto start = data::peek_case("/nowhere/case.yaml", data::PolicyNamed::by_the_case);
    ASSERT_EQ(start.faults.size(), 1U);
    EXPECT_EQ(text_of(start.faults.front()),
              "/nowhere/case.yaml: there is no such file; a file at this place");
}

TEST(PeekCase, TheUnitIsSeenFromTheFolderOfTheCase)
{
    const TemporaryFolder folder;
    const auto file =
        folder.write("cases/one.yaml", changed(small_case(), "zone: America/New_York", "unit: ../unit.yaml"));
    const auto start = data::peek_case(file, data::PolicyNamed::by_the_case);
    ASSERT_TRUE(start.policy.has_value());
    EXPECT_EQ(start.policy->lexically_normal(), folder.path() / "unit.yaml");
    EXPECT_FALSE(start.zone.has_value());
}

}  // namespace
}  // namespace foreday::tests
