#include "screening/condition.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

// --- every state of a fact against every kind of comparison

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
    return {
        {"is yes", "a", tiny.is("a"), yes(), no()},
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
    const Judged judged =
        tiny.judge(leaf(CalculatedCompares{Calculator::ckd_epi, Operator::below, Exact{30}}));
    EXPECT_EQ(judged.truth, Truth::open);
    EXPECT_THAT(names_of(judged.open_on), ElementsAre("e: not asked"))
        << "an open rule always names what would settle it";
}

// --- intervals

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
    EXPECT_EQ(tiny.truth(recent), Truth::open)
        << "from 1 September for one of the first, to the 30th for one of the 31st";
    tiny.start("2027-10-01T09:00");
    EXPECT_EQ(tiny.truth(recent), Truth::no);
    tiny.start("2027-09-30T09:00");
    EXPECT_EQ(tiny.truth(recent), Truth::open)
        << "31 March and six months are 30 September, the boundary day inside";
}

// --- within

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

// --- counting, parameters, booking

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
    const auto risk = [](const TinyCase& tiny) { return tiny.assess().bleeding_risk; };
    EXPECT_EQ(risk(TinyCase{}), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", yes())), BleedingRisk::low);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", no())), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", does_not_know())), BleedingRisk::high);
    EXPECT_EQ(risk(TinyCase{}.answer("diagnostic_only", said(yes()).imported())), BleedingRisk::high);
    EXPECT_EQ(
        risk(TinyCase{}.answer("diagnostic_only", yes()).answer("diagnostic_only", said(no()).unseen())),
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

// --- the condition itself

TEST(FactsOfACondition, IncludeTheInputsOfItsCalculatorsOnceEachAscending)
{
    const TinyCase tiny;
    const Condition rule =
        any({tiny.is("e"), leaf(CalculatedCompares{Calculator::bmi, Operator::above, Exact{35}}),
             negated(tiny.is("a")), tiny.is("e", false)});
    EXPECT_THAT(facts_in(rule, tiny.rules.protocol.calculators),
                ElementsAre(tiny.fact("a"), tiny.fact("e"), tiny.fact("height"), tiny.fact("weight")));
    EXPECT_EQ(comparisons_in(rule).size(), 4U);
    EXPECT_FALSE(looks_at_medicines(rule));
    EXPECT_TRUE(looks_at_medicines(negated(tiny.takes({"nsaid"}))));
}

TEST(EmptyGroups, AnEmptyAllIsYesAndAnEmptyAnyIsNo)
{
    const TinyCase tiny;
    EXPECT_EQ(tiny.truth(all({})), Truth::yes);
    EXPECT_EQ(tiny.truth(any({})), Truth::no);
}

}  // namespace
}  // namespace foreday::screening
