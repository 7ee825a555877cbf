#include "data/reading/condition_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "data/reading/condition_parts.h"
#include "data/reading/map_reader.h"
#include "data/reading/nearest.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::Comparison;
using screening::Condition;

std::optional<Comparison> read_comparison(const Located& node, std::string_view head, RecordTests record,
                                          ProtocolDraft& draft)
{
    if (head == "fact") {
        return read_fact_comparison(node, draft);
    }
    if (head == "calculated") {
        return read_calculated(node, draft);
    }
    const MapReader map(node, "a condition", {{head}, {}}, draft.faults);
    const Located* value = map[head];
    if (value == nullptr) {
        return std::nullopt;
    }
    if (head == "takes") {
        return read_medicine_ids(*value, draft);
    }
    if (head == "procedure") {
        const auto place = draft.procedures.table.use(*value, draft.faults);
        return place ? std::optional<Comparison>{screening::ProcedureIncludes{*place}} : std::nullopt;
    }
    if (head == "bleeding_risk") {
        const auto risk = read_named(*value, screening::BleedingRisk::high, draft.faults);
        return risk ? std::optional<Comparison>{screening::BleedingRiskIs{*risk}} : std::nullopt;
    }
    if (head == "ordered") {
        return read_ordered(*value, draft);
    }
    return read_record_test(*value, record, draft);
}

void read_children(const Located& list, std::string_view what, RecordTests record, ProtocolDraft& draft,
                   Condition& condition)
{
    const auto& items = list_items(list, what, draft.faults);
    for (const Located& item : items) {
        condition.children.push_back(read_condition(item, record, draft));
    }
    if (list.kind == Located::Kind::list && items.empty()) {
        draft.faults.add(list, fmt::format("\"{}\" without a condition", what), "at least one condition");
    }
}

Condition read_at_least(const Located& node, RecordTests record, ProtocolDraft& draft)
{
    Condition condition;
    condition.kind = Condition::Kind::at_least;
    const MapReader outer(node, "a condition", {{"at_least"}, {}}, draft.faults);
    if (outer["at_least"] == nullptr) {
        return condition;
    }
    const MapReader map(*outer["at_least"], "at_least", {{"count", "of"}, {}}, draft.faults);
    if (map["of"] != nullptr) {
        read_children(*map["of"], "of", record, draft, condition);
    }
    const Located* count = map["count"];
    if (count == nullptr) {
        return condition;
    }
    if (count->kind == Located::Kind::map) {
        condition.count =
            read_limit(*count, {"a count", screening::Unit::none}, draft).value_or(screening::Exact{});
    } else if (const auto most = static_cast<std::int64_t>(condition.children.size()); most > 0) {
        condition.count = screening::Exact{read_whole(*count, 1, most, draft.faults).value_or(1)};
    }
    return condition;
}

Condition read_group(const Located& node, std::string_view head, RecordTests record, ProtocolDraft& draft)
{
    if (head == "at_least") {
        return read_at_least(node, record, draft);
    }
    Condition condition;
    const MapReader map(node, "a condition", {{head}, {}}, draft.faults);
    const Located* value = map[head];
    if (value == nullptr) {
        return condition;
    }
    if (head == "not") {
        condition.kind = Condition::Kind::negation;
        condition.children.push_back(read_condition(*value, record, draft));
    } else if (head == "always") {
        if (const auto yes = read_yes_no(*value, draft.faults); yes && !*yes) {
            draft.faults.add(*value, "a condition that is never true", "always: yes, or leave the rule out");
        }
    } else {
        condition.kind = head == "all" ? Condition::Kind::all : Condition::Kind::any;
        read_children(*value, head, record, draft, condition);
    }
    return condition;
}

constexpr std::array<std::string_view, 5> groups{"all", "any", "not", "at_least", "always"};
constexpr std::array<std::string_view, 7> comparisons{"fact",          "calculated", "takes", "procedure",
                                                      "bleeding_risk", "ordered",    "record"};

/// `at_least` is a group only with its count; beside a misspelt `fact:` it is the limit of a comparison.
bool is_head(const Located& node, std::string_view name)
{
    const Located* value = find(node, name);
    return value != nullptr && (name != "at_least" || node.keys.size() == 1 ||
                                find(*value, "count") != nullptr || find(*value, "of") != nullptr);
}

/// The word that says what kind of condition it is; empty when there is none. Comparisons come first:
/// {fact: weight, at_least: 150 kg} is one.
std::string_view head_of(const Located& node)
{
    const auto stands = [&](std::string_view name) { return is_head(node, name); };
    if (const auto* found = std::ranges::find_if(comparisons, stands); found != comparisons.end()) {
        return *found;
    }
    const auto* found = std::ranges::find_if(groups, stands);
    return found == groups.end() ? std::string_view{} : *found;
}

}  // namespace

Condition read_condition(const Located& node, RecordTests record, ProtocolDraft& draft)
{
    const std::string_view head = head_of(node);
    if (head.empty()) {
        std::vector<std::string_view> heads(groups.begin(), groups.end());
        heads.insert(heads.end(), comparisons.begin(), comparisons.end());
        const std::string written =
            node.keys.empty() ? std::string{kind_name(node)} : screening::as_written(node.keys.front().text);
        draft.faults.add(
            node.keys.empty() ? node : node.keys.front(), fmt::format("{} is no condition", written),
            node.keys.empty() ? "{fact: ..., is: yes}, for example" : perhaps(node.keys.front().text, heads));
        return {};
    }
    if (std::ranges::find(groups, head) != groups.end()) {
        return read_group(node, head, record, draft);
    }
    Condition condition;
    if (auto comparison = read_comparison(node, head, record, draft)) {
        condition.kind = Condition::Kind::compare;
        condition.comparison = std::move(*comparison);
    }
    return condition;
}

}  // namespace foreday::data
