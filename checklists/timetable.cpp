#include "checklists/timetable.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/start_bounds.h"

namespace foreday::checklists {
namespace {

using screening::LocalMinute;
using screening::Moment;
using screening::Portion;
using screening::Preparation;
using screening::Rules;
using std::chrono::minutes;

std::string with_count(std::string text, int count, int of)
{
    for (const auto& [mark, number] : {std::pair{std::string_view{"{n}"}, count}, std::pair{std::string_view{"{of}"}, of}}) {
        for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark)) {
            text.replace(at, mark.size(), std::to_string(number));
        }
    }
    return text;
}

void add_portion(std::vector<Step>& steps, const Portion& portion, Moment start)
{
    Moment at = start;
    for (const screening::PortionStep& step : portion.steps) {
        for (int count = 1; count <= step.times; ++count) {
            steps.push_back({at, with_count(step.what, count, step.times), true});
            at += step.every;
        }
    }
}

/// Moved to the earlier quarter of the wall clock's hour, when every bound still holds there.
minutes on_the_quarter(minutes before, const StartBounds& bounds, Moment start, const screening::Zone& zone)
{
    constexpr int quarter = 15;  // minutes; a time people can keep in mind, nothing clinical
    const auto past = screening::time_of_day(screening::local_of(zone, start - before)).count() % quarter;
    const minutes earlier = before + minutes{past};
    return earlier <= bounds.at_most ? earlier : before;
}

/// Where the first portion starts, in minutes before the procedure.
minutes first_start(const Rules& rules, const Preparation& preparation, LocalMinute start, Moment start_moment, minutes second)
{
    const minutes evening = screening::minutes_of(rules.protocol.engine.evening_start, rules.protocol, rules.policy);
    const LocalMinute wanted = LocalMinute{screening::date_of(start) - date::days{1}} + evening;
    const auto elapsed =
        std::chrono::duration_cast<minutes>(start_moment - screening::moment_of(rules.zone, wanted));
    if (!preparation.between_starts) {
        return std::max(elapsed, second + screening::length_of(preparation.first));
    }
    const minutes least = std::max(preparation.between_starts->lowest, screening::length_of(preparation.first));
    return std::clamp(elapsed, second + least, second + std::max(least, preparation.between_starts->highest));
}

void add_ends(const Rules& rules, Fitted& fitted, Moment start, minutes journey)
{
    const auto& engine = rules.protocol.engine;
    fitted.last_clear_liquid = start - screening::minutes_of(engine.clear_liquid_hours, rules.protocol, rules.policy);
    fitted.leave_home = start - screening::minutes_of(engine.arrive_before, rules.protocol, rules.policy) - journey;
    fitted.steps.push_back({fitted.last_clear_liquid, "Last clear liquid. Nothing by mouth after this time", false});
    fitted.steps.push_back({fitted.leave_home, "Leave home", false});
}

void in_order(std::vector<Step>& steps)
{
    std::ranges::stable_sort(steps, {}, &Step::at);
}

minutes journey_or_usual(const Rules& rules, Journey journey)
{
    return journey.value_or(screening::minutes_of(rules.protocol.engine.usual_journey, rules.protocol, rules.policy));
}

std::optional<Refused> not_confirmed(const Rules& rules, const Preparation& preparation)
{
    if (screening::may_give_a_date(screening::rank_in(rules.policy, preparation.id, preparation.sure))) {
        return std::nullopt;
    }
    return Refused{fmt::format("{}: its plan rests on {} and the unit has not confirmed it", preparation.generic,
                               screening::name_of(preparation.sure)),
                   {"a clinician of the unit confirms it in the unit's policy", "another preparation"}};
}

}  // namespace

std::variant<Fitted, Refused> fit_preparation(const Rules& rules, screening::PreparationIndex place, LocalMinute start,
                                              Journey journey)
{
    const Preparation& preparation = rules.protocol.preparations.at(place);
    if (auto refused = not_confirmed(rules, preparation)) {
        return *refused;
    }
    const minutes way = journey_or_usual(rules, journey);
    const StartBounds bounds = start_bounds(rules, preparation, way);
    if (bounds.at_least > bounds.at_most) {
        return refused_by(preparation, bounds);
    }
    const Moment start_moment = screening::moment_of(rules.zone, start);
    const auto& engine = rules.protocol.engine;
    const minutes preferred = screening::minutes_of(engine.preferred_second_start, rules.protocol, rules.policy);
    const minutes second =
        on_the_quarter(std::clamp(preferred, bounds.at_least, bounds.at_most), bounds, start_moment, rules.zone);
    const minutes first = first_start(rules, preparation, start, start_moment, second);

    Fitted fitted;
    fitted.preparation = place;
    fitted.journey_assumed = !journey;
    fitted.first_portion = start_moment - first;
    fitted.second_portion = start_moment - second;
    fitted.second_ends = *fitted.second_portion + screening::length_of(preparation.second);
    const LocalMinute last_meal = LocalMinute{screening::date_of(start) - date::days{1}} + preparation.last_solid;
    fitted.last_solid = std::min(screening::moment_of(rules.zone, last_meal), *fitted.first_portion);
    fitted.steps.push_back({fitted.last_solid, preparation.last_solid_words.empty() ? "Last solid food" : preparation.last_solid_words, false});
    add_portion(fitted.steps, preparation.first, *fitted.first_portion);
    add_portion(fitted.steps, preparation.second, *fitted.second_portion);
    add_ends(rules, fitted, start_moment, way);
    in_order(fitted.steps);
    fitted.notes = preparation.notes;
    if (preparation.no_medicine_before.count() > 0) {
        fitted.notes.push_back(fmt::format("No medicine by mouth from {} minutes before a portion until it is finished.",
                                           preparation.no_medicine_before.count()));
    }
    return fitted;
}

std::variant<Fitted, Refused> fit_fasting(const Rules& rules, LocalMinute start, Journey journey)
{
    const auto light = screening::find_parameter(rules.protocol, "light_meal_hours");
    const auto fatty = screening::find_parameter(rules.protocol, "fatty_meal_hours");
    if (!light || !fatty) {
        return Refused{"the protocol names no gap for meals, so no fasting plan can be made", {"ask the endoscopist"}};
    }
    const Moment start_moment = screening::moment_of(rules.zone, start);
    Fitted fitted;
    fitted.journey_assumed = !journey;
    fitted.last_solid = start_moment - screening::minutes_of(*light, rules.protocol, rules.policy);
    fitted.steps.push_back({start_moment - screening::minutes_of(*fatty, rules.protocol, rules.policy),
                            "Last meal with fat, meat or anything fried", false});
    fitted.steps.push_back({fitted.last_solid, "Last light meal, such as toast. After this only clear liquids", false});
    add_ends(rules, fitted, start_moment, journey_or_usual(rules, journey));
    in_order(fitted.steps);
    return fitted;
}

}  // namespace foreday::checklists
