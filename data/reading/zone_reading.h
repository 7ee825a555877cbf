#pragma once
#include <filesystem>
#include <string_view>

#include "screening/calendar.h"

namespace foreday::data {

/// The clock of a place around a case, from the machine's zone data in /usr/share/zoneinfo.
///
/// The zone holds the changes of clocks from two years before `around_from` to two years after `around_to`;
/// its first entry says what stood before them. Entries that leave the offset as it is are left out.
/// @param iana_name    such as "America/New_York"
/// @param around_from  first day that is planned for, not before 1900-01-01
/// @param around_to    last day that is planned for, not before `around_from` nor after 2037-12-31
/// @returns a fault for a name the zone data does not have, days outside these bounds, and zone data that
///          cannot be read or whose changes end before the days do
[[nodiscard]] screening::Result<screening::Zone> read_zone(std::string_view iana_name,
                                                           screening::Date around_from,
                                                           screening::Date around_to);

/// The same from zone data in another directory.
[[nodiscard]] screening::Result<screening::Zone> read_zone_from(const std::filesystem::path& directory,
                                                                std::string_view iana_name,
                                                                screening::Date around_from,
                                                                screening::Date around_to);

}  // namespace foreday::data
