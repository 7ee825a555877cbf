#include "screening/hold_plan.h"

#include <algorithm>

namespace foreday::screening {
namespace {

/// How far back scheduled doses are looked for: longer than any hold and any interval between doses
/// (a bound of the program; a monthly dose a month before a month-long hold still lies inside).
constexpr date::days look_back{120};
constexpr date::days look_ahead{70};

/// Where one action ends the doses, and what then remains.
struct Layout {
    std::vector<Dose> before;    ///< every scheduled dose before the start, in order
    std::vector<Dose> left_out;  ///< those at or after the limit
};

Layout lay_out_doses(const HoldSetting& setting, Moment from, HoldAction action)
{
    const Date day = date_of(setting.start);
    Layout layout;
    for (const Dose& dose : doses_between(setting.pattern, day - look_back, day)) {
        // On the day itself a dose without a time counts as one of the morning.
        if (dose.day == day && dose.time && LocalMinute{dose.day} + *dose.time >= setting.start) {
            continue;
        }
        layout.before.push_back(dose);
        if (from < setting.start_moment &&
            moment_of_dose(dose, setting.zone, without_time_for(action)) >= from) {
            layout.left_out.push_back(dose);
        }
    }
    return layout;
}

std::optional<Dose> next_after_start(const HoldSetting& setting)
{
    const Date day = date_of(setting.start);
    for (const Dose& dose : doses_between(setting.pattern, day, day + look_ahead)) {
        const bool later_on_the_day =
            dose.day == day && dose.time && LocalMinute{dose.day} + *dose.time >= setting.start;
        if (dose.day > day || later_on_the_day) {
            return dose;
        }
    }
    return std::nullopt;
}

DayOf day_of(HoldAction action, const Layout& layout, const std::optional<Dose>& last_dose, Date day)
{
    if (layout.before.empty() || layout.before.back().day != day) {
        return DayOf::nothing_due;
    }
    if (!last_dose || last_dose->day != day) {
        return DayOf::omit;
    }
    return action == HoldAction::sip_on_the_morning ? DayOf::sip : DayOf::take;
}

void add_omitted_dates(HoldPlan& plan, const Layout& layout, Date day)
{
    for (const Dose& dose : layout.left_out) {
        const bool some_dose_remains = plan.last_dose && plan.last_dose->day == dose.day;
        if (dose.day < day && !some_dose_remains &&
            (plan.dates_omitted.empty() || plan.dates_omitted.back() != dose.day)) {
            plan.dates_omitted.push_back(dose.day);
        }
    }
}

/// As needed, by pump, or nobody knows how: there are no single doses, so the limit itself is told.
void lay_out_without_schedule(HoldPlan& plan, const HoldSetting& setting, Moment from)
{
    const Date day = date_of(setting.start);
    if (!leaves_out(plan.action)) {
        plan.day_of = plan.action == HoldAction::sip_on_the_morning ? DayOf::sip : DayOf::take;
        return;
    }
    plan.none_from = std::min(date_of(local_of(setting.zone, from)), day);
    for (Date one = *plan.none_from; one < day; one += date::days{1}) {
        plan.dates_omitted.push_back(one);
    }
    if (std::holds_alternative<PatternNotKnown>(setting.pattern)) {
        plan.last_dose = Dose{*plan.none_from - date::days{1}, std::nullopt};
    }
    plan.day_of = DayOf::omit;
}

}  // namespace

bool leaves_out(HoldAction action)
{
    return action == HoldAction::omit_on_the_day || needs_a_number(action);
}

DoseWithoutTime without_time_for(HoldAction action)
{
    return action == HoldAction::last_dose_at_least_hours ? DoseWithoutTime::end_of_day
                                                          : DoseWithoutTime::start_of_day;
}

Moment forbidden_from(HoldAction action, const Exact& number, const HoldSetting& setting)
{
    const Date day = date_of(setting.start);
    const auto midnight = [&](Date of) {
        return std::min(moment_of(setting.zone, LocalMinute{of}), setting.start_moment);
    };
    switch (action) {
        case HoldAction::omit_on_the_day:
            return midnight(day);
        case HoldAction::omit_days:
            return midnight(day - date::days{static_cast<int>(number.floor())});
        case HoldAction::omit_doses_due_within:
            return midnight(day - date::days{static_cast<int>(number.floor()) - 1});
        case HoldAction::last_dose_at_least_hours: {
            const auto minutes = std::chrono::minutes{(number * Exact{60}).floor()};  // minutes in an hour
            return setting.start_moment - minutes + std::chrono::minutes{1};
        }
        default:
            return setting.start_moment;
    }
}

Moment moment_of_dose(const Dose& dose, const Zone& zone, DoseWithoutTime without_time)
{
    if (dose.time) {
        return moment_of(zone, LocalMinute{dose.day} + *dose.time);
    }
    if (without_time == DoseWithoutTime::start_of_day) {
        return moment_of(zone, LocalMinute{dose.day});
    }
    return moment_of(zone, LocalMinute{dose.day + date::days{1}}) - std::chrono::minutes{1};
}

std::vector<Dose> doses_left_out(const HoldSetting& setting, Moment from, HoldAction action)
{
    return lay_out_doses(setting, from, action).left_out;
}

HoldPlan lay_out(HoldAction action, const Exact& number, std::vector<DoseCondition> conditions,
                 const HoldSetting& setting)
{
    HoldPlan plan;
    plan.action = action;
    plan.conditions = std::move(conditions);
    if (needs_a_number(action)) {
        plan.number = number;
    }
    if (action == HoldAction::ask_first || action == HoldAction::dose_to_be_stated) {
        return plan;
    }
    const Moment from = forbidden_from(action, number, setting);
    if (!has_schedule(setting.pattern)) {
        lay_out_without_schedule(plan, setting, from);
        return plan;
    }
    const Date day = date_of(setting.start);
    const Layout layout = lay_out_doses(setting, from, action);
    if (layout.before.size() > layout.left_out.size()) {
        plan.last_dose = layout.before[layout.before.size() - layout.left_out.size() - 1];
    }
    add_omitted_dates(plan, layout, day);
    plan.day_of = day_of(action, layout, plan.last_dose, day);
    plan.doses_missed = static_cast<int>(layout.left_out.size());
    if (is_interval_dosing(setting.pattern) && !layout.left_out.empty()) {
        plan.next_dose = next_after_start(setting);
    }
    return plan;
}

HoldPlan without_dates(HoldPlan plan)
{
    plan.last_dose.reset();
    plan.none_from.reset();
    plan.dates_omitted.clear();
    plan.day_of.reset();
    plan.doses_missed.reset();
    plan.next_dose.reset();
    return plan;
}

}  // namespace foreday::screening
