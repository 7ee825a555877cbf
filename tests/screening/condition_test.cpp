#include "screening/condition.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

// --- every state of a fact against every kind of comparison -----------------------------------------

/// A comparison with a value that makes it true and one that makes it false.
struct Kind {
    const char* name;
    const char* fact;
    Condition condition;
    Value makes_yes;
    Value makes_no;
};

std::vector<Kind> every_kind(const TinyCase& tiny)
{
    const auto compares = [&](Operator op) { return tiny.compares("weight", op, Exact{100}); };
    return {{"is yes", "a", tiny.is("a"), yes(), no()},
            {"is no", "a", tiny.is("a", false), no(), yes()},
            {"is one of", "sex", tiny.chosen("sex", {"female", "other"}), tiny.choice("sex", "other"),
             tiny.choice("sex", "male")},
            {"below", "weight", compares(Operator::below), number("99.9"), number("100")},
            {"at most", "weight", compares(Operator::at_most), number("100"), number("100.1")},
            {"equals", "weight", compares(Operator::equals), number("100"), number("99.9")},
            {"at least", "weight", compares(Operator::at_least), number("100"), number("99.9")},
            {"above", "weight", compares(Operator::above), number("100.1"), number("100")},
            {"within days", "last_visit", tiny.within("last_visit", Exact{30}, Unit::day), on("2027-05-18"),
             on("2027-05-17")},
            {"within weeks", "last_visit", tiny.within("last_visit", Exact{4}, Unit::week), on("2027-05-20"),
             on("2027-05-19")},
            {"within months", "last_visit", tiny.within("last_visit", Exact{6}, Unit::month), on("2026-12-17"),
             on("2026-12-16")},
            {"within years", "last_visit", tiny.within("last_visit", Exact{1}, Unit::year), on("2026-06-17"),
             on("2026-06-16")},
            {"calculated", "birth_date", leaf(CalculatedCompares{Calculator::age, Operator::at_least, Exact{75}}),
             on("1952-06-17"), on("1952-06-18")}};
}

TEST(EveryStateAgainstEveryKind, KnownDecides)
{
    const TinyCase empty;
    for (const Kind& kind : every_kind(empty)) {
        SCOPED_TRACE(kind.name);
        TinyCase tiny;
        tiny.answer(kind.fact, kind.makes_yes);
        EXPECT_EQ(tiny.truth(kind.condition), Truth::yes);
        EXPECT_EQ(tiny.truth(negated(kind.condition)), Truth::no);
        tiny.forget(kind.fact).answer(kind.fact, kind.makes_no);
        EXPECT_EQ(tiny.truth(kind.condition), Truth::no);
        EXPECT_EQ(tiny.truth(negated(kind.condition)), Truth::yes);
        EXPECT_THAT(tiny.judge(kind.condition).open_on, IsEmpty());
    }
}

TEST(EveryStateAgainstEveryKind, NotAskedAndNotKnownAreOpenAndNamed)
{
    const TinyCase empty;
    for (const Kind& kind : every_kind(empty)) {
        SCOPED_TRACE(kind.name);
        TinyCase tiny;
        const std::string fact = kind.fact;
        EXPECT_EQ(tiny.truth(kind.condition), Truth::open);
        EXPECT_EQ(tiny.truth(negated(kind.condition)), Truth::open);
        EXPECT_THAT(names_of(tiny.judge(kind.condition).open_on), ElementsAre(fact + ": not asked"));
        tiny.answer(kind.fact, does_not_know());
        EXPECT_EQ(tiny.truth(kind.condition), Truth::open);
        EXPECT_EQ(tiny.truth(negated(kind.condition)), Truth::open);
        EXPECT_THAT(names_of(tiny.judge(kind.condition).open_on), ElementsAre(fact + ": not known"));
    }
}

