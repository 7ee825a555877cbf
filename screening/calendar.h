#pragma once
#include <date/date.h>

#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "screening/result.h"

namespace foreday::screening {

/// A day on the unit's wall calendar. Not convertible to or from a UTC day.
using Date = date::local_days;
/// A wall-clock time in the unit's zone, to the minute.
using LocalMinute = date::local_time<std::chrono::minutes>;
/// A moment on the UTC line, to the second.
using Moment = date::sys_seconds;
/// Minutes after midnight, 0 to 1439.
using TimeOfDay = std::chrono::minutes;

/// From `from` on (included) wall clocks stand `offset` ahead of UTC.
struct Transition {
    Moment from;
    std::chrono::seconds offset{0};
    bool operator==(const Transition&) const = default;
};

/// The clock of one place around one case, taken from a zone database once and handed in.
struct Zone {
    std::string name;       ///< IANA name
    std::string version;    ///< of the zone database, as its files name it
    std::string file_hash;  ///< SHA-256 of the zone's file, lower-case hexadecimal
    /// Ascending by `from`; never empty. The first holds from the beginning of time.
    std::vector<Transition> transitions;
};

/// How far wall clocks stand ahead of UTC at a moment.
[[nodiscard]] std::chrono::seconds offset_at(const Zone& zone, Moment moment);

/// The wall-clock time at a moment; seconds are cut off.
[[nodiscard]] LocalMinute local_of(const Zone& zone, Moment moment);

/// A wall-clock time has one moment, two (clocks put back) or none (clocks put forward).
struct Moments {
    enum class Count { none, one, two } count = Count::one;
    Moment earlier;  ///< with `none`: the moment of the change
    Moment later;    ///< equal to `earlier` unless there are two
};
[[nodiscard]] Moments moments_of(const Zone& zone, LocalMinute local);

/// The one moment used for planning: the earlier of two, and for a time that does not exist the
/// moment at which the clocks were put forward.
[[nodiscard]] Moment moment_of(const Zone& zone, LocalMinute local);

/// Midnight is the start of a date also where the clock change swallows it.
[[nodiscard]] Date date_of(LocalMinute local);
[[nodiscard]] TimeOfDay time_of_day(LocalMinute local);

/// Same day of the month `months` later (or earlier when negative), or the last day of that month when
/// it is shorter: 31 August and six months are 28 or 29 February.
/// @throws std::out_of_range beyond the years -32767 to 32767
[[nodiscard]] Date add_months(Date day, int months);

/// Completed years from `birth` to `day`, >= 0 when birth is not after day. Someone born on
/// 29 February completes a year on 1 March of a common year.
[[nodiscard]] int completed_years(Date birth, Date day);

/// "2027-04-12". Exactly this form, years 1900 to 2099, and the day must exist.
[[nodiscard]] Result<Date> parse_date(std::string_view text);
/// "09:00", "23:59": 00:00 to 23:59.
[[nodiscard]] Result<TimeOfDay> parse_time_of_day(std::string_view text);
/// "2027-04-12T09:00", optionally with "-04:00", "+02:00" or "Z" after it. Offsets go to 14 hours; "-00:00"
/// is refused, as it says that the offset is not known.
struct WrittenTime {
    LocalMinute local;
    std::optional<std::chrono::minutes> offset;  ///< empty: the unit's zone decides
};
[[nodiscard]] Result<WrittenTime> parse_written_time(std::string_view text);
/// Resolves a written time. An offset need not be one of the zone's own. Without an offset a time that does
/// not exist or exists twice is a fault that names the offsets to choose from.
[[nodiscard]] Result<Moment> resolve(const Zone& zone, const WrittenTime& written);

[[nodiscard]] std::string iso_date(Date day);                                ///< "2027-04-12"
[[nodiscard]] std::string iso_time_of_day(TimeOfDay time);                   ///< "09:00"
[[nodiscard]] std::string iso_local(LocalMinute local);                      ///< "2027-04-12T09:00"
[[nodiscard]] std::string iso_with_offset(const Zone& zone, Moment moment);  ///< "2027-04-12T09:00-04:00"
[[nodiscard]] std::string weekday_name(Date day);                            ///< "Monday"

}  // namespace foreday::screening
