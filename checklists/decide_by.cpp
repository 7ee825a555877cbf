#include "checklists/decide_by.h"

#include <algorithm>
#include <tuple>

#include "checklists/hold_moments.h"
#include "checklists/working_time.h"

namespace foreday::checklists {
namespace {

using screening::CaseRecord;
using screening::Hold;
using screening::Item;
using screening::Level;
using screening::Moment;
using screening::Role;
using screening::Rules;

constexpr const char* preparation_id = "preparation";

/// Where nothing could be planned, the day before the session: every preparation begins on it.
Moment first_of_preparation(const Rules& rules, const CaseRecord& record, const PreparationPlan& preparation)
{
    if (const auto* fitted = std::get_if<Fitted>(&preparation.plan)) {
        return fitted->steps.front().at;
    }
    if (preparation.suggestion) {
        return preparation.suggestion->steps.front().at;
    }
    const screening::Date eve = screening::date_of(record.booking.start) - date::days{1};
    return screening::moment_of(rules.zone, screening::LocalMinute{eve});
}

Moment decided_by(const Rules& rules, const CaseRecord& record, Moment changes)
{
    const WorkingTime time{rules.policy.calendar, rules.zone};
    const auto to_phone =
        screening::minutes_of(rules.protocol.engine.phone_hours, rules.protocol, rules.policy);
    const Moment start = record.booking.start_moment;
    const Moment in_time = working_time_before(time, changes, to_phone).value_or(changes - to_phone);
    return std::min(in_time, last_working_hour_before(time, start).value_or(start - std::chrono::hours{1}));
}

const Hold* hold_with(const WholeCase& whole, const Item& item)
{
    const auto& holds = whole.assessment.holds;
    const auto found = std::ranges::find_if(holds, [&](const Hold& hold) { return hold.item.id == item.id; });
    return found == holds.end() ? nullptr : &*found;
}

/// Clinicians who may decide on the item.
std::vector<Role> who_may(const Rules& rules, const Item& item, const Hold* hold)
{
    std::vector<Role> roles;
    for (int place = 0; place <= static_cast<int>(Role::obstetrics); ++place) {
        const auto role = static_cast<Role>(place);
        if (hold != nullptr ? may_agree(rules, *hold, role) : may_decide(item, role)) {
            roles.push_back(role);
        }
    }
    return roles;
}

void add_preparation(std::vector<ToDecide>& all, const Rules& rules, const CaseRecord& record,
                     const WholeCase& whole)
{
    const auto* refused = std::get_if<Refused>(&whole.preparation.plan);
    if (refused == nullptr || !whole.preparation.stated.empty()) {
        return;
    }
    ToDecide one;
    one.id = preparation_id;
    one.changes_at = first_step(rules, record, whole);
    one.decide_by = decided_by(rules, record, one.changes_at);
    one.title = "The preparation: " + refused->reason;
    const auto row = rules.policy.may_agree.find(screening::Topic::gut_and_preparation);
    if (row != rules.policy.may_agree.end()) {
        std::ranges::copy_if(row->second, std::back_inserter(one.who), screening::is_clinician);
    }
    all.push_back(std::move(one));
}

}  // namespace

Moment first_step(const Rules& rules, const CaseRecord& record, const WholeCase& whole)
{
    Moment first =
        std::min(record.booking.start_moment, first_of_preparation(rules, record, whole.preparation));
    for (const Hold& hold : whole.assessment.holds) {
        if (const auto moments = earliest_moments(rules, record, hold)) {
            first = std::min(first, moments->last_dose);
        }
    }
    return first;
}

Moment changes_at(const Rules& rules, const CaseRecord& record, const WholeCase& whole, const Item& item)
{
    if (const Hold* hold = hold_with(whole, item)) {
        if (const auto moments = earliest_moments(rules, record, *hold)) {
            return moments->last_dose;
        }
    }
    return first_step(rules, record, whole);
}

Moment decide_by(const Rules& rules, const CaseRecord& record, const WholeCase& whole, const Item& item)
{
    return decided_by(rules, record, changes_at(rules, record, whole, item));
}

bool only_needs_asking(const Item& item)
{
    using screening::OpenWhy;
    const auto can_be_asked = [](const screening::OpenOn& open) {
        return open.why == OpenWhy::not_asked || open.why == OpenWhy::past_its_age ||
               open.why == OpenWhy::unconfirmed || open.why == OpenWhy::list_not_closed;
    };
    return item.state == screening::ItemState::open && !item.open_on.empty() &&
           std::ranges::all_of(item.open_on, can_be_asked);
}

std::vector<ToDecide> to_decide(const Rules& rules, const CaseRecord& record, const WholeCase& whole)
{
    std::vector<ToDecide> all;
    const auto items = all_items(whole.assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        const Item& item = *items[place];
        const Decided& decided = whole.decided.at(place);
        if (is_undecided(item, decided) && !only_needs_asking(item)) {
            const Moment changes = changes_at(rules, record, whole, item);
            all.push_back({item.id, std::max(item.level, Level::ask), decided_by(rules, record, changes),
                           item.title, who_may(rules, item, hold_with(whole, item)),
                           decided.state == DecisionState::opened_again, changes});
        }
    }
    add_preparation(all, rules, record, whole);
    std::ranges::sort(all, [](const ToDecide& a, const ToDecide& b) {
        return std::tie(a.decide_by, b.level, a.id) < std::tie(b.decide_by, a.level, b.id);
    });
    return all;
}

std::vector<std::string> to_sign(const WholeCase& whole)
{
    std::vector<std::string> names;
    for (const Decided& decided : whole.decided) {
        if (decided.waits_for_signature && std::ranges::find(names, decided.by->who) == names.end()) {
            names.push_back(decided.by->who);
        }
    }
    return names;
}

}  // namespace foreday::checklists
