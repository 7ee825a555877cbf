#include "checklists/working_time.h"

#include <algorithm>

namespace foreday::checklists {
namespace {

using screening::Date;
using screening::LocalMinute;
using screening::Moment;

constexpr date::days furthest{366};  // a unit closed for longer than a year does not work

/// Opening and closing of one working day.
struct Day {
    Moment opens;
    Moment closes;
};

Date day_of(const WorkingTime& time, Moment moment)
{
    return screening::date_of(screening::local_of(time.zone, moment));
}

/// Empty on a day without working time, also where the clocks are put forward over all of it.
std::optional<Day> working_day(const WorkingTime& time, Date day)
{
    if (!is_working_day(time, day)) {
        return std::nullopt;
    }
    const Day found{screening::moment_of(time.zone, LocalMinute{day} + time.calendar.opens),
                    screening::moment_of(time.zone, LocalMinute{day} + time.calendar.closes)};
    return found.opens < found.closes ? std::optional{found} : std::nullopt;
}

}  // namespace

bool is_working_day(const WorkingTime& time, Date day)
{
    const screening::Calendar& calendar = time.calendar;
    return calendar.opens < calendar.closes &&
           std::ranges::binary_search(calendar.working_weekdays, date::weekday{day}.iso_encoding()) &&
           !std::ranges::binary_search(calendar.holidays, day);
}

std::optional<Moment> last_working_moment(const WorkingTime& time, Moment at_or_before)
{
    return working_time_before(time, at_or_before, std::chrono::minutes{0});
}

std::optional<Moment> next_working_moment(const WorkingTime& time, Moment at_or_after)
{
    const Date first = day_of(time, at_or_after);
    for (Date day = first; day <= first + furthest; day += date::days{1}) {
        if (const auto working = working_day(time, day); working && at_or_after < working->closes) {
            return std::max(at_or_after, working->opens);
        }
    }
    return std::nullopt;
}

std::optional<Moment> working_time_before(const WorkingTime& time, Moment moment, std::chrono::minutes length)
{
    std::chrono::seconds left = length;
    Date last_worked = day_of(time, moment);
    for (Date day = last_worked; day >= last_worked - furthest; day -= date::days{1}) {
        const auto working = working_day(time, day);
        if (!working || moment < working->opens) {
            continue;
        }
        last_worked = day;
        const Moment end = std::min(moment, working->closes);
        if (end - working->opens >= left) {
            return end - left;
        }
        left -= end - working->opens;
    }
    return std::nullopt;
}

std::optional<Moment> last_working_hour_before(const WorkingTime& time, Moment moment)
{
    return working_time_before(time, moment, std::chrono::hours{1});
}

std::optional<Moment> end_of_working_day(const WorkingTime& time, Moment moment)
{
    const auto working = next_working_moment(time, moment);
    if (!working) {
        return std::nullopt;
    }
    return working_day(time, day_of(time, *working)).value().closes;
}

}  // namespace foreday::checklists
