#include <benchmark/benchmark.h>

#include "screening/judge.h"
#include "tests/bench/neutral_rules.h"

/// How long the three-valued conditions of Foreday take for what a flat two-valued table does; both must
/// give the same answers. The ratio of the two is the figure to quote.
namespace foreday::bench {
namespace {

using namespace screening;  // NOLINT(google-build-using-namespace): the names of the engine under measure

constexpr Moment noon{std::chrono::seconds{1'807'000'000}};

Exact exact(const std::string& text)
{
    return Exact::parse(text).value();
}

std::uint32_t letter(const std::string& text)
{
    return static_cast<std::uint32_t>(text.at(1) - 'a');
}

FactDefinition fact_for(const std::string& name, FieldKind kind)
{
    FactDefinition fact;
    fact.id = name;
    fact.type = kind == FieldKind::number   ? FactType::number
                : kind == FieldKind::yes_no ? FactType::yes_no
                                            : FactType::choice;
    if (kind == FieldKind::choice) {
        fact.choices = {"va", "vb", "vc", "vd", "ve"};
    }
    return fact;
}

Operator op_for(const std::string& op)
{
    if (op == "<") {
        return Operator::below;
    }
    if (op == "<=") {
        return Operator::at_most;
    }
    return op == ">" ? Operator::above : Operator::at_least;
}

Condition condition_for(const NeutralTest& test, FieldKind kind)
{
    Condition condition;
    condition.kind = Condition::Kind::compare;
    const auto fact = static_cast<FactIndex>(test.field);
    if (kind == FieldKind::number) {
        condition.comparison = FactCompares{fact, op_for(test.op), exact(test.values.front())};
    } else if (kind == FieldKind::yes_no) {
        condition.comparison = FactIs{fact, test.values.front() == "true"};
    } else {
        FactIsOneOf one_of{fact, {}};
        for (const std::string& value : test.values) {
            one_of.choices.push_back(letter(value));
        }
        std::ranges::sort(one_of.choices);
        condition.comparison = one_of;
    }
    return condition;
}

/// The neutral set as a protocol of our own and one record a case.
struct Ours {
    Rules rules;
    std::vector<Condition> conditions;
    std::vector<CaseRecord> records;

    explicit Ours(const NeutralSet& set)
    {
        for (std::size_t field = 0; field < set.names.size(); ++field) {
            rules.protocol.facts.push_back(fact_for(set.names[field], set.kinds[field]));
        }
        // A yes/no fact stands in for what the program itself looks at.
        for (FactIndex field = 0; field < set.kinds.size(); ++field) {
            if (set.kinds[field] == FieldKind::yes_no) {
                rules.protocol.diagnostic_only_fact = field;
            }
        }
        rules.protocol.parameters.emplace_back();
        rules.policy.parameters.emplace_back(Exact{1});
        rules.zone.transitions.push_back({Moment{}, std::chrono::seconds{0}});
        for (const NeutralRule& rule : set.rules) {
            Condition all;
            for (const NeutralTest& test : rule) {
                all.children.push_back(condition_for(test, set.kinds[test.field]));
            }
            conditions.push_back(std::move(all));
        }
        for (const NeutralCase& one : set.cases) {
            records.push_back(record_for(set, one));
        }
    }

    static CaseRecord record_for(const NeutralSet& set, const NeutralCase& one)
    {
        CaseRecord record;
        record.answers.resize(one.size());
        for (std::size_t field = 0; field < one.size(); ++field) {
            if (one[field].empty()) {
                continue;
            }
            Answer answer;
            answer.at = noon;
            if (set.kinds[field] == FieldKind::number) {
                answer.value = NumberInterval{exact(one[field]), exact(one[field])};
            } else if (set.kinds[field] == FieldKind::yes_no) {
                answer.value = one[field] == "true";
            } else {
                answer.value = Choice{letter(one[field])};
            }
            record.answers[field].push_back(std::move(answer));
        }
        return record;
    }
};

std::vector<std::uint8_t> matrix_for(const NeutralSet& set)
{
    return std::vector<std::uint8_t>(set.rules.size() * set.cases.size());
}

void check(benchmark::State& state, const std::vector<std::uint8_t>& matrix)
{
    if (!(agreement_of(matrix) == expected_agreement())) {
        state.SkipWithError("the answers differ from tests/bench/neutral/expected.txt");
    }
}

void yardstick(benchmark::State& state)
{
    const NeutralSet set = read_neutral_set();
    const FlatYardstick flat(set);
    auto matrix = matrix_for(set);
    for (auto _ : state) {
        flat.run(matrix);
        benchmark::DoNotOptimize(matrix.data());
    }
    check(state, matrix);
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(matrix.size()));
}

void conditions(benchmark::State& state)
{
    const NeutralSet set = read_neutral_set();
    const Ours ours(set);
    std::vector<Judge> judges;
    judges.reserve(ours.records.size());
    for (const CaseRecord& record : ours.records) {
        judges.emplace_back(ours.rules, record, noon);
    }
    auto matrix = matrix_for(set);
    for (auto _ : state) {
        std::size_t place = 0;
        for (const Judge& judge : judges) {
            for (const Condition& condition : ours.conditions) {
                matrix[place++] = judge.truth(condition) == Truth::yes ? 1 : 0;
            }
        }
        benchmark::DoNotOptimize(matrix.data());
    }
    check(state, matrix);
    state.SetItemsProcessed(state.iterations() * static_cast<std::int64_t>(matrix.size()));
}

BENCHMARK(yardstick)->Unit(benchmark::kMillisecond);
BENCHMARK(conditions)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace foreday::bench
