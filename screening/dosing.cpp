#include "screening/dosing.h"

#include <algorithm>

namespace foreday::screening {
namespace {

void add_doses(std::vector<Dose>& doses, Date day, const std::vector<TimeOfDay>& times)
{
    if (times.empty()) {
        doses.push_back({day, std::nullopt});
    }
    for (const TimeOfDay time : times) {
        doses.push_back({day, time});
    }
}

/// Whether the pattern has a dose on a day, and at which times.
const std::vector<TimeOfDay>* times_on(const Pattern& pattern, Date day)
{
    if (const auto* daily = std::get_if<Daily>(&pattern)) {
        return &daily->times;
    }
    if (const auto* weekly = std::get_if<OnWeekdays>(&pattern)) {
        const unsigned weekday = date::weekday{day}.iso_encoding();
        return weekly->weekdays.contains(weekday) ? &weekly->times : nullptr;
    }
    if (const auto* every = std::get_if<EveryNDays>(&pattern)) {
        const bool due = every->days > 0 && (day - every->from).count() % every->days == 0;
        return due ? &every->times : nullptr;
    }
    if (const auto* monthly = std::get_if<Monthly>(&pattern)) {
        const date::year_month_day calendar{day};
        const date::year_month_day_last end{calendar.year() / calendar.month() / date::last};
        const date::day due = std::min(date::day{monthly->day}, end.day());
        return calendar.day() == due ? &monthly->times : nullptr;
    }
    return nullptr;
}

}  // namespace

bool has_schedule(const Pattern& pattern)
{
    return std::holds_alternative<Daily>(pattern) || is_interval_dosing(pattern);
}

bool is_interval_dosing(const Pattern& pattern)
{
    return std::holds_alternative<OnWeekdays>(pattern) || std::holds_alternative<EveryNDays>(pattern) ||
           std::holds_alternative<Monthly>(pattern);
}

std::vector<Dose> doses_between(const Pattern& pattern, Date first, Date last)
{
    std::vector<Dose> doses;
    for (Date day = first; day <= last; day += date::days{1}) {
        if (const auto* times = times_on(pattern, day)) {
            add_doses(doses, day, *times);
        }
    }
    return doses;
}

}  // namespace foreday::screening
