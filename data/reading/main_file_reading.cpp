#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"

namespace foreday::data {
namespace {

using screening::CalculatorInput;
using screening::EngineParameters;
using screening::FactDefinition;
using screening::FactIndex;
using screening::FactType;
using screening::Parameter;
using screening::ParameterIndex;
using screening::Unit;

struct EngineKey {
    std::string_view key;
    ParameterIndex EngineParameters::*place;
    bool time_of_day = false;  ///< else a length of time
};
constexpr std::array<EngineKey, 10> engine_keys{{
    {"list_closed_days", &EngineParameters::list_closed_days},
    {"clear_liquid_hours", &EngineParameters::clear_liquid_hours},
    {"preferred_second_start", &EngineParameters::preferred_second_start},
    {"evening_start", &EngineParameters::evening_start, true},
    {"usual_journey", &EngineParameters::usual_journey},
    {"bathroom_margin", &EngineParameters::bathroom_margin},
    {"arrive_before", &EngineParameters::arrive_before},
    {"clearance_days", &EngineParameters::clearance_days},
    {"phone_hours", &EngineParameters::phone_hours},
    {"first_call_days", &EngineParameters::first_call_days},
}};

void read_engine(const Located& node, ProtocolDraft& draft)
{
    Keys keys;
    for (const EngineKey& row : engine_keys) {
        keys.required.push_back(row.key);
    }
    const MapReader map(node, "engine", keys, draft.faults);
    for (const EngineKey& row : engine_keys) {
        const auto place =
            map[row.key] == nullptr ? std::nullopt : draft.parameters.table.use(*map[row.key], draft.faults);
        if (!place || !draft.parameter_sound.at(*place)) {
            continue;
        }
        draft.protocol.engine.*row.place = *place;
        const Parameter& parameter = draft.protocol.parameters.at(*place);
        const bool is_time = std::holds_alternative<screening::TimeOfDay>(parameter.by_default);
        const bool is_length = std::holds_alternative<screening::Exact>(parameter.by_default) &&
                               screening::comparable(parameter.unit, Unit::minute);
        if (row.time_of_day ? !is_time : !is_length) {
            draft.faults.add(*map[row.key],
                             fmt::format("the parameter \"{}\" cannot serve as {}", parameter.id, row.key),
                             row.time_of_day ? "a parameter that is a time of day"
                                             : "a parameter in minutes, hours, days or weeks");
        }
    }
}

/// A fact of the type and unit that it is needed in.
std::optional<FactIndex> read_needed(const MapReader& map, std::string_view key, FactType type, Unit unit,
                                     ProtocolDraft& draft)
{
    const Located* node = map[key];
    const auto place = node == nullptr ? std::nullopt : draft.facts.table.use(*node, draft.faults);
    if (!place || !draft.fact_sound.at(*place)) {
        return std::nullopt;
    }
    const FactDefinition& fact = draft.protocol.facts.at(*place);
    if (fact.type != type || (type == FactType::number && fact.unit != unit)) {
        std::string right = fmt::format("a fact of type {}", name_of(type));
        if (type == FactType::number) {
            right += fmt::format(" in {}", screening::unit_text(unit));
        }
        draft.faults.add(*node, fmt::format("the fact \"{}\" cannot serve as {}", fact.id, key), right);
        return std::nullopt;
    }
    return place;
}

/// The formulas are written in these units, so the facts they take must be too.
Unit unit_needed(CalculatorInput input)
{
    switch (input) {
        case CalculatorInput::weight:
            return Unit::kilogram;
        case CalculatorInput::height:
            return Unit::centimetre;
        case CalculatorInput::creatinine:
            return Unit::mg_per_dl_creatinine;
        case CalculatorInput::laboratory_egfr:
            return Unit::ml_per_min_per_1_73_m2;
        default:
            return Unit::none;
    }
}

void find_female(const MapReader& map, FactIndex sex, ProtocolDraft& draft)
{
    const auto& choices = draft.protocol.facts.at(sex).choices;
    const auto female = std::ranges::find(choices, "female");
    if (female == choices.end()) {
        draft.faults.add(*map["sex"], "the fact bound to sex has no choice named female",
                         "choices: [female, ...]");
        return;
    }
    draft.protocol.calculators.female.place = static_cast<std::uint32_t>(female - choices.begin());
}

void read_calculators(const Located& node, ProtocolDraft& draft)
{
    // The booking always says when the patient was born and may say the sex, so these two must have a fact.
    Keys keys{{"birth_date", "sex"}, {}};
    for (std::size_t i = 0; i < screening::calculator_input_count; ++i) {
        const std::string_view name = name_of(static_cast<CalculatorInput>(i));
        if (std::ranges::find(keys.required, name) == keys.required.end()) {
            keys.optional.push_back(name);
        }
    }
    const MapReader map(node, "calculators", keys, draft.faults);
    for (std::size_t i = 0; i < screening::calculator_input_count; ++i) {
        const auto input = static_cast<CalculatorInput>(i);
        draft.protocol.calculators.facts[i] =
            read_needed(map, name_of(input), type_of(input), unit_needed(input), draft);
    }
    if (const auto& sex = draft.protocol.calculators.facts[static_cast<std::size_t>(CalculatorInput::sex)]) {
        find_female(map, *sex, draft);
    }
}

void read_facts_needed(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "facts_needed", {{"journey", "diagnostic_only"}, {}}, draft.faults);
    draft.protocol.journey_fact =
        read_needed(map, "journey", FactType::number, Unit::minute, draft).value_or(0);
    draft.protocol.diagnostic_only_fact =
        read_needed(map, "diagnostic_only", FactType::yes_no, Unit::none, draft).value_or(0);
}

void read_list_questions(const Located& node, ProtocolDraft& draft)
{
    std::set<std::string> seen;
    for (const Located& item : list_items(node, "list_questions", draft.faults)) {
        const MapReader map(item, "a question before the list is closed", {{"id", "ask"}, {}}, draft.faults);
        const auto id = map["id"] == nullptr ? std::nullopt : read_id(*map["id"], draft.faults);
        const std::string ask = text_at(map, "ask", draft.faults);
        if (!id) {
            continue;
        }
        if (!seen.insert(*id).second) {
            draft.faults.add(item, fmt::format("the question \"{}\" stands twice", *id), "once");
            continue;
        }
        draft.protocol.list_questions.push_back({*id, ask});
    }
}

}  // namespace

