#include "gui/console/report_json.h"

#include "gui/console/json_items.h"

namespace foreday::console {
namespace {

using checklists::WholeCase;
using nlohmann::ordered_json;
using screening::Rules;
using screening::Zone;

ordered_json moment_json(const std::optional<screening::Moment>& moment, const Zone& zone)
{
    return moment ? ordered_json(screening::iso_with_offset(zone, *moment)) : ordered_json(nullptr);
}

std::string note_of(const checklists::Decided& decided)
{
    if (decided.by == nullptr) {
        return "";
    }
    if (decided.role_may_not) {
        return "the role may not decide on this";
    }
    if (!decided.bound) {
        return "not bound";
    }
    return decided.waits_for_signature ? "spoken, to be signed" : "";
}

ItemSide side_of(const checklists::Decided& decided, std::string_view stage)
{
    return {decided.fingerprint, std::string{checklists::name_of(decided.state)}, note_of(decided),
            std::string{stage}};
}

ordered_json findings_json(const WholeCase& whole)
{
    auto list = ordered_json::array();
    for (std::size_t place = 0; place < whole.assessment.findings.size(); ++place) {
        list.push_back(finding_json(whole.assessment.findings[place], side_of(whole.decided[place], "")));
    }
    return list;
}

ordered_json holds_json(const WholeCase& whole, const Zone& zone)
{
    auto list = ordered_json::array();
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        const auto& decided = whole.decided[whole.assessment.findings.size() + place];
        list.push_back(hold_json(whole.assessment.holds[place],
                                 side_of(decided, checklists::name_of(whole.stages[place])), zone,
                                 whole.restart_proposals[place]));
    }
    return list;
}

ordered_json choices_json(const Rules& rules, const checklists::PreparationPlan& plan)
{
    auto list = ordered_json::array();
    for (const auto& choice : plan.choices) {
        list.push_back({{"regimen", rules.protocol.preparations[choice.preparation].id},
                        {"acceptable", choice.acceptable},
                        {"speaks_against", choice.speaks_against},
                        {"cautions", choice.cautions},
                        {"open", choice.open},
                        {"timetable", choice.timetable}});
    }
    return list;
}

/// `state`: kept, fasting only, suggested (a clinician decides), or asked (nothing can be planned).
ordered_json preparation_json(const Rules& rules, const WholeCase& whole)
{
    const checklists::PreparationPlan& plan = whole.preparation;
    const auto* fitted = std::get_if<checklists::Fitted>(&plan.plan);
    ordered_json json;
    json["state"] = fitted == nullptr ? "asked" : fitted->preparation ? "kept" : "fasting only";
    if (fitted == nullptr && plan.suggestion) {
        fitted = &*plan.suggestion;
        json["state"] = "suggested";
    }
    const bool bowel = fitted != nullptr && fitted->preparation;
    json["regimen"] =
        bowel ? ordered_json(rules.protocol.preparations[*fitted->preparation].id) : ordered_json(nullptr);
    json["steps"] = ordered_json::array();
    for (const char* moment : {"last_solid", "last_clear_liquid", "leave_home"}) {
        json[moment] = nullptr;
    }
    json["open_on"] = ordered_json::array();
    json["notes"] = ordered_json::array();
    if (fitted != nullptr) {
        for (const checklists::Step& step : fitted->steps) {
            json["steps"].push_back({{"at", moment_json(step.at, rules.zone)}, {"what", step.what}});
        }
        json["last_solid"] = moment_json(fitted->last_solid, rules.zone);
        json["last_clear_liquid"] = moment_json(fitted->last_clear_liquid, rules.zone);
        json["leave_home"] = moment_json(fitted->leave_home, rules.zone);
        json["notes"] = fitted->notes;
        for (const screening::OpenOn& open : fitted->open_on) {
            json["open_on"].push_back({{"fact", open.fact}, {"why", screening::name_of(open.why)}});
        }
    }
    json["about_the_order"] = plan.about_the_order;
    const auto* refused = std::get_if<checklists::Refused>(&plan.plan);
    json["refused"] = refused != nullptr
                          ? ordered_json{{"reason", refused->reason}, {"choices", refused->choices}}
                          : ordered_json(nullptr);
    json["choices"] = choices_json(rules, plan);
    return json;
}

std::string_view state_name(screening::FactState state)
{
    switch (state) {
        case screening::FactState::not_asked:
            return "not asked";
        case screening::FactState::not_applicable:
            return "not applicable";
        case screening::FactState::known:
            return "known";
        case screening::FactState::not_known:
            return "not known";
        case screening::FactState::in_conflict:
            return "in conflict";
    }
    return "";
}

ordered_json questions_json(const screening::Assessment& assessment)
{
    auto list = ordered_json::array();
    for (const screening::OpenQuestion& question : assessment.open_questions) {
        list.push_back({{"fact", question.fact},
                        {"state", state_name(question.state)},
                        {"why", screening::name_of(question.why)},
                        {"would_settle", question.would_settle}});
    }
    return list;
}

ordered_json clearance_json(const checklists::ClearanceCheck& check)
{
    ordered_json json;
    json["possible"] = check.possible;
    json["lacks"] = ordered_json::array();
    for (const checklists::Lack& lack : check.lacks) {
        json["lacks"].push_back({{"item", lack.item}, {"what", lack.what}});
    }
    json["still_to_do"] = check.still_to_do;
    const bool lapsed = check.given == checklists::ClearanceCheck::Given::lapsed;
    json["given"] = check.given == checklists::ClearanceCheck::Given::no ? "no"
                    : lapsed                                             ? "lapsed"
                                                                         : "stands";
    json["lapsed_because"] = check.lapsed_because;
    return json;
}

ordered_json readiness_json(const checklists::Readiness& readiness, const Zone& zone)
{
    ordered_json json;
    json["verdict"] = checklists::name_of(readiness.verdict);
    json["reasons"] = readiness.reasons;
    json["earliest"] = moment_json(readiness.earliest, zone);
    json["items"] = ordered_json::array();
    for (const checklists::ReadinessItem& item : readiness.items) {
        json["items"].push_back({{"id", item.id},
                                 {"title", item.title},
                                 {"kind", screening::name_of(item.kind)},
                                 {"state", checklists::name_of(item.state)},
                                 {"why", item.why},
                                 {"earliest", moment_json(item.earliest, zone)},
                                 {"would_make_it_ready", item.would_make_it_ready}});
    }
    return json;
}

}  // namespace

