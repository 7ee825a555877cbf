#include "screening/references.h"

#include <algorithm>
#include <array>

namespace foreday::screening {
namespace {

constexpr std::array<std::string_view, 12> kind_names{
    "source",    "parameter", "policy question", "fact",        "class of medicines", "medicine",
    "procedure", "finding",   "hold rule",       "preparation", "readiness item",     "the program itself",
};

/// Collects what one item names.
class Namer {
public:
    Namer(const Protocol& protocol, std::vector<Reference>& found, ItemName from)
        : protocol_(protocol), found_(found), from_(std::move(from))
    {
    }

    void name(ItemKind kind, const std::string& id) { found_.push_back({from_, {kind, id}}); }
    void fact(FactIndex place) { name(ItemKind::fact, protocol_.facts[place].id); }
    void parameter(ParameterIndex place) { name(ItemKind::parameter, protocol_.parameters[place].id); }

    void sources(const std::vector<SourceUse>& uses)
    {
        for (const SourceUse& use : uses) {
            name(ItemKind::source, use.source);
        }
    }

    void classes(const std::vector<ClassIndex>& places)
    {
        for (const ClassIndex place : places) {
            name(ItemKind::medicine_class, protocol_.classes[place].id);
        }
    }

    void medicines(const std::vector<MedicineIndex>& places)
    {
        for (const MedicineIndex place : places) {
            name(ItemKind::medicine, protocol_.medicines[place].id);
        }
    }

    void limit(const Limit& limit)
    {
        if (const auto* place = std::get_if<ParameterIndex>(&limit)) {
            parameter(*place);
        }
    }

    void condition(const Condition& condition)
    {
        for (const FactIndex place : facts_in(condition, protocol_.calculators)) {
            fact(place);
        }
        for (const Comparison* comparison : comparisons_in(condition)) {
            std::visit([this](const auto& one) { compared(one); }, *comparison);
        }
        counts(condition);
    }

    void head(const RuleHead& head) { sources(head.sources); }

    void restart(const std::optional<RestartFigure>& figure)
    {
        if (figure) {
            sources(figure->sources);
        }
    }

private:
    // Facts are named above, with those of calculated values.
    void compared(const FactIs&) {}
    void compared(const FactIsOneOf&) {}
    void compared(const RecordHas&) {}
    void compared(const BleedingRiskIs&) { fact(protocol_.diagnostic_only_fact); }
    void compared(const FactCompares& one) { limit(one.limit); }
    void compared(const FactWithin& one) { limit(one.length); }
    void compared(const CalculatedCompares& one) { limit(one.limit); }
    void compared(const TakesMedicine& one)
    {
        classes(one.classes);
        medicines(one.medicines);
    }
    void compared(const ProcedureIncludes& one)
    {
        name(ItemKind::procedure, protocol_.procedures[one.procedure].id);
    }
    void compared(const PreparationOrdered& one)
    {
        for (const PreparationIndex place : one.preparations) {
            name(ItemKind::preparation, protocol_.preparations[place].id);
        }
    }

    void counts(const Condition& condition)
    {
        if (condition.kind == Condition::Kind::at_least) {
            limit(condition.count);
        }
        for (const Condition& child : condition.children) {
            counts(child);
        }
    }

