#include "screening/judge.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

// --- five origins

enum class From { said_now, earlier_case, import, past_its_age, in_conflict };

void answer_from(TinyCase& tiny, From origin, const Value& value, const Value& other)
{
    switch (origin) {
        case From::said_now:
            tiny.answer("a", said(value));
            return;
        case From::earlier_case:
            tiny.answer("a", said(value).in_an_earlier_case());
            return;
        case From::import:
            tiny.answer("a", said(value).imported());
            return;
        case From::past_its_age:
            tiny.definition("a").age_limit = std::chrono::hours{1};
            tiny.answer("a", said(value).at("2027-06-01T10:59"));
            return;
        case From::in_conflict:
            tiny.answer("a", said(value)).answer("a", said(other).unseen());
            return;
    }
}

struct OriginRow {
    From origin;
    Truth when_true;   ///< the value makes the rule true
    Truth when_false;  ///< the value makes the rule false
    bool marked;       ///< what fires is marked "on an unconfirmed value"
    const char* named;
};
// Under `not` the same value stands on the other side: what made the rule false makes `not` true.
constexpr OriginRow origins[] = {
    {From::said_now, Truth::yes, Truth::no, false, nullptr},
    {From::earlier_case, Truth::yes, Truth::open, true, "a: unconfirmed"},
    {From::import, Truth::yes, Truth::open, true, "a: unconfirmed"},
    {From::past_its_age, Truth::yes, Truth::open, true, "a: past its age"},
    {From::in_conflict, Truth::yes, Truth::yes, true, "a: in conflict"},
};

TEST(FiveOrigins, WarnAndReassureAsTheTableSays)
{
    for (const OriginRow& row : origins) {
        SCOPED_TRACE(static_cast<int>(row.origin));
        TinyCase with_yes;
        answer_from(with_yes, row.origin, yes(), no());
        TinyCase with_no;
        answer_from(with_no, row.origin, no(), yes());
        struct Case {
            const TinyCase& tiny;
            Condition rule;
            Truth expected;
        };
        for (const Case& one :
             {Case{with_yes, with_yes.is("a"), row.when_true}, Case{with_no, with_no.is("a"), row.when_false},
              Case{with_no, negated(with_no.is("a")), row.when_true},
              Case{with_yes, negated(with_yes.is("a")), row.when_false}}) {
            const Judged judged = one.tiny.judge(one.rule);
            EXPECT_EQ(judged.truth, one.expected);
            EXPECT_EQ(judged.on_unconfirmed, one.expected == Truth::yes && row.marked);
            if (row.named != nullptr) {
                EXPECT_THAT(names_of(judged.open_on), ElementsAre(row.named));
            } else {
                EXPECT_THAT(judged.open_on, IsEmpty());
            }
        }
    }
}

TEST(FiveOrigins, AConditionIsJudgedAsAWholeNotPartByPart)
{
    // Whatever the import really is, one of the two holds or neither does: "a and not a" can never be true.
    TinyCase tiny;
    tiny.answer("a", said(yes()).imported());
    EXPECT_EQ(tiny.truth(all({tiny.is("a"), negated(tiny.is("a"))})), Truth::open);
    tiny.answer("a", said(no()).unseen());
    ASSERT_EQ(tiny.reading("a").state, FactState::in_conflict);
    EXPECT_EQ(tiny.truth(all({tiny.is("a"), negated(tiny.is("a"))})), Truth::open)
        << "one combination at a time: never yes beside no of the same fact";
}

TEST(FiveOrigins, AnotherConfirmedReasonTakesTheMarkAway)
{
    TinyCase tiny;
    tiny.answer("a", said(yes()).imported()).answer("b", yes());
    const Judged judged = tiny.judge(any({tiny.is("a"), tiny.is("b")}));
    EXPECT_EQ(judged.truth, Truth::yes);
    EXPECT_FALSE(judged.on_unconfirmed);
    EXPECT_THAT(judged.open_on, IsEmpty());
}

TEST(FiveOrigins, AConfirmedNoSettlesWhateverIsUnconfirmedBesideIt)
{
    TinyCase tiny;
    tiny.answer("a", said(yes()).imported()).answer("b", no());
    EXPECT_EQ(tiny.truth(all({tiny.is("a"), tiny.is("b")})), Truth::no);
}

// --- conflicts