TEST(EveryStateAgainstEveryKind, NotApplicableIsOpenItsGuardIsFalseAndSoTheRule)
{
    const TinyCase empty;
    for (const Kind& kind : every_kind(empty)) {
        SCOPED_TRACE(kind.name);
        TinyCase tiny;
        tiny.definition(kind.fact).asked_when = std::make_shared<const Condition>(tiny.is("e"));
        tiny.answer("e", no()).answer(kind.fact, kind.makes_yes);
        EXPECT_EQ(tiny.reading(kind.fact).state, FactState::not_applicable);
        EXPECT_EQ(tiny.truth(kind.condition), Truth::open);
        EXPECT_EQ(tiny.truth(negated(kind.condition)), Truth::open);
        EXPECT_EQ(tiny.truth(tiny.is("e")), Truth::no);
        EXPECT_EQ(tiny.truth(all({tiny.is("e"), kind.condition})), Truth::no);
    }
}

TEST(EveryStateAgainstEveryKind, InConflictFiresAtEitherValueAndIsNeverFalse)
{
    const TinyCase empty;
    for (const Kind& kind : every_kind(empty)) {
        SCOPED_TRACE(kind.name);
        TinyCase tiny;
        tiny.answer(kind.fact, kind.makes_yes).answer(kind.fact, said(kind.makes_no).unseen());
        ASSERT_EQ(tiny.reading(kind.fact).state, FactState::in_conflict);
        for (const Condition& either_way : {kind.condition, negated(kind.condition)}) {
            const Judged judged = tiny.judge(either_way);
            EXPECT_EQ(judged.truth, Truth::yes);
            EXPECT_TRUE(judged.on_unconfirmed);
            EXPECT_THAT(names_of(judged.open_on), ElementsAre(std::string{kind.fact} + ": in conflict"));
        }
    }
}

TEST(EveryStateAgainstEveryKind, AGateThatIsNotSettledIsNamedInPlaceOfTheQuestionBehindIt)
{
    TinyCase tiny;
    const Condition recent = all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)});
    EXPECT_THAT(names_of(tiny.judge(recent).open_on), ElementsAre("stent: not asked"));
    tiny.answer("stent", yes());
    EXPECT_THAT(names_of(tiny.judge(recent).open_on), ElementsAre("stent_date: not asked"));
}

TEST(EveryStateAgainstEveryKind, AnInputOfACalculatorBehindAnUnsettledGateNamesTheGate)
{
    TinyCase tiny;
    tiny.definition("creatinine").asked_when = std::make_shared<const Condition>(tiny.is("e"));
    tiny.answer("birth_date", on("1960-01-01")).answer("sex", tiny.choice("sex", "male"));
    const Judged judged = tiny.judge(leaf(CalculatedCompares{Calculator::ckd_epi, Operator::below, Exact{30}}));
    EXPECT_EQ(judged.truth, Truth::open);
    EXPECT_THAT(names_of(judged.open_on), ElementsAre("e: not asked")) << "an open rule always names what would settle it";
}