void read_sections(const Located* tree, ProtocolDraft& draft)
{
    const Located* node = tree == nullptr ? nullptr : find(*tree, "sections");
    if (node == nullptr || node->kind == Located::Kind::nothing) {
        return;
    }
    std::set<std::string> seen;
    for (const Located& item : list_items(*node, "sections", draft.faults)) {
        const auto section = read_text(item, draft.faults);
        if (!section) {
            continue;
        }
        if (!seen.insert(*section).second) {
            draft.faults.add(item, fmt::format("the section \"{}\" stands twice", *section), "once");
            continue;
        }
        draft.protocol.sections.push_back(*section);
    }
}

void read_main_file(const Located* tree, ProtocolDraft& draft)
{
    if (tree == nullptr) {
        return;
    }
    const MapReader map(
        *tree, "the protocol",
        {{"version", "sections", "engine", "facts_needed", "calculators"}, {"list_questions"}}, draft.faults);
    draft.protocol.version = text_at(map, "version", draft.faults);
    if (map["engine"] != nullptr) {
        read_engine(*map["engine"], draft);
    }
    if (map["list_questions"] != nullptr) {
        read_list_questions(*map["list_questions"], draft);
    }
    if (map["facts_needed"] != nullptr) {
        read_facts_needed(*map["facts_needed"], draft);
    }
    if (map["calculators"] != nullptr) {
        read_calculators(*map["calculators"], draft);
    }
}

}  // namespace foreday::data
