#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <clocale>
#include <random>

#include "screening/assessment.h"
#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Pair;

std::vector<std::string> ids_of(const std::vector<Item>& items)
{
    std::vector<std::string> ids;
    ids.reserve(items.size());
    for (const Item& item : items) {
        ids.push_back(item.id);
    }
    return ids;
}

/// Something of everything: findings fired, open and false, holds, conflicts, words as heard.
TinyCase rich_case()
{
    TinyCase tiny;
    tiny.finding("conflict", Level::ask, leaf(RecordHas{RecordHas::What::conflict})).about_the_record = true;
    tiny.finding("heavy", Level::ask, tiny.compares("weight", Operator::at_least, Exact{150}));
    tiny.finding("recent_stent", Level::stop,
                 all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)}));
    tiny.finding("thinner", Level::act, tiny.takes({"anticoagulant"}));
    tiny.finding("unknown_medicine", Level::ask, leaf(RecordHas{RecordHas::What::unrecognised_medicine}))
        .about_the_record = true;
    tiny.hold_rule("bleeding", {"anticoagulant"}, HoldAction::omit_days, Exact{2});
    tiny.hold_rule("pain_killers", {"nsaid"}, HoldAction::omit_on_the_day).when = tiny.is("a");
    tiny.answer("weight", between("140", "160"))
        .answer("stent", yes())
        .answer("stent_date", on("2027-01-05"));
    tiny.answer("allergy", yes())
        .answer("allergy", said(no()).in_a_letter().unseen())
        .answer("b", does_not_know());
    tiny.take("m1", "apixaban", daily({"08:00", "20:00"}));
    tiny.take("m2", "");
    tiny.take("m3", "ibuprofen", AsNeeded{});
    return tiny;
}

TEST(Assess, GivesTheSameBytesTwice)
{
    const TinyCase tiny = rich_case();
    EXPECT_EQ(whole_text(tiny.assess()), whole_text(tiny.assess()));
    EXPECT_EQ(whole_text(tiny.assess()), whole_text(rich_case().assess()));
}

TEST(Assess, GivesTheSameBytesUnderALocaleThatWritesACommaForThePoint)
{
    TinyCase tiny = rich_case();
    tiny.answer("weight", number("84.6"));
    const std::string before = whole_text(tiny.assess());
    const std::string usual = std::setlocale(LC_ALL, nullptr);
    if (std::setlocale(LC_ALL, "de_DE.UTF-8") == nullptr) {
        GTEST_SKIP() << "this machine has no such locale; ctest sets LOCPATH to one the build has made";
    }
    const std::string under_it = whole_text(tiny.assess());
    std::setlocale(LC_ALL, usual.c_str());
    EXPECT_EQ(under_it, before);
}

TEST(Assess, DoesNotDependOnTheOrderInWhichRulesWereWritten)
{
    // The reader sorts by id; here rules are added backwards and end in the same place.
    TinyCase forward;
    TinyCase backward;
    const auto add = [](TinyCase& tiny, const char* id) {
        tiny.finding(id, Level::ask, tiny.is(id));
        tiny.hold_rule(id, {"apixaban"}, HoldAction::omit_days, Exact{2}).when = tiny.is(id);
    };
    for (const char* id : {"a", "b", "c", "d"}) {
        add(forward, id);
    }
    for (const char* id : {"d", "c", "b", "a"}) {
        add(backward, id);
    }
    for (TinyCase* tiny : {&forward, &backward}) {
        tiny->take("m1", "apixaban", daily({"08:00"}));
        tiny->answer("a", yes()).answer("c", no());
    }
    EXPECT_EQ(whole_text(forward.assess()), whole_text(backward.assess()));
}

TEST(Assess, DoesNotDependOnTheOrderInWhichDifferentFactsWereAnswered)
{
    struct Given {
        const char* fact;
        Saying saying;
    };
    std::vector<Given> given{{"a", said(yes())},
                             {"stent", said(yes())},
                             {"stent_date", said(on("2027-01-05"))},
                             {"weight", said(number("151")).imported()},
                             {"allergy", said(no())}};
    std::mt19937 random{7};  // a seed: any will do
    std::string first;
    for (int round = 0; round < 20; ++round) {
        std::ranges::shuffle(given, random);
        TinyCase tiny = rich_case();
        tiny.forget("stent").forget("stent_date").forget("weight").forget("allergy");
        for (const Given& one : given) {
            tiny.answer(one.fact, one.saying);
        }
        const std::string text = whole_text(tiny.assess());
        first = first.empty() ? text : first;
        ASSERT_EQ(text, first) << "round " << round;
    }
}

