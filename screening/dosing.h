#pragma once
#include <cstdint>
#include <optional>
#include <set>
#include <variant>
#include <vector>

#include "screening/calendar.h"

namespace foreday::screening {

/// How a medicine is taken. Times of day may be unknown: then doses have a date and no time.
struct Daily {
    std::vector<TimeOfDay> times;  ///< ascending; empty: once or more a day, times not known
};
struct OnWeekdays {
    std::set<unsigned> weekdays;  ///< ISO: 1 Monday to 7 Sunday; never empty
    std::vector<TimeOfDay> times;
};
struct EveryNDays {
    int days = 0;  ///< >= 2
    Date from;     ///< a day with a dose
    std::vector<TimeOfDay> times;
};
struct Monthly {
    unsigned day = 1;  ///< 1 to 31; a shorter month's last day
    std::vector<TimeOfDay> times;
};
struct AsNeeded {};
struct Continuous {};  ///< pump or patch
struct PatternNotKnown {};

using Pattern = std::variant<PatternNotKnown, Daily, OnWeekdays, EveryNDays, Monthly, AsNeeded, Continuous>;

/// Whether single doses can be laid out on the calendar (the first four kinds with a pattern).
[[nodiscard]] bool has_schedule(const Pattern& pattern);
/// More than a day between doses as a rule (weekly, every N days, monthly).
[[nodiscard]] bool is_interval_dosing(const Pattern& pattern);

/// One scheduled dose.
struct Dose {
    Date day;
    std::optional<TimeOfDay> time;  ///< empty: time of day not known
    bool operator==(const Dose&) const = default;
};

/// All scheduled doses from `first` to `last`, both days included, in order of time. Empty without a
/// schedule.
[[nodiscard]] std::vector<Dose> doses_between(const Pattern& pattern, Date first, Date last);

}  // namespace foreday::screening
