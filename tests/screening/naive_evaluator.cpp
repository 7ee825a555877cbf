#include "tests/screening/naive_evaluator.h"

#include <algorithm>
#include <map>
#include <stdexcept>

namespace foreday::screening::build {
namespace {

/// One possible reading: a value for each fact that has one, and whether medicines that nobody has
/// confirmed count.
struct World {
    std::map<FactIndex, Value> values;
    bool imports_count = true;
};

class Naive {
public:
    explicit Naive(const TinyCase& tiny) : tiny_(tiny) {}

    /// Kleene: true is 2, open is 1, false is 0.
    [[nodiscard]] int ask(const Condition& condition, const World& world) const
    {
        if (condition.kind == Condition::Kind::compare) {
            return compare(condition.comparison, world);
        }
        std::vector<int> answers;
        answers.reserve(condition.children.size());
        for (const Condition& child : condition.children) {
            answers.push_back(ask(child, world));
        }
        std::ranges::sort(answers);
        switch (condition.kind) {
            case Condition::Kind::all:
                return answers.empty() ? 2 : answers.front();
            case Condition::Kind::any:
                return answers.empty() ? 0 : answers.back();
            case Condition::Kind::negation:
                return 2 - answers.front();
            default: {
                // The count-th largest answer is what "at least count of them" comes to.
                const auto count = static_cast<std::size_t>(std::get<Exact>(condition.count).floor());
                if (count == 0) {
                    return 2;
                }
                return count > answers.size() ? 0 : answers[answers.size() - count];
            }
        }
    }

    void name_open(const Condition& condition, const World& world, std::set<std::string>& names) const
    {
        if (ask(condition, world) != 1) {
            return;
        }
        for (const Condition& child : condition.children) {
            name_open(child, world, names);
        }
        if (condition.kind == Condition::Kind::compare) {
            name_open_comparison(condition.comparison, names);
        }
    }

    /// Pass 1: as given, every combination of values in conflict.
    [[nodiscard]] std::vector<World> as_given() const
    {
        std::vector<World> worlds(1);
        for (FactIndex fact = 0; fact < tiny_.rules.protocol.facts.size(); ++fact) {
            std::vector<World> more;
            for (const World& world : worlds) {
                for (const Value& value : values_of(fact)) {
                    more.push_back(world);
                    more.back().values[fact] = value;
                }
            }
            if (!more.empty()) {
                worlds = std::move(more);
            }
        }
        return worlds;
    }

    /// Pass 2: what is unconfirmed or in conflict is open.
    [[nodiscard]] World confirmed() const
    {
        World world;
        world.imports_count = false;
        for (FactIndex fact = 0; fact < tiny_.rules.protocol.facts.size(); ++fact) {
            const auto& answers = tiny_.record.answers.at(fact);
            const auto values = values_of(fact);
            const bool confirmed = std::ranges::all_of(
                answers, [](const Answer& one) { return one.origin == Origin::this_case && one.value; });
            if (values.size() == 1 && confirmed) {
                world.values[fact] = values.front();
            }
        }
        return world;
    }

private:
    /// The random cases give one answer, or a second one that is unseen and of the same strength.
    [[nodiscard]] std::vector<Value> values_of(FactIndex fact) const
    {
        const FactDefinition& definition = tiny_.rules.protocol.facts.at(fact);
        std::vector<Value> values;
        if (definition.asked_when && !may_apply(*definition.asked_when)) {
            return values;
        }
        for (const Answer& one : tiny_.record.answers.at(fact)) {
            if (one.value && (values.empty() || differ(values.front(), *one.value, definition.tolerance))) {
                values.push_back(*one.value);
            }
        }
        return values;
    }

    /// The one gate of the tiny protocol is a yes/no fact: it is shut by a confirmed no alone.
    [[nodiscard]] bool may_apply(const Condition& gate) const
    {
        const auto& answers = tiny_.record.answers.at(std::get<FactIs>(gate.comparison).fact);
        return answers.empty() || std::ranges::any_of(answers, [](const Answer& one) {
                   return !one.value || one.origin != Origin::this_case || std::get<bool>(*one.value);
               });
    }

    [[nodiscard]] const Value* value(FactIndex fact, const World& world) const
    {
        const auto found = world.values.find(fact);
        return found == world.values.end() ? nullptr : &found->second;
    }

