#include "screening/hold_words.h"

#include <algorithm>

#include "screening/hold_plan.h"

namespace foreday::screening {
namespace {

bool is_working_day(const Calendar& calendar, Date day)
{
    return std::ranges::binary_search(calendar.working_weekdays, date::weekday{day}.iso_encoding()) &&
           !std::ranges::binary_search(calendar.holidays, day);
}

void add_dose(CanonicalBytes& bytes, const std::optional<Dose>& dose)
{
    bytes.add(dose ? iso_date(dose->day) : "");
    bytes.add(dose && dose->time ? iso_time_of_day(*dose->time) : "");
}

}  // namespace

std::string no_rule_meanwhile()
{
    return "Go on taking it as you do now. Please change nothing yourself. We will ring you about it.";
}

void add_plan(CanonicalBytes& bytes, const HoldPlan& plan)
{
    bytes.add(name_of(plan.action));
    bytes.add(plan.number ? plan.number->text() : "");
    bytes.add_count(plan.conditions.size());
    for (const DoseCondition condition : plan.conditions) {
        bytes.add(name_of(condition));
    }
    add_dose(bytes, plan.last_dose);
    bytes.add(plan.none_from ? iso_date(*plan.none_from) : "");
    bytes.add_count(plan.dates_omitted.size());
    for (const Date day : plan.dates_omitted) {
        bytes.add(iso_date(day));
    }
    bytes.add(plan.day_of ? name_of(*plan.day_of) : "");
    add_dose(bytes, plan.next_dose);
}

LocalMinute next_opening(const Calendar& calendar, LocalMinute after)
{
    constexpr int longest_search = 30;  // days; no unit is closed longer than that in a row
    Date day = date_of(after);
    if (is_working_day(calendar, day) && time_of_day(after) < calendar.opens) {
        return LocalMinute{day} + calendar.opens;
    }
    for (int step = 0; step < longest_search; ++step) {
        day += date::days{1};
        if (is_working_day(calendar, day)) {
            break;
        }
    }
    return LocalMinute{day} + calendar.opens;
}

OtherPolicies sorted_by_result(const Hold& hold)
{
    OtherPolicies sorted;
    for (const HoldOption& option : hold.other_policies) {
        if (option.plan == hold.plan) {
            sorted.the_same.push_back(option.label);
        } else {
            sorted.different.push_back(option);
        }
    }
    return sorted;
}

bool last_dose_before_next_working_hours(const Hold& hold, const Judge& judge)
{
    const Zone& zone = judge.rules().zone;
    const LocalMinute here = local_of(zone, judge.now());
    const Moment opening = moment_of(zone, next_opening(judge.rules().policy.calendar, here));
    const auto soon = [&](const HoldPlan& plan) {
        if (!plan.last_dose || plan.action == HoldAction::take_as_usual ||
            plan.action == HoldAction::sip_on_the_morning) {
            return false;
        }
        const Moment last = moment_of_dose(*plan.last_dose, zone, DoseWithoutTime::end_of_day);
        return last < opening && judge.now() < judge.record().booking.start_moment;
    };
    return soon(hold.plan) ||
           std::ranges::any_of(hold.options, [&](const HoldOption& option) { return soon(option.plan); }) ||
           std::ranges::any_of(hold.other_policies,
                               [&](const HoldOption& option) { return soon(option.plan); });
}

}  // namespace foreday::screening
