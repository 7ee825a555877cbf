#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <set>

#include "tests/screening/builders.h"
#include "tests/screening/naive_evaluator.h"

namespace foreday::screening {
namespace {

using namespace build;

// --- three-valued tables, after the logical and null-handling cases of the open CQL test suite
// (cqframework/cql-tests, Apache-2.0, commit 0666708); its `null` is our open --------------------------

constexpr Truth every_truth[] = {Truth::yes, Truth::no, Truth::open};

/// A case in which fact "a" reads as one truth and "b" as another.
TinyCase with(Truth a, Truth b = Truth::open)
{
    TinyCase tiny;
    for (const auto& [fact, truth] : {std::pair{"a", a}, std::pair{"b", b}}) {
        if (truth == Truth::open) {
            tiny.answer(fact, does_not_know());
        } else {
            tiny.answer(fact, truth == Truth::yes ? yes() : no());
        }
    }
    return tiny;
}

struct TwoOperands {
    Truth left;
    Truth right;
    Truth expected;
};

void expect_table(const TwoOperands (&rows)[9], const Condition& condition)
{
    for (const TwoOperands& row : rows) {
        EXPECT_EQ(with(row.left, row.right).truth(condition), row.expected)
            << ::testing::PrintToString(row.left) << ", " << ::testing::PrintToString(row.right);
    }
}

TEST(ThreeValued, And)
{
    constexpr TwoOperands rows[] = {
        {Truth::yes, Truth::yes, Truth::yes},   {Truth::yes, Truth::no, Truth::no},
        {Truth::yes, Truth::open, Truth::open}, {Truth::no, Truth::yes, Truth::no},
        {Truth::no, Truth::no, Truth::no},      {Truth::no, Truth::open, Truth::no},
        {Truth::open, Truth::yes, Truth::open}, {Truth::open, Truth::no, Truth::no},
        {Truth::open, Truth::open, Truth::open}};
    const TinyCase tiny;
    expect_table(rows, all({tiny.is("a"), tiny.is("b")}));
    expect_table(rows, at_least(Exact{2}, {tiny.is("a"), tiny.is("b")}));
    expect_table(rows, negated(any({negated(tiny.is("a")), negated(tiny.is("b"))})));
}

TEST(ThreeValued, Or)
{
    constexpr TwoOperands rows[] = {
        {Truth::yes, Truth::yes, Truth::yes},   {Truth::yes, Truth::no, Truth::yes},
        {Truth::yes, Truth::open, Truth::yes},  {Truth::no, Truth::yes, Truth::yes},
        {Truth::no, Truth::no, Truth::no},      {Truth::no, Truth::open, Truth::open},
        {Truth::open, Truth::yes, Truth::yes},  {Truth::open, Truth::no, Truth::open},
        {Truth::open, Truth::open, Truth::open}};
    const TinyCase tiny;
    expect_table(rows, any({tiny.is("a"), tiny.is("b")}));
    expect_table(rows, at_least(Exact{1}, {tiny.is("a"), tiny.is("b")}));
    expect_table(rows, negated(all({negated(tiny.is("a")), negated(tiny.is("b"))})));
}

TEST(ThreeValued, Implies)
{
    constexpr TwoOperands rows[] = {
        {Truth::yes, Truth::yes, Truth::yes},   {Truth::yes, Truth::no, Truth::no},
        {Truth::yes, Truth::open, Truth::open}, {Truth::no, Truth::yes, Truth::yes},
        {Truth::no, Truth::no, Truth::yes},     {Truth::no, Truth::open, Truth::yes},
        {Truth::open, Truth::yes, Truth::yes},  {Truth::open, Truth::no, Truth::open},
        {Truth::open, Truth::open, Truth::open}};
    const TinyCase tiny;
    expect_table(rows, any({negated(tiny.is("a")), tiny.is("b")}));
}

TEST(ThreeValued, Xor)
{
    constexpr TwoOperands rows[] = {
        {Truth::yes, Truth::yes, Truth::no},    {Truth::yes, Truth::no, Truth::yes},
        {Truth::yes, Truth::open, Truth::open}, {Truth::no, Truth::yes, Truth::yes},
        {Truth::no, Truth::no, Truth::no},      {Truth::no, Truth::open, Truth::open},
        {Truth::open, Truth::yes, Truth::open}, {Truth::open, Truth::no, Truth::open},
        {Truth::open, Truth::open, Truth::open}};
    const TinyCase tiny;
    const auto a = tiny.is("a");
    const auto b = tiny.is("b");
    expect_table(rows, any({all({a, negated(b)}), all({negated(a), b})}));
}

TEST(ThreeValued, Not)
{
    const TinyCase tiny;
    EXPECT_EQ(with(Truth::yes).truth(negated(tiny.is("a"))), Truth::no);
    EXPECT_EQ(with(Truth::no).truth(negated(tiny.is("a"))), Truth::yes);
    EXPECT_EQ(with(Truth::open).truth(negated(tiny.is("a"))), Truth::open);
    for (const Truth truth : every_truth) {
        EXPECT_EQ(with(truth).truth(negated(negated(tiny.is("a")))), truth);
    }
}

TEST(ThreeValued, IsTrueAndIsFalseAreNotTrueOfWhatIsOpen)
{
    // The suite's IsTrue and IsFalse turn null into false. We have no such test: open stays open.
    const TinyCase tiny;
    EXPECT_EQ(with(Truth::yes).truth(tiny.is("a", true)), Truth::yes);
    EXPECT_EQ(with(Truth::no).truth(tiny.is("a", true)), Truth::no);
    EXPECT_EQ(with(Truth::no).truth(tiny.is("a", false)), Truth::yes);
    EXPECT_EQ(with(Truth::yes).truth(tiny.is("a", false)), Truth::no);
    EXPECT_EQ(with(Truth::open).truth(tiny.is("a", true)), Truth::open);
    EXPECT_EQ(with(Truth::open).truth(tiny.is("a", false)), Truth::open);
}

TEST(ThreeValued, TheThreeWordsOfTheLogicAreThoseOfTheTables)
{
    for (const Truth a : every_truth) {
        EXPECT_EQ(negate(negate(a)), a);
        for (const Truth b : every_truth) {
            const TinyCase tiny = with(a, b);
            EXPECT_EQ(both(a, b), tiny.truth(all({tiny.is("a"), tiny.is("b")})));
            EXPECT_EQ(either(a, b), tiny.truth(any({tiny.is("a"), tiny.is("b")})));
        }
    }
}

// --- against a second evaluator, written from the words of the design alone ---------------------------

class RandomCases {
public:
    explicit RandomCases(std::uint32_t seed) : random_(seed) {}

