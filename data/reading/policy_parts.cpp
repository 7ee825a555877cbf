#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "data/reading/confirmable.h"
#include "data/reading/parameter_value.h"
#include "data/reading/policy_draft.h"
#include "data/reading/reading_parts.h"
#include "data/reading/rule_reading.h"
#include "data/reading/scalars.h"
#include "data/reading/words.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::as_written;
using screening::Confirmation;
using screening::Looser;
using screening::Parameter;
using screening::ParameterValue;
using screening::Role;

bool is_looser(const Parameter& parameter, const ParameterValue& value)
{
    const auto before = as_number(parameter.by_default);
    const auto after = as_number(value);
    switch (parameter.looser) {
        case Looser::lower:
            return after < before;
        case Looser::higher:
            return after > before;
        case Looser::any:
            break;
    }
    return after != before;
}

std::optional<Role> read_clinician(const Located& node, Faults& faults)
{
    const auto role = read_named(node, Role::obstetrics, faults);
    if (role && !is_clinician(*role)) {
        faults.add(node, fmt::format("{} is no clinician who may decide this", as_written(name_of(*role))),
                   "endoscopist, anaesthesia, medical director, or a clinician from outside");
        return std::nullopt;
    }
    return role;
}

void read_parameter(const Located& key, const Located& node, PolicyDraft& draft)
{
    Faults& faults = draft.faults;
    const auto place = draft.parameters.resolve(key, faults);
    Keys keys = change_keys();
    keys.required = {"value"};
    const MapReader map(node, "a parameter of the unit", keys, faults);
    if (!place) {
        return;
    }
    const Parameter& parameter = draft.protocol.parameters.at(*place);
    const auto value =
        map["value"] == nullptr ? std::nullopt : read_parameter_value(*map["value"], parameter, faults);
    if (!value) {
        return;
    }
    if (!in_range(*value, parameter)) {
        faults.add(
            *map["value"],
            fmt::format("{} is out of the range of \"{}\"", as_written(map["value"]->text), parameter.id),
            fmt::format("from {}", range_text(parameter)));
        return;
    }
    const Signed needed = is_looser(parameter, *value) ? Signed::required : Signed::optional;
    draft.changes.push_back(read_change(map, parameter.id, needed, draft));
    draft.policy.parameters.at(*place) = *value;
}

void read_answer(const Located& key, const Located& node, PolicyDraft& draft)
{
    const auto place = draft.questions.resolve(key, draft.faults);
    Keys keys = change_keys();
    keys.required = {"option"};
    const MapReader map(node, "an answer", keys, draft.faults);
    if (!place) {
        return;
    }
    const auto& question = draft.protocol.policy_questions.at(*place);
    draft.changes.push_back(read_change(map, question.id, Signed::optional, draft));
    if (map["option"] == nullptr) {
        return;
    }
    std::vector<std::string_view> names;
    for (const auto& option : question.options) {
        names.push_back(option.id);
    }
    if (const auto option = read_place(*map["option"], names, draft.faults)) {
        draft.policy.options.at(*place) = static_cast<std::uint32_t>(*option);
    }
}

bool read_map(const Located& node, std::string_view what, Faults& faults)
{
    if (node.kind != Located::Kind::map) {
        faults.add(node, fmt::format("{}: {} where a map is needed", what, kind_name(node)), "ID: ...");
    }
    return node.kind == Located::Kind::map;
}

}  // namespace

Keys change_keys()
{
    return {{}, {"reason", "by", "role", "on"}};
}

