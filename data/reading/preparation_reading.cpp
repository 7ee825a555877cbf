#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "data/reading/reading_parts.h"
#include "data/reading/rule_reading.h"
#include "data/reading/scalars.h"

namespace foreday::data {
namespace {

using screening::Exact;
using screening::Portion;
using screening::PortionStep;
using screening::Preparation;
using screening::StartWindow;
using std::chrono::minutes;

constexpr std::int64_t most_times = 100;  // glasses or tablets of one portion; more is a slip of the pen

PortionStep read_step(const Located& node, Faults& faults)
{
    const MapReader map(node, "a step", {{"what", "every"}, {"times", "amount"}}, faults);
    PortionStep step;
    step.what = text_at(map, "what", faults);
    if (map["times"] != nullptr) {
        step.times = static_cast<int>(read_whole(*map["times"], 1, most_times, faults).value_or(1));
    }
    if (map["every"] != nullptr) {
        step.every = read_minutes(*map["every"], minutes{1}, faults).value_or(minutes{1});
    }
    if (map["amount"] != nullptr) {
        step.millilitres =
            read_quantity_in(*map["amount"], screening::Unit::millilitre, "an amount to drink", faults)
                .value_or(Exact{});
        if (step.millilitres < Exact{0}) {
            faults.add(*map["amount"], "an amount below 0", "an amount in mL");
        }
    }
    return step;
}

Portion read_portion(const MapReader& preparation, std::string_view key, Faults& faults)
{
    Portion portion;
    if (preparation[key] == nullptr) {
        return portion;
    }
    const MapReader map(*preparation[key], "a portion", {{"title", "steps"}, {}}, faults);
    portion.title = text_at(map, "title", faults);
    if (map["steps"] == nullptr) {
        return portion;
    }
    for (const Located& item : list_items(*map["steps"], "steps", faults)) {
        portion.steps.push_back(read_step(item, faults));
    }
    if (map["steps"]->kind == Located::Kind::list && portion.steps.empty()) {
        faults.add(*map["steps"], "a portion without a step", "at least one step");
    }
    return portion;
}

minutes minutes_at(const MapReader& map, std::string_view key, Faults& faults)
{
    return map[key] == nullptr ? minutes{0}
                               : read_minutes(*map[key], minutes{0}, faults).value_or(minutes{0});
}

StartWindow read_window(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "a window", {{"earliest", "latest", "sure"}, {"sources"}}, draft.faults);
    StartWindow window;
    const std::size_t before = draft.faults.count();
    window.earliest = minutes_at(map, "earliest", draft.faults);
    window.latest = minutes_at(map, "latest", draft.faults);
    if (draft.faults.count() == before && map.has("earliest") && map.has("latest") &&
        window.latest > window.earliest) {
        draft.faults.add(*map["latest"], "the window closes before it opens",
                         "latest: not longer before the procedure than earliest");
    }
    const Ground ground = read_ground(map, draft);
    window.sources = ground.sources;
    window.sure = ground.sure;
    return window;
}

void read_windows(const Located& node, Preparation& preparation, ProtocolDraft& draft)
{
    for (const Located& item : list_items(node, "second_starts", draft.faults)) {
        preparation.windows.push_back(read_window(item, draft));
    }
    if (node.kind == Located::Kind::list && preparation.windows.empty()) {
        draft.faults.add(node, "no window for the second portion", "at least one");
    }
}

void read_between(const Located& node, Preparation& preparation, ProtocolDraft& draft)
{
    const MapReader map(node, "between_starts", {{"from", "to"}, {"sources"}}, draft.faults);
    const std::size_t before = draft.faults.count();
    const minutes from = minutes_at(map, "from", draft.faults);
    const minutes to = minutes_at(map, "to", draft.faults);
    if (draft.faults.count() == before && map.has("from") && map.has("to") && to < from) {
        draft.faults.add(*map["to"], "the range ends below its beginning", "from: shortest, to: longest");
    }
    preparation.between_starts = screening::Interval<minutes>{from, to};
    if (map["sources"] != nullptr) {
        preparation.between_sources = read_sources(*map["sources"], draft);
    }
}

void read_last_solid(const Located& node, Preparation& preparation, ProtocolDraft& draft)
{
    const MapReader map(node, "last_solid", {{"at", "words", "sure"}, {"sources"}}, draft.faults);
    if (map["at"] != nullptr) {
        preparation.last_solid = read_time_of_day(*map["at"], draft.faults).value_or(screening::TimeOfDay{0});
    }
    preparation.last_solid_words = text_at(map, "words", draft.faults);
    const Ground ground = read_ground(map, draft);
    preparation.diet_sources = ground.sources;
    preparation.diet_sure = ground.sure;
}

void read_no_medicine(const Located& node, Preparation& preparation, ProtocolDraft& draft)
{
    const MapReader map(node, "no_medicine_before", {{"time"}, {"sources"}}, draft.faults);
    preparation.no_medicine_before = minutes_at(map, "time", draft.faults);
    if (map["sources"] != nullptr) {
        preparation.no_medicine_sources = read_sources(*map["sources"], draft);
    }
}

void read_spacing(const Located& node, Preparation& preparation, ProtocolDraft& draft)
{
    const MapReader map(node, "spacing", {{"classes", "before", "after"}, {}}, draft.faults);
    if (map["classes"] != nullptr) {
        for (const Located& item : list_items(*map["classes"], "classes", draft.faults)) {
            if (const auto place = draft.classes.table.use(item, draft.faults)) {
                preparation.spaced_classes.push_back(*place);
            }
        }
    }
    std::ranges::sort(preparation.spaced_classes);
    preparation.spaced_before = minutes_at(map, "before", draft.faults);
    preparation.spaced_after = minutes_at(map, "after", draft.faults);
}

void read_limits(const Located& node, Preparation& preparation, ProtocolDraft& draft)
{
    std::set<std::string> seen;
    for (const Located& item : list_items(node, "limits", draft.faults)) {
        preparation.limits.push_back({read_finding(item, FindingPlace::preparation, draft)});
        const Located* id = find(item, "id");
        if (id == nullptr || !read_id(*id, draft.faults)) {
            continue;
        }
        if (!seen.insert(id->text).second) {
            draft.faults.add(*id, fmt::format("the limit \"{}\" stands twice", id->text), "another id");
        }
    }
}

Preparation read_preparation(const Located& node, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a preparation",
                        {{"id", "generic", "first", "second", "second_starts", "last_solid",
                          "no_medicine_before", "limits", "sure"},
                         {"described_as", "between_starts", "spacing", "notes", "sources"}},
                        faults);
    Preparation preparation;
    preparation.id = id_at(map);
    preparation.generic = text_at(map, "generic", faults);
    preparation.first = read_portion(map, "first", faults);
    preparation.second = read_portion(map, "second", faults);
    using Part = void (*)(const Located&, Preparation&, ProtocolDraft&);
    const std::initializer_list<std::pair<std::string_view, Part>> parts{
        {"second_starts", read_windows}, {"between_starts", read_between},
        {"last_solid", read_last_solid}, {"no_medicine_before", read_no_medicine},
        {"spacing", read_spacing},       {"limits", read_limits}};
    for (const auto& [key, read] : parts) {
        if (map[key] != nullptr) {
            read(*map[key], preparation, draft);
        }
    }
    if (map["described_as"] != nullptr) {
        preparation.local_descriptions = read_texts(*map["described_as"], "described_as", faults);
    }
    if (map["notes"] != nullptr) {
        preparation.notes = read_texts(*map["notes"], "notes", faults);
    }
    const Ground ground = read_ground(map, draft);
    preparation.sources = ground.sources;
    preparation.sure = ground.sure;
    return preparation;
}

}  // namespace

void read_preparation_file(ProtocolDraft& draft)
{
    draft.protocol.preparations = read_entries<Preparation>(
        draft.preparations, [&](const Located& node) { return read_preparation(node, draft); });
}

}  // namespace foreday::data
