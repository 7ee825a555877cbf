#include "screening/condition.h"

#include <algorithm>
#include <array>

namespace foreday::screening {
namespace {

struct FactsOf {
    const CalculatorBinding& binding;
    std::vector<FactIndex>& facts;

    void operator()(const FactIs& c) const { facts.push_back(c.fact); }
    void operator()(const FactIsOneOf& c) const { facts.push_back(c.fact); }
    void operator()(const FactCompares& c) const { facts.push_back(c.fact); }
    void operator()(const FactWithin& c) const { facts.push_back(c.fact); }
    void operator()(const CalculatedCompares& c) const
    {
        for (const CalculatorInput input : inputs_of(c.calculator)) {
            if (const auto& fact = binding.facts[static_cast<std::size_t>(input)]) {
                facts.push_back(*fact);
            }
        }
    }
    void operator()(const TakesMedicine&) const {}
    void operator()(const ProcedureIncludes&) const {}
    void operator()(const BleedingRiskIs&) const {}
    void operator()(const PreparationOrdered&) const {}
    void operator()(const RecordHas&) const {}
};

void collect(const Condition& condition, std::vector<const Comparison*>& comparisons)
{
    if (condition.kind == Condition::Kind::compare) {
        comparisons.push_back(&condition.comparison);
    }
    for (const Condition& child : condition.children) {
        collect(child, comparisons);
    }
}

}  // namespace

std::vector<FactIndex> facts_in(const Condition& condition, const CalculatorBinding& binding)
{
    std::vector<FactIndex> facts;
    for (const Comparison* comparison : comparisons_in(condition)) {
        std::visit(FactsOf{binding, facts}, *comparison);
    }
    std::ranges::sort(facts);
    facts.erase(std::ranges::unique(facts).begin(), facts.end());
    return facts;
}

std::vector<const Comparison*> comparisons_in(const Condition& condition)
{
    std::vector<const Comparison*> comparisons;
    collect(condition, comparisons);
    return comparisons;
}

bool looks_at_medicines(const Condition& condition)
{
    return std::ranges::any_of(comparisons_in(condition), [](const Comparison* comparison) {
        return std::holds_alternative<TakesMedicine>(*comparison);
    });
}

std::string_view words_for(Operator op)
{
    constexpr std::array<std::string_view, 5> words{"below", "at most", "exactly", "at least", "above"};
    return words.at(static_cast<std::size_t>(op));
}

bool holds(const Exact& value, Operator op, const Exact& limit)
{
    switch (op) {
        case Operator::below:
            return value < limit;
        case Operator::at_most:
            return value <= limit;
        case Operator::equals:
            return value == limit;
        case Operator::at_least:
            return value >= limit;
        case Operator::above:
            return value > limit;
    }
    return false;
}

std::optional<RecordHas::What> record_test(const Condition& condition)
{
    for (const Comparison* comparison : comparisons_in(condition)) {
        if (const auto* test = std::get_if<RecordHas>(comparison)) {
            return test->what;
        }
    }
    return std::nullopt;
}

}  // namespace foreday::screening
