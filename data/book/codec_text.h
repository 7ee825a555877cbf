#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "data/book/contents_value.h"

/// Single values as payloads write them. Each text is the only one for its value.
namespace foreday::book {

/// "84.6" where at most nine digits after the point say it exactly, else a fraction in lowest terms:
/// "665/442".
/// @throws std::invalid_argument for what does not fit 64 bits
[[nodiscard]] std::string text_of(const screening::Exact& number);
[[nodiscard]] std::optional<screening::Exact> find_exact(std::string_view text);

/// "2027-06-15". @throws std::invalid_argument beyond the years 1900 to 2099, as all below
[[nodiscard]] std::string text_of(screening::Date day);
[[nodiscard]] std::optional<screening::Date> find_date(std::string_view text);

/// "08:00"
[[nodiscard]] std::string text_of(screening::TimeOfDay time);
[[nodiscard]] std::optional<screening::TimeOfDay> find_time_of_day(std::string_view text);

/// "2027-06-15T08:05"
[[nodiscard]] std::string text_of(screening::LocalMinute local);
[[nodiscard]] std::optional<screening::LocalMinute> find_local(std::string_view text);

/// "2027-06-15T08:05-04:00"
[[nodiscard]] std::string text_of(const WallTime& time);
[[nodiscard]] std::optional<WallTime> find_wall_time(std::string_view text);

}  // namespace foreday::book