TEST(Findings, AreOrderedByLevelThenTopicThenId)
{
    TinyCase tiny;
    const auto add = [&](const char* id, Level level, Topic topic) {
        tiny.finding(id, level, all({})).head.topic = topic;
    };
    add("a", Level::note, Topic::heart);
    add("b", Level::stop, Topic::record);
    add("c", Level::ask, Topic::record);
    add("d", Level::ask, Topic::blood_thinners);
    add("e", Level::act, Topic::heart);
    add("f", Level::ask, Topic::blood_thinners);
    EXPECT_THAT(ids_of(tiny.assess().findings),
                ElementsAre("finding:b", "finding:d", "finding:f", "finding:c", "finding:e", "finding:a"));
}

TEST(Findings, FireAreOpenOrAreNotThere)
{
    TinyCase tiny;
    tiny.finding("heavy", Level::ask, tiny.compares("weight", Operator::at_least, Exact{150}));
    const auto weighing = [&](const char* kilograms) {
        tiny.forget("weight").answer("weight", number(kilograms));
        return tiny.found("finding:heavy");
    };
    ASSERT_TRUE(tiny.found("finding:heavy"));
    EXPECT_EQ(tiny.found("finding:heavy")->state, ItemState::open);
    EXPECT_FALSE(weighing("149.9"));
    ASSERT_TRUE(weighing("150"));
    EXPECT_EQ(weighing("150")->state, ItemState::fired);
    EXPECT_TRUE(weighing("150.1"));
}

TEST(Findings, WhoseOpenStateIsAcceptedAreShownOnlyWhenTheyFire)
{
    TinyCase tiny;
    tiny.finding("noted", Level::note, tiny.is("a")).not_knowing = FindingRule::NotKnowing::accept;
    EXPECT_FALSE(tiny.found("finding:noted"));
    tiny.answer("a", does_not_know());
    EXPECT_FALSE(tiny.found("finding:noted"));
    tiny.answer("a", yes());
    EXPECT_TRUE(tiny.found("finding:noted"));
}

TEST(Findings, AreForNowOnlyOnceTheyFire)
{
    TinyCase tiny;
    FindingRule& rule = tiny.finding("chest_pain", Level::stop, tiny.is("a"));
    rule.now = true;
    rule.now_words = "Hang up and dial the emergency number.";
    EXPECT_FALSE(tiny.found("finding:chest_pain")->now);
    tiny.answer("a", yes());
    EXPECT_TRUE(tiny.found("finding:chest_pain")->now);
}

TEST(Findings, OnAnUnconfirmedValueAreMarkedAndSayWhichFact)
{
    TinyCase tiny;
    tiny.finding("heavy", Level::ask, tiny.compares("weight", Operator::at_least, Exact{150}));
    tiny.answer("weight", said(number("160")).imported());
    const auto item = tiny.found("finding:heavy");
    ASSERT_TRUE(item);
    EXPECT_EQ(item->state, ItemState::fired);
    EXPECT_TRUE(item->on_unconfirmed);
    EXPECT_THAT(names_of(item->open_on), ElementsAre("weight: unconfirmed"));
}

TEST(Findings, ShowTheRankThatTheUnitGaveThem)
{
    TinyCase tiny;
    tiny.finding("practice", Level::ask, all({})).head.sure = HowSure::common_practice;
    EXPECT_EQ(tiny.found("finding:practice")->sure, HowSure::common_practice);
    tiny.rules.policy.confirmations = {{"practice", "Dr Example", Role::medical_director, day("2026-11-02")}};
    EXPECT_EQ(tiny.found("finding:practice")->sure, HowSure::unit_policy);
}

// --- what is decided one by one

