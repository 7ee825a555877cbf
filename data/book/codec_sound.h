#pragma once
#include <algorithm>
#include <functional>
#include <string_view>
#include <type_traits>
#include <variant>

#include "data/book/contents.h"

/// What must hold of a content besides the types of its fields, when it is written and when it is read.
/// Empty: it does; else what is wrong.
namespace foreday::book {

template <class Said>
std::string_view what_is_wrong(const Said& said)
{
    if constexpr (requires { said.lowest <= said.highest; }) {
        return said.lowest <= said.highest ? "" : "an interval that ends before it begins";
    } else {
        return "";
    }
}

/// Each later than the one before.
inline bool ascending(const std::vector<screening::TimeOfDay>& times)
{
    return std::ranges::adjacent_find(times, std::greater_equal<>{}) == times.end();
}

inline std::string_view what_is_wrong(const screening::Daily& said)
{
    return ascending(said.times) ? "" : "times of day that do not ascend";
}

inline std::string_view what_is_wrong(const screening::OnWeekdays& said)
{
    const bool days = !said.weekdays.empty() && *said.weekdays.begin() >= 1 && *said.weekdays.rbegin() <= 7;
    return !days                   ? "days of the week that are not 1 to 7"
           : ascending(said.times) ? ""
                                   : "times of day that do not ascend";
}

inline std::string_view what_is_wrong(const screening::EveryNDays& said)
{
    constexpr int longest = 366;
    return said.days < 2 || said.days > longest ? "days between doses that are not 2 to 366"
           : ascending(said.times)              ? ""
                                                : "times of day that do not ascend";
}

inline std::string_view what_is_wrong(const screening::Monthly& said)
{
    constexpr unsigned last_day = 31;
    return said.day < 1 || said.day > last_day ? "a day of the month that is not 1 to 31"
           : ascending(said.times)             ? ""
                                               : "times of day that do not ascend";
}

inline std::string_view what_is_wrong(const Answered& said)
{
    return said.value.has_value() != said.why_not_known.has_value()
               ? ""
               : "an answer needs a value, or why there is none";
}

inline std::string_view what_is_wrong(const ConcernRaised& said)
{
    return said.level >= screening::Level::ask ? "" : "a concern of a level other than ask and stop";
}

inline std::string_view what_is_wrong(const BookingMade& said)
{
    return said.procedures.empty() ? "a booking without a procedure" : "";
}

inline std::string_view what_is_wrong(const Rescheduled& said)
{
    return said.procedures && said.procedures->empty() ? "a booking without a procedure" : "";
}

}  // namespace foreday::book
