#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checklists/timetable.h"

namespace foreday::checklists {

/// One bound on the start of the second portion, with the words that name it.
struct StartBound {
    std::chrono::minutes before{0};  ///< minutes before the start of the procedure
    std::string words;
    std::vector<screening::SourceUse> sources;
};

/// What the start of the second portion must keep; closed on both sides.
struct StartBounds {
    std::chrono::minutes at_least{0};     ///< not later than so long before the procedure
    std::chrono::minutes at_most{0};      ///< not earlier than so long before the procedure
    std::vector<StartBound> not_later;    ///< every bound behind `at_least`
    std::vector<StartBound> not_earlier;  ///< every bound behind `at_most`
};

/// @param journey  from home to the unit
[[nodiscard]] StartBounds start_bounds(const screening::Rules& rules,
                                       const screening::Preparation& preparation,
                                       std::chrono::minutes journey);

/// The refusal when the windows of two sources have no time in common: it shows both. Empty: they meet.
[[nodiscard]] std::optional<Refused> windows_apart(const screening::Preparation& preparation);

/// The refusal when no start keeps all bounds: it names the two that pull apart most.
[[nodiscard]] Refused refused_by(const screening::Preparation& preparation, const StartBounds& bounds);

/// "4 h", "4 h 50 min", "45 min"; >= 0.
[[nodiscard]] std::string length_words(std::chrono::minutes length);

}  // namespace foreday::checklists
