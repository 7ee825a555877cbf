#include "checklists/clearance.h"

#include <fmt/format.h>

namespace foreday::checklists {
namespace {

using screening::Item;
using screening::Level;

std::string undecided_words(const Item& item, const Decided& decided)
{
    std::string text = item.title;
    if (item.state == screening::ItemState::open) {
        text += " (open)";
    }
    if (decided.asked_outside) {
        return text + ": asked outside, no answer decided on yet";
    }
    if (decided.role_may_not) {
        return fmt::format("{}: decided by {}, a role that may not decide on it", text, decided.by->who);
    }
    if (decided.state == DecisionState::opened_again) {
        return text + ": changed since it was decided";
    }
    return text + ": not decided";
}

void look_at_items(const screening::Assessment& assessment, const std::vector<Decided>& decided, ClearanceCheck& check)
{
    const auto items = all_items(assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        const Item& item = *items[place];
        if (is_undecided(item, decided[place])) {
            check.lacks.push_back({item.id, undecided_words(item, decided[place])});
        } else if (item.level >= Level::ask && decided[place].not_go_ahead) {
            check.lacks.push_back({item.id, item.title + ": decided not to go ahead"});
        } else if (item.level == Level::act) {
            check.still_to_do.push_back(item.title);
        }
    }
}

void look_at_list(const screening::Rules& rules, const screening::CaseRecord& record, screening::Moment now,
                  ClearanceCheck& check)
{
    const auto days =
        screening::number_of(screening::Limit{rules.protocol.engine.list_closed_days}, rules.policy).floor();
    switch (screening::list_state(record.medicines, now, date::days{static_cast<int>(days)})) {
        case screening::ListState::closed:
            return;
        case screening::ListState::never_closed:
            check.lacks.push_back({"medicine list", "nobody has said that the medicine list is complete"});
            return;
        case screening::ListState::reopened_by_import:
            check.lacks.push_back({"medicine list", "an import has added to the medicine list since it was closed"});
            return;
        case screening::ListState::older_than_allowed:
            check.lacks.push_back(
                {"medicine list", fmt::format("the medicine list was closed more than {} days ago", days)});
            return;
    }
}

void look_at_given(const screening::Rules& rules, const screening::CaseRecord& record, screening::Moment now,
                   ClearanceCheck& check)
{
    if (!record.clearance) {
        return;
    }
    const auto days =
        screening::number_of(screening::Limit{rules.protocol.engine.clearance_days}, rules.policy).floor();
    check.given = ClearanceCheck::Given::lapsed;
    if (record.clearance->for_start != record.booking.start) {
        check.lapsed_because = "the start has been moved since";
    } else if (now - record.clearance->when > date::days{days}) {
        check.lapsed_because = fmt::format("it is more than {} days old", days);
    } else if (!check.possible) {
        check.lapsed_because = check.lacks.front().what;
    } else {
        check.given = ClearanceCheck::Given::stands;
    }
}

}  // namespace

ClearanceCheck check_clearance(const screening::Rules& rules, const screening::CaseRecord& record,
                               const screening::Assessment& assessment, const std::vector<Decided>& decided,
                               const PreparationPlan& preparation, screening::Moment now)
{
    ClearanceCheck check;
    look_at_items(assessment, decided, check);
    look_at_list(rules, record, now, check);
    if (const auto* refused = std::get_if<Refused>(&preparation.plan)) {
        check.lacks.push_back({"preparation", refused->reason});
    }
    check.possible = check.lacks.empty();
    look_at_given(rules, record, now, check);
    return check;
}

}  // namespace foreday::checklists
