#include "gui/console/item_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <stdexcept>

#include "data/reading/parameter_value.h"
#include "gui/console/content_words.h"
#include "gui/console/words.h"
#include "screening/condition_words.h"

namespace foreday::console {

using namespace screening;

namespace {

constexpr std::array<std::string_view, 4> plan_names{"bowel preparation", "fasting only",
                                                     "the endoscopist is asked which preparation",
                                                     "outside of what the protocol knows"};

std::string danger_words(const FactDefinition& fact)
{
    const Danger& danger = fact.danger;
    switch (danger.kind) {
        case Danger::Kind::none:
            return "none (" + danger.reason + ")";
        case Danger::Kind::yes:
            return "yes";
        case Danger::Kind::no:
            return "no";
        case Danger::Kind::higher:
            return "higher";
        case Danger::Kind::lower:
            return "lower";
        case Danger::Kind::earlier:
            return "earlier";
        case Danger::Kind::later:
            return "later";
        case Danger::Kind::away_from:
            return fmt::format("away from {} to {}", danger.safe.lowest.text(), danger.safe.highest.text());
        case Danger::Kind::order: {
            std::string words = "order";
            for (const std::uint32_t place : danger.order) {
                words += " " + fact.choices[place];
            }
            return words;
        }
    }
    return "";
}

/// Where an item of this id stands.
template <class T>
const T& item_in(const std::vector<T>& items, const std::string& id)
{
    const auto id_of = [](const T& one) -> const std::string& {
        if constexpr (requires { one.head; }) {
            return one.head.id;
        } else {
            return one.id;
        }
    };
    const auto found = std::ranges::find(items, id, id_of);
    if (found == items.end()) {
        throw std::logic_error("the protocol has no item " + id);
    }
    return *found;
}

std::string source_block(const Source& source)
{
    return source.id + "\n" + labelled("title", source.title) + labelled("by", source.by) +
           labelled("where", source.where) + labelled("year", std::to_string(source.year));
}

std::string parameter_block(const Parameter& parameter, const ParameterValue& here, const Protocol& protocol,
                            const UnitPolicy& policy)
{
    return parameter.id + "\n" + labelled("says", parameter.title) +
           labelled("here", data::value_text(here, parameter.unit)) +
           labelled("without an answer", data::value_text(parameter.by_default, parameter.unit)) +
           labelled("a unit may set", data::range_text(parameter)) +
           sources_block(parameter.sources, rank_in(policy, parameter.id, parameter.sure), protocol);
}

std::string class_block(const MedicineClass& group, ClassIndex place, const Protocol& protocol)
{
    std::string block =
        group.id + "\n" + labelled("says", group.title) +
        labelled("marked", group.marked ? "yes: nothing is left out before a clinician has agreed" : "no");
    std::vector<std::string> members;
    for (const MedicineDefinition& medicine : protocol.medicines) {
        if (std::ranges::binary_search(medicine.classes, place)) {
            members.push_back(medicine.generic);
        }
    }
    return block + labelled("covers", fmt::format("{}", fmt::join(members, ", ")));
}

std::string procedure_block(const Procedure& procedure, const Protocol& protocol)
{
    return procedure.id + "\n" + labelled("says", procedure.title) +
           labelled("plan", std::string{plan_names.at(static_cast<std::size_t>(procedure.plan))}) +
           labelled("bleeding risk",
                    fmt::format("{}; {} where the endoscopist has said that nothing is removed",
                                name_of(procedure.risk), name_of(procedure.risk_diagnostic_only))) +
           sources_block(procedure.sources, procedure.sure, protocol);
}

std::string finding_block(const FindingRule& rule, const Protocol& protocol, const UnitPolicy& policy)
{
    return rule.head.id + "\n" + labelled("says", rule.head.title) +
           labelled("level", std::string{shown_as(rule.level)} + (rule.now ? ", now" : "")) +
           labelled("to say at once", rule.now_words) + condition_block(rule.when, protocol, policy) +
           labelled("not knowing", rule.not_knowing == FindingRule::NotKnowing::open
                                       ? "stays open until it is answered"
                                       : "accepted: " + rule.accept_reason) +
           head_block(rule.head, protocol, policy);
}

std::string preparation_block(const Preparation& preparation, const Protocol& protocol,
                              const UnitPolicy& policy)
{
    std::string block = preparation.id + "\n" + labelled("says", preparation.generic) +
                        labelled("evening before", preparation.first.title) +
                        labelled("on the day", preparation.second.title);
    for (const StartWindow& window : preparation.windows) {
        block += labelled("second portion", fmt::format("starts {} to {} minutes before the procedure",
                                                        window.latest.count(), window.earliest.count())) +
                 sources_block(window.sources, window.sure, protocol);
    }
    block += sources_block(preparation.sources, rank_in(policy, preparation.id, preparation.sure), protocol);
    for (const PreparationLimit& limit : preparation.limits) {
        block += "  limit " + finding_block(limit.finding, protocol, policy);
    }
    return block;
}

std::string readiness_block(const ReadinessRule& rule, const Protocol& protocol, const UnitPolicy& policy)
{
    return rule.head.id + "\n" + labelled("says", rule.head.title) +
           labelled("kind", std::string{name_of(rule.kind)}) + condition_block(rule.when, protocol, policy) +
           labelled("would make it ready", rule.would_make_it_ready) +
           head_block(rule.head, protocol, policy);
}

}  // namespace

std::string fact_block(const FactDefinition& fact)
{
    std::string type{name_of(fact.type)};
    if (fact.type == FactType::choice) {
        type += fmt::format(" [{}]", fmt::join(fact.choices, ", "));
    } else if (fact.unit != Unit::none) {
        type += fmt::format(" in {}", unit_text(fact.unit));
    }
    return fmt::format("{}\n{}{}{}", fact.id, wrapped("type: " + type, 2),
                       wrapped("danger: " + danger_words(fact), 2), wrapped("question: " + fact.question, 2));
}

std::string item_block(const ItemName& item, const Protocol& protocol, const UnitPolicy& policy)
{
    switch (item.kind) {
        case ItemKind::source:
            return source_block(item_in(protocol.sources, item.id));
        case ItemKind::parameter: {
            const Parameter& parameter = item_in(protocol.parameters, item.id);
            const auto place = static_cast<std::size_t>(&parameter - protocol.parameters.data());
            return parameter_block(parameter, policy.parameters[place], protocol, policy);
        }
        case ItemKind::policy_question: {
            const PolicyQuestion& question = item_in(protocol.policy_questions, item.id);
            const auto place = static_cast<std::size_t>(&question - protocol.policy_questions.data());
            return policy_block(question, policy.options[place], protocol);
        }
        case ItemKind::fact: {
            const FactDefinition& fact = item_in(protocol.facts, item.id);
            return fact_block(fact) +
                   (fact.asked_when ? condition_block(*fact.asked_when, protocol, policy) : "");
        }
        case ItemKind::medicine_class: {
            const MedicineClass& group = item_in(protocol.classes, item.id);
            return class_block(group, static_cast<ClassIndex>(&group - protocol.classes.data()), protocol);
        }
        case ItemKind::medicine:
            return medicine_block(item_in(protocol.medicines, item.id), protocol);
        case ItemKind::procedure:
            return procedure_block(item_in(protocol.procedures, item.id), protocol);
        case ItemKind::finding:
            return finding_block(item_in(protocol.findings, item.id), protocol, policy);
        case ItemKind::hold_rule:
            return hold_block(item_in(protocol.holds, item.id), protocol, policy);
        case ItemKind::preparation:
            return preparation_block(item_in(protocol.preparations, item.id), protocol, policy);
        case ItemKind::readiness_item:
            return readiness_block(item_in(protocol.readiness, item.id), protocol, policy);
        case ItemKind::program:
            break;
    }
    return "";
}

}  // namespace foreday::console