// --- five origins -------------------------------------------------------------------------------

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
        for (const Case& one : {Case{with_yes, with_yes.is("a"), row.when_true},
                                Case{with_no, with_no.is("a"), row.when_false},
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

// --- conflicts ------------------------------------------------------------------------------------

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
    const auto dispute = [&](const char* fact) { tiny.answer(fact, yes()).answer(fact, said(no()).unseen()); };
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

// --- intervals --------------------------------------------------------------------------------------

TEST(Intervals, AreTrueForAllFalseForNoneAndElseOpen)
{
    const auto weighing = [](std::string_view lowest, std::string_view highest, Operator op) {
        TinyCase tiny;
        tiny.answer("weight", between(lowest, highest));
        return tiny.truth(tiny.compares("weight", op, Exact{100}));
    };
    EXPECT_EQ(weighing("90", "99.9", Operator::below), Truth::yes);
    EXPECT_EQ(weighing("90", "100", Operator::below), Truth::open);
    EXPECT_EQ(weighing("100", "110", Operator::below), Truth::no);
    EXPECT_EQ(weighing("90", "100", Operator::at_most), Truth::yes);
    EXPECT_EQ(weighing("90", "100.1", Operator::at_most), Truth::open);
    EXPECT_EQ(weighing("100.1", "110", Operator::at_most), Truth::no);
    EXPECT_EQ(weighing("100", "110", Operator::at_least), Truth::yes);
    EXPECT_EQ(weighing("99.9", "110", Operator::at_least), Truth::open);
    EXPECT_EQ(weighing("90", "99.9", Operator::at_least), Truth::no);
    EXPECT_EQ(weighing("100.1", "110", Operator::above), Truth::yes);
    EXPECT_EQ(weighing("100", "110", Operator::above), Truth::open);
    EXPECT_EQ(weighing("90", "100", Operator::above), Truth::no);
    EXPECT_EQ(weighing("90", "110", Operator::equals), Truth::open);
    EXPECT_EQ(weighing("100", "110", Operator::equals), Truth::open);
    EXPECT_EQ(weighing("100.1", "110", Operator::equals), Truth::no);
    EXPECT_EQ(weighing("100", "100", Operator::equals), Truth::yes);
}

TEST(Intervals, AWeekAroundTheLimitAsksForAMoreExactDate)
{
    // Six months before 17 June 2027 is 17 December 2026.
    TinyCase tiny;
    tiny.answer("stent", yes());
    const Condition recent = all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)});
    const auto stent_in = [&](std::string_view earliest, std::string_view latest) {
        return tiny.forget("stent_date").answer("stent_date", from_to(earliest, latest)).judge(recent);
    };
    EXPECT_EQ(stent_in("2026-12-17", "2026-12-23").truth, Truth::yes);
    const Judged around = stent_in("2026-12-14", "2026-12-20");
    EXPECT_EQ(around.truth, Truth::open);
    EXPECT_THAT(names_of(around.open_on), ElementsAre("stent_date: a more exact value is needed"));
    EXPECT_EQ(stent_in("2026-12-10", "2026-12-16").truth, Truth::no);
}

TEST(Intervals, AStentLastMarchAgainstSixMonths)
{
    TinyCase tiny;
    tiny.answer("stent", yes()).answer("stent_date", from_to("2027-03-01", "2027-03-31"));
    const Condition recent = all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)});
    EXPECT_EQ(tiny.truth(recent), Truth::yes);
    tiny.start("2027-09-15T09:00");
    EXPECT_EQ(tiny.truth(recent), Truth::open) << "from 1 September for one of the first, to the 30th for one of the 31st";
    tiny.start("2027-10-01T09:00");
    EXPECT_EQ(tiny.truth(recent), Truth::no);
    tiny.start("2027-09-30T09:00");
    EXPECT_EQ(tiny.truth(recent), Truth::open) << "31 March and six months are 30 September, the boundary day inside";
}

// --- within -----------------------------------------------------------------------------------------

Truth within(std::string_view event, int length, Unit unit, std::string_view start)
{
    TinyCase tiny;
    tiny.start(start).answer("last_visit", on(event));
    return tiny.truth(tiny.within("last_visit", Exact{length}, unit));
}

TEST(Within, TheBoundaryDayIsInside)
{
    EXPECT_EQ(within("2026-12-18", 6, Unit::month, "2027-06-17T09:00"), Truth::yes);
    EXPECT_EQ(within("2026-12-17", 6, Unit::month, "2027-06-17T09:00"), Truth::yes);
    EXPECT_EQ(within("2026-12-16", 6, Unit::month, "2027-06-17T09:00"), Truth::no);
}

TEST(Within, AMonthEndIsClamped)
{
    EXPECT_EQ(within("2026-08-31", 6, Unit::month, "2027-02-28T09:00"), Truth::yes);
    EXPECT_EQ(within("2026-08-31", 6, Unit::month, "2027-03-01T09:00"), Truth::no);
    EXPECT_EQ(within("2027-08-31", 6, Unit::month, "2028-02-29T09:00"), Truth::yes);
    EXPECT_EQ(within("2027-08-31", 6, Unit::month, "2028-03-01T09:00"), Truth::no);
    EXPECT_EQ(within("2028-02-29", 1, Unit::year, "2029-02-28T09:00"), Truth::yes);
    EXPECT_EQ(within("2028-02-29", 1, Unit::year, "2029-03-01T09:00"), Truth::no);
}

TEST(Within, TheHourOfTheDayDoesNotCount)
{
    EXPECT_EQ(within("2027-06-10", 7, Unit::day, "2027-06-17T00:00"), Truth::yes);
    EXPECT_EQ(within("2027-06-10", 7, Unit::day, "2027-06-17T23:59"), Truth::yes);
    EXPECT_EQ(within("2027-06-09", 7, Unit::day, "2027-06-17T00:00"), Truth::no);
}

