#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "data/reading/condition_reading.h"
#include "data/reading/reading_parts.h"
#include "data/reading/rule_reading.h"
#include "data/reading/scalars.h"
#include "data/reading/words.h"

namespace foreday::data {
namespace {

using screening::ConfirmedCheck;
using screening::FactType;
using screening::FastingCheck;
using screening::MeasuredCheck;
using screening::Operator;
using screening::ReadinessKind;
using screening::ReadinessRule;

using Check = decltype(ReadinessRule::check);

constexpr std::array<std::string_view, 3> kind_names{"holds the patient", "needs a clinician", "to be noted"};
constexpr std::string_view check_forms =
    "{fact: ID, below: ...}, {confirmed: ID}, {fasting: clear liquid, hours: ...} or `holds as taken`";

/// A fact of the type that a check needs.
std::optional<screening::FactIndex> read_checked_fact(const Located& node, FactType type,
                                                      ProtocolDraft& draft)
{
    const auto place = draft.facts.table.use(node, draft.faults);
    if (!place || !draft.fact_sound.at(*place)) {
        return std::nullopt;
    }
    if (draft.protocol.facts.at(*place).type != type) {
        draft.faults.add(
            node, fmt::format("the fact \"{}\" is of another type", draft.protocol.facts.at(*place).id),
            type == FactType::number ? "a number" : "a fact of type yes/no");
        return std::nullopt;
    }
    return place;
}

/// Each operator that stands in the map, with its limit.
void read_bounds(const MapReader& map, screening::FactIndex index, MeasuredCheck& check, ProtocolDraft& draft)
{
    const auto& fact = draft.protocol.facts.at(index);
    const std::string what = fmt::format("\"{}\"", fact.id);
    for (std::size_t i = 0; i < operator_names().size(); ++i) {
        const Located* node = map[operator_names()[i]];
        const auto limit = node == nullptr ? std::nullopt : read_limit(*node, {what, fact.unit}, draft);
        if (limit) {
            check.bounds.push_back({static_cast<Operator>(i), *limit});
        }
    }
}

Check read_measured(const Located& node, ProtocolDraft& draft)
{
    Keys keys{{"fact"}, operator_names()};
    keys.optional.emplace_back("all");
    const MapReader map(node, "a check", keys, draft.faults);
    MeasuredCheck check;
    const auto fact =
        map["fact"] == nullptr ? std::nullopt : read_checked_fact(*map["fact"], FactType::number, draft);
    if (!fact) {
        return check;
    }
    check.fact = *fact;
    const std::size_t before = draft.faults.count();
    read_bounds(map, *fact, check, draft);
    if (map["all"] != nullptr) {
        for (const Located& item : list_items(*map["all"], "all", draft.faults)) {
            const MapReader bound(item, "a bound", {{}, operator_names()}, draft.faults);
            read_bounds(bound, *fact, check, draft);
        }
    }
    const bool meant = std::ranges::any_of(operator_names(), [&](auto name) { return map.wrote(name); });
    if (check.bounds.empty() && draft.faults.count() == before && !meant) {
        draft.faults.add(node, "a measure without its limit", "below, at_most, equals, at_least or above");
    }
    return check;
}

Check read_confirmed(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "a check", {{"confirmed"}, {"expected"}}, draft.faults);
    ConfirmedCheck check;
    if (map["confirmed"] != nullptr) {
        check.fact = read_checked_fact(*map["confirmed"], FactType::yes_no, draft).value_or(0);
    }
    if (map["expected"] != nullptr) {
        check.expected = read_yes_no(*map["expected"], draft.faults).value_or(true);
    }
    return check;
}

Check read_fasting(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "a check", {{"fasting", "hours"}, {}}, draft.faults);
    FastingCheck check;
    if (map["fasting"] != nullptr) {
        if (const auto place = read_place(*map["fasting"], intake_kinds, draft.faults)) {
            check.intake = intake_kinds.at(*place);
        }
    }
    if (map["hours"] != nullptr) {
        check.gap_hours =
            read_limit(*map["hours"], {"the time without food or drink", screening::Unit::hour}, draft)
                .value_or(screening::Exact{});
    }
    return check;
}

Check read_check(const Located& node, ProtocolDraft& draft)
{
    if (find(node, "confirmed") != nullptr) {
        return read_confirmed(node, draft);
    }
    if (find(node, "fasting") != nullptr) {
        return read_fasting(node, draft);
    }
    if (find(node, "fact") != nullptr) {
        return read_measured(node, draft);
    }
    if (node.kind != Located::Kind::scalar || node.text != "holds as taken") {
        draft.faults.add(node, "this is no check", std::string{check_forms});
    }
    return screening::HoldsCheck{};
}

ReadinessRule read_readiness(const Located& node, ProtocolDraft& draft)
{
    const Keys own{{"kind", "check", "would_make_it_ready"}, {"when"}};
    const MapReader map(node, "a readiness item", head_keys() + own, draft.faults);
    ReadinessRule rule;
    rule.head = read_head(map, draft);
    if (map["kind"] != nullptr) {
        rule.kind = read_word<ReadinessKind>(*map["kind"], kind_names, draft.faults).value_or(rule.kind);
    }
    if (map["when"] != nullptr) {
        rule.when = read_condition(*map["when"], RecordTests::refused, draft);
    }
    if (map["check"] != nullptr) {
        rule.check = read_check(*map["check"], draft);
    }
    rule.order = node.line;
    rule.would_make_it_ready = text_at(map, "would_make_it_ready", draft.faults);
    return rule;
}

}  // namespace

void read_readiness_file(ProtocolDraft& draft)
{
    draft.protocol.readiness = read_entries<ReadinessRule>(
        draft.readiness, [&](const Located& node) { return read_readiness(node, draft); });
}

}  // namespace foreday::data
