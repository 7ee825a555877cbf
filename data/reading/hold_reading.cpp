#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "data/reading/condition_reading.h"
#include "data/reading/reading_parts.h"
#include "data/reading/restart_reading.h"
#include "data/reading/rule_reading.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::Comparison;
using screening::Exact;
using screening::HoldAction;
using screening::HoldRule;
using screening::Limit;
using screening::Unit;

Unit unit_of_number(HoldAction action)
{
    return action == HoldAction::last_dose_at_least_hours ? Unit::hour : Unit::day;
}

/// Days and hours of a hold: whole, 0 or more. A parameter must be in that very unit.
std::optional<Limit> read_length(const Located& node, HoldAction action, ProtocolDraft& draft)
{
    const Unit unit = unit_of_number(action);
    const auto limit = read_limit(node, {"the number of this action", unit}, draft);
    const auto* number = limit ? std::get_if<Exact>(&*limit) : nullptr;
    if (number != nullptr && (!number->is_whole() || *number < Exact{0})) {
        draft.faults.add(
            node,
            fmt::format("{} is no number for \"{}\"", screening::as_written(node.text), name_of(action)),
            fmt::format("whole {}, 0 or more", screening::unit_text(unit)));
        return std::nullopt;
    }
    return limit;
}

void read_number(const MapReader& map, HoldRule& rule, ProtocolDraft& draft)
{
    if (!needs_a_number(rule.action)) {
        for (const std::string_view key : {"number", "too_short_below"}) {
            if (map.wrote(key)) {
                draft.faults.add(map.key(key),
                                 fmt::format("\"{}\" takes no \"{}\"", name_of(rule.action), key),
                                 "leave it out, or another action");
            }
        }
        return;
    }
    std::optional<Limit> told;
    if (map["number"] != nullptr) {
        told = read_length(*map["number"], rule.action, draft);
        rule.number = told.value_or(Exact{});
    } else if (!map.wrote("number")) {
        draft.faults.add(
            map.node(), fmt::format("\"{}\" without its number", name_of(rule.action)),
            fmt::format("number: so many {}", screening::unit_text(unit_of_number(rule.action))));
    }
    if (map["too_short_below"] == nullptr) {
        return;
    }
    rule.too_short_below = read_length(*map["too_short_below"], rule.action, draft);
    const auto* number = told ? std::get_if<Exact>(&*told) : nullptr;
    const auto* shortest = rule.too_short_below ? std::get_if<Exact>(&*rule.too_short_below) : nullptr;
    if (number != nullptr && shortest != nullptr && *shortest > *number) {
        draft.faults.add(*map["too_short_below"], "what is told would be too short itself",
                         "at most the number that is told");
    }
}

void read_policy_use(const Located& node, HoldRule& rule, ProtocolDraft& draft)
{
    const MapReader map(node, "policy", {{"question", "option"}, {}}, draft.faults);
    const auto question = map["question"] == nullptr
                              ? std::nullopt
                              : draft.policy_questions.table.use(*map["question"], draft.faults);
    if (!question || map["option"] == nullptr) {
        return;
    }
    const auto& options = draft.protocol.policy_questions.at(*question).options;
    std::vector<std::string_view> names;
    for (const auto& option : options) {
        names.push_back(option.id);
    }
    if (names.empty()) {  // its fault has been told in policy_questions.yaml
        return;
    }
    screening::PolicyUse use{*question, {}};
    const bool several = map["option"]->kind == Located::Kind::list;
    const auto written =
        several ? list_items(*map["option"], "option", draft.faults) : std::vector<Located>{*map["option"]};
    for (const Located& one : written) {
        if (const auto option = read_place(one, names, draft.faults)) {
            use.options.push_back(static_cast<std::uint32_t>(*option));
        }
    }
    std::ranges::sort(use.options);
    if (std::ranges::adjacent_find(use.options) != use.options.end()) {
        draft.faults.add(*map["option"], "an option stands twice", "once");
    } else if (use.options.size() == names.size() && names.size() > 1) {
        draft.faults.add(*map["option"], "every option is named, so that the question decides nothing",
                         "some of them, or no policy");
    }
    if (!use.options.empty()) {
        rule.policies.push_back(std::move(use));
    }
}

/// One question, or a list of them that must all be answered so.
void read_policy_uses(const Located& node, HoldRule& rule, ProtocolDraft& draft)
{
    if (node.kind != Located::Kind::list) {
        read_policy_use(node, rule, draft);
        return;
    }
    for (const Located& one : list_items(node, "policy", draft.faults)) {
        read_policy_use(one, rule, draft);
    }
    std::vector<std::uint32_t> questions;
    for (const screening::PolicyUse& use : rule.policies) {
        questions.push_back(use.question);
    }
    std::ranges::sort(questions);
    if (std::ranges::adjacent_find(questions) != questions.end()) {
        draft.faults.add(node, "a question of policy stands twice", "each once, with a list of options");
    }
}

