#include <gtest/gtest.h>

#include <stdexcept>

#include "data/reading/protocol_reading.h"
#include "tests/reading/broken_input.h"
#include "tests/reading/small_protocol.h"
#include "tests/support/temporary_folder.h"

namespace foreday::tests {
namespace {

// A line of its own in a file, to move an entry into.
constexpr const char* second_paper =
    "- {id: paper, title: A paper, by: Somebody else, where: A journal, year: 2021}\n";

// A rule about a class that no medicine is in, put before another.
constexpr const char* patches_hold = R"(- id: patch_off
  title: The patch comes off
  for: [patches]
  action: omit on the day
  protects: by omitting
  topic: other medicines
  hazard: breathing
  who: [nurse]
  sure: common practice
- id: weekly_injection
)";

const Broken broken_files[] = {
    // Form
    {"AKeyNobodyKnows", "classes.yaml", "{id: iron, title: Iron, marked: no}",
     "{id: iron, titel: Iron, marked: no}", "titel", "a class has no key \"titel\"; perhaps \"title\""},
    {"AKeyTwice", "classes.yaml", "title: Iron,", "title: Iron, title: Again,", "title: Again",
     "\"title\" stands twice"},
    {"AKeyMissing", "classes.yaml", ", title: Injections for weight", "", "{id: weight_loss",
     "a class has no \"title\""},
    {"AKeyWithoutValue", "classes.yaml", "title: Iron,", "title: ,", "title: ,", "\"title\" has no value"},
    {"AnIdTwice", "sources.yaml", second_paper,
     "- {id: paper, title: A paper, by: Somebody else, where: A journal, year: 2021}\n"
     "- {id: book, title: Another, by: B, where: W, year: 2021}\n",
     "book, title: Another", "the id \"book\" stands twice; another id; it stands in line 1 already"},
    {"AnIdInCapitals", "sources.yaml", "{id: paper, title", "{id: Paper, title", "Paper",
     "\"Paper\" is no id"},
    {"AMapWhereAListIsNeeded", "findings.yaml", "who: [endoscopist, anaesthesia]", "who: {endoscopist: yes}",
     "{endoscopist: yes}", "roles: a map where a list is needed"},
    {"AnAnchor", "classes.yaml", "title: Thinners", "title: &name Thinners", "&name", "an anchor"},
    {"ATag", "classes.yaml", "title: Thinners", "title: !!str Thinners", "!!str", "a tag"},
    {"ASecondDocument", "classes.yaml", "title: Patches that nobody has}\n",
     "title: Patches that nobody has}\n---\nmore: yes\n", "more", "a second document"},
    {"AFileThatDoesNotParse", "sources.yaml", "year: 2020}", "year: 2020", "{id: paper", "this is not YAML"},
    // A rule under questions of policy
    {"EveryOptionNamed", "holds.yaml", "option: one_day}", "option: [one_day, goes_on]}",
     "[one_day, goes_on]", "every option is named, so that the question decides nothing"},
    {"AnOptionTwice", "holds.yaml", "option: one_day}", "option: [one_day, one_day]}", "[one_day, one_day]",
     "an option stands twice"},
    {"AQuestionOfPolicyTwice", "holds.yaml", "policy: {question: thinner_low_risk, option: one_day}",
     "policy: [{question: thinner_low_risk, option: one_day}, {question: thinner_low_risk, option: goes_on}]",
     "[{question: thinner_low_risk, option: one_day}", "a question of policy stands twice"},
    // Numbers and words
    {"ALeadingZero", "holds.yaml", "number: 7 days", "number: 010 days", "010 days", "\"010 days\""},
    {"AnExponent", "facts.yaml", "plausible: [25 kg, 400 kg]", "plausible: [25 kg, 1e3 kg]", "1e3 kg",
     "\"1e3 kg\""},
    {"AHexadecimalYear", "sources.yaml", "year: 2020", "year: 0x7E4", "0x7E4", "\"0x7E4\" is not a number"},
    {"YesWrittenTrue", "classes.yaml", "marked: yes", "marked: true", "true",
     "\"true\" is neither yes nor no"},
    {"NoWrittenNO", "classes.yaml", "marked: no", "marked: NO", "NO", "\"NO\" is neither yes nor no"},
    {"AUnitNobodyKnows", "facts.yaml", "unit: kg\n  plausible: [25 kg, 400 kg]",
     "unit: stone\n  plausible: [25 kg, 400 kg]", "stone", "\"stone\" is no unit we know"},
    {"AWordOutsideTheClosedList", "findings.yaml", "hazard: clot", "hazard: cloth", "cloth",
     "perhaps \"clot\""},
    {"ASectionNobodyKnows", "facts.yaml", "section: day\n  topic: blood thinners",
     "section: days\n  topic: blood thinners", "days", "perhaps \"day\""},
    // Names
    {"AFactNobodyKnows", "findings.yaml", "{fact: weight, below: 45 kg}", "{fact: wieght, below: 45 kg}",
     "wieght", "there is no fact \"wieght\"; perhaps \"weight\""},
    {"AClassNobodyKnows", "holds.yaml", "for: [thinner]", "for: [thiner]", "thiner",
     "there is no class and no medicine \"thiner\"; perhaps \"thinner\""},
    {"ASourceNobodyKnows", "holds.yaml",
     "[{source: book, at: table 2}]\n  sure: published\n- id: thinner_low\n",
     "[{source: books, at: table 2}]\n  sure: published\n- id: thinner_low\n", "books",
     "there is no source \"books\""},
    {"AParameterNobodyKnows", "readiness.yaml", "{parameter: liquid_hours}", "{parameter: liquid_hour}",
     "liquid_hour", "there is no parameter \"liquid_hour\"; perhaps \"liquid_hours\""},
    {"AProcedureNobodyKnows", "holds.yaml", "{procedure: colonoscopy}", "{procedure: coloscopy}", "coloscopy",
     "there is no procedure \"coloscopy\""},
    {"AnOptionNobodyKnows", "holds.yaml", "option: one_day", "option: two_days", "two_days",
     "\"two_days\" is not one of the words"},
    {"AChoiceNobodyKnows", "facts.yaml", "{order: [male, female]}", "{order: [mal, female]}", "mal",
     "perhaps \"male\""},
    {"ACalculatorNobodyKnows", "findings.yaml", "calculated: age", "calculated: ages", "ages",
     "perhaps \"age\""},
    // Units and limits
    {"ALimitInAUnitThatDoesNotCompare", "findings.yaml", "below: 45 kg", "below: 45 cm", "45 cm",
     "cannot be compared with \"weight\"; a number in kg"},
    {"ALimitWithoutAUnit", "findings.yaml", "below: 45 kg", "below: 45", "45}", "\"45\" needs a unit"},
    {"AParameterInAnotherUnit", "parameters.yaml", "default: 160 kg, range: [100 kg, 350 kg]",
     "default: 350 lb, range: [200 lb, 800 lb]", "{parameter: table_limit}",
     "the parameter \"table_limit\" is in lb, \"weight\" in kg; write the parameter in kg", "findings.yaml"},
    {"AParameterThatDoesNotCompare", "findings.yaml", "{parameter: table_limit}", "{parameter: phone}",
     "{parameter: phone}", "cannot be compared with \"weight\" in kg"},
    {"ADefaultOutOfItsRange", "parameters.yaml", "default: 45 minutes, range: [30 minutes",
     "default: 29 minutes, range: [30 minutes", "29 minutes",
     "out of its range; from 30 minutes to 180 minutes"},
    {"AParameterOfHalfAMonth", "parameters.yaml", "default: 3 months", "default: 3.5 months", "3.5 months",
     "no whole number of months"},
    {"ARangeUpsideDown", "facts.yaml", "plausible: [0.5, 20]", "plausible: [20, 0.5]", "[20, 0.5]",
     "the range ends below its beginning"},
    {"ATestThatDoesNotFitTheFact", "findings.yaml", "{fact: weight, below: 45 kg}", "{fact: weight, is: yes}",
     "is: yes", "\"is\" does not fit the fact \"weight\""},
    {"AnEngineParameterOfTheWrongKind", "protocol.yaml", "evening_start: evening", "evening_start: margin",
     "margin", "the parameter \"margin\" cannot serve as evening_start"},
    {"ACreatinineInAnotherUnitThanTheFormulas", "facts.yaml", "unit: mg/dL creatinine",
     "unit: umol/L creatinine", "creatinine}",
     "the fact \"creatinine\" cannot serve as creatinine; a fact of type number in mg/dL creatinine",
     "protocol.yaml"},
    {"ASexWithoutFemale", "facts.yaml",
     "choices: [female, male]\n  section: booking\n  topic: identity and booking\n  scope: person\n"
     "  question: Sex?\n  why: A formula.\n  danger: {order: [male, female]}",
     "choices: [woman, male]\n  section: booking\n  topic: identity and booking\n  scope: person\n"
     "  question: Sex?\n  why: A formula.\n  danger: {order: [male, woman]}",
     "sex, weight", "no choice named female", "protocol.yaml"},
    // Sources and how sure
    {"NoSource", "findings.yaml", "  sources: [{source: paper, at: page 4}]\n", "", "sure: reported",
     "no source, though it is reported"},
    {"AnEmptyListOfSources", "findings.yaml", "sources: [{source: paper, at: page 4}]", "sources: []",
     "sure: reported", "no source, though it is reported"},
    {"NotHowSure", "readiness.yaml", "  who: [nurse]\n  sure: common practice\n", "  who: [nurse]\n",
     "id: somebody_to_go_home_with", "a readiness item has no \"sure\""},
    {"ASourceWithoutPlace", "policy_questions.yaml", "{source: paper, at: page 9}", "{source: paper}",
     "{source: paper}", "a use of a source has no \"at\""},
    // Rules
    {"NoMeanwhileOnAnAsk", "findings.yaml", "  meanwhile: We ring you.\n", "", "id: too_heavy",
     "\"too_heavy\" has no \"meanwhile\""},
    {"NoMeanwhileOnAskFirst", "holds.yaml", "  meanwhile: Do not take the next one before we ring.\n", "",
     "id: weekly_injection", "\"weekly_injection\" has no \"meanwhile\", and a clinician decides"},
    {"NoMeanwhileOnAConditionThatMayStayOpen", "holds.yaml", "when: {procedure: colonoscopy}",
     "when: {fact: had_stroke, is: yes}", "id: iron_seven_days",
     "has no \"meanwhile\", and its condition may stay open"},
    {"NoMeanwhileOnAMarkedMedicine", "holds.yaml",
     "  meanwhile: Go on taking it.\n  sources: [{source: book, at: table 2}]\n"
     "  sure: published\n- id: iron",
     "  sources: [{source: book, at: table 2}]\n  sure: published\n- id: iron", "id: thinner_low",
     "has no \"meanwhile\", and its medicine is marked"},
    {"ANoteThatWaits", "findings.yaml", "  not_knowing: {accept: nothing hangs on it}\n",
     "  not_knowing: {accept: nothing hangs on it}\n  meanwhile: Wait.\n", "meanwhile: Wait",
     "\"very_light\" waits for nobody"},
    {"ANoteThatDoesNotSayWhatNotKnowingMeans", "findings.yaml",
     "  not_knowing: {accept: nothing hangs on it}\n", "", "id: very_light",
     "does not say what not knowing means"},
    {"NobodyMayAct", "findings.yaml", "who: [nurse]", "who: []", "[]", "nobody is named"},
    {"NoDanger", "facts.yaml", "  danger: yes\n", "", "id: had_stroke", "a fact has no \"danger\""},
    {"ADangerThatDoesNotFit", "facts.yaml", "  danger: yes\n", "  danger: higher\n", "higher",
     "no danger that \"had_stroke\" can have"},
    {"AFactOutsideItsGuard", "findings.yaml",
     "when: {all: [{fact: had_stroke, is: yes}, {fact: stroke_date, within: {parameter: age_limit_months}}]}",
     "when: {any: [{fact: had_stroke, is: yes}, {fact: stroke_date, within: {parameter: age_limit_months}}]}",
     "stroke_date, within", "\"stroke_date\" is looked at outside its guard"},
    {"ACalculatorWhoseFactHasAGuard", "facts.yaml", "  question: The last creatinine?\n",
     "  question: The last creatinine?\n  asked_when: {fact: had_stroke, is: yes}\n", "cockcroft_gault",
     "\"creatinine\" is looked at outside its guard", "holds.yaml"},
    {"AMeasureWhoseFactHasAGuard", "facts.yaml", "  question: The INR of today\n",
     "  question: The INR of today\n  asked_when: {takes: iron}\n", "inr_today",
     "\"inr_today\" is looked at outside its guard", "readiness.yaml"},
    {"AGuardThatIsTheOppositeOfItself", "findings.yaml",
     "{all: [{fact: had_stroke, is: yes}, {fact: stroke_date",
     "{all: [{fact: had_stroke, is: no}, {fact: stroke_date", "stroke_date, within", "outside its guard"},
    {"QuestionsInACircle", "facts.yaml", "  question: Have you had a stroke?\n",
     "  question: Have you had a stroke?\n  asked_when: {fact: stroke_date, within: 6 months}\n",
     "{fact: stroke_date, within: 6 months}", "asked_when goes round in a circle: had_stroke, stroke_date"},
    {"ARecordTestInAnOrdinaryRule", "findings.yaml", "  kind: record\n", "", "conflict",
     "a rule that is not about the record looks at the record"},
    {"AMedicineNoRuleSpeaksAbout", "holds.yaml", "for: [weight_loss]", "for: [iron]", "semaglutide",
     "no hold rule speaks about \"semaglutide\"", "medicines.yaml"},
    {"AHoldThatReachesNoMedicine", "holds.yaml", "- id: weekly_injection\n", patches_hold, "patch_off",
     "the hold \"patch_off\" reaches no medicine"},
    {"AnActionWithoutItsNumber", "holds.yaml", "  number: 1 day\n", "", "id: thinner_low",
     "\"omit days\" without its number"},
    {"ANumberOnAnActionThatTakesNone", "holds.yaml", "action: ask first",
     "action: ask first\n  number: 2 days", "number: 2 days", "\"ask first\" takes no \"number\""},
    {"HalfADay", "holds.yaml", "number: 1 day", "number: 1.5 days", "1.5 days", "whole days, 0 or more"},
    {"TooShortByItself", "holds.yaml", "too_short_below: 5 days", "too_short_below: 8 days", "8 days",
     "what is told would be too short itself"},
    {"ARestartThatEndsBeforeItBegins", "holds.yaml", "latest: 3 days", "latest: 2 days", "2 days, sources",
     "the latest day of restart is not after the earliest"},
    {"ARestartBeforeTheProcedure", "holds.yaml", "earliest: 0 days", "earliest: -1 days", "-1 days",
     "no day of restart"},
    {"ARestartOnPartOfADay", "holds.yaml", "earliest: 0 days", "earliest: 0.5 days", "0.5 days",
     "\"0.5 days\" is no day of restart"},
    {"ARestartWithoutHowSure", "holds.yaml",
     "latest: 3 days, sources: [{source: book, at: table 3}], sure: published}",
     "latest: 3 days, sources: [{source: book, at: table 3}]}", "{earliest: 2 days",
     "a restart has no \"sure\""},
    {"ARestartWhereNothingIsLeftOut", "holds.yaml", "action: ask first\n",
     "action: ask first\n  restart: {low: {earliest: 1 day, sure: common practice}}\n", "restart: {low",
     "leaves nothing out that could start again"},
    {"ARestartAfterARiskNobodyKnows", "holds.yaml", "    low: {earliest: 0 days",
     "    small: {earliest: 0 days", "small", "restart has no key \"small\""},
    {"NotHowItProtects", "holds.yaml", "  too_short_below: 5 days\n  protects: by omitting\n",
     "  too_short_below: 5 days\n", "id: iron_seven_days", "does not say how it protects"},
    {"AWindowThatClosesBeforeItOpens", "preparations.yaml", "latest: 4 hours", "latest: 7 hours", "7 hours",
     "the window closes before it opens"},
    {"AMeasureWithoutALimit", "readiness.yaml",
     "check: {fact: inr_today, all: [{at_least: 0.8}, {below: 1.5}]}", "check: {fact: inr_today}",
     "{fact: inr_today}", "a measure without its limit"},
    {"ACheckOfAFactOfAnotherType", "readiness.yaml", "{confirmed: escort_named}", "{confirmed: weight}",
     "weight", "the fact \"weight\" is of another type"},
    {"OneIdForTwoThingsToConfirm", "readiness.yaml", "id: nothing_drunk", "id: too_heavy", "too_heavy",
     "the id \"too_heavy\" stands for two things"},
    {"OneOptionOnly", "policy_questions.yaml",
     "    - {id: goes_on, title: it goes on, sure: reported, sources: [{source: paper, at: page 9}]}\n", "",
     "- {id: one_day", "at least two options"},
    {"ACountAboveTheConditions", "findings.yaml",
     "{any: [{fact: weight, below: 45 kg}, {calculated: age, at_least: 90 years}]}",
     "{at_least: {count: 3, of: [{fact: weight, below: 45 kg}, {calculated: age, at_least: 90 years}]}}",
     "3, of", "\"3\" is not a whole number from 1 to 2"},
    {"AConditionThatIsNone", "findings.yaml", "{record: conflict}", "{rekord: conflict}", "rekord",
     "\"rekord\" is no condition; perhaps \"record\""},
};

class BrokenProtocol : public testing::TestWithParam<Broken> {};

TEST_P(BrokenProtocol, ThatOneFaultIsToldAtItsPlace)
{
    const Broken& broken = GetParam();
    auto files = small_protocol();
    files[broken.file] = changed(files[broken.file], broken.from, broken.to);
    const TemporaryFolder folder;
    write_all(folder, files);
    const auto read = data::read_protocol(folder.path());
    const std::string told_in = *broken.told_in == '\0' ? broken.file : broken.told_in;
    EXPECT_FALSE(read.protocol.has_value());
    EXPECT_EQ(read.faults.size(), 1U) << all_of(read.faults);
    EXPECT_TRUE(is_told(read.faults, (folder.path() / told_in).string(), files[told_in], broken))
        << all_of(read.faults);
}

/// The broken file of that name. @throws std::runtime_error when there is none
const Broken& broken_called(const std::string& name)
{
    const auto* const found =
        std::ranges::find(broken_files, name, [](const Broken& broken) { return std::string{broken.name}; });
    if (found == std::end(broken_files)) {
        throw std::runtime_error("no broken file is called " + name);
    }
    return *found;
}

struct ThreeFaults {
    const char* name;
    const char* faults[3];
};

// Three at a time: in one file, in three files, of form beside of meaning, one upon another.
const ThreeFaults three_at_a_time[] = {
    {"InOneFile", {"AFactNobodyKnows", "NoSource", "NobodyMayAct"}},
    {"InThreeFiles", {"AKeyNobodyKnows", "AnExponent", "AWindowThatClosesBeforeItOpens"}},
    {"InOneEntry", {"ALeadingZero", "NotHowItProtects", "NoMeanwhileOnAConditionThatMayStayOpen"}},
    {"WhereOneFileDoesNotParse",
     {"AFileThatDoesNotParse", "ADangerThatDoesNotFit", "ACheckOfAFactOfAnotherType"}},
    {"OfFormBesideOfMeaning", {"AKeyTwice", "AFactOutsideItsGuard", "AMedicineNoRuleSpeaksAbout"}},
    {"OfUnits",
     {"ALimitInAUnitThatDoesNotCompare", "AParameterThatDoesNotCompare",
      "ACreatinineInAnotherUnitThanTheFormulas"}},
    {"OfNames", {"AParameterNobodyKnows", "AnOptionNobodyKnows", "ACalculatorNobodyKnows"}},
    {"OfWhoAndHowSure", {"NotHowSure", "ASourceWithoutPlace", "NoMeanwhileOnAnAsk"}},
    {"OfNumbers", {"ADefaultOutOfItsRange", "HalfADay", "ACountAboveTheConditions"}},
    {"OfTheRecordAndTheList", {"ARecordTestInAnOrdinaryRule", "AHoldThatReachesNoMedicine", "AnIdTwice"}},
};

class ProtocolWithThreeFaults : public testing::TestWithParam<ThreeFaults> {};

TEST_P(ProtocolWithThreeFaults, AllThreeAreTold)
{
    auto files = small_protocol();
    for (const char* name : GetParam().faults) {
        const Broken& broken = broken_called(name);
        files[broken.file] = changed(files[broken.file], broken.from, broken.to);
    }
    const TemporaryFolder folder;
    write_all(folder, files);
    const auto read = data::read_protocol(folder.path());
    EXPECT_FALSE(read.protocol.has_value());
    EXPECT_EQ(read.faults.size(), 3U) << all_of(read.faults);
    for (const char* name : GetParam().faults) {
        const Broken& broken = broken_called(name);
        const std::string told_in = *broken.told_in == '\0' ? broken.file : broken.told_in;
        EXPECT_TRUE(is_told(read.faults, (folder.path() / told_in).string(), files[told_in], broken))
            << name << "\n"
            << all_of(read.faults);
    }
}

INSTANTIATE_TEST_SUITE_P(Small, ProtocolWithThreeFaults, testing::ValuesIn(three_at_a_time),
                         [](const auto& row) { return row.param.name; });
INSTANTIATE_TEST_SUITE_P(Small, BrokenProtocol, testing::ValuesIn(broken_files), name_of_broken);

}  // namespace
}  // namespace foreday::tests