UnitChange read_change(const MapReader& map, std::string item, Signed needed, PolicyDraft& draft)
{
    UnitChange change;
    change.item = std::move(item);
    std::string missing;
    for (const std::string_view key : change_keys().optional) {
        if (!map.wrote(key)) {
            missing += fmt::format("{}{}", missing.empty() ? "" : ", ", key);
        }
    }
    if (needed == Signed::required && !missing.empty() && map.is_map()) {
        draft.faults.add(map.node(),
                         fmt::format("\"{}\" is looser than the default, without {}", change.item, missing),
                         "reason, by (a clinician's name), role and on (a date)");
    }
    change.reason = text_at(map, "reason", draft.faults);
    change.by = text_at(map, "by", draft.faults);
    if (map["role"] != nullptr) {
        change.role = read_clinician(*map["role"], draft.faults);
    }
    if (map["on"] != nullptr) {
        change.on = read_date(*map["on"], draft.faults);
    }
    return change;
}

void read_unit_parameters(const Located& node, PolicyDraft& draft)
{
    if (read_map(node, "parameters", draft.faults)) {
        for (std::size_t i = 0; i < node.keys.size(); ++i) {
            read_parameter(node.keys[i], node.items[i], draft);
        }
    }
}

void read_unit_answers(const Located& node, PolicyDraft& draft)
{
    if (read_map(node, "answers", draft.faults)) {
        for (std::size_t i = 0; i < node.keys.size(); ++i) {
            read_answer(node.keys[i], node.items[i], draft);
        }
    }
}

void read_confirmations(const Located& node, PolicyDraft& draft)
{
    const auto known = confirmables(draft.protocol, draft.policy.options);
    std::vector<std::string> ids;
    for (const Confirmable& item : known) {
        ids.push_back(item.id);
    }
    std::ranges::sort(ids);
    ids.erase(std::ranges::unique(ids).begin(), ids.end());  // a hold and its restart share one id
    const IdTable table("thing to confirm", ids, true);
    std::set<std::string> seen;
    for (const Located& entry : list_items(node, "confirms", draft.faults)) {
        const MapReader map(entry, "a confirmation", {{"items", "by", "role", "on"}, {}}, draft.faults);
        Confirmation confirmation;
        confirmation.by = text_at(map, "by", draft.faults);
        if (map["role"] != nullptr) {
            confirmation.role = read_clinician(*map["role"], draft.faults).value_or(Role::medical_director);
        }
        if (map["on"] != nullptr) {
            confirmation.on = read_date(*map["on"], draft.faults).value_or(screening::Date{});
        }
        if (map["items"] == nullptr) {
            continue;
        }
        for (const Located& item : list_items(*map["items"], "items", draft.faults)) {
            const auto place = table.resolve(item, draft.faults);
            if (!place) {
                continue;
            }
            confirmation.item = ids.at(*place);
            const screening::HowSure sure = weakest_of(known, confirmation.item);
            if (may_give_a_date(sure)) {
                draft.warnings.add(
                    item,
                    fmt::format("\"{}\" needs no confirmation: it is {}", confirmation.item, name_of(sure)),
                    "leave it out");
            }
            if (!seen.insert(confirmation.item).second) {
                draft.faults.add(item, fmt::format("\"{}\" is confirmed twice", confirmation.item), "once");
                continue;
            }
            draft.policy.confirmations.push_back(confirmation);
        }
    }
    std::ranges::sort(draft.policy.confirmations, {}, &Confirmation::item);
}

namespace {

/// A hold that nurses may instruct speaks about no marked medicine.
void refuse_marked(const Located& node, std::uint32_t hold, PolicyDraft& draft)
{
    for (std::uint32_t i = 0; i < draft.protocol.medicines.size(); ++i) {
        const auto& medicine = draft.protocol.medicines[i];
        if (medicine.marked && screening::speaks_about(draft.protocol.holds.at(hold), i, draft.protocol)) {
            draft.faults.add(node, fmt::format("a standing order on a marked medicine ({})", medicine.id),
                             "holds of medicines that are not marked");
            return;
        }
    }
}

}  // namespace

