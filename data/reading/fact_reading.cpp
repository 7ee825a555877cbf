#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "data/reading/condition_reading.h"
#include "data/reading/danger_reading.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::Exact;
using screening::FactDefinition;
using screening::FactScope;
using screening::FactType;
using screening::Topic;
using screening::Unit;

constexpr std::array<std::string_view, 6> type_names{"yes/no", "number", "date", "time", "choice", "text"};
constexpr std::array<std::string_view, 3> scope_names{"person", "case", "day"};
constexpr std::array<std::string_view, 3> asked_of_names{"patient", "staff", "letter"};

/// A key that only facts of one type have.
void refuse_key(const MapReader& map, std::string_view key, std::string_view only, Faults& faults)
{
    if (map.wrote(key)) {
        faults.add(map.key(key), fmt::format("\"{}\" on a fact of another type", key),
                   fmt::format("{} only; leave it out", only));
    }
}

void require_key(const MapReader& map, std::string_view key, const FactDefinition& fact, Faults& faults)
{
    if (!map.wrote(key)) {
        faults.add(map.node(), fmt::format("the fact \"{}\" has no \"{}\"", fact.id, key),
                   fmt::format("{}: ...", key));
    }
}

/// @returns whether the unit is known
bool read_unit(const MapReader& map, FactDefinition& fact, Faults& faults)
{
    if (fact.type != FactType::number) {
        refuse_key(map, "unit", "numbers", faults);
        return true;
    }
    if (map["unit"] == nullptr) {
        return true;
    }
    const auto text = read_text(*map["unit"], faults);
    const auto unit = text ? screening::find_unit(*text) : std::nullopt;
    if (text && !unit) {
        faults.add(*map["unit"], fmt::format("{} is no unit we know", screening::as_written(*text)),
                   "kg, cm, mg/dL creatinine or another of those in FORMAT.md");
    }
    fact.unit = unit.value_or(Unit::none);
    return unit.has_value();
}

void read_plausible(const MapReader& map, FactDefinition& fact, Faults& faults)
{
    if (fact.type != FactType::number) {
        refuse_key(map, "plausible", "numbers", faults);
        return;
    }
    require_key(map, "plausible", fact, faults);
    if (map["plausible"] != nullptr) {
        fact.plausible =
            read_number_range(*map["plausible"], fact, faults).value_or(screening::NumberInterval{});
    }
}

void read_fact_choices(const MapReader& map, FactDefinition& fact, Faults& faults)
{
    if (fact.type != FactType::choice) {
        refuse_key(map, "choices", "choices", faults);
        return;
    }
    require_key(map, "choices", fact, faults);
    if (map["choices"] == nullptr) {
        return;
    }
    std::set<std::string> seen;
    for (const Located& item : list_items(*map["choices"], "choices", faults)) {
        const auto choice = read_id(item, faults);
        if (choice && !seen.insert(*choice).second) {
            faults.add(item, fmt::format("the choice \"{}\" stands twice", *choice), "once");
        }
        fact.choices.push_back(choice.value_or(""));
    }
    if (map["choices"]->kind == Located::Kind::list && fact.choices.size() < 2) {
        faults.add(*map["choices"], "a choice has at least two choices", "two, or another type");
    }
}

/// Tolerance in the unit of the fact, in days for dates and times.
void read_tolerance(const MapReader& map, FactDefinition& fact, Faults& faults)
{
    fact.compare = map["compare"] != nullptr && read_yes_no(*map["compare"], faults).value_or(false);
    const Located* tolerance = map["tolerance"];
    if (tolerance == nullptr) {
        return;
    }
    const bool is_number = fact.type == FactType::number;
    const bool is_date = fact.type == FactType::date || fact.type == FactType::time;
    if (!map.wrote("compare") || (!is_number && !is_date)) {
        faults.add(map.key("tolerance"), "a tolerance on a fact that has none",
                   "on numbers, dates and times with `compare: yes` only");
        return;
    }
    const Unit unit = is_number ? fact.unit : Unit::day;
    const auto quantity = read_quantity(*tolerance, faults);
    // A difference of temperatures converts otherwise than a temperature, so their units must be the same.
    const bool temperature = unit == Unit::celsius || unit == Unit::fahrenheit;
    if (!quantity) {
        return;
    }
    if (!screening::comparable(quantity->unit, unit) || (temperature && quantity->unit != unit) ||
        quantity->value < Exact{0}) {
        faults.add(
            *tolerance,
            fmt::format("{} is no tolerance of \"{}\"", screening::as_written(tolerance->text), fact.id),
            unit == Unit::none ? "a number without a unit"
                               : fmt::format("a number in {}, 0 or more", screening::unit_text(unit)));
        return;
    }
    fact.tolerance = screening::convert(quantity->value, quantity->unit, unit);
}

