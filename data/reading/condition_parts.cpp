#include "data/reading/condition_parts.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "data/reading/map_reader.h"
#include "data/reading/nearest.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::Comparison;
using screening::Exact;
using screening::FactDefinition;
using screening::FactIndex;
using screening::FactType;
using screening::Limit;
using screening::Operator;
using screening::Unit;

std::string_view tests_of(FactType type)
{
    switch (type) {
        case FactType::yes_no:
            return "is: yes, or is: no";
        case FactType::choice:
            return "is: CHOICE, or is_one_of: [CHOICE, ...]";
        case FactType::number:
            return "below, at_most, equals, at_least or above, with a limit";
        case FactType::date:
            return "within: 6 months";
        case FactType::time:
        case FactType::text:
            break;
    }
    return "another fact; no condition looks at times and texts";
}

template <class T>
void sort_once(std::vector<T>& places)
{
    std::ranges::sort(places);
    places.erase(std::ranges::unique(places).begin(), places.end());
}

std::optional<Comparison> read_choices(const Located& node, FactIndex index, const FactDefinition& fact,
                                       Faults& faults)
{
    const std::vector<std::string_view> names(fact.choices.begin(), fact.choices.end());
    screening::FactIsOneOf test{index, {}};
    const auto written = one_or_many(node);
    for (const Located* item : written) {
        if (const auto place = read_place(*item, names, faults)) {
            test.choices.push_back(static_cast<std::uint32_t>(*place));
        }
    }
    if (written.empty()) {
        faults.add(node, "none of its choices is named", "at least one choice");
    }
    sort_once(test.choices);
    return test;
}

/// How long ago an event may lie: days, weeks, months or years, as a number or a parameter.
std::optional<Comparison> read_within(const Located& node, FactIndex index, ProtocolDraft& draft)
{
    const auto counts = [](Unit unit) {
        return unit == Unit::day || unit == Unit::week || unit == Unit::month || unit == Unit::year;
    };
    constexpr std::string_view right = "days, weeks, months or years";
    if (node.kind == Located::Kind::map) {
        const auto parameter = read_parameter_use(node, draft);
        if (!parameter) {
            return std::nullopt;
        }
        const Unit unit = draft.protocol.parameters.at(*parameter).unit;
        if (!counts(unit)) {
            draft.faults.add(node, "the parameter is in no unit of the calendar", std::string{right});
            return std::nullopt;
        }
        return screening::FactWithin{index, Limit{*parameter}, unit};
    }
    const auto length = read_quantity(node, draft.faults);
    if (!length) {
        return std::nullopt;
    }
    if (!counts(length->unit) || !length->value.is_whole() || length->value < Exact{0}) {
        draft.faults.add(
            node, fmt::format("{} cannot be counted on the calendar", screening::as_written(node.text)),
            fmt::format("a whole number of {}", right));
        return std::nullopt;
    }
    return screening::FactWithin{index, Limit{length->value}, length->unit};
}

/// The one operator that was written beside `head`; a fault and empty when it is none or several.
std::optional<Operator> written_operator(const MapReader& map, Faults& faults)
{
    std::vector<std::string_view> written;
    for (const std::string_view name : operator_names()) {
        if (map.wrote(name)) {
            written.push_back(name);
        }
    }
    if (written.size() == 1) {
        return static_cast<Operator>(std::ranges::find(operator_names(), written.front()) -
                                     operator_names().begin());
    }
    faults.add(map.node(),
               written.empty() ? "a comparison without its limit" : "two limits in one comparison",
               written.empty() ? fmt::format("one of: {}", fmt::join(operator_names(), ", "))
                               : "one limit; put two comparisons into `all`");
    return std::nullopt;
}

