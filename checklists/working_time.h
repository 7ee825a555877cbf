#pragma once
#include <chrono>
#include <optional>

#include "screening/protocol.h"

namespace foreday::checklists {

/// A unit's calendar on its wall clock. Both must outlive it.
///
/// A working day is a weekday the unit works on that is no holiday. It runs from opening to closing in
/// elapsed time, whatever the clocks do in between. A calendar whose closing is not after its opening, or
/// that works on no weekday, has no working time at all. Whoever looks for some looks a year far and no
/// further.
struct WorkingTime {
    const screening::Calendar& calendar;
    const screening::Zone& zone;
};

/// The unit works on this day. Never where closing is not after opening.
[[nodiscard]] bool is_working_day(const WorkingTime& time, screening::Date day);

/// The moment itself from opening to closing, both included; else the closing before it. Empty: no working
/// time within a year before.
[[nodiscard]] std::optional<screening::Moment> last_working_moment(const WorkingTime& time,
                                                                   screening::Moment at_or_before);

/// The moment itself from opening (included) to closing (not included: nothing can be begun then); else the
/// next opening. Empty: no working time within a year after.
[[nodiscard]] std::optional<screening::Moment> next_working_moment(const WorkingTime& time,
                                                                   screening::Moment at_or_after);

/// The latest working moment from which at least `length` of working time lies before `moment`: four hours
/// before 09:00, where the unit opens at 07:00 and closes at 16:30, is 14:30 of the working day before. With
/// no length it is last_working_moment(). Empty: there is not so much working time within a year before one
/// closing and the next.
/// @param length  >= 0
[[nodiscard]] std::optional<screening::Moment> working_time_before(const WorkingTime& time,
                                                                   screening::Moment moment,
                                                                   std::chrono::minutes length);

/// One working hour before a moment: the last at which a patient who leaves then can still be rung.
[[nodiscard]] std::optional<screening::Moment> last_working_hour_before(const WorkingTime& time,
                                                                        screening::Moment moment);

/// Closing of the working day that the moment falls in; outside working time, of the next one. At closing
/// itself the day is over. Empty: no working time within a year after.
[[nodiscard]] std::optional<screening::Moment> end_of_working_day(const WorkingTime& time,
                                                                  screening::Moment moment);

}  // namespace foreday::checklists
