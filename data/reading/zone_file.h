#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "screening/calendar.h"

namespace foreday::data {

/// What a compiled zone file (TZif, RFC 8536) says.
struct ZoneFile {
    std::chrono::seconds first_offset{0};            ///< before the first transition
    std::vector<screening::Transition> transitions;  ///< ascending; may be empty
    /// The rule for the time after the last transition, a POSIX TZ text such as "EST5EDT,M3.2.0,M11.1.0".
    /// It is not applied. Empty: none is known.
    std::string rule_after;
};

/// Reads the 64-bit part of a TZif file, version 2 or later. A file with leap seconds is refused, as its
/// count of seconds is not that of the UTC line the program lives on.
[[nodiscard]] screening::Result<ZoneFile> parse_zone_file(std::string_view bytes);

}  // namespace foreday::data