TEST(Within, AnEventOnOrAfterTheDayIsInside)
{
    EXPECT_EQ(within("2027-06-17", 7, Unit::day, "2027-06-17T09:00"), Truth::yes);
    EXPECT_EQ(within("2027-07-01", 7, Unit::day, "2027-06-17T09:00"), Truth::yes);
}

// --- counting, parameters, booking --------------------------------------------------------------------

TEST(AtLeastSoMany, CountsTrueOnesAndThoseThatMayBecomeTrue)
{
    TinyCase tiny;
    tiny.answer("a", yes()).answer("b", no());
    const auto of_three = [&](int count) {
        return tiny.truth(at_least(Exact{count}, {tiny.is("a"), tiny.is("b"), tiny.is("c")}));
    };
    EXPECT_EQ(of_three(0), Truth::yes);
    EXPECT_EQ(of_three(1), Truth::yes);
    EXPECT_EQ(of_three(2), Truth::open);
    EXPECT_EQ(of_three(3), Truth::no);
    EXPECT_THAT(names_of(tiny.judge(at_least(Exact{2}, {tiny.is("a"), tiny.is("b"), tiny.is("c")})).open_on),
                ElementsAre("c: not asked"));
    tiny.answer("c", yes());
    EXPECT_EQ(of_three(2), Truth::yes);
    tiny.answer("c", no());
    EXPECT_EQ(of_three(2), Truth::no);
}

TEST(AtLeastSoMany, TakesItsCountFromAParameter)
{
    TinyCase tiny;
    tiny.answer("a", yes()).answer("b", yes()).answer("c", no());
    const Condition rule = at_least(tiny.parameter("limit"), {tiny.is("a"), tiny.is("b"), tiny.is("c")});
    tiny.set_parameter("limit", Exact{2});
    EXPECT_EQ(tiny.truth(rule), Truth::yes);
    tiny.set_parameter("limit", Exact{3});
    EXPECT_EQ(tiny.truth(rule), Truth::no);
}

TEST(Parameters, AreLimitsJustBelowAtAndJustAbove)
{
    TinyCase tiny;
    tiny.answer("weight", number("100"));
    const Condition heavy = tiny.compares("weight", Operator::at_least, tiny.parameter("limit"));
    tiny.set_parameter("limit", num("99.9"));
    EXPECT_EQ(tiny.truth(heavy), Truth::yes);
    tiny.set_parameter("limit", Exact{100});
    EXPECT_EQ(tiny.truth(heavy), Truth::yes);
    tiny.set_parameter("limit", num("100.1"));
    EXPECT_EQ(tiny.truth(heavy), Truth::no);
}

TEST(Parameters, AreLengthsOfTimeToo)
{
    TinyCase tiny;
    tiny.answer("last_visit", on("2027-03-17"));
    const Condition recent = tiny.within("last_visit", tiny.parameter("limit"), Unit::month);
    tiny.set_parameter("limit", Exact{3});
    EXPECT_EQ(tiny.truth(recent), Truth::yes);
    tiny.set_parameter("limit", Exact{2});
    EXPECT_EQ(tiny.truth(recent), Truth::no);
}

TEST(Booking, TellsProcedureAndBleedingRisk)
{
    TinyCase tiny;
    const auto risk = [&](BleedingRisk asked) { return tiny.truth(leaf(BleedingRiskIs{asked})); };
    EXPECT_EQ(tiny.truth(tiny.includes("colonoscopy")), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.includes("upper_endoscopy")), Truth::no);
    EXPECT_EQ(risk(BleedingRisk::high), Truth::yes);
    tiny.procedures({"upper_endoscopy"});
    EXPECT_EQ(risk(BleedingRisk::low), Truth::yes);
    EXPECT_EQ(risk(BleedingRisk::high), Truth::no);
    tiny.procedures({"colonoscopy", "upper_endoscopy"});
    EXPECT_EQ(risk(BleedingRisk::high), Truth::yes) << "several in one session: the worse class";
}

