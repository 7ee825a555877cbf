#include "data/reading/case_reading.h"

#include <utility>

#include "data/reading/case_draft.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "data/reading/zone_name.h"

namespace foreday::data {
namespace {

using screening::Dose;
using screening::LocalMinute;
using screening::Moment;

constexpr auto own_id = [](const auto& entry) { return entry.id; };
constexpr auto head_id = [](const auto& rule) { return rule.head.id; };

/// A time that can be read, without a word about one that cannot.
std::optional<screening::WrittenTime> time_if_any(const Located* node)
{
    if (node == nullptr || node->kind != Located::Kind::scalar) {
        return std::nullopt;
    }
    const auto time = screening::parse_written_time(node->text);
    return time ? std::optional{*time} : std::nullopt;
}

bool has_value(const Located& tree, std::string_view key)
{
    const Located* node = find(tree, key);
    return node != nullptr && node->kind != Located::Kind::nothing;
}

void read_place(const Located& tree, const std::filesystem::path& file, PolicyNamed named, Faults& faults,
                CaseStart& start)
{
    const bool unit = has_value(tree, "unit");
    const bool zone = has_value(tree, "zone");
    if (unit) {
        if (const auto path = read_text(*find(tree, "unit"), faults)) {
            start.policy = file.parent_path() / *path;
        }
    } else if (zone) {
        start.zone = read_zone_name(*find(tree, "zone"), faults);
    } else if (named == PolicyNamed::by_the_case) {
        faults.add(tree, "the case names neither its unit nor its zone",
                   "unit: the file of the unit's policy, or zone: America/New_York");
    }
}

/// Every key of a case that is read, in the order in which one needs the other.
void read_parts(const MapReader& map, CaseDraft& draft)
{
    using Part = void (*)(const Located&, CaseDraft&);
    const std::initializer_list<std::pair<std::string_view, Part>> parts{
        {"booking", read_booking},   {"facts", read_case_facts},    {"medicines", read_medicine_list},
        {"concerns", read_concerns}, {"decisions", read_decisions}, {"told", read_told},
        {"cleared", read_cleared},   {"arrival", read_arrival},     {"done", read_done}};
    for (const auto& [key, read] : parts) {
        if (map[key] != nullptr) {
            read(*map[key], draft);
        }
    }
}

void read_tree(const Located& tree, CaseDraft& draft, ReadCase& result)
{
    const MapReader map(tree, "a case",
                        {{"case", "booking"},
                         {"unit", "zone", "as_of", "facts", "medicines", "decisions", "told", "concerns",
                          "cleared", "arrival", "done"}},
                        draft.faults);
    draft.record.id = text_at(map, "case", draft.faults);
    if (map.has("unit") && map.has("zone")) {
        draft.faults.add(map.key("zone"), "a case with a unit and a zone",
                         "one of the two: a unit's policy names its zone");
    }
    if (map["as_of"] != nullptr) {
        result.as_of = read_moment(*map["as_of"], draft);
        draft.now = result.as_of.value_or(draft.now);
    }
    read_parts(map, draft);
}

}  // namespace

CaseDraft::CaseDraft(const screening::Rules& rules_read, Moment otherwise)
    : rules(rules_read),
      now(otherwise),
      facts(table_of("fact", rules.protocol.facts, own_id)),
      medicines(table_of("medicine", rules.protocol.medicines, own_id)),
      preparations(table_of("preparation", rules.protocol.preparations, own_id)),
      procedures(table_of("procedure", rules.protocol.procedures, own_id)),
      findings(table_of("finding", rules.protocol.findings, head_id)),
      readiness(table_of("readiness item", rules.protocol.readiness, head_id))
{
    record.answers.resize(rules.protocol.facts.size());
}

std::optional<Moment> read_moment(const Located& node, CaseDraft& draft)
{
    const auto written = read_written_time(node, draft.faults);
    if (!written) {
        return std::nullopt;
    }
    const auto moment = screening::resolve(draft.rules.zone, *written);
    if (!moment) {
        draft.faults.add(node, moment.error());
        return std::nullopt;
    }
    return *moment;
}

std::optional<LocalMinute> read_local(const Located& node, CaseDraft& draft)
{
    const auto moment = read_moment(node, draft);
    return moment ? std::optional{screening::local_of(draft.rules.zone, *moment)} : std::nullopt;
}

Moment moment_at(const MapReader& map, std::string_view key, CaseDraft& draft)
{
    return map[key] == nullptr ? draft.now : read_moment(*map[key], draft).value_or(draft.now);
}

std::optional<Dose> read_dose(const Located& node, CaseDraft& draft)
{
    if (node.kind == Located::Kind::scalar && node.text.find('T') != std::string::npos) {
        const auto local = read_local(node, draft);
        return local ? std::optional{Dose{screening::date_of(*local), screening::time_of_day(*local)}}
                     : std::nullopt;
    }
    const auto day = read_date(node, draft.faults);
    return day ? std::optional{Dose{*day, std::nullopt}} : std::nullopt;
}

CaseStart peek_case(const std::filesystem::path& file, PolicyNamed named)
{
    CaseStart start;
    Faults faults;
    if (const auto tree = read_yaml(file, faults)) {
        read_place(*tree, file, named, faults, start);
        start.as_of = time_if_any(find(*tree, "as_of"));
        const Located* booking = find(*tree, "booking");
        start.start = time_if_any(booking == nullptr ? nullptr : find(*booking, "start"));
    }
    start.faults = faults.sorted();
    return start;
}

ReadCase read_case(const std::filesystem::path& file, const screening::Rules& rules, Moment otherwise)
{
    ReadCase result;
    CaseDraft draft(rules, otherwise);
    if (const auto tree = read_yaml(file, draft.faults)) {
        read_tree(*tree, draft, result);
    }
    result.faults = draft.faults.sorted();
    result.warnings = draft.warnings.sorted();
    if (draft.faults.empty()) {
        result.record = std::move(draft.record);
    }
    return result;
}

}  // namespace foreday::data
