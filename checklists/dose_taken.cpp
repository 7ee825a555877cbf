#include "checklists/dose_taken.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/words.h"
#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

using screening::Date;
using screening::Dose;
using screening::Exact;
using screening::Hold;
using screening::HoldAction;
using screening::Judge;
using screening::Pattern;
using Kind = DoseTaken::Kind;

const Dose* really_taken(const screening::CaseRecord& record, const std::string& medicine_item)
{
    if (!record.arrival) {
        return nullptr;
    }
    const auto& doses = record.arrival->doses_taken;
    const auto found = std::ranges::find(doses, medicine_item, &std::pair<std::string, Dose>::first);
    return found == doses.end() ? nullptr : &found->second;
}

const Pattern& pattern_of(const Judge& judge, const Hold& hold)
{
    static const Pattern not_known;
    const auto& items = judge.record().medicines.items;
    const auto found = std::ranges::find(items, hold.medicine_item, &screening::MedicineItem::id);
    return found == items.end() ? not_known : found->pattern;
}

/// Whether a scheduled dose fell between the last one taken and `last`, that day included.
bool missed_until(const Pattern& pattern, const Dose& taken, Date last)
{
    return !screening::doses_between(pattern, taken.day + date::days{1}, last).empty();
}

std::string plan_text(const screening::HoldPlan& plan)
{
    if (plan.action == HoldAction::last_dose_at_least_hours && plan.number) {
        return fmt::format("at least {} hours before the start", plan.number->text());
    }
    if (plan.last_dose) {
        return day_in_words(plan.last_dose->day);
    }
    return plan.none_from ? "none from " + day_in_words(*plan.none_from) + " on" : "none";
}

/// Whether the dose lies in the time that `number` days or hours keep free.
bool taken_too_late(const Judge& judge, const Hold& hold, const Exact& number, const Dose& taken)
{
    const screening::HoldSetting setting{judge.rules().zone, pattern_of(judge, hold),
                                         judge.record().booking.start, judge.record().booking.start_moment};
    const HoldAction action = hold.plan.action;
    const screening::Moment moment =
        screening::moment_of_dose(taken, setting.zone, screening::without_time_for(action));
    return moment >= screening::forbidden_from(action, number, setting);
}

/// The shorter number below which it was too short. Empty: it is what was told.
std::optional<Exact> shortest(const Judge& judge, const Hold& hold)
{
    const auto& rules = judge.rules().protocol.holds;
    const auto rule = std::ranges::find_if(
        rules, [&](const screening::HoldRule& one) { return one.head.id == hold.item.rule; });
    if (rule == rules.end() || !rule->too_short_below) {
        return std::nullopt;
    }
    return screening::number_of(rule->too_short_below.value(), judge.rules().policy);
}

/// Against the last dose that a clinician stated.
DoseTaken against_stated(const Judge& judge, const Hold& hold, Date stated, const Dose& taken)
{
    const std::string words =
        fmt::format("{}: last dose {}, agreed {}", hold.medicine, dose_in_words(taken), day_in_words(stated));
    if (taken.day > stated) {
        return {Kind::too_late, words + ", taken too late"};
    }
    if (hold.marked && missed_until(pattern_of(judge, hold), taken, stated)) {
        return {Kind::too_early, words + ", stopped too early"};
    }
    return {Kind::as_agreed, words};
}

/// Against a plan that leaves doses out.
DoseTaken against_plan(const Judge& judge, const Hold& hold, const Dose& taken)
{
    const screening::HoldPlan& plan = hold.plan;
    if (!plan.last_dose && !plan.none_from && !plan.day_of) {
        const std::string words =
            fmt::format("{}: last dose {}, no date was agreed", hold.medicine, dose_in_words(taken));
        return {hold.marked ? Kind::agreed_in_words : Kind::as_agreed, words};
    }
    const std::string words =
        fmt::format("{}: last dose {}, agreed {}", hold.medicine, dose_in_words(taken), plan_text(plan));
    const Exact told = plan.number.value_or(Exact{0});
    if (taken_too_late(judge, hold, told, taken)) {
        const auto least = shortest(judge, hold);
        const bool will_do = least && !taken_too_late(judge, hold, *least, taken);
        return will_do ? DoseTaken{Kind::shorter_than_told, words + ", shorter than told and not too short"}
                       : DoseTaken{Kind::too_late, words + ", taken too late"};
    }
    // Only with doses on the calendar can one be missing; the plan's last dose is then one of them.
    if (hold.marked && plan.last_dose && missed_until(pattern_of(judge, hold), taken, plan.last_dose->day)) {
        return {Kind::too_early, words + ", stopped too early"};
    }
    return {Kind::as_agreed, words};
}

/// A medicine that goes on: every dose up to the day before was to be taken.
DoseTaken against_going_on(const Judge& judge, const Hold& hold, const Dose& taken)
{
    const std::string words =
        fmt::format("{}: last dose {}, agreed to go on", hold.medicine, dose_in_words(taken));
    if (hold.marked && missed_until(pattern_of(judge, hold), taken, judge.day() - date::days{1})) {
        return {Kind::too_early, words + ", stopped too early"};
    }
    return {Kind::as_agreed, words};
}

/// Agreed, but not as a date: only a person can compare.
bool is_agreed_in_words(const Hold& hold, const Decided& decided)
{
    if (decided.state != DecisionState::standing || decided.by->last_dose) {
        return false;
    }
    const bool asks =
        hold.plan.action == HoldAction::ask_first || hold.plan.action == HoldAction::dose_to_be_stated;
    return asks || decided.by->answer == screening::DecisionAnswer::change;
}

}  // namespace

DoseTaken dose_taken(const Judge& judge, const Hold& hold, const Decided& decided)
{
    const bool asks =
        hold.plan.action == HoldAction::ask_first || hold.plan.action == HoldAction::dose_to_be_stated;
    if (is_undecided(hold.item, decided) && (asks || hold.needs_agreement)) {
        return {Kind::nothing_agreed, hold.medicine + ": nobody has decided on it"};
    }
    if (decided.not_go_ahead) {
        return {Kind::nothing_agreed, hold.medicine + ": decided not to go ahead"};
    }
    const bool stated = decided.state == DecisionState::standing && decided.by->last_dose;
    const bool in_words = is_agreed_in_words(hold, decided);
    const bool leaves_out = screening::leaves_out(hold.plan.action);
    const Dose* taken = really_taken(judge.record(), hold.medicine_item);
    if (taken == nullptr) {
        if (!stated && !in_words && !leaves_out && !hold.marked) {
            return {};
        }
        return {Kind::nobody_asked, hold.medicine + ": nobody has asked when the last dose was really taken"};
    }
    if (stated) {
        return against_stated(judge, hold, *decided.by->last_dose, *taken);
    }
    if (in_words) {
        const std::string& words = decided.by->words;
        return {Kind::agreed_in_words, fmt::format("{}: last dose {}, agreed in words ({})", hold.medicine,
                                                   dose_in_words(*taken), words.empty() ? "no date" : words)};
    }
    return leaves_out ? against_plan(judge, hold, *taken) : against_going_on(judge, hold, *taken);
}

}  // namespace foreday::checklists
