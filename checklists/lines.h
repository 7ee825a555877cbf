#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "screening/calendar.h"

namespace foreday::checklists {

enum class LineKind : std::uint8_t { heading, text, step };
[[nodiscard]] std::string_view name_of(LineKind kind);

/// One line of a page. What it looks like is for whoever draws it.
struct Line {
    LineKind kind = LineKind::text;
    std::string text;
    std::optional<screening::Moment> at;  ///< of a step with a time
    bool operator==(const Line&) const = default;
};

/// Canonical bytes of a page, to be hashed in data/: its name, then each line with its kind, text and, where
/// it has one, moment with offset.
[[nodiscard]] std::string bytes_of(std::string_view page, const std::vector<Line>& lines,
                                   const screening::Zone& zone);

}  // namespace foreday::checklists