void warn_of_reach(const Located& node, const FactDefinition& fact, const Limit& limit, ProtocolDraft& draft)
{
    const auto* number = std::get_if<Exact>(&limit);
    if (number != nullptr && (*number < fact.plausible.lowest || *number > fact.plausible.highest)) {
        draft.warnings.add(
            node, fmt::format("the limit lies outside what \"{}\" can be", fact.id),
            fmt::format("a limit from {} to {}", quantity_text(fact.plausible.lowest, fact.unit),
                        quantity_text(fact.plausible.highest, fact.unit)));
    }
}

std::optional<Comparison> read_number_test(const MapReader& map, FactIndex index, ProtocolDraft& draft)
{
    const FactDefinition& fact = draft.protocol.facts.at(index);
    const auto op = written_operator(map, draft.faults);
    const Located* value = op ? map[operator_names()[static_cast<std::size_t>(*op)]] : nullptr;
    if (value == nullptr) {
        return std::nullopt;
    }
    const std::string what = fmt::format("\"{}\"", fact.id);
    const auto limit = read_limit(*value, {what, fact.unit}, draft);
    if (!limit) {
        return std::nullopt;
    }
    warn_of_reach(*value, fact, *limit, draft);
    return screening::FactCompares{index, *op, *limit};
}

/// The keys that a fact of this type may be tested by.
std::vector<std::string_view> keys_of(FactType type)
{
    switch (type) {
        case FactType::yes_no:
            return {"is"};
        case FactType::choice:
            return {"is", "is_one_of"};
        case FactType::date:
            return {"within"};
        case FactType::number:
            return operator_names();
        case FactType::time:
        case FactType::text:
            break;
    }
    return {};
}

/// Tests that do not fit the type of the fact are told as such, not as unknown keys.
bool fits_type(const Located& node, const FactDefinition& fact, Faults& faults)
{
    const auto allowed = keys_of(fact.type);
    std::vector<std::string_view> known{"is", "is_one_of", "within"};
    known.insert(known.end(), operator_names().begin(), operator_names().end());
    for (const Located& key : node.keys) {
        const auto is_key = [&](std::string_view name) { return name == key.text; };
        if (std::ranges::any_of(known, is_key) && std::ranges::none_of(allowed, is_key)) {
            faults.add(key, fmt::format("\"{}\" does not fit the fact \"{}\"", key.text, fact.id),
                       std::string{tests_of(fact.type)});
            return false;
        }
    }
    return true;
}

}  // namespace

const std::vector<std::string_view>& operator_names()
{
    static const std::vector<std::string_view> names{"below", "at_most", "equals", "at_least", "above"};
    return names;
}

std::vector<const Located*> one_or_many(const Located& node)
{
    if (node.kind != Located::Kind::list) {
        return {&node};
    }
    std::vector<const Located*> items;
    for (const Located& item : node.items) {
        items.push_back(&item);
    }
    return items;
}

std::optional<Comparison> read_fact_comparison(const Located& node, ProtocolDraft& draft)
{
    const auto index = draft.facts.table.use(*find(node, "fact"), draft.faults);
    if (!index || !draft.fact_sound.at(*index)) {
        return std::nullopt;
    }
    const FactDefinition& fact = draft.protocol.facts.at(*index);
    if (!fits_type(node, fact, draft.faults)) {
        return std::nullopt;
    }
    const auto tests = keys_of(fact.type);
    const MapReader map(node, "a comparison", {{"fact"}, tests}, draft.faults);
    if (fact.type == FactType::number) {
        return read_number_test(map, *index, draft);
    }
    const auto written = std::ranges::find_if(tests, [&](std::string_view test) { return map.has(test); });
    if (written == tests.end()) {
        if (std::ranges::none_of(tests, [&](std::string_view test) { return map.wrote(test); })) {
            draft.faults.add(node, fmt::format("the fact \"{}\" without a test", fact.id),
                             std::string{tests_of(fact.type)});
        }
        return std::nullopt;
    }
    const Located& value = *map[*written];
    if (fact.type == FactType::choice) {
        return read_choices(value, *index, fact, draft.faults);
    }
    if (fact.type == FactType::date) {
        return read_within(value, *index, draft);
    }
    const auto yes = read_yes_no(value, draft.faults);
    return yes ? std::optional<Comparison>{screening::FactIs{*index, *yes}} : std::nullopt;
}