    [[nodiscard]] int compare(const Comparison& comparison, const World& world) const
    {
        if (const auto* c = std::get_if<FactIs>(&comparison)) {
            const Value* known = value(c->fact, world);
            return known == nullptr ? 1 : (std::get<bool>(*known) == c->value ? 2 : 0);
        }
        if (const auto* c = std::get_if<FactIsOneOf>(&comparison)) {
            const Value* known = value(c->fact, world);
            return known == nullptr
                       ? 1
                       : (std::ranges::count(c->choices, std::get<Choice>(*known).place) > 0 ? 2 : 0);
        }
        if (const auto* c = std::get_if<FactCompares>(&comparison)) {
            const Value* known = value(c->fact, world);
            return known == nullptr
                       ? 1
                       : compare_every(std::get<NumberInterval>(*known), c->op, std::get<Exact>(c->limit));
        }
        if (const auto* c = std::get_if<FactWithin>(&comparison)) {
            const Value* known = value(c->fact, world);
            return known == nullptr ? 1 : within_every(std::get<DateInterval>(*known));
        }
        if (const auto* c = std::get_if<TakesMedicine>(&comparison)) {
            return on_list(*c, world);
        }
        if (const auto* c = std::get_if<BleedingRiskIs>(&comparison)) {
            return c->risk == BleedingRisk::high ? 2
                                                 : 0;  // always a colonoscopy, nobody has said it only looks
        }
        throw std::invalid_argument("the naive evaluator does not know this comparison");
    }

    /// Tries every tenth between the ends: true for all, for none, or open.
    [[nodiscard]] static int compare_every(const NumberInterval& interval, Operator op, const Exact& limit)
    {
        int yes = 0;
        int no = 0;
        for (Exact at = interval.lowest; at <= interval.highest; at = at + Exact::ratio(1, 10)) {
            const bool holds = op == Operator::below      ? at < limit
                               : op == Operator::at_most  ? !(at > limit)
                               : op == Operator::equals   ? at == limit
                               : op == Operator::at_least ? !(at < limit)
                                                          : at > limit;
            ++(holds ? yes : no);
        }
        return yes == 0 ? 0 : (no == 0 ? 2 : 1);
    }

    /// Six calendar months before 17 June 2027, the boundary day inside: from 17 December 2026 on.
    [[nodiscard]] static int within_every(const DateInterval& interval)
    {
        int yes = 0;
        int no = 0;
        for (Date at = interval.lowest; at <= interval.highest; at += date::days{1}) {
            ++(at >= day("2026-12-17") ? yes : no);
        }
        return yes == 0 ? 0 : (no == 0 ? 2 : 1);
    }

    [[nodiscard]] bool asks_for(const TakesMedicine& asked, const MedicineItem& item) const
    {
        const auto& classes = tiny_.rules.protocol.medicines.at(*item.medicine).classes;
        return std::ranges::count(asked.medicines, *item.medicine) > 0 ||
               std::ranges::any_of(
                   classes, [&](ClassIndex one) { return std::ranges::count(asked.classes, one) > 0; });
    }

    [[nodiscard]] int on_list(const TakesMedicine& asked, const World& world) const
    {
        int answer = tiny_.record.medicines.closed ? 0 : 1;
        for (const MedicineItem& item : tiny_.record.medicines.items) {
            if (asks_for(asked, item)) {
                answer = std::max(answer, item.origin == Origin::this_case || world.imports_count ? 2 : 1);
            }
        }
        return answer;
    }

    void name_open_comparison(const Comparison& comparison, std::set<std::string>& names) const
    {
        if (const auto* asked = std::get_if<TakesMedicine>(&comparison)) {
            for (const MedicineItem& item : tiny_.record.medicines.items) {
                if (asks_for(*asked, item)) {
                    names.insert("medicine " + item.id);
                }
            }
            if (!tiny_.record.medicines.closed) {
                names.insert("medicine list");
            }
            return;
        }
        for (const FactIndex fact : facts_in(leaf(comparison), tiny_.rules.protocol.calculators)) {
            const FactDefinition& definition = tiny_.rules.protocol.facts.at(fact);
            if (definition.asked_when && !gate_is_surely_open(*definition.asked_when) &&
                tiny_.record.answers.at(fact).empty()) {
                // Its question may not apply: the gate is asked first, and is named here or beside it.
                names.insert(
                    tiny_.rules.protocol.facts.at(std::get<FactIs>(definition.asked_when->comparison).fact)
                        .id);
            } else {
                names.insert(definition.id);
            }
        }
    }

    /// A yes given by anyone is enough to ask the question.
    [[nodiscard]] bool gate_is_surely_open(const Condition& gate) const
    {
        return std::ranges::any_of(tiny_.record.answers.at(std::get<FactIs>(gate.comparison).fact),
                                   [](const Answer& one) { return one.value && std::get<bool>(*one.value); });
    }

    const TinyCase& tiny_;
};

}  // namespace

NaiveAnswer evaluate_naively(const TinyCase& tiny, const Condition& condition)
{
    const Naive naive(tiny);
    const World confirmed = naive.confirmed();
    const int sure = naive.ask(condition, confirmed);
    NaiveAnswer answer;
    const auto worlds = naive.as_given();
    const bool fires =
        std::ranges::any_of(worlds, [&](const World& world) { return naive.ask(condition, world) == 2; });
    answer.truth = fires ? Truth::yes : (sure == 0 ? Truth::no : Truth::open);
    answer.on_unconfirmed = fires && sure == 1;
    if (answer.truth == Truth::open || answer.on_unconfirmed) {
        naive.name_open(condition, confirmed, answer.open_on);
    }
    return answer;
}

}  // namespace foreday::screening::build
