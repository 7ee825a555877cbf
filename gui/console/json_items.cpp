#include "gui/console/json_items.h"

namespace foreday::console {
namespace {

using nlohmann::ordered_json;
using screening::HoldOption;
using screening::HoldPlan;
using screening::Item;
using screening::Zone;

template <class Range, class Make>
ordered_json list_of(const Range& range, Make make)
{
    auto list = ordered_json::array();
    for (const auto& one : range) {
        list.push_back(make(one));
    }
    return list;
}

ordered_json sources_json(const std::vector<screening::SourceUse>& sources)
{
    return list_of(sources, [](const screening::SourceUse& use) {
        return ordered_json{{"source", use.source}, {"at", use.locator}};
    });
}

/// What findings and holds have in common, in the order every reader can rely on.
ordered_json common_json(const Item& item, const ItemSide& side)
{
    ordered_json json;
    json["id"] = item.id;
    json["level"] = name_of(item.level);
    json["state"] = item.state == screening::ItemState::fired ? "fired" : "open";
    json["topic"] = name_of(item.topic);
    json["hazard"] = name_of(item.hazard);
    json["now"] = item.now;
    json["title"] = item.title;
    json["reading"] = item.reading;
    json["because"] = list_of(item.because, [](const screening::Ground& ground) {
        return ordered_json{{"what", ground.what}, {"value", ground.value}, {"who", ground.who}};
    });
    json["on_unconfirmed"] = item.on_unconfirmed;
    json["open_on"] = list_of(item.open_on, [](const screening::OpenOn& open) {
        return ordered_json{{"fact", open.fact}, {"why", name_of(open.why)}};
    });
    json["sources"] = sources_json(item.sources);
    json["sure"] = name_of(item.sure);
    json["who"] = list_of(item.who, [](screening::Role role) { return name_of(role); });
    json["meanwhile"] = item.meanwhile;
    json["now_words"] = item.now_words;
    json["fingerprint"] = side.fingerprint;
    json["decision"] = side.decision;
    json["decision_note"] = side.note;
    return json;
}

void add_plan(ordered_json& json, const HoldPlan& plan, const Zone& zone)
{
    json["action"] = name_of(plan.action);
    json["number"] = plan.number ? ordered_json(plan.number->to_double()) : ordered_json(nullptr);
    json["conditions"] =
        list_of(plan.conditions, [](screening::DoseCondition condition) { return name_of(condition); });
    json["last_dose"] = dose_json(plan.last_dose, zone);
    json["none_from"] =
        plan.none_from ? ordered_json(screening::iso_date(*plan.none_from)) : ordered_json(nullptr);
    json["dates_omitted"] =
        list_of(plan.dates_omitted, [](screening::Date day) { return screening::iso_date(day); });
    json["day_of"] = plan.day_of ? ordered_json(name_of(*plan.day_of)) : ordered_json(nullptr);
    json["doses_missed"] = plan.doses_missed ? ordered_json(*plan.doses_missed) : ordered_json(nullptr);
    json["next_dose"] = dose_json(plan.next_dose, zone);
}

ordered_json restart_json(const std::optional<checklists::RestartProposal>& restart)
{
    if (!restart) {
        return nullptr;
    }
    ordered_json json;
    json["earliest"] = screening::iso_date(restart->earliest);
    json["latest"] =
        restart->latest ? ordered_json(screening::iso_date(*restart->latest)) : ordered_json(nullptr);
    json["after_bleeding_risk"] = name_of(restart->after);
    json["as_booked"] = restart->as_booked;
    json["endoscopist_decides"] = restart->endoscopist_decides;
    json["rule"] = restart->rule;
    json["sources"] = sources_json(restart->sources);
    json["sure"] = restart->sure ? ordered_json(name_of(*restart->sure)) : ordered_json(nullptr);
    return json;
}

ordered_json option_json(const HoldOption& option, const Zone& zone)
{
    ordered_json json;
    json["label"] = option.label;
    json["rule"] = option.rule;
    add_plan(json, option.plan, zone);
    return json;
}

}  // namespace

ordered_json dose_json(const std::optional<screening::Dose>& dose, const Zone& zone)
{
    if (!dose) {
        return nullptr;
    }
    if (!dose->time) {
        return screening::iso_date(dose->day);
    }
    return screening::iso_with_offset(
        zone, screening::moment_of(zone, screening::LocalMinute{dose->day} + *dose->time));
}

ordered_json finding_json(const Item& item, const ItemSide& side)
{
    return common_json(item, side);
}

ordered_json hold_json(const screening::Hold& hold, const ItemSide& side, const Zone& zone,
                       const std::optional<checklists::RestartProposal>& restart)
{
    ordered_json json = common_json(hold.item, side);
    json["medicine"] = hold.medicine;
    json["marked"] = hold.marked;
    add_plan(json, hold.plan, zone);
    json["stage"] = side.stage;
    json["warnings"] =
        list_of(hold.warnings, [](screening::HoldWarning warning) { return name_of(warning); });
    json["earliest_resume"] =
        restart ? ordered_json(screening::iso_date(restart->earliest)) : ordered_json(nullptr);
    json["restart"] = restart_json(restart);
    json["options"] =
        list_of(hold.options, [&](const HoldOption& option) { return option_json(option, zone); });
    json["other_policies"] =
        list_of(hold.other_policies, [&](const HoldOption& option) { return option_json(option, zone); });
    json["beneath"] = hold.beneath;
    json["pulling_apart"] = hold.pulling_apart;
    json["published_fraction"] = hold.published_fraction;
    return json;
}

}  // namespace foreday::console
