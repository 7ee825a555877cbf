#include "checklists/decisions.h"

#include <algorithm>

namespace foreday::checklists {
namespace {

using screening::Decision;
using screening::DecisionAnswer;
using screening::Item;

const Decision* last_decision_on(const screening::CaseRecord& record, const std::string& item)
{
    const auto& all = record.decisions;
    const auto last = std::find_if(all.rbegin(), all.rend(), [&](const Decision& one) { return one.item == item; });
    return last == all.rend() ? nullptr : &*last;
}

Decided decided_on(const screening::Rules& rules, const Item& item, const Decision* decision, std::string fingerprint)
{
    Decided decided;
    decided.fingerprint = std::move(fingerprint);
    decided.by = decision;
    if (decision == nullptr) {
        return decided;
    }
    if (!may_decide(rules, item, decision->role)) {
        decided.role_may_not = true;
        return decided;
    }
    decided.bound = decision->fingerprint.has_value();
    if (decided.bound && *decision->fingerprint != decided.fingerprint) {
        decided.state = DecisionState::opened_again;
        return decided;
    }
    decided.state = DecisionState::standing;
    decided.waits_for_signature = decision->manner == screening::DecisionManner::spoken;
    decided.asked_outside = decision->answer == DecisionAnswer::ask_outside;
    decided.not_go_ahead = decision->answer == DecisionAnswer::not_go_ahead;
    return decided;
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
    for (const Item& finding : assessment.findings) {
        items.push_back(&finding);
    }
    for (const screening::Hold& hold : assessment.holds) {
        items.push_back(&hold.item);
    }
    return items;
}

bool may_decide(const screening::Rules& rules, const Item& item, screening::Role role)
{
    if (role == screening::Role::medical_director || std::ranges::find(item.who, role) != item.who.end()) {
        return true;
    }
    const auto row = rules.policy.may_agree.find(item.topic);
    return row != rules.policy.may_agree.end() && std::ranges::find(row->second, role) != row->second.end();
}

std::vector<Decided> bind_decisions(const screening::Rules& rules, const screening::CaseRecord& record,
                                    const screening::Assessment& assessment, const HashText& hash)
{
    std::vector<Decided> decided;
    for (const Item* item : all_items(assessment)) {
        decided.push_back(
            decided_on(rules, *item, last_decision_on(record, item->id), hash(item->fingerprint_bytes)));
    }
    return decided;
}

bool standing_order_covers(const screening::Rules& rules, const screening::Hold& hold, screening::Moment now)
{
    const screening::Date today = screening::date_of(screening::local_of(rules.zone, now));
    return !hold.marked &&
           std::ranges::any_of(rules.policy.standing_orders, [&](const screening::StandingOrder& order) {
               return order.from <= today && today <= order.until &&
                      std::ranges::find(order.holds, hold.item.rule) != order.holds.end();
           });
}

HoldStage stage_of(const screening::Rules& rules, const screening::CaseRecord& record, const screening::Hold& hold,
                   const Decided& decided, screening::Moment now)
{
    const bool was_told =
        std::ranges::any_of(record.told, [&](const screening::Told& told) { return told.item == hold.item.id; });
    if (was_told) {
        return HoldStage::told;
    }
    const bool agreed = decided.state == DecisionState::standing && !decided.asked_outside && !decided.not_go_ahead;
    const bool nobody_asked = hold.item.level < screening::Level::ask;
    return agreed || nobody_asked || standing_order_covers(rules, hold, now) ? HoldStage::agreed : HoldStage::proposed;
}

bool is_undecided(const Item& item, const Decided& decided)
{
    return item.level >= screening::Level::ask && (decided.state != DecisionState::standing || decided.asked_outside);
}

}  // namespace foreday::checklists
