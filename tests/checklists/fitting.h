#pragma once
#include <string>
#include <vector>

#include "tests/checklists/builders.h"

/// Short words for fitting one preparation and for reading the plan that came of it.
namespace foreday::checklists::build {

inline constexpr std::chrono::minutes near_by{10};  ///< a journey that binds nothing

[[nodiscard]] inline std::variant<Fitted, Refused> fit(const SmallUnit& unit,
                                                       std::string_view preparation = "peg",
                                                       Journey journey = near_by)
{
    return fit_preparation(unit.rules, unit.preparation_place(preparation), unit.record.booking.start_moment,
                           journey);
}

[[nodiscard]] inline std::chrono::minutes before_start(const SmallUnit& unit,
                                                       std::optional<screening::Moment> moment)
{
    return std::chrono::duration_cast<std::chrono::minutes>(unit.record.booking.start_moment -
                                                            moment.value());
}

/// Each step as "06-17T05:00 Glass 1 of 8".
[[nodiscard]] inline std::vector<std::string> lines_of(const Fitted& plan)
{
    std::vector<std::string> lines;
    for (const Step& step : plan.steps) {
        lines.push_back(text(step.at).substr(5, 11) + " " + step.what);
    }
    return lines;
}

}  // namespace foreday::checklists::build
