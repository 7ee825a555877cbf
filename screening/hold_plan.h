#pragma once
#include <optional>

#include "screening/assessment.h"

namespace foreday::screening {

/// Where a plan is laid out: one medicine before one procedure.
struct HoldSetting {
    const Zone& zone;
    const Pattern& pattern;
    LocalMinute start;    ///< planned start, wall clock
    Moment start_moment;  ///< the same moment
};

/// The first moment at which the action allows no dose any more before the procedure. Equal to the
/// start when it leaves none out. A dose exactly at the limit of an hour rule is still allowed.
///
/// Day rules count civil dates: two days before the 20th are the 18th and the 19th, from midnight on
/// the 18th. Interval dosing is one day kinder: a dose on D-N itself is allowed. Hour rules count
/// elapsed hours, whatever the clocks do in between.
/// @param number  days or hours, for actions that need one
[[nodiscard]] Moment forbidden_from(HoldAction action, const Exact& number, const HoldSetting& setting);

/// The moment a dose counts as taken. Without a time of day a dose counts at the start of its day for
/// day rules and as `end_of_day` for hour rules, where the latest it may have been is what matters.
enum class DoseWithoutTime : std::uint8_t { start_of_day, end_of_day };
[[nodiscard]] Moment moment_of_dose(const Dose& dose, const Zone& zone, DoseWithoutTime without_time);
/// Which of the two an action looks at.
[[nodiscard]] DoseWithoutTime without_time_for(HoldAction action);

/// Scheduled doses from `from` (included) to the start (not included). Empty without a schedule.
[[nodiscard]] std::vector<Dose> doses_left_out(const HoldSetting& setting, Moment from, HoldAction action);

/// Lays one action out on the patient's own dosing times.
[[nodiscard]] HoldPlan lay_out(HoldAction action, const Exact& number, std::vector<DoseCondition> conditions,
                               const HoldSetting& setting);

/// The same plan without any date, for what may give none.
[[nodiscard]] HoldPlan without_dates(HoldPlan plan);

/// The action leaves doses out (days, hours, or those of the day).
[[nodiscard]] bool leaves_out(HoldAction action);

}  // namespace foreday::screening