TEST(Booking, OnlyTheEndoscopistsWordMakesAColonoscopyOneThatOnlyLooks)
{
    const auto risk = [](TinyCase tiny) { return tiny.assess().bleeding_risk; };
    EXPECT_EQ(risk(TinyCase{}), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", yes())), BleedingRisk::low);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", no())), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", does_not_know())), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", said(yes()).imported())), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", yes()).answer("diagnostic_only", said(no()).unseen())),
              BleedingRisk::high);
}

TEST(Booking, APreparationNobodyKnowsIsOpen)
{
    TinyCase tiny;
    EXPECT_EQ(tiny.truth(tiny.ordered({"polymer"})), Truth::open);
    EXPECT_THAT(names_of(tiny.judge(tiny.ordered({"polymer"})).open_on),
                ElementsAre("preparation ordered: not known what was ordered"));
    tiny.record.booking.ordered = find_preparation(tiny.rules.protocol, "salts");
    EXPECT_EQ(tiny.truth(tiny.ordered({"polymer"})), Truth::no);
    EXPECT_EQ(tiny.truth(tiny.ordered({"polymer", "salts"})), Truth::yes);
}

// --- the list of medicines ------------------------------------------------------------------------------

TEST(MedicineListIsClosedOnlyByAnAnswer, EmptyAndNotClosedIsOpen)
{
    TinyCase tiny;
    const Judged judged = tiny.judge(tiny.takes({"anticoagulant"}));
    EXPECT_EQ(judged.truth, Truth::open);
    EXPECT_THAT(names_of(judged.open_on), ElementsAre("medicine list: list not closed"));
}

TEST(MedicineListIsClosedOnlyByAnAnswer, EmptyAndClosedIsFalse)
{
    TinyCase tiny;
    tiny.close_list();
    const Judged judged = tiny.judge(tiny.takes({"anticoagulant"}));
    EXPECT_EQ(judged.truth, Truth::no);
    ASSERT_EQ(judged.because.size(), 1U);
    EXPECT_EQ(judged.because.front().what, "medicine list");
    EXPECT_EQ(judged.because.front().who, "Robin Example");
}

TEST(MedicineListIsClosedOnlyByAnAnswer, OneOfTheClassOnItIsTrueClosedOrNot)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"apixaban"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"nsaid"})), Truth::open);
    EXPECT_EQ(tiny.truth(tiny.takes({"warfarin"})), Truth::open);
    tiny.close_list();
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"nsaid"})), Truth::no);
    EXPECT_EQ(tiny.truth(tiny.takes({"warfarin"})), Truth::no);
    EXPECT_EQ(tiny.truth(tiny.takes({"nsaid", "apixaban"})), Truth::yes);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, ACombinationCountsForEachOfItsClasses)
{
    TinyCase tiny;
    tiny.take("m1", "pen");
    EXPECT_EQ(tiny.truth(tiny.takes({"glp1"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"insulin"})), Truth::yes);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, AnUnrecognisedEntryReadsAsAbsentOnAClosedList)
{
    TinyCase tiny;
    tiny.take("m1", "");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::open);
    tiny.close_list();
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no) << "it has a finding of its own";
    EXPECT_EQ(tiny.truth(leaf(RecordHas{RecordHas::What::unrecognised_medicine})), Truth::yes);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, AnImportThatAddsToItReopensIt)
{
    TinyCase tiny;
    tiny.close_list("2027-06-01T10:00");
    MedicineItem& imported = tiny.take("m1", "ibuprofen");
    imported.origin = Origin::import;
    imported.at = utc("2027-06-01T10:00");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no) << "it was there when the list was closed";
    imported.at = utc("2027-06-01T10:01");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::open);
    tiny.close_list("2027-06-01T11:00");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no) << "closed again in view of the import";
}

