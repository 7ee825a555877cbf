#include "checklists/orders.h"

#include <algorithm>
#include <compare>

namespace foreday::checklists {

std::strong_ordering QueueRow::operator<=>(const QueueRow& other) const
{
    if (const auto order = decide_by.time_since_epoch() <=> other.decide_by.time_since_epoch();
        std::is_neq(order)) {
        return order;
    }
    if (const auto order = other.level <=> level; std::is_neq(order)) {
        return order;  // stop stands above ask, and comes first
    }
    if (const auto order = start.time_since_epoch() <=> other.start.time_since_epoch(); std::is_neq(order)) {
        return order;
    }
    return case_id <=> other.case_id;
}

std::optional<QueueRow> queue_row(const screening::CaseRecord& record, const std::vector<ToDecide>& undecided)
{
    std::optional<QueueRow> first;
    for (const ToDecide& item : undecided) {
        const QueueRow row{item.decide_by, item.level, record.booking.start_moment, record.id};
        first = std::min(first.value_or(row), row);
    }
    return first;
}

CallRow call_row(const screening::CaseRecord& record, const Call& call)
{
    return {call.useful_until, call.tries, record.id, call.id};
}

}  // namespace foreday::checklists