    const Protocol& protocol_;
    std::vector<Reference>& found_;
    ItemName from_;
};

void add_findings(const Protocol& protocol, std::vector<Reference>& found)
{
    for (const FindingRule& rule : protocol.findings) {
        Namer namer(protocol, found, {ItemKind::finding, rule.head.id});
        namer.head(rule.head);
        namer.condition(rule.when);
    }
}

void add_holds(const Protocol& protocol, std::vector<Reference>& found)
{
    for (const HoldRule& rule : protocol.holds) {
        Namer namer(protocol, found, {ItemKind::hold_rule, rule.head.id});
        namer.head(rule.head);
        namer.classes(rule.classes);
        namer.medicines(rule.medicines);
        namer.condition(rule.when);
        namer.limit(rule.number);
        if (rule.too_short_below) {
            namer.limit(*rule.too_short_below);
        }
        for (const PolicyUse& use : rule.policies) {
            namer.name(ItemKind::policy_question, protocol.policy_questions[use.question].id);
        }
        namer.restart(rule.restart_after_low);
        namer.restart(rule.restart_after_high);
    }
}

void add_preparations(const Protocol& protocol, std::vector<Reference>& found)
{
    for (const Preparation& preparation : protocol.preparations) {
        Namer namer(protocol, found, {ItemKind::preparation, preparation.id});
        namer.sources(preparation.sources);
        namer.sources(preparation.between_sources);
        namer.sources(preparation.diet_sources);
        namer.sources(preparation.no_medicine_sources);
        namer.classes(preparation.spaced_classes);
        for (const StartWindow& window : preparation.windows) {
            namer.sources(window.sources);
        }
        for (const PreparationLimit& limit : preparation.limits) {
            namer.head(limit.finding.head);
            namer.condition(limit.finding.when);
        }
    }
}

void add_readiness(const Protocol& protocol, std::vector<Reference>& found)
{
    for (const ReadinessRule& rule : protocol.readiness) {
        Namer namer(protocol, found, {ItemKind::readiness_item, rule.head.id});
        namer.head(rule.head);
        namer.condition(rule.when);
        if (const auto* confirmed = std::get_if<ConfirmedCheck>(&rule.check)) {
            namer.fact(confirmed->fact);
        } else if (const auto* measured = std::get_if<MeasuredCheck>(&rule.check)) {
            namer.fact(measured->fact);
            for (const MeasuredCheck::Bound& bound : measured->bounds) {
                namer.limit(bound.limit);
            }
        } else if (const auto* fasting = std::get_if<FastingCheck>(&rule.check)) {
            namer.limit(fasting->gap_hours);
        }
    }
}

void add_the_rest(const Protocol& protocol, std::vector<Reference>& found)
{
    for (const Parameter& parameter : protocol.parameters) {
        Namer(protocol, found, {ItemKind::parameter, parameter.id}).sources(parameter.sources);
    }
    for (const PolicyQuestion& question : protocol.policy_questions) {
        for (const PolicyOption& option : question.options) {
            Namer(protocol, found, {ItemKind::policy_question, question.id}).sources(option.sources);
        }
    }
    for (const FactDefinition& fact : protocol.facts) {
        if (fact.asked_when) {
            Namer(protocol, found, {ItemKind::fact, fact.id}).condition(*fact.asked_when);
        }
    }
    for (const MedicineDefinition& medicine : protocol.medicines) {
        Namer namer(protocol, found, {ItemKind::medicine, medicine.id});
        namer.classes(medicine.classes);
        for (const std::string& other : medicine.mistaken_for) {
            namer.name(ItemKind::medicine, other);
        }
    }
    for (const Procedure& procedure : protocol.procedures) {
        Namer(protocol, found, {ItemKind::procedure, procedure.id}).sources(procedure.sources);
    }
}

void add_the_program(const Protocol& protocol, std::vector<Reference>& found)
{
    Namer namer(protocol, found, {ItemKind::program, ""});
    const EngineParameters& engine = protocol.engine;
    for (const ParameterIndex parameter :
         {engine.list_closed_days, engine.clear_liquid_hours, engine.preferred_second_start,
          engine.evening_start, engine.usual_journey, engine.bathroom_margin, engine.arrive_before,
          engine.clearance_days, engine.phone_hours, engine.first_call_days}) {
        namer.parameter(parameter);
    }
    for (const auto& fact : protocol.calculators.facts) {
        if (fact) {
            namer.fact(*fact);
        }
    }
    namer.fact(protocol.journey_fact);
    namer.fact(protocol.diagnostic_only_fact);
}

template <class T>
void add_items(ItemKind kind, const std::vector<T>& from, std::vector<ItemName>& items)
{
    for (const T& one : from) {
        if constexpr (requires { one.head; }) {
            items.push_back({kind, one.head.id});
        } else {
            items.push_back({kind, one.id});
        }
    }
}

}  // namespace

std::string_view name_of(ItemKind kind)
{
    return kind_names[static_cast<std::size_t>(kind)];
}

std::vector<Reference> references_in(const Protocol& protocol)
{
    std::vector<Reference> found;
    add_findings(protocol, found);
    add_holds(protocol, found);
    add_preparations(protocol, found);
    add_readiness(protocol, found);
    add_the_rest(protocol, found);
    add_the_program(protocol, found);
    std::ranges::sort(found);
    found.erase(std::ranges::unique(found).begin(), found.end());
    return found;
}

std::vector<ItemName> items_of(const Protocol& protocol)
{
    std::vector<ItemName> items;
    add_items(ItemKind::source, protocol.sources, items);
    add_items(ItemKind::parameter, protocol.parameters, items);
    add_items(ItemKind::policy_question, protocol.policy_questions, items);
    add_items(ItemKind::fact, protocol.facts, items);
    add_items(ItemKind::medicine_class, protocol.classes, items);
    add_items(ItemKind::medicine, protocol.medicines, items);
    add_items(ItemKind::procedure, protocol.procedures, items);
    add_items(ItemKind::finding, protocol.findings, items);
    add_items(ItemKind::hold_rule, protocol.holds, items);
    add_items(ItemKind::preparation, protocol.preparations, items);
    add_items(ItemKind::readiness_item, protocol.readiness, items);
    std::ranges::sort(items);
    return items;
}

}  // namespace foreday::screening