std::optional<Comparison> read_calculated(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "a comparison", {{"calculated"}, operator_names()}, draft.faults);
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i < screening::calculator_count; ++i) {
        names.push_back(name_of(static_cast<screening::Calculator>(i)));
    }
    const Located* name = map["calculated"];
    const auto calculator =
        name == nullptr ? std::nullopt : read_word<screening::Calculator>(*name, names, draft.faults);
    const auto op = written_operator(map, draft.faults);
    const Located* value = op ? map[operator_names()[static_cast<std::size_t>(*op)]] : nullptr;
    if (!calculator || value == nullptr) {
        return std::nullopt;
    }
    const auto which = calculator.value_or(screening::Calculator::age);  // it is there; GCC 12 cannot see it
    for (const screening::CalculatorInput input : inputs_of(which)) {
        const auto& fact = draft.protocol.calculators.facts[static_cast<std::size_t>(input)];
        if (fact) {
            draft.facts.table.mark_used(*fact);
        }
    }
    const auto limit = read_limit(*value, {name_of(which), unit_of(which)}, draft);
    return limit ? std::optional<Comparison>{screening::CalculatedCompares{which, *op, *limit}}
                 : std::nullopt;
}

screening::TakesMedicine read_medicine_ids(const Located& node, ProtocolDraft& draft)
{
    screening::TakesMedicine takes;
    const auto written = one_or_many(node);
    if (written.empty()) {
        draft.faults.add(node, "no class and no medicine is named", "at least one id");
    }
    for (const Located* item : written) {
        const auto id = read_id(*item, draft.faults);
        if (!id) {
            continue;
        }
        if (const auto group = draft.classes.table.find(*id)) {
            draft.classes.table.mark_used(*group);
            takes.classes.push_back(*group);
        } else if (const auto medicine = draft.medicines.table.find(*id)) {
            draft.medicines.table.mark_used(*medicine);
            takes.medicines.push_back(*medicine);
        } else if (draft.classes.table.complete() && draft.medicines.table.complete()) {
            std::vector<std::string_view> names(draft.classes.table.ids().begin(),
                                                draft.classes.table.ids().end());
            names.insert(names.end(), draft.medicines.table.ids().begin(), draft.medicines.table.ids().end());
            draft.faults.add(*item,
                             fmt::format("there is no class and no medicine {}", screening::as_written(*id)),
                             perhaps(*id, names));
        }
    }
    sort_once(takes.classes);
    sort_once(takes.medicines);
    return takes;
}

std::optional<Comparison> read_ordered(const Located& node, ProtocolDraft& draft)
{
    screening::PreparationOrdered ordered;
    for (const Located* item : one_or_many(node)) {
        if (const auto place = draft.preparations.table.use(*item, draft.faults)) {
            ordered.preparations.push_back(*place);
        }
    }
    if (node.kind == Located::Kind::list && node.items.empty()) {
        draft.faults.add(node, "no preparation is named", "at least one id");
    }
    sort_once(ordered.preparations);
    return ordered;
}

std::optional<Comparison> read_record_test(const Located& node, RecordTests record, ProtocolDraft& draft)
{
    constexpr std::array<std::string_view, 5> names{"conflict", "unrecognised medicine", "own concern",
                                                    "told no longer right", "out of scope"};
    const auto what = read_word<screening::RecordHas::What>(node, names, draft.faults);
    if (what && record == RecordTests::refused) {
        draft.faults.add(
            node, "a rule that is not about the record looks at the record",
            "kind: record, or another condition; what is not known leaves a rule open by itself");
        return std::nullopt;
    }
    return what ? std::optional<Comparison>{screening::RecordHas{*what}} : std::nullopt;
}

}  // namespace foreday::data