TEST(RecordItems, EachConflictIsDecidedByItself)
{
    TinyCase tiny;
    tiny.finding("conflict", Level::ask, leaf(RecordHas{RecordHas::What::conflict})).about_the_record = true;
    EXPECT_THAT(tiny.assess().findings, IsEmpty());
    tiny.definition("allergy").topic = Topic::allergy;
    tiny.answer("allergy", yes()).answer("allergy", said(no()).unseen());
    tiny.answer("weight", number("80")).answer("weight", said(number("95")).unseen());
    EXPECT_THAT(ids_of(tiny.assess().findings),
                ElementsAre("finding:conflict:allergy", "finding:conflict:weight"));
    EXPECT_EQ(tiny.found("finding:conflict:allergy")->topic, Topic::allergy);
    EXPECT_EQ(tiny.found("finding:conflict:weight")->title, "About conflict: weight: 80 kg or 95 kg");
}

TEST(RecordItems, EachUnrecognisedEntryGivesOneAskAndNoMore)
{
    TinyCase tiny;
    tiny.finding("unknown_medicine", Level::ask, leaf(RecordHas{RecordHas::What::unrecognised_medicine}))
        .about_the_record = true;
    tiny.take("m1", "");
    tiny.take("m2", "");
    tiny.take("m3", "ibuprofen");
    EXPECT_THAT(ids_of(tiny.assess().findings),
                ElementsAre("finding:unknown_medicine:m1", "finding:unknown_medicine:m2"));
    EXPECT_EQ(tiny.assess().holds.size(), 1U) << "no hold for what nobody knows";
}

TEST(RecordItems, EachOwnConcernHasItsOwnLevelAndTopic)
{
    TinyCase tiny;
    tiny.finding("concern", Level::ask, leaf(RecordHas{RecordHas::What::own_concern})).about_the_record =
        true;
    tiny.record.concerns = {
        {"sounded short of breath", Level::stop, Topic::lungs_and_airway, "N. Example", tiny.now},
        {"seems not to follow", Level::ask, Topic::consent, "N. Example", tiny.now}};
    const auto findings = tiny.assess().findings;
    ASSERT_EQ(findings.size(), 2U);
    EXPECT_EQ(findings[0].level, Level::stop);
    EXPECT_EQ(findings[0].topic, Topic::lungs_and_airway);
    EXPECT_EQ(findings[1].level, Level::ask);
    EXPECT_EQ(findings[1].topic, Topic::consent);
    EXPECT_NE(findings[0].fingerprint_bytes, findings[1].fingerprint_bytes);
}

TEST(RecordItems, ToldSomethingNoLongerRightIsOne)
{
    TinyCase tiny;
    tiny.finding("told_otherwise", Level::ask, leaf(RecordHas{RecordHas::What::told_no_longer_right}))
        .about_the_record = true;
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"apixaban"}, HoldAction::omit_days, Exact{2});
    tiny.record.told = {{"hold:m1", utc("2027-06-01T12:00"), day("2027-06-14")}};
    EXPECT_FALSE(tiny.found("finding:told_otherwise"));
    tiny.start("2027-06-18T09:00");
    EXPECT_TRUE(tiny.found("finding:told_otherwise"));
}

TEST(RecordItems, AnotherProcedureOrSomebodyUnderEighteenIsOutOfScope)
{
    TinyCase tiny;
    tiny.finding("out_of_scope", Level::ask, leaf(RecordHas{RecordHas::What::out_of_scope}))
        .about_the_record = true;
    const auto out = [&] { return tiny.found("finding:out_of_scope").has_value(); };
    EXPECT_FALSE(out());
    tiny.record.booking.patient.born = day("2009-06-18");  // 17 on the day
    EXPECT_TRUE(out());
    EXPECT_THAT(tiny.assess().preparations, IsEmpty());
    tiny.record.booking.patient.born = day("2009-06-17");  // 18 on the day
    EXPECT_FALSE(out());
    tiny.procedures({"colonoscopy", "bronchoscopy"});
    EXPECT_TRUE(out());
    EXPECT_FALSE(tiny.assess().in_scope);
    EXPECT_THAT(tiny.assess().preparations, IsEmpty());
}

// --- open questions

TEST(OpenQuestions, ListWhatWasAskedAndIsStillOpenWithWhatItWouldSettle)
{
    TinyCase tiny;
    tiny.finding("first", Level::ask, tiny.is("a"));
    tiny.finding("second", Level::ask, any({tiny.is("a"), tiny.is("b")}));
    tiny.finding("third", Level::ask, tiny.is("c"));
    tiny.answer("a", does_not_know()).answer("b", no());
    const auto questions = tiny.assess().open_questions;
    ASSERT_EQ(questions.size(), 1U) << "c was not asked: it is counted, not listed";
    EXPECT_EQ(questions.front().fact, "a");
    EXPECT_EQ(questions.front().state, FactState::not_known);
    EXPECT_THAT(questions.front().would_settle, ElementsAre("finding:first", "finding:second"));
}

