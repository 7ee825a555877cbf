#include "screening/condition_walk.h"

#include <algorithm>

#include "screening/calculator_words.h"

namespace foreday::screening {
namespace {

Truth over_interval(bool at_lowest, bool at_highest)
{
    return at_lowest == at_highest ? from_bool(at_lowest) : Truth::open;
}

/// Whether the procedure still lies within so long after the event, the boundary day inside.
bool within(Date event, int length, Unit unit, Date procedure)
{
    constexpr int months_a_year = 12;
    constexpr int days_a_week = 7;
    switch (unit) {
        case Unit::month:
            return procedure <= add_months(event, length);
        case Unit::year:
            return procedure <= add_months(event, length * months_a_year);
        case Unit::week:
            return procedure <= event + date::days{length * days_a_week};
        default:
            return procedure <= event + date::days{length};
    }
}

}  // namespace

Truth ConditionWalk::truth(const Condition& condition, std::vector<Truth>* outcomes) const
{
    switch (condition.kind) {
        case Condition::Kind::compare: {
            const Truth outcome = compare(condition.comparison);
            if (outcomes != nullptr) {
                outcomes->push_back(outcome);
            }
            return outcome;
        }
        case Condition::Kind::all: {
            Truth result = Truth::yes;
            for (const Condition& child : condition.children) {
                result = both(result, truth(child, outcomes));
            }
            return result;
        }
        case Condition::Kind::any: {
            Truth result = Truth::no;
            for (const Condition& child : condition.children) {
                result = either(result, truth(child, outcomes));
            }
            return result;
        }
        case Condition::Kind::negation:
            return negate(truth(condition.children.front(), outcomes));
        case Condition::Kind::at_least: {
            std::int64_t sure = 0;
            std::int64_t possible = 0;
            for (const Condition& child : condition.children) {
                const Truth one = truth(child, outcomes);
                sure += one == Truth::yes ? 1 : 0;
                possible += one != Truth::no ? 1 : 0;
            }
            const Exact wanted = number_of(condition.count, judge_.rules_.policy);
            if (Exact{sure} >= wanted) {
                return Truth::yes;
            }
            return Exact{possible} >= wanted ? Truth::open : Truth::no;
        }
    }
    return Truth::open;
}

Truth ConditionWalk::compare(const Comparison& comparison) const
{
    return std::visit([this](const auto& one) { return of(one); }, comparison);
}

Truth ConditionWalk::of(const FactIs& c) const
{
    const Value* value = judge_.value_of(c.fact, scenario_);
    return value == nullptr ? Truth::open : from_bool(std::get<bool>(*value) == c.value);
}

Truth ConditionWalk::of(const FactIsOneOf& c) const
{
    const Value* value = judge_.value_of(c.fact, scenario_);
    return value == nullptr
               ? Truth::open
               : from_bool(std::ranges::binary_search(c.choices, std::get<Choice>(*value).place));
}

Truth ConditionWalk::compare_number(const NumberInterval& value, Operator op, const Limit& limit) const
{
    const Exact number = number_of(limit, judge_.rules_.policy);
    if (op == Operator::equals && !value.exact()) {
        const bool possible = value.lowest <= number && number <= value.highest;
        return possible ? Truth::open : Truth::no;
    }
    return over_interval(holds(value.lowest, op, number), holds(value.highest, op, number));
}

Truth ConditionWalk::of(const FactCompares& c) const
{
    const Value* value = judge_.value_of(c.fact, scenario_);
    return value == nullptr ? Truth::open : compare_number(std::get<NumberInterval>(*value), c.op, c.limit);
}

Truth ConditionWalk::of(const FactWithin& c) const
{
    const Value* value = judge_.value_of(c.fact, scenario_);
    if (value == nullptr) {
        return Truth::open;
    }
    const auto& event = std::get<DateInterval>(*value);
    const auto length = static_cast<int>(number_of(c.length, judge_.rules_.policy).floor());
    return over_interval(within(event.lowest, length, c.unit, judge_.day()),
                         within(event.highest, length, c.unit, judge_.day()));
}

Truth ConditionWalk::of(const CalculatedCompares& c) const
{
    const Calculated result = judge_.calculated(c.calculator, scenario_);
    return result.value ? compare_number(*result.value, c.op, c.limit) : Truth::open;
}

Truth ConditionWalk::on_list(const TakesMedicine& asked) const
{
    Truth result = judge_.list_ == ListState::closed ? Truth::no : Truth::open;
    for (const MedicineItem& item : judge_.record_.medicines.items) {
        if (!item.medicine) {
            continue;  // an unrecognised entry has its own finding; class questions read it as absent
        }
        const auto& medicine = judge_.rules_.protocol.medicines[*item.medicine];
        if (matches(medicine, *item.medicine, asked.classes, asked.medicines)) {
            const bool confirmed = item.origin == Origin::this_case;
            result = either(result, confirmed || !scenario_.confirmed_only ? Truth::yes : Truth::open);
        }
    }
    return result;
}

Truth ConditionWalk::of(const ProcedureIncludes& c) const
{
    const auto& procedures = judge_.record_.booking.procedures;
    return from_bool(std::ranges::find(procedures, c.procedure) != procedures.end());
}

Truth ConditionWalk::of(const PreparationOrdered& c) const
{
    const auto& ordered = judge_.record_.booking.ordered;
    return ordered ? from_bool(std::ranges::binary_search(c.preparations, *ordered)) : Truth::open;
}

Truth ConditionWalk::of(const RecordHas& c) const
{
    const CaseRecord& record = judge_.record_;
    switch (c.what) {
        case RecordHas::What::conflict:
            return from_bool(std::ranges::any_of(judge_.readings_, [](const FactReading& reading) {
                return reading.state == FactState::in_conflict;
            }));
        case RecordHas::What::unrecognised_medicine:
            return from_bool(std::ranges::any_of(record.medicines.items,
                                                 [](const MedicineItem& item) { return !item.medicine; }));
        case RecordHas::What::own_concern:
            return from_bool(!record.concerns.empty());
        case RecordHas::What::told_no_longer_right:
            return from_bool(judge_.told_no_longer_right_);
        case RecordHas::What::out_of_scope:
            return from_bool(!judge_.in_scope_);
    }
    return Truth::open;
}

void ConditionWalk::ground(const Condition& condition, std::vector<Ground>& because) const
{
    const Truth result = truth(condition);
    if (condition.kind == Condition::Kind::compare) {
        ground_of(condition.comparison, because);
        return;
    }
    if (condition.kind == Condition::Kind::negation) {
        ground(condition.children.front(), because);
        return;
    }
    // For yes every child that is yes carries it, for no every child that is no.
    for (const Condition& child : condition.children) {
        if (truth(child) == result) {
            ground(child, because);
        }
    }
}

void ConditionWalk::ground_of(const Comparison& comparison, std::vector<Ground>& because) const
{
    if (const auto* c = std::get_if<CalculatedCompares>(&comparison)) {
        const Calculated result = judge_.calculated(c->calculator, scenario_);
        if (result.value) {
            because.push_back(
                {std::string{name_of(c->calculator)},
                 calculated_words(c->calculator, *result.value, number_of(c->limit, judge_.rules_.policy)),
                 "calculated"});
        }
        for (const FactIndex fact : result.used) {
            add_fact_ground(fact, because);
        }
        return;
    }
    if (const auto* c = std::get_if<TakesMedicine>(&comparison)) {
        add_list_ground(*c, because);
        return;
    }
    if (std::holds_alternative<ProcedureIncludes>(comparison)) {
        std::string names;
        for (const ProcedureIndex place : judge_.record_.booking.procedures) {
            names += (names.empty() ? "" : ", ") + judge_.rules_.protocol.procedures[place].id;
        }
        because.push_back({"procedure", names, "booking"});
        return;
    }
    if (std::holds_alternative<BleedingRiskIs>(comparison)) {
        because.push_back(
            {"bleeding risk of the procedure", std::string{name_of(judge_.bleeding_risk())}, "booking"});
        return;
    }
    if (std::holds_alternative<PreparationOrdered>(comparison)) {
        if (const auto& ordered = judge_.record_.booking.ordered) {
            because.push_back(
                {"preparation ordered", judge_.rules_.protocol.preparations[*ordered].id, "booking"});
        }
        return;
    }
    Condition leaf;
    leaf.kind = Condition::Kind::compare;
    leaf.comparison = comparison;
    for (const FactIndex fact : facts_in(leaf, judge_.rules_.protocol.calculators)) {
        add_fact_ground(fact, because);
    }
}

void ConditionWalk::add_fact_ground(FactIndex fact, std::vector<Ground>& because) const
{
    if (const Value* value = judge_.value_of(fact, scenario_)) {
        because.push_back(judge_.ground_of(fact, *value));
    }
}

void ConditionWalk::add_list_ground(const TakesMedicine& asked, std::vector<Ground>& because) const
{
    bool any = false;
    for (const MedicineItem& item : judge_.record_.medicines.items) {
        if (!item.medicine) {
            continue;
        }
        const auto& medicine = judge_.rules_.protocol.medicines[*item.medicine];
        if (matches(medicine, *item.medicine, asked.classes, asked.medicines)) {
            because.push_back(
                {"medicine " + medicine.generic, item.dose.empty() ? "on the list" : item.dose, item.who});
            any = true;
        }
    }
    if (!any && judge_.record_.medicines.closed) {
        because.push_back(
            {"medicine list", "complete, none of these on it", judge_.record_.medicines.closed->by});
    }
}

void ConditionWalk::open(const Condition& condition, std::vector<OpenOn>& open_on) const
{
    if (truth(condition) != Truth::open) {
        return;
    }
    if (condition.kind == Condition::Kind::compare) {
        open_of(condition.comparison, open_on);
    }
    for (const Condition& child : condition.children) {
        open(child, open_on);
    }
}

void ConditionWalk::open_of(const Comparison& comparison, std::vector<OpenOn>& open_on) const
{
    if (const auto* c = std::get_if<TakesMedicine>(&comparison)) {
        add_open_list(*c, open_on);
        return;
    }
    if (std::holds_alternative<PreparationOrdered>(comparison)) {
        open_on.push_back({"preparation ordered", OpenWhy::not_known_what_was_ordered});
        return;
    }
    if (const auto* c = std::get_if<CalculatedCompares>(&comparison)) {
        const Calculated result = judge_.calculated(c->calculator, scenario_);
        for (const FactIndex fact : result.missing) {
            add_open_fact(fact, open_on);
        }
        for (const FactIndex fact : result.used) {
            if (judge_.why_open(fact, scenario_) == OpenWhy::inexact) {
                add_open_fact(fact, open_on);
            }
        }
        return;
    }
    Condition leaf;
    leaf.kind = Condition::Kind::compare;
    leaf.comparison = comparison;
    for (const FactIndex fact : facts_in(leaf, judge_.rules_.protocol.calculators)) {
        add_open_fact(fact, open_on);
    }
}

void ConditionWalk::add_open_fact(FactIndex fact, std::vector<OpenOn>& open_on) const
{
    const Truth applies = judge_.applies(fact);
    const bool asked = judge_.readings_[fact].state != FactState::not_asked;
    if (applies == Truth::yes || asked) {
        open_on.push_back({judge_.rules_.protocol.facts[fact].id, judge_.why_open(fact, scenario_)});
    } else if (const auto& gate = judge_.rules_.protocol.facts[fact].asked_when) {
        open(*gate, open_on);  // what settles whether its question applies comes first
    }
}

void ConditionWalk::add_open_list(const TakesMedicine& asked, std::vector<OpenOn>& open_on) const
{
    for (const MedicineItem& item : judge_.record_.medicines.items) {
        if (item.medicine && item.origin != Origin::this_case &&
            matches(judge_.rules_.protocol.medicines[*item.medicine], *item.medicine, asked.classes,
                    asked.medicines)) {
            open_on.push_back({"medicine " + item.id, OpenWhy::unconfirmed});
        }
    }
    if (judge_.list_ != ListState::closed) {
        open_on.push_back({"medicine list", OpenWhy::list_not_closed});
    }
}

}  // namespace foreday::screening