ordered_json report_json(const ReportHead& head, const Rules& rules, const screening::CaseRecord& record,
                         const WholeCase& whole)
{
    ordered_json json;
    json["at"] = screening::iso_with_offset(rules.zone, whole.assessment.at);
    json["unit"] = head.unit;
    json["case"] = head.case_id;
    json["caution"] = head.caution;
    json["start"] = screening::iso_with_offset(rules.zone, record.booking.start_moment);
    json["protocol"] = {
        {"version", head.protocol_version},
        {"hash", head.protocol_hash},
        {"policy_hash", head.policy_hash.empty() ? ordered_json(nullptr) : ordered_json(head.policy_hash)},
        {"zone", rules.zone.name},
        {"zone_version", rules.zone.version},
        {"zone_hash", rules.zone.file_hash}};
    json["findings"] = findings_json(whole);
    json["holds"] = holds_json(whole, rules.zone);
    json["preparation"] = preparation_json(rules, whole);
    json["open_questions"] = questions_json(whole.assessment);
    json["not_asked"] = ordered_json::object();
    for (const auto& [section, count] : whole.assessment.not_asked) {
        json["not_asked"][section] = count;
    }
    json["clearance"] = clearance_json(whole.clearance);
    json["readiness"] = readiness_json(whole.readiness, rules.zone);
    return json;
}

}  // namespace foreday::console
