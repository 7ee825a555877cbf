#include "checklists/decisions.h"

#include <algorithm>

namespace foreday::checklists {
namespace {

using screening::Decision;
using screening::DecisionAnswer;
using screening::Hold;
using screening::Item;
using screening::Level;
using screening::Role;

bool holds(const std::vector<Role>& roles, Role role)
{
    return std::ranges::find(roles, role) != roles.end();
}

/// A stop may be passed only by saying why.
bool passes_without_reason(const Item& item, const Decision& decision)
{
    const bool passes = decision.answer == DecisionAnswer::agree || decision.answer == DecisionAnswer::change;
    return item.level == Level::stop && passes && decision.words.empty();
}

/// Who agrees to "ask first" has not said what to do.
bool agrees_to_nothing(const Hold* hold, const Decision& decision)
{
    return hold != nullptr && decision.answer == DecisionAnswer::agree && !has_instruction(hold->plan.action);
}

/// @param hold  the hold the item belongs to; nullptr for a finding
Decided look_at_decisions(const screening::Rules& rules, const screening::CaseRecord& record,
                          const Item& item, const Hold* hold)
{
    Decided decided;
    const Decision* of_another_role = nullptr;
    for (const Decision& decision : record.decisions) {
        if (decision.item != item.id) {
            continue;
        }
        const bool may =
            hold != nullptr ? may_agree(rules, *hold, decision.role) : may_decide(item, decision.role);
        const bool lacks_reason = passes_without_reason(item, decision);
        if (may && !lacks_reason) {
            decided.by = &decision;
            decided.not_counted = nullptr;
            decided.lacks_reason = false;
        } else {
            decided.not_counted = &decision;
            decided.lacks_reason = may;
            of_another_role = may ? of_another_role : &decision;
        }
    }
    if (decided.by == nullptr && of_another_role != nullptr && !decided.lacks_reason) {
        decided.by = of_another_role;
        decided.role_may_not = true;
    }
    return decided;
}

/// @param hold  as above
void bind_to_item(Decided& decided, std::string fingerprint, const Hold* hold)
{
    decided.fingerprint = std::move(fingerprint);
    if (decided.by == nullptr || decided.role_may_not) {
        return;
    }
    const Decision& decision = *decided.by;
    decided.bound = decision.fingerprint.has_value();
    if (decided.bound && *decision.fingerprint != decided.fingerprint) {
        decided.state = DecisionState::opened_again;
        return;
    }
    if (agrees_to_nothing(hold, decision)) {
        decided.lacks_instruction = true;
        decided.not_counted = decided.by;
        decided.by = nullptr;
        return;
    }
    decided.state = DecisionState::standing;
    decided.waits_for_signature = decision.manner == screening::DecisionManner::spoken;
    decided.asked_outside = decision.answer == DecisionAnswer::ask_outside;
    decided.not_go_ahead = decision.answer == DecisionAnswer::not_go_ahead;
}

screening::Date day_of(const screening::Rules& rules, screening::Moment now)
{
    return screening::date_of(screening::local_of(rules.zone, now));
}

bool names(const screening::StandingOrder& order, const Hold& hold)
{
    return std::ranges::find(order.holds, hold.item.rule) != order.holds.end();
}

bool in_force(const screening::Rules& rules, const Hold& hold, screening::Date today)
{
    return std::ranges::any_of(rules.policy.standing_orders, [&](const screening::StandingOrder& order) {
        return names(order, hold) && order.from <= today && today <= order.until;
    });
}

bool order_has_expired(const screening::Rules& rules, const Hold& hold, screening::Moment now)
{
    const screening::Date today = day_of(rules, now);
    const bool one_ran_out = std::ranges::any_of(
        rules.policy.standing_orders,
        [&](const screening::StandingOrder& order) { return names(order, hold) && order.until < today; });
    return !hold.marked && one_ran_out && !in_force(rules, hold, today);
}

/// The last dose that stands: the clinician's own where one was stated, else the plan's.
std::optional<screening::Date> last_dose_that_stands(const Hold& hold, const Decided& decided)
{
    if (decided.state == DecisionState::standing && decided.by->last_dose) {
        return decided.by->last_dose;
    }
    if (hold.plan.last_dose) {
        return hold.plan.last_dose->day;
    }
    return std::nullopt;
}

bool told_what_stands(const screening::CaseRecord& record, const Hold& hold, const Decided& decided)
{
    const auto& all = record.told;
    const auto last = std::find_if(all.rbegin(), all.rend(),
                                   [&](const screening::Told& one) { return one.item == hold.item.id; });
    if (last == all.rend()) {
        return false;
    }
    const bool stated = decided.state == DecisionState::standing && decided.by->last_dose.has_value();
    if (stated) {
        return last->last_dose == last_dose_that_stands(hold, decided);
    }
    return std::ranges::find(hold.warnings, screening::HoldWarning::not_as_told) == hold.warnings.end();
}

}  // namespace

std::string_view name_of(DecisionState state)
{
    switch (state) {
        case DecisionState::none:
            return "none";
        case DecisionState::standing:
            return "standing";
        case DecisionState::opened_again:
            return "opened again";
    }
    return "";
}

std::string_view name_of(HoldStage stage)
{
    switch (stage) {
        case HoldStage::proposed:
            return "proposed";
        case HoldStage::agreed:
            return "agreed";
        case HoldStage::told:
            return "told";
    }
    return "";
}

std::vector<const Item*> all_items(const screening::Assessment& assessment)
{
    std::vector<const Item*> items;
    items.reserve(assessment.findings.size() + assessment.holds.size());
    for (const Item& finding : assessment.findings) {
        items.push_back(&finding);
    }
    for (const Hold& hold : assessment.holds) {
        items.push_back(&hold.item);
    }
    return items;
}

bool may_decide(const Item& finding, Role role)
{
    return is_clinician(role) && holds(finding.who, role);
}

bool has_instruction(screening::HoldAction action)
{
    return action != screening::HoldAction::ask_first && action != screening::HoldAction::dose_to_be_stated;
}

bool may_agree(const screening::Rules& rules, const Hold& hold, Role role)
{
    const auto row = rules.policy.may_agree.find(hold.item.topic);
    const bool by_topic = row != rules.policy.may_agree.end() && holds(row->second, role);
    return is_clinician(role) && (by_topic || (!hold.marked && holds(hold.item.who, role)));
}

std::vector<Decided> bind_decisions(const screening::Rules& rules, const screening::CaseRecord& record,
                                    const screening::Assessment& assessment, const HashText& hash)
{
    std::vector<Decided> decided;
    decided.reserve(assessment.findings.size() + assessment.holds.size());
    for (const Item& finding : assessment.findings) {
        decided.push_back(look_at_decisions(rules, record, finding, nullptr));
        bind_to_item(decided.back(), hash(finding.fingerprint_bytes), nullptr);
    }
    for (const Hold& hold : assessment.holds) {
        decided.push_back(look_at_decisions(rules, record, hold.item, &hold));
        bind_to_item(decided.back(), hash(hold.item.fingerprint_bytes), &hold);
        decided.back().order_expired = order_has_expired(rules, hold, assessment.at);
    }
    return decided;
}

bool standing_order_covers(const screening::Rules& rules, const Hold& hold, screening::Moment now)
{
    return !hold.marked && hold.item.level < Level::ask && in_force(rules, hold, day_of(rules, now));
}

HoldStage stage_of(const screening::Rules& rules, const screening::CaseRecord& record, const Hold& hold,
                   const Decided& decided, screening::Moment now)
{
    if (told_what_stands(record, hold, decided)) {
        return HoldStage::told;
    }
    if (decided.state == DecisionState::standing) {
        return decided.asked_outside || decided.not_go_ahead ? HoldStage::proposed : HoldStage::agreed;
    }
    // Nobody is asked: the nurse tells it, unless the standing order she told it by has run out.
    const bool nobody_asked = hold.item.level < Level::ask && !decided.order_expired;
    return nobody_asked || standing_order_covers(rules, hold, now) ? HoldStage::agreed : HoldStage::proposed;
}

bool is_undecided(const Item& item, const Decided& decided)
{
    const bool asks = item.level >= Level::ask || decided.order_expired;
    return asks && (decided.state != DecisionState::standing || decided.asked_outside);
}

}  // namespace foreday::checklists