void read_standing_orders(const Located& node, PolicyDraft& draft)
{
    for (const Located& entry : list_items(node, "standing_orders", draft.faults)) {
        const MapReader map(entry, "a standing order", {{"holds", "director", "from", "until"}, {}},
                            draft.faults);
        screening::StandingOrder order;
        order.director = text_at(map, "director", draft.faults);
        const auto from = map["from"] == nullptr ? std::nullopt : read_date(*map["from"], draft.faults);
        const auto until = map["until"] == nullptr ? std::nullopt : read_date(*map["until"], draft.faults);
        order.from = from.value_or(screening::Date{});
        order.until = until.value_or(screening::Date{});
        if (from && until && *until < *from) {
            draft.faults.add(*map["until"], "the order ends before it begins", "a day on or after `from`");
        }
        if (map["holds"] != nullptr) {
            for (const Located& item : list_items(*map["holds"], "holds", draft.faults)) {
                if (const auto place = draft.holds.resolve(item, draft.faults)) {
                    refuse_marked(item, *place, draft);
                    order.holds.push_back(draft.holds.ids().at(*place));
                }
            }
        }
        std::ranges::sort(order.holds);
        draft.policy.standing_orders.push_back(std::move(order));
    }
}

void read_preparation_order(const Located& node, PolicyDraft& draft)
{
    std::vector<screening::PreparationIndex> order;
    for (const Located& item : list_items(node, "preparations", draft.faults)) {
        const auto place = draft.preparations.resolve(item, draft.faults);
        if (!place) {
            continue;
        }
        if (std::ranges::find(order, *place) != order.end()) {
            draft.faults.add(item, fmt::format("{} stands twice", as_written(item.text)), "once");
            continue;
        }
        order.push_back(*place);
    }
    draft.policy.preparation_order = std::move(order);
}

void read_may_agree(const Located& node, PolicyDraft& draft)
{
    if (!read_map(node, "may_agree", draft.faults)) {
        return;
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const auto topic = read_named(node.keys[i], screening::Topic::record, draft.faults);
        const auto roles = read_roles(node.items[i], draft.faults);
        for (const Role role : roles) {
            if (!is_clinician(role)) {
                draft.faults.add(node.items[i],
                                 fmt::format("{} is no clinician who may agree", as_written(name_of(role))),
                                 "endoscopist, anaesthesia, medical director, or a clinician from outside");
            }
        }
        if (topic && !roles.empty()) {
            draft.policy.may_agree[*topic] = roles;
        }
    }
}

void read_unit_hours(const Located& node, PolicyDraft& draft)
{
    const MapReader map(node, "the hours", {{"opens", "closes", "days"}, {"holidays"}}, draft.faults);
    screening::Calendar calendar;
    const auto opens = map["opens"] == nullptr ? std::nullopt : read_time_of_day(*map["opens"], draft.faults);
    const auto closes =
        map["closes"] == nullptr ? std::nullopt : read_time_of_day(*map["closes"], draft.faults);
    calendar.opens = opens.value_or(screening::TimeOfDay{0});
    calendar.closes = closes.value_or(screening::TimeOfDay{0});
    if (opens && closes && *closes <= *opens) {
        draft.faults.add(*map["closes"], "the unit closes before it opens", "a later time of the same day");
    }
    if (map["days"] != nullptr) {
        std::set<unsigned> days;
        for (const Located& item : list_items(*map["days"], "days", draft.faults)) {
            if (const auto place = read_place(item, weekday_words, draft.faults)) {
                days.insert(static_cast<unsigned>(*place) + 1);
            }
        }
        calendar.working_weekdays.assign(days.begin(), days.end());
        if (map["days"]->kind == Located::Kind::list && map["days"]->items.empty()) {
            draft.faults.add(*map["days"], "a unit without a working day", "at least one day");
        }
    }
    if (map["holidays"] != nullptr) {
        for (const Located& item : list_items(*map["holidays"], "holidays", draft.faults)) {
            if (const auto day = read_date(item, draft.faults)) {
                calendar.holidays.push_back(*day);
            }
        }
    }
    std::ranges::sort(calendar.holidays);
    draft.policy.calendar = std::move(calendar);
}

}  // namespace foreday::data