void read_dose_conditions(const Located& node, HoldRule& rule, Faults& faults)
{
    for (const Located& item : list_items(node, "conditions", faults)) {
        if (const auto condition =
                read_named(item, screening::DoseCondition::space_from_the_preparation, faults)) {
            rule.conditions.push_back(*condition);
        }
    }
    std::ranges::sort(rule.conditions);
    if (std::ranges::adjacent_find(rule.conditions) != rule.conditions.end()) {
        faults.add(node, "a condition stands twice", "once");
    }
}

/// `ask first` and `dose to be stated` always win, so they need no direction.
void read_protects(const MapReader& map, HoldRule& rule, Faults& faults)
{
    constexpr std::array<std::string_view, 2> words{"by omitting", "by taking"};
    if (map["protects"] != nullptr) {
        rule.protects =
            read_word<screening::Protects>(*map["protects"], words, faults).value_or(rule.protects);
    } else if (!map.wrote("protects") && rule.action != HoldAction::ask_first &&
               rule.action != HoldAction::dose_to_be_stated) {
        faults.add(map.node(), fmt::format("\"{}\" does not say how it protects", rule.head.id),
                   "protects: by omitting, or by taking");
    }
}

/// What the booking alone decides is never open.
bool may_stay_open(const screening::Condition& condition)
{
    return std::ranges::any_of(comparisons_in(condition), [](const Comparison* comparison) {
        return !std::holds_alternative<screening::ProcedureIncludes>(*comparison) &&
               !std::holds_alternative<screening::BleedingRiskIs>(*comparison);
    });
}

/// A marked medicine is marked for every rule that speaks about it, also through a class that is not.
bool reaches_marked(const HoldRule& rule, const screening::Protocol& protocol)
{
    for (std::uint32_t i = 0; i < protocol.medicines.size(); ++i) {
        if (protocol.medicines[i].marked && screening::speaks_about(rule, i, protocol)) {
            return true;
        }
    }
    return false;
}

void check_meanwhile(const MapReader& map, const HoldRule& rule, ProtocolDraft& draft)
{
    std::string_view why;
    if (rule.action == HoldAction::ask_first || rule.action == HoldAction::dose_to_be_stated) {
        why = "a clinician decides";
    } else if (reaches_marked(rule, draft.protocol)) {
        why = "its medicine is marked";
    } else if (may_stay_open(rule.when)) {
        why = "its condition may stay open";
    }
    if (!why.empty() && !map.wrote("meanwhile")) {
        draft.faults.add(map.node(), fmt::format("\"{}\" has no \"meanwhile\", and {}", rule.head.id, why),
                         "meanwhile: what to say until somebody has decided");
    }
}

HoldRule read_hold(const Located& node, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    const Keys own{{"for", "action"},
                   {"policy", "when", "number", "too_short_below", "conditions", "protects",
                    "published_fraction", "restart"}};
    const MapReader map(node, "a hold", head_keys() + own, faults);
    HoldRule rule;
    rule.head = read_head(map, draft);
    if (map["for"] != nullptr) {
        auto named = read_medicine_ids(*map["for"], draft);
        rule.classes = std::move(named.classes);
        rule.medicines = std::move(named.medicines);
    }
    if (map["policy"] != nullptr) {
        read_policy_uses(*map["policy"], rule, draft);
    }
    if (map["when"] != nullptr) {
        rule.when = read_condition(*map["when"], RecordTests::refused, draft);
    }
    if (map["conditions"] != nullptr) {
        read_dose_conditions(*map["conditions"], rule, faults);
    }
    rule.published_fraction = text_at(map, "published_fraction", faults);
    const auto action =
        map["action"] == nullptr ? std::nullopt : read_named(*map["action"], HoldAction::ask_first, faults);
    if (!action) {
        return rule;
    }
    rule.action = *action;
    read_number(map, rule, draft);
    read_protects(map, rule, faults);
    check_meanwhile(map, rule, draft);
    read_restart(map, rule, draft);
    if (map.wrote("published_fraction") && rule.action != HoldAction::dose_to_be_stated) {
        faults.add(map.key("published_fraction"), "a published fraction beside another action",
                   "with `dose to be stated` only");
    }
    return rule;
}

}  // namespace

void read_hold_file(ProtocolDraft& draft)
{
    draft.protocol.holds =
        read_entries<HoldRule>(draft.holds, [&](const Located& node) { return read_hold(node, draft); });
}

}  // namespace foreday::data