TEST(OpenQuestions, IncludeUnconfirmedInexactAndDisputedValuesAndTheList)
{
    TinyCase tiny;
    tiny.finding("one", Level::ask, negated(tiny.is("a")));
    tiny.finding("two", Level::ask, tiny.compares("weight", Operator::at_least, Exact{150}));
    tiny.finding("three", Level::ask, tiny.is("allergy"));
    tiny.finding("four", Level::ask, tiny.takes({"anticoagulant"}));
    tiny.answer("a", said(yes()).imported()).answer("weight", between("140", "160"));
    tiny.answer("allergy", yes()).answer("allergy", said(no()).unseen());
    std::vector<std::string> listed;
    for (const OpenQuestion& question : tiny.assess().open_questions) {
        listed.push_back(question.fact + ": " + std::string{name_of(question.why)});
    }
    EXPECT_THAT(listed,
                ElementsAre("a: unconfirmed", "allergy: in conflict", "medicine list: list not closed",
                            "weight: a more exact value is needed"));
}

TEST(OpenQuestions, OfHoldsAreListedToo)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("weak_kidneys", {"apixaban"}, HoldAction::omit_days, Exact{4}).when = tiny.is("a");
    tiny.answer("a", does_not_know());
    const auto questions = tiny.assess().open_questions;
    ASSERT_EQ(questions.size(), 1U);
    EXPECT_THAT(questions.front().would_settle, ElementsAre("hold:m1"));
}

TEST(NotAsked, IsCountedBySectionAmongTheQuestionsThatApply)
{
    TinyCase tiny;
    const auto counts = tiny.assess().not_asked;
    // 13 yes/no facts in the first; 6 numbers, 3 dates and the sex in the second, less the stent's date.
    EXPECT_THAT(counts, ElementsAre(Pair("first", 13), Pair("second", 9)));
    tiny.answer("stent", yes());
    EXPECT_THAT(tiny.assess().not_asked, ElementsAre(Pair("first", 12), Pair("second", 10)));
    tiny.answer("stent", no()).answer("weight", does_not_know());
    EXPECT_THAT(tiny.assess().not_asked, ElementsAre(Pair("first", 12), Pair("second", 8)));
}

// --- preparations

TEST(PreparationsForThisPatient, TellWhatSpeaksAgainstEachAndWhatMayYet)
{
    TinyCase tiny;
    PreparationLimit limit;
    limit.finding.head.id = "weak_kidneys";
    limit.finding.level = Level::ask;
    limit.finding.when = tiny.is("a");
    PreparationLimit caution = limit;
    caution.finding.head.id = "old";
    caution.finding.level = Level::note;
    caution.finding.when = tiny.is("b");
    tiny.rules.protocol.preparations.at(1).limits = {limit, caution};
    tiny.answer("b", yes());
    ASSERT_EQ(tiny.assess().preparations.size(), 2U);
    EXPECT_THAT(ids_of(tiny.assess().preparations[1].open), ElementsAre("preparation:salts:weak_kidneys"));
    EXPECT_THAT(ids_of(tiny.assess().preparations[1].cautions), ElementsAre("preparation:salts:old"));
    tiny.answer("a", yes());
    EXPECT_THAT(ids_of(tiny.assess().preparations[1].against), ElementsAre("preparation:salts:weak_kidneys"));
    EXPECT_THAT(tiny.assess().preparations[0].against, IsEmpty());
    EXPECT_THAT(tiny.assess().findings, IsEmpty()) << "it was not ordered";
    tiny.record.booking.ordered = 1;
    EXPECT_THAT(ids_of(tiny.assess().findings),
                ElementsAre("preparation:salts:weak_kidneys", "preparation:salts:old"));
}

TEST(PreparationsForThisPatient, ThereAreNoneForAnUpperEndoscopyAlone)
{
    TinyCase tiny;
    tiny.procedures({"upper_endoscopy"});
    EXPECT_THAT(tiny.assess().preparations, IsEmpty());
    tiny.procedures({"colonoscopy", "upper_endoscopy"});
    EXPECT_EQ(tiny.assess().preparations.size(), 2U);
}

}  // namespace
}  // namespace foreday::screening
