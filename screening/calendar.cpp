#include "screening/calendar.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdint>
#include <iterator>
#include <stdexcept>
#include <utility>

#include "screening/as_written.h"

namespace foreday::screening {
namespace {

using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;

/// The local second that a wall-clock time names, less the offset: the moment, were that offset in force.
Moment minus_offset(LocalMinute local, seconds offset)
{
    return Moment{seconds{local.time_since_epoch()} - offset};
}

/// Digits only, as many as there are. Empty when anything else stands among them.
std::optional<int> whole_number(std::string_view digits)
{
    int value = 0;
    for (const char digit : digits) {
        if (digit < '0' || digit > '9') {
            return std::nullopt;
        }
        value = value * 10 + (digit - '0');  // 10: the base; callers hand in at most four digits
    }
    return value;
}

/// Hours and minutes of "HH:MM", without a look at how large they are.
std::optional<std::pair<int, int>> hours_and_minutes(std::string_view text)
{
    if (text.size() != std::string_view{"HH:MM"}.size() || text[2] != ':') {
        return std::nullopt;
    }
    const auto hour = whole_number(text.substr(0, 2));
    const auto minute = whole_number(text.substr(3, 2));
    if (!hour || !minute) {
        return std::nullopt;
    }
    return std::pair{*hour, *minute};
}

/// "Z", "+02:00", "-04:00", up to 14 hours: no clock on Earth stands further from UTC. "-00:00" is
/// refused: RFC 3339, section 4.3, gives it to times whose offset is not known.
std::optional<minutes> parse_offset(std::string_view text)
{
    constexpr minutes furthest = hours{14};
    if (text == "Z") {
        return minutes{0};
    }
    if (text.empty() || (text.front() != '+' && text.front() != '-') || text == "-00:00") {
        return std::nullopt;
    }
    const auto parts = hours_and_minutes(text.substr(1));
    if (!parts || parts->second >= 60) {
        return std::nullopt;
    }
    const minutes size = hours{parts->first} + minutes{parts->second};
    if (size > furthest) {
        return std::nullopt;
    }
    return text.front() == '-' ? -size : size;
}

/// "-04:00". Seconds are written only where there are some, as in old local mean times.
std::string offset_text(seconds offset)
{
    const auto size = offset < seconds{0} ? -offset : offset;
    const auto whole_hours = std::chrono::floor<hours>(size);
    const auto rest = std::chrono::floor<minutes>(size - whole_hours);
    const auto odd = size - whole_hours - rest;
    std::string text =
        fmt::format("{}{:02}:{:02}", offset < seconds{0} ? '-' : '+', whole_hours.count(), rest.count());
    if (odd != seconds{0}) {
        text += fmt::format(":{:02}", odd.count());
    }
    return text;
}

Fault has_no_moment(const Zone& zone, LocalMinute local, Moment change)
{
    return {fmt::format("{} does not exist: the clocks of {} are put forward over it", iso_local(local),
                        zone.name),
            fmt::format("a time up to {} or from {} on", iso_with_offset(zone, change - minutes{1}),
                        iso_with_offset(zone, change))};
}

Fault has_two_moments(const Zone& zone, LocalMinute local, const Moments& moments)
{
    return {fmt::format("{} comes twice: the clocks of {} are put back over it", iso_local(local), zone.name),
            fmt::format("the time with its offset: {} for the first or {} for the second",
                        iso_with_offset(zone, moments.earlier), iso_with_offset(zone, moments.later))};
}

}  // namespace

seconds offset_at(const Zone& zone, Moment moment)
{
    const auto after = std::ranges::upper_bound(zone.transitions, moment, {}, &Transition::from);
    return after == zone.transitions.begin() ? zone.transitions.front().offset : std::prev(after)->offset;
}

LocalMinute local_of(const Zone& zone, Moment moment)
{
    return LocalMinute{std::chrono::floor<minutes>(moment.time_since_epoch() + offset_at(zone, moment))};
}

Moments moments_of(const Zone& zone, LocalMinute local)
{
    std::optional<Moments> found;
    Moment change;
    for (std::size_t i = 0; i < zone.transitions.size(); ++i) {
        const Transition& period = zone.transitions[i];
        const Moment moment = minus_offset(local, period.offset);
        if (i > 0 && moment < period.from) {
            continue;  // the period begins when its clocks have passed the time already
        }
        if (i + 1 < zone.transitions.size() && moment >= zone.transitions[i + 1].from) {
            change = zone.transitions[i + 1].from;  // the period was over before its clocks came to it
            continue;
        }
        if (!found) {
            found = Moments{Moments::Count::one, moment, moment};
        } else {
            found->count = Moments::Count::two;
            found->later = moment;
        }
    }
    return found.value_or(Moments{Moments::Count::none, change, change});
}

Moment moment_of(const Zone& zone, LocalMinute local)
{
    return moments_of(zone, local).earlier;
}

Date date_of(LocalMinute local)
{
    return date::floor<date::days>(local);
}

TimeOfDay time_of_day(LocalMinute local)
{
    return local - date_of(local);
}

Date add_months(Date day, int months)
{
    constexpr std::int64_t months_a_year = 12;
    const date::year_month_day from{day};
    const std::int64_t month_count =
        static_cast<int>(from.year()) * months_a_year + static_cast<unsigned>(from.month()) - 1 + months;
    const std::int64_t month = ((month_count % months_a_year) + months_a_year) % months_a_year;
    const std::int64_t year = (month_count - month) / months_a_year;
    if (year < static_cast<int>(date::year::min()) || year > static_cast<int>(date::year::max())) {
        throw std::out_of_range("a month beyond the calendar");
    }
    const date::year_month in = date::year{static_cast<int>(year)} / static_cast<int>(month + 1);
    const date::day last = (in / date::last).day();
    return Date{in / std::min(from.day(), last)};
}

int completed_years(Date birth, Date day)
{
    const date::year_month_day from{birth};
    const date::year_month_day to{day};
    const int begun = static_cast<int>(to.year()) - static_cast<int>(from.year());
    const bool birthday_to_come = std::pair{to.month(), to.day()} < std::pair{from.month(), from.day()};
    return birthday_to_come ? begun - 1 : begun;
}

Result<Date> parse_date(std::string_view text)
{
    const auto fault = [&](std::string_view why, std::string_view right) {
        return tl::unexpected(Fault{fmt::format("{} {}", as_written(text), why), std::string(right)});
    };
    constexpr std::string_view form = "year, month and day, as in 2027-04-12";
    if (text.size() != std::string_view{"YYYY-MM-DD"}.size() || text[4] != '-' || text[7] != '-') {
        return fault("is not a date", form);
    }
    const auto year = whole_number(text.substr(0, 4));
    const auto month = whole_number(text.substr(5, 2));
    const auto day = whole_number(text.substr(8, 2));
    if (!year || !month || !day) {
        return fault("is not a date", form);
    }
    if (*year < 1900 || *year > 2099) {  // beyond them lie slips of the hand, not patients
        return fault("is not a year we plan for", "a year from 1900 to 2099");
    }
    const date::year_month_day date = date::year{*year} / *month / *day;
    if (!date.ok()) {
        return fault("is not in the calendar", "a day that exists, as in 2027-02-28");
    }
    return Date{date};
}

Result<TimeOfDay> parse_time_of_day(std::string_view text)
{
    const auto parts = hours_and_minutes(text);
    if (!parts || parts->first >= 24 || parts->second >= 60) {
        return tl::unexpected(Fault{fmt::format("{} is not a time of day", as_written(text)),
                                    "hours and minutes from 00:00 to 23:59, as in 09:00"});
    }
    return hours{parts->first} + minutes{parts->second};
}

Result<WrittenTime> parse_written_time(std::string_view text)
{
    constexpr std::size_t date_length = 10;  // "2027-04-12"
    constexpr std::size_t time_length = 5;   // "09:00"
    constexpr std::size_t full_length = date_length + 1 + time_length;
    if (text.size() < full_length || text[date_length] != 'T') {
        return tl::unexpected(Fault{fmt::format("{} is not a date with a time", as_written(text)),
                                    "a date, T and a time, as in 2027-04-12T09:00"});
    }
    const auto day = parse_date(text.substr(0, date_length));
    if (!day) {
        return tl::unexpected(day.error());
    }
    const auto time = parse_time_of_day(text.substr(date_length + 1, time_length));
    if (!time) {
        return tl::unexpected(time.error());
    }
    WrittenTime written{*day + *time, std::nullopt};
    const std::string_view after = text.substr(full_length);
    if (!after.empty()) {
        written.offset = parse_offset(after);
        if (!written.offset) {
            return tl::unexpected(Fault{fmt::format("{} is not an offset from UTC", as_written(after)),
                                        "nothing, Z, or hours and minutes such as -04:00 or +02:00"});
        }
    }
    return written;
}

Result<Moment> resolve(const Zone& zone, const WrittenTime& written)
{
    if (written.offset) {
        return minus_offset(written.local, *written.offset);
    }
    const Moments moments = moments_of(zone, written.local);
    switch (moments.count) {
        case Moments::Count::none:
            return tl::unexpected(has_no_moment(zone, written.local, moments.earlier));
        case Moments::Count::two:
            return tl::unexpected(has_two_moments(zone, written.local, moments));
        case Moments::Count::one:
            break;
    }
    return moments.earlier;
}

std::string iso_date(Date day)
{
    const date::year_month_day parts{day};
    return fmt::format("{:04}-{:02}-{:02}", static_cast<int>(parts.year()),
                       static_cast<unsigned>(parts.month()), static_cast<unsigned>(parts.day()));
}

std::string iso_time_of_day(TimeOfDay time)
{
    const auto hour = std::chrono::floor<hours>(time);
    return fmt::format("{:02}:{:02}", hour.count(), (time - hour).count());
}

std::string iso_local(LocalMinute local)
{
    return iso_date(date_of(local)) + 'T' + iso_time_of_day(time_of_day(local));
}

std::string iso_with_offset(const Zone& zone, Moment moment)
{
    return iso_local(local_of(zone, moment)) + offset_text(offset_at(zone, moment));
}

std::string weekday_name(Date day)
{
    constexpr std::array<std::string_view, 7> names{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                    "Thursday", "Friday", "Saturday"};
    return std::string(names[date::weekday{day}.c_encoding()]);
}

}  // namespace foreday::screening
