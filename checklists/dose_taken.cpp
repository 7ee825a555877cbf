#include "checklists/dose_taken.h"

#include <fmt/format.h>

#include <algorithm>

#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

using screening::Date;
using screening::Dose;
using screening::Hold;
using screening::HoldAction;

const Dose* really_taken(const screening::CaseRecord& record, const std::string& medicine_item)
{
    if (!record.arrival) {
        return nullptr;
    }
    const auto& doses = record.arrival->doses_taken;
    const auto found = std::ranges::find(doses, medicine_item, &std::pair<std::string, Dose>::first);
    return found == doses.end() ? nullptr : &found->second;
}

/// The last day on which a dose was allowed. Empty: no date was agreed.
std::optional<Date> last_day(const Hold& hold, const Decided& decided)
{
    if (decided.state == DecisionState::standing && decided.by->last_dose) {
        return decided.by->last_dose;
    }
    if (hold.plan.last_dose) {
        return hold.plan.last_dose->day;
    }
    if (hold.plan.none_from) {
        return *hold.plan.none_from - date::days{1};
    }
    return std::nullopt;
}

const screening::HoldRule* rule_of(const screening::Judge& judge, const Hold& hold)
{
    const auto& rules = judge.rules().protocol.holds;
    const auto found = std::ranges::find_if(
        rules, [&](const screening::HoldRule& rule) { return rule.head.id == hold.item.rule; });
    return found == rules.end() ? nullptr : &*found;
}

/// An hour rule goes by the moment, not by the day.
bool too_late_by_hours(const screening::Judge& judge, const Hold& hold, const Dose& taken)
{
    const auto& zone = judge.rules().zone;
    const screening::Moment limit = judge.record().booking.start_moment -
                                    std::chrono::minutes{(*hold.plan.number * screening::Exact{60}).floor()};
    return screening::moment_of_dose(taken, zone, screening::DoseWithoutTime::end_of_day) > limit;
}

/// Days by which the last allowed dose moves back to what would be too short.
date::days leeway(const screening::Judge& judge, const Hold& hold)
{
    const screening::HoldRule* rule = rule_of(judge, hold);
    if (rule == nullptr || !rule->too_short_below || !hold.plan.number) {
        return date::days{0};
    }
    const auto shortest = screening::number_of(*rule->too_short_below, judge.rules().policy);
    return date::days{static_cast<int>((*hold.plan.number - shortest).floor())};
}

}  // namespace

DoseTaken dose_taken(const screening::Judge& judge, const Hold& hold, const Decided& decided)
{
    using enum DoseTaken::Kind;
    const bool states_a_date = decided.state == DecisionState::standing && decided.by->last_dose;
    const bool asks = hold.plan.action == HoldAction::ask_first || hold.plan.action == HoldAction::dose_to_be_stated;
    if (is_undecided(hold.item, decided) && (asks || hold.needs_agreement)) {
        return {nothing_agreed, hold.medicine + ": nobody has decided on it"};
    }
    if (!states_a_date && !screening::leaves_out(hold.plan.action)) {
        return {};
    }
    const Dose* taken = really_taken(judge.record(), hold.medicine_item);
    if (taken == nullptr) {
        return {nobody_asked, hold.medicine + ": nobody has asked when the last dose was really taken"};
    }
    const auto allowed = last_day(hold, decided);
    if (!allowed) {
        return {nothing_agreed, hold.medicine + ": no date was agreed"};
    }
    const std::string dates = fmt::format("{}: last dose {}, agreed {}", hold.medicine, screening::iso_date(taken->day),
                                          screening::iso_date(*allowed));
    const bool by_hours = hold.plan.action == HoldAction::last_dose_at_least_hours && !states_a_date;
    const bool late = by_hours ? too_late_by_hours(judge, hold, *taken) : taken->day > *allowed;
    if (late) {
        const bool will_do = !by_hours && taken->day <= *allowed + leeway(judge, hold);
        return {will_do ? shorter_than_told : too_late, dates};
    }
    if (hold.marked && taken->day < *allowed) {
        return {too_early, dates + ", stopped too early"};
    }
    return {as_agreed, dates};
}

}  // namespace foreday::checklists
