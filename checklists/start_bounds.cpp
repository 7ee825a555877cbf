#include "checklists/start_bounds.h"

#include <fmt/format.h>

#include <algorithm>

namespace foreday::checklists {
namespace {

using std::chrono::minutes;

/// "4 h", "4 h 50 min"
std::string length_words(minutes length)
{
    constexpr int minutes_an_hour = 60;
    const auto hours = length.count() / minutes_an_hour;
    const auto rest = length.count() % minutes_an_hour;
    return rest == 0 ? fmt::format("{} h", hours) : fmt::format("{} h {} min", hours, rest);
}

std::string source_of(const screening::StartWindow& window)
{
    return window.sources.empty() ? std::string{screening::name_of(window.sure)} : window.sources.front().source;
}

}  // namespace

StartBounds start_bounds(const screening::Rules& rules, const screening::Preparation& preparation, minutes journey)
{
    const auto& engine = rules.protocol.engine;
    const auto parameter = [&](screening::ParameterIndex place) {
        return screening::minutes_of(place, rules.protocol, rules.policy);
    };
    const minutes length = screening::length_of(preparation.second);
    StartBounds bounds;
    for (const screening::StartWindow& window : preparation.windows) {
        bounds.not_later.push_back(
            {window.latest, fmt::format("not later than {} before ({})", length_words(window.latest), source_of(window))});
        bounds.not_earlier.push_back({window.earliest, fmt::format("not earlier than {} before ({})",
                                                                   length_words(window.earliest), source_of(window))});
    }
    const minutes clear = parameter(engine.clear_liquid_hours);
    bounds.not_later.push_back({clear + length, fmt::format("{} to drink it, and nothing by mouth in the last {}",
                                                            length_words(length), length_words(clear))});
    const minutes leave = parameter(engine.arrive_before) + journey;
    const minutes margin = parameter(engine.bathroom_margin);
    bounds.not_later.push_back(
        {leave + margin + length,
         fmt::format("{} to drink it, {} near a bathroom, and leaving home {} before the start", length_words(length),
                     length_words(margin), length_words(leave))});
    bounds.at_least = std::ranges::max(bounds.not_later, {}, &StartBound::before).before;
    bounds.at_most = std::ranges::min(bounds.not_earlier, {}, &StartBound::before).before;
    return bounds;
}

Refused refused_by(const screening::Preparation& preparation, const StartBounds& bounds)
{
    const StartBound& early = std::ranges::max(bounds.not_later, {}, &StartBound::before);
    const StartBound& late = std::ranges::min(bounds.not_earlier, {}, &StartBound::before);
    return {fmt::format("{}: its second portion would have to start at least {} before the procedure ({}), but {}",
                        preparation.generic, length_words(early.before), early.words, late.words),
            {"another start on the list", "another preparation", "a plan for the same day",
             "the patient stays nearer to the unit the night before"}};
}

}  // namespace foreday::checklists
