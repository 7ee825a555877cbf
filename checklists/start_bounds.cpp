#include "checklists/start_bounds.h"

#include <fmt/format.h>

#include <algorithm>

namespace foreday::checklists {
namespace {

using screening::StartWindow;
using std::chrono::minutes;

std::string sources_of(const StartWindow& window)
{
    if (window.sources.empty()) {
        return std::string{screening::name_of(window.sure)};
    }
    std::string text;
    for (const screening::SourceUse& use : window.sources) {
        text += fmt::format("{}{}, {}", text.empty() ? "" : "; ", use.source, use.locator);
    }
    return text;
}

std::string window_words(const StartWindow& window)
{
    return fmt::format("{} to {} before the procedure ({})", length_words(window.earliest),
                       length_words(window.latest), sources_of(window));
}

std::vector<std::string> ways_out()
{
    return {"another start on the list", "another preparation", "a plan for the same day",
            "the patient stays nearer to the unit the night before"};
}

std::vector<screening::SourceUse> joined(std::vector<screening::SourceUse> one,
                                         const std::vector<screening::SourceUse>& other)
{
    one.insert(one.end(), other.begin(), other.end());
    return one;
}

}  // namespace

std::string length_words(minutes length)
{
    constexpr int minutes_an_hour = 60;
    const auto hours = length.count() / minutes_an_hour;
    const auto rest = length.count() % minutes_an_hour;
    if (hours == 0) {
        return fmt::format("{} min", rest);
    }
    return rest == 0 ? fmt::format("{} h", hours) : fmt::format("{} h {} min", hours, rest);
}

StartBounds start_bounds(const screening::Rules& rules, const screening::Preparation& preparation,
                         minutes journey)
{
    const auto& engine = rules.protocol.engine;
    const auto parameter = [&](screening::ParameterIndex place) {
        return screening::minutes_of(place, rules.protocol, rules.policy);
    };
    const auto sources = [&](screening::ParameterIndex place) {
        return rules.protocol.parameters.at(place).sources;
    };
    const minutes length = screening::length_of(preparation.second);
    StartBounds bounds;
    for (const StartWindow& window : preparation.windows) {
        const std::string words = "the window is " + window_words(window);
        bounds.not_later.push_back({window.latest, words, window.sources});
        bounds.not_earlier.push_back({window.earliest, words, window.sources});
    }
    const minutes clear = parameter(engine.clear_liquid_hours);
    bounds.not_later.push_back(
        {clear + length,
         fmt::format("it takes {} and ends {} before the start, when clear liquids end", length_words(length),
                     length_words(clear)),
         sources(engine.clear_liquid_hours)});
    const minutes leave = parameter(engine.arrive_before) + journey;
    const minutes margin = parameter(engine.bathroom_margin);
    bounds.not_later.push_back(
        {leave + margin + length,
         fmt::format(
             "it takes {}, then {} near a bathroom, and home is left {} before the start ({} of journey)",
             length_words(length), length_words(margin), length_words(leave), length_words(journey)),
         joined(sources(engine.bathroom_margin), sources(engine.arrive_before))});
    bounds.at_least = std::ranges::max(bounds.not_later, {}, &StartBound::before).before;
    bounds.at_most = std::ranges::min(bounds.not_earlier, {}, &StartBound::before).before;
    return bounds;
}

std::optional<Refused> windows_apart(const screening::Preparation& preparation)
{
    const StartWindow& early = std::ranges::max(preparation.windows, {}, &StartWindow::latest);
    const StartWindow& late = std::ranges::min(preparation.windows, {}, &StartWindow::earliest);
    if (early.latest <= late.earliest) {
        return std::nullopt;
    }
    Refused refused;
    refused.why = Refused::Why::windows_apart;
    refused.reason = fmt::format("{}: its sources leave no common time to start the second portion: {}; {}",
                                 preparation.generic, window_words(early), window_words(late));
    refused.choices = {"the endoscopist chooses between the two windows", "another preparation"};
    refused.sources = joined(early.sources, late.sources);
    return refused;
}

Refused refused_by(const screening::Preparation& preparation, const StartBounds& bounds)
{
    const StartBound& early = std::ranges::max(bounds.not_later, {}, &StartBound::before);
    const StartBound& late = std::ranges::min(bounds.not_earlier, {}, &StartBound::before);
    Refused refused;
    refused.why = Refused::Why::no_common_time;
    refused.reason = fmt::format(
        "{}: its second portion would have to start at least {} before the procedure "
        "({}), and not more than {} before it ({})",
        preparation.generic, length_words(early.before), early.words, length_words(late.before), late.words);
    refused.choices = ways_out();
    refused.sources = joined(early.sources, late.sources);
    return refused;
}

}  // namespace foreday::checklists