TEST(Conflicts, FireWhenOnlyOneOfAllCombinationsDoes)
{
    TinyCase tiny;
    for (const char* fact : {"a", "b", "c"}) {
        tiny.answer(fact, yes()).answer(fact, said(no()).unseen());
    }
    const Condition only_one_way = all({tiny.is("a"), tiny.is("b", false), tiny.is("c")});
    EXPECT_EQ(tiny.truth(only_one_way), Truth::yes);
    const Condition no_way = all({tiny.is("a"), tiny.is("a", false), tiny.is("b")});
    EXPECT_EQ(tiny.truth(no_way), Truth::open);
}

TEST(Conflicts, TheGroundIsTheCombinationThatFires)
{
    TinyCase tiny;
    tiny.answer("weight", number("80")).answer("weight", said(number("160")).unseen());
    const Judged judged = tiny.judge(tiny.compares("weight", Operator::at_least, Exact{150}));
    ASSERT_EQ(judged.because.size(), 1U);
    EXPECT_EQ(judged.because.front().what, "weight");
    EXPECT_EQ(judged.because.front().value, "160 kg");
}

TEST(Conflicts, BetweenKnowingAndNotKnowingFireOrStayOpen)
{
    TinyCase tiny;
    tiny.answer("a", yes()).answer("a", does_not_know().unseen());
    EXPECT_EQ(tiny.truth(tiny.is("a")), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.is("a", false)), Truth::open);
}

TEST(Conflicts, SixtyFourCombinationsAreTriedAndMoreAreOpen)
{
    TinyCase tiny;
    const auto dispute = [&](const char* fact) {
        tiny.answer(fact, yes()).answer(fact, said(no()).unseen());
    };
    std::vector<Condition> each;
    for (const char* fact : {"a", "b", "c", "d", "diabetes", "e"}) {
        dispute(fact);
        each.push_back(tiny.is(fact));
    }
    EXPECT_EQ(tiny.truth(all(each)), Truth::yes) << "two to the sixth is sixty-four";
    dispute("heart_failure");
    each.push_back(tiny.is("heart_failure"));
    const Judged beyond = tiny.judge(all(each));
    EXPECT_EQ(beyond.truth, Truth::open);
    EXPECT_EQ(beyond.open_on.size(), 7U);
}

TEST(Conflicts, BeyondSixtyFourCombinationsAConfirmedNoIsStillNo)
{
    TinyCase tiny;
    std::vector<Condition> each;
    for (const char* fact : {"a", "b", "c", "d", "diabetes", "e", "heart_failure"}) {
        tiny.answer(fact, yes()).answer(fact, said(no()).unseen());
        each.push_back(tiny.is(fact));
    }
    each.push_back(tiny.is("hypertension"));
    tiny.answer("hypertension", no());
    EXPECT_EQ(tiny.truth(all(each)), Truth::no);
}

// --- what was compared, whether it mattered or not

TEST(Comparisons, AreAllGivenWhetherTheyMatteredOrNot)
{
    TinyCase tiny;
    tiny.answer("a", no())
        .answer("b", yes())
        .answer("c", said(yes()).imported())
        .answer("d", said(no()).imported());
    const Condition rule =
        all({tiny.is("a"), any({tiny.is("b"), tiny.is("c")}), negated(tiny.is("d")), tiny.is("e")});
    EXPECT_THAT(tiny.judge(rule).comparisons,
                ElementsAre(Truth::no, Truth::yes, Truth::yes, Truth::open, Truth::open));
}

TEST(Ground, SaysWhatWasSaidByWhomAndWhen)
{
    TinyCase tiny;
    Answer letter = said(on("2026-12-20")).in_a_letter("2027-01-10").answer;
    letter.who = "of the heart clinic";
    letter.words = "stent just before Christmas";
    tiny.answer("stent", yes()).answer("stent_date", Saying{letter});
    const Judged judged =
        tiny.judge(all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)}));
    EXPECT_THAT(
        judged.because,
        ElementsAre(Ground{"stent", "yes", "patient, 2027-06-01"},
                    Ground{"stent_date", "2026-12-20",
                           "letter of the heart clinic, dated 2027-01-10, \"stent just before Christmas\""}));
}

TEST(Ground, OfANoIsEveryPartThatIsNo)
{
    TinyCase tiny;
    tiny.answer("a", no()).answer("b", yes()).answer("c", no());
    const Judged judged = tiny.judge(all({tiny.is("a"), tiny.is("b"), tiny.is("c")}));
    EXPECT_THAT(judged.because, ElementsAre(Ground{"a", "no", "patient, 2027-06-01"},
                                            Ground{"c", "no", "patient, 2027-06-01"}));
}

}  // namespace
}  // namespace foreday::screening