void read_section(const MapReader& map, FactDefinition& fact, ProtocolDraft& draft)
{
    const auto& sections = draft.protocol.sections;
    if (map["section"] == nullptr) {
        return;
    }
    if (sections.empty()) {  // its fault has been told in protocol.yaml
        fact.section = text_at(map, "section", draft.faults);
        return;
    }
    const std::vector<std::string_view> names(sections.begin(), sections.end());
    if (const auto place = read_place(*map["section"], names, draft.faults)) {
        fact.section = sections[*place];
    }
}

FactDefinition read_fact(const Located& node, ProtocolDraft& draft, std::vector<bool>& sound)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a fact",
                        {{"id", "type", "section", "topic", "scope", "question", "why", "danger"},
                         {"label", "unit", "plausible", "choices", "asked_of", "asked_when", "age_limit",
                          "compare", "tolerance"}},
                        faults);
    FactDefinition fact;
    fact.id = id_at(map);
    fact.order = node.line;
    if (map["label"] != nullptr) {
        fact.label = text_at(map, "label", faults);
    }
    read_section(map, fact, draft);
    if (map["topic"] != nullptr) {
        fact.topic = read_named(*map["topic"], Topic::record, faults).value_or(Topic::record);
    }
    if (map["scope"] != nullptr) {
        fact.scope =
            read_word<FactScope>(*map["scope"], scope_names, faults).value_or(FactScope::booked_case);
    }
    if (map["asked_of"] != nullptr) {
        fact.asked_of = read_word<screening::AskedOf>(*map["asked_of"], asked_of_names, faults)
                            .value_or(screening::AskedOf::patient);
    }
    fact.question = text_at(map, "question", faults);
    fact.why = text_at(map, "why", faults);
    if (map["age_limit"] != nullptr) {
        fact.age_limit = read_minutes(*map["age_limit"], std::chrono::minutes{1}, faults);
    }
    const auto type =
        map["type"] == nullptr ? std::nullopt : read_word<FactType>(*map["type"], type_names, faults);
    if (!type) {
        sound.push_back(false);
        return fact;
    }
    fact.type = *type;
    const bool unit_known = read_unit(map, fact, faults);
    const bool typed = unit_known && (fact.type != FactType::choice || map["choices"] != nullptr);
    if (unit_known) {
        read_plausible(map, fact, faults);
        read_tolerance(map, fact, faults);
    }
    read_fact_choices(map, fact, faults);
    if (map["danger"] != nullptr && typed) {
        fact.danger = read_danger(*map["danger"], fact, faults);
    }
    sound.push_back(typed);
    return fact;
}

}  // namespace

void read_fact_file(ProtocolDraft& draft)
{
    std::vector<bool> sound;
    draft.protocol.facts = read_entries<FactDefinition>(
        draft.facts, [&](const Located& node) { return read_fact(node, draft, sound); });
    draft.fact_sound = std::move(sound);
}

void read_asked_when(ProtocolDraft& draft)
{
    const auto read = [&](const Located& entry) -> std::shared_ptr<const screening::Condition> {
        const Located* node = find(entry, "asked_when");
        if (node == nullptr || node->kind == Located::Kind::nothing) {
            return nullptr;
        }
        return std::make_shared<const screening::Condition>(
            read_condition(*node, RecordTests::refused, draft));
    };
    for (std::size_t i = 0; i < draft.facts.by_place.size(); ++i) {
        draft.protocol.facts[i].asked_when = read(*draft.facts.by_place[i]);
    }
    for (const Located* stray : draft.facts.strays) {
        static_cast<void>(read(*stray));
    }
}

}  // namespace foreday::data
