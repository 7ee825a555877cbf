#include "checklists/restart.h"

#include <algorithm>

#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

using screening::BleedingRisk;
using screening::Hold;
using screening::HoldRule;
using screening::Procedure;
using screening::RestartFigure;

/// A figure and the rule that has it; the figure is empty where the rule has none for that risk.
struct Candidate {
    const HoldRule* rule = nullptr;
    const std::optional<RestartFigure>* figure = nullptr;
};

/// A decision by which the patient was to leave doses out, though the program proposed no date.
bool last_dose_was_stated(const Decided& decided)
{
    return decided.state == DecisionState::standing &&
           decided.by->answer == screening::DecisionAnswer::change && decided.by->last_dose.has_value();
}

bool was_paused(const Hold& hold, const Decided& decided, HoldStage stage)
{
    const bool called_off = decided.state == DecisionState::standing && decided.not_go_ahead;
    if (called_off) {
        return false;
    }
    if (screening::leaves_out(hold.plan.action)) {
        return !hold.marked || stage != HoldStage::proposed;
    }
    const bool decided_by_a_person = hold.plan.action == screening::HoldAction::ask_first ||
                                     hold.plan.action == screening::HoldAction::dose_to_be_stated;
    return decided_by_a_person && last_dose_was_stated(decided);
}

/// Rules that fired for this medicine. While one is open nobody knows which of them hold.
std::vector<std::string> fired_rules(const Hold& hold)
{
    if (hold.item.state == screening::ItemState::open) {
        return {};
    }
    if (screening::leaves_out(hold.plan.action)) {
        return {hold.item.rule};
    }
    std::vector<std::string> ids = hold.beneath;
    ids.insert(ids.end(), hold.pulling_apart.begin(), hold.pulling_apart.end());
    return ids;
}

std::vector<Candidate> candidates(const screening::Rules& rules, const Hold& hold, BleedingRisk after)
{
    const auto ids = fired_rules(hold);
    std::vector<Candidate> found;
    for (const HoldRule& rule : rules.protocol.holds) {
        if (screening::leaves_out(rule.action) && std::ranges::find(ids, rule.head.id) != ids.end()) {
            found.push_back(
                {&rule, after == BleedingRisk::low ? &rule.restart_after_low : &rule.restart_after_high});
        }
    }
    return found;
}

/// The one that waits longest: too early bleeds, and how long may be waited is for a person to say.
Candidate longest(const std::vector<Candidate>& all)
{
    Candidate chosen;
    for (const Candidate& one : all) {
        const bool has_figure = one.figure->has_value();
        if (chosen.rule == nullptr ||
            (has_figure &&
             (!chosen.figure->has_value() || (*one.figure)->earliest > (*chosen.figure)->earliest))) {
            chosen = one;
        }
    }
    return chosen;
}

bool done_in_scope(const screening::Rules& rules, const screening::CaseRecord& record)
{
    return std::ranges::all_of(record.done_procedures, [&](screening::ProcedureIndex place) {
        const Procedure& procedure = rules.protocol.procedures.at(place);
        return procedure.is_intervention || procedure.plan != Procedure::Plan::other;
    });
}

}  // namespace

BleedingRisk risk_as_done(const screening::Rules& rules, const screening::CaseRecord& record,
                          const screening::Assessment& assessment)
{
    if (record.done_procedures.empty()) {
        return assessment.bleeding_risk;
    }
    BleedingRisk risk = BleedingRisk::low;
    for (const screening::ProcedureIndex place : record.done_procedures) {
        const Procedure& procedure = rules.protocol.procedures.at(place);
        risk = std::max(risk, procedure.is_intervention ? procedure.risk : procedure.risk_diagnostic_only);
    }
    return risk;
}

std::optional<RestartProposal> propose_restart(const screening::Rules& rules,
                                               const screening::CaseRecord& record,
                                               const screening::Assessment& assessment, const Hold& hold,
                                               const Decided& decided, HoldStage stage)
{
    if (!record.done || !assessment.in_scope || !done_in_scope(rules, record) ||
        !was_paused(hold, decided, stage)) {
        return std::nullopt;
    }
    RestartProposal proposal;
    proposal.after = risk_as_done(rules, record, assessment);
    proposal.as_booked = record.done_procedures.empty();
    proposal.endoscopist_decides = hold.marked;
    const Candidate chosen = longest(candidates(rules, hold, proposal.after));
    if (chosen.rule == nullptr) {
        return std::nullopt;
    }
    proposal.rule = chosen.rule->head.id;
    proposal.earliest = screening::date_of(screening::local_of(rules.zone, *record.done));
    const auto& figure = *chosen.figure;
    if (!figure) {
        return hold.marked ? std::nullopt : std::optional{proposal};
    }
    proposal.sure = screening::rank_in(rules.policy, proposal.rule, figure->sure);
    if (!screening::may_give_a_date(*proposal.sure)) {
        return std::nullopt;
    }
    proposal.sources = figure->sources;
    if (figure->latest) {
        proposal.latest = proposal.earliest + *figure->latest;
    }
    proposal.earliest += figure->earliest;
    return proposal;
}

}  // namespace foreday::checklists