TEST(MedicineListIsClosedOnlyByAnAnswer, ALaterMedicineOfThePatientsOwnReopensNothing)
{
    TinyCase tiny;
    tiny.close_list("2027-06-01T10:00");
    tiny.take("m1", "ibuprofen").at = utc("2027-06-01T11:00");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, OlderThanAllowedIsOpenAgain)
{
    TinyCase tiny;
    tiny.set_parameter("list_closed_days", Exact{14});
    tiny.close_list("2027-06-01T12:00");
    const auto at = [&](std::string_view moment) {
        tiny.now = utc(moment);
        return tiny.truth(tiny.takes({"anticoagulant"}));
    };
    EXPECT_EQ(at("2027-06-15T11:59"), Truth::no);
    EXPECT_EQ(at("2027-06-15T12:00"), Truth::no);
    EXPECT_EQ(at("2027-06-15T12:01"), Truth::open);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, AnImportedMedicineWarnsAndNeverReassures)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban").origin = Origin::import;
    tiny.close_list();
    const Judged takes = tiny.judge(tiny.takes({"anticoagulant"}));
    EXPECT_EQ(takes.truth, Truth::yes);
    EXPECT_TRUE(takes.on_unconfirmed);
    EXPECT_THAT(names_of(takes.open_on), ElementsAre("medicine m1: unconfirmed"));
    EXPECT_EQ(tiny.truth(negated(tiny.takes({"anticoagulant"}))), Truth::open);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, TellsWhyItIsNotClosed)
{
    MedicineList list;
    const date::days thirty{30};
    EXPECT_EQ(list_state(list, utc("2027-06-01T12:00"), thirty), ListState::never_closed);
    list.closed = MedicineList::Closing{"Robin Example", utc("2027-06-01T12:00")};
    EXPECT_EQ(list_state(list, utc("2027-06-01T12:00"), thirty), ListState::closed);
    EXPECT_EQ(list_state(list, utc("2027-07-01T12:01"), thirty), ListState::older_than_allowed);
    MedicineItem imported;
    imported.origin = Origin::import;
    imported.at = utc("2027-06-02T12:00");
    list.items.push_back(imported);
    EXPECT_EQ(list_state(list, utc("2027-06-02T12:00"), thirty), ListState::reopened_by_import);
}

// --- what was compared, whether it mattered or not ----------------------------------------------------

TEST(Comparisons, AreAllGivenWhetherTheyMatteredOrNot)
{
    TinyCase tiny;
    tiny.answer("a", no()).answer("b", yes()).answer("c", said(yes()).imported()).answer("d", said(no()).imported());
    const Condition rule = all({tiny.is("a"), any({tiny.is("b"), tiny.is("c")}), negated(tiny.is("d")), tiny.is("e")});
    EXPECT_THAT(tiny.judge(rule).comparisons,
                ElementsAre(Truth::no, Truth::yes, Truth::yes, Truth::open, Truth::open));
}

TEST(FactsOfACondition, IncludeTheInputsOfItsCalculatorsOnceEachAscending)
{
    const TinyCase tiny;
    const Condition rule = any({tiny.is("e"), leaf(CalculatedCompares{Calculator::bmi, Operator::above, Exact{35}}),
                                negated(tiny.is("a")), tiny.is("e", false)});
    EXPECT_THAT(facts_in(rule, tiny.rules.protocol.calculators),
                ElementsAre(tiny.fact("a"), tiny.fact("e"), tiny.fact("height"), tiny.fact("weight")));
    EXPECT_EQ(comparisons_in(rule).size(), 4U);
    EXPECT_FALSE(looks_at_medicines(rule));
    EXPECT_TRUE(looks_at_medicines(negated(tiny.takes({"nsaid"}))));
}

TEST(Ground, SaysWhatWasSaidByWhomAndWhen)
{
    TinyCase tiny;
    Answer letter = said(on("2026-12-20")).in_a_letter("2027-01-10").answer;
    letter.who = "of the heart clinic";
    letter.words = "stent just before Christmas";
    tiny.answer("stent", yes()).answer("stent_date", Saying{letter});
    const Judged judged = tiny.judge(all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)}));
    EXPECT_THAT(judged.because,
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

TEST(EmptyGroups, AnEmptyAllIsYesAndAnEmptyAnyIsNo)
{
    const TinyCase tiny;
    EXPECT_EQ(tiny.truth(all({})), Truth::yes);
    EXPECT_EQ(tiny.truth(any({})), Truth::no);
}

}  // namespace
}  // namespace foreday::screening