    [[nodiscard]] int up_to(int highest) { return std::uniform_int_distribution<int>{0, highest}(random_); }

    /// A fact in any of its states, from any origin.
    void answer_at_random(TinyCase& tiny, std::string_view fact)
    {
        const int how = up_to(9);
        if (how == 0) {
            return;  // not asked
        }
        if (how == 1) {
            tiny.answer(fact, does_not_know());
            return;
        }
        Saying first = said(value_of(tiny, fact));
        if (how == 2) {
            first = first.imported();
        } else if (how == 3) {
            first = first.in_an_earlier_case();
        }
        tiny.answer(fact, first);
        if (how == 4) {
            tiny.answer(fact, said(value_of(tiny, fact)).unseen());
        } else if (how == 5) {
            tiny.answer(fact, does_not_know().unseen());
        }
    }

    TinyCase tiny_case()
    {
        TinyCase tiny;
        for (const char* fact : facts) {
            answer_at_random(tiny, fact);
        }
        if (up_to(2) == 0) {
            tiny.take("m1", up_to(1) == 0 ? "apixaban" : "ibuprofen").origin =
                up_to(1) == 0 ? Origin::this_case : Origin::import;
        }
        if (up_to(1) == 0) {
            tiny.close_list();
        }
        return tiny;
    }

    Condition condition(const TinyCase& tiny, int depth)
    {
        const int kind = depth == 0 ? 0 : up_to(7);
        if (kind < 3) {
            return comparison(tiny);
        }
        if (kind == 3) {
            return negated(condition(tiny, depth - 1));
        }
        std::vector<Condition> children;
        const int count = up_to(4);
        children.reserve(static_cast<std::size_t>(count));
        for (int i = 0; i < count; ++i) {
            children.push_back(condition(tiny, depth - 1));
        }
        if (kind == 4) {
            return at_least(Exact{up_to(3)}, std::move(children));
        }
        return up_to(1) == 0 ? all(std::move(children)) : any(std::move(children));
    }

    /// The same condition with every group's children in another order.
    Condition shuffled(Condition condition)
    {
        std::ranges::shuffle(condition.children, random_);
        for (Condition& child : condition.children) {
            child = shuffled(std::move(child));
        }
        return condition;
    }

private:
    static constexpr const char* facts[] = {"a",   "b",     "c",          "last_visit",
                                            "sex", "stent", "stent_date", "weight"};

    Value value_of(const TinyCase& tiny, std::string_view fact)
    {
        if (fact == "weight") {
            const int lowest = up_to(4);
            return NumberInterval{Exact{lowest}, Exact{lowest + (up_to(2) == 0 ? up_to(3) : 0)}};
        }
        if (fact == "last_visit" || fact == "stent_date") {
            const Date earliest = day("2026-12-10") + date::days{up_to(14)};
            return DateInterval{earliest, earliest + date::days{up_to(2) == 0 ? up_to(10) : 0}};
        }
        if (fact == "sex") {
            constexpr const char* choices[] = {"female", "male", "other"};
            return tiny.choice("sex", choices[up_to(2)]);
        }
        return up_to(1) == 0 ? yes() : no();
    }

    Condition comparison(const TinyCase& tiny)
    {
        switch (up_to(8)) {
            case 0:
                return tiny.is("a", up_to(1) == 0);
            case 1:
                return tiny.is("b", up_to(1) == 0);
            case 2:
                return tiny.is("c");
            case 3:
                return tiny.compares("weight", static_cast<Operator>(up_to(4)), Exact{up_to(6)});
            case 4:
                return tiny.within("last_visit", Exact{6}, Unit::month);
            case 5:
                return all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)});
            case 6:
                return tiny.chosen("sex", {"female", "other"});
            case 7:
                return tiny.takes({"anticoagulant"});
            default:
                return leaf(BleedingRiskIs{up_to(1) == 0 ? BleedingRisk::low : BleedingRisk::high});
        }
    }

    std::mt19937 random_;
};

std::set<std::string> facts_named(const Judged& judged)
{
    std::set<std::string> names;
    for (const OpenOn& open : judged.open_on) {
        names.insert(open.fact);
    }
    return names;
}

constexpr std::uint32_t seed = 20270617;

TEST(SecondEvaluator, AgreesOnTwentyThousandConditionsOnTruthMarkAndFactsNamed)
{
    RecordProperty("seed", static_cast<int>(seed));
    fmt::print("seed {}\n", seed);
    RandomCases random(seed);
    std::map<Truth, int> seen;
    int marked = 0;
    for (int round = 0; round < 20000; ++round) {
        const TinyCase tiny = random.tiny_case();
        const Condition condition = random.condition(tiny, 3);
        const Judged ours = tiny.judge(condition);
        const NaiveAnswer naive = evaluate_naively(tiny, condition);
        ASSERT_EQ(ours.truth, naive.truth) << "round " << round;
        ASSERT_EQ(ours.on_unconfirmed, naive.on_unconfirmed) << "round " << round;
        ASSERT_EQ(facts_named(ours), naive.open_on) << "round " << round;
        ++seen[ours.truth];
        marked += ours.on_unconfirmed ? 1 : 0;
    }
    // Random conditions that all came out alike would prove nothing.
    EXPECT_GT(seen[Truth::yes], 2000);
    EXPECT_GT(seen[Truth::no], 2000);
    EXPECT_GT(seen[Truth::open], 2000);
    EXPECT_GT(marked, 500);
}

TEST(SecondEvaluator, ShufflingChildrenChangesNeitherTruthNorGroundNorFactsNamed)
{
    fmt::print("seed {}\n", seed + 1);
    RandomCases random(seed + 1);
    int with_ground = 0;
    int with_open = 0;
    for (int round = 0; round < 20000; ++round) {
        const TinyCase tiny = random.tiny_case();
        const Condition condition = random.condition(tiny, 3);
        const Judged before = tiny.judge(condition);
        const Judged after = tiny.judge(random.shuffled(condition));
        ASSERT_EQ(before.truth, after.truth) << "round " << round;
        ASSERT_EQ(before.on_unconfirmed, after.on_unconfirmed) << "round " << round;
        ASSERT_EQ(before.because, after.because) << "round " << round;
        ASSERT_EQ(before.open_on, after.open_on) << "round " << round;
        with_ground += before.because.empty() ? 0 : 1;
        with_open += before.open_on.empty() ? 0 : 1;
    }
    EXPECT_GT(with_ground, 2000);
    EXPECT_GT(with_open, 2000);
}

TEST(SecondEvaluator, AnOpenConditionAlwaysNamesSomething)
{
    RandomCases random(seed + 2);
    for (int round = 0; round < 5000; ++round) {
        const TinyCase tiny = random.tiny_case();
        const Judged judged = tiny.judge(random.condition(tiny, 3));
        if (judged.truth == Truth::open) {
            ASSERT_FALSE(judged.open_on.empty()) << "round " << round;
        }
    }
}

}  // namespace
}  // namespace foreday::screening
