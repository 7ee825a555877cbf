#include "checklists/timetable.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/confirmed_figures.h"
#include "checklists/start_bounds.h"
#include "checklists/words.h"

namespace foreday::checklists {
namespace {

using screening::LocalMinute;
using screening::Moment;
using screening::Portion;
using screening::Preparation;
using screening::Rules;
using std::chrono::minutes;

minutes parameter(const Rules& rules, screening::ParameterIndex place)
{
    return screening::minutes_of(place, rules.protocol, rules.policy);
}

std::string with_count(std::string text, int count, int of)
{
    const std::pair<std::string_view, int> marks[] = {{"{n}", count}, {"{of}", of}};
    for (const auto& [mark, number] : marks) {
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

/// The evening hour of the day before, in minutes before the procedure.
minutes evening_before(const Rules& rules, Moment start)
{
    const screening::Date day = screening::date_of(screening::local_of(rules.zone, start));
    const LocalMinute evening =
        LocalMinute{day - date::days{1}} + parameter(rules, rules.protocol.engine.evening_start);
    return std::chrono::duration_cast<minutes>(start - screening::moment_of(rules.zone, evening));
}

/// Where the first portion starts, in minutes before the procedure. Empty: it takes longer than the label
/// gives from one start to the next.
std::optional<minutes> first_start(const Rules& rules, const Preparation& preparation, Moment start,
                                   minutes second)
{
    const minutes evening = evening_before(rules, start);
    const minutes length = screening::length_of(preparation.first);
    if (!preparation.between_starts) {
        return std::max(evening, second + length);
    }
    const minutes least = std::max(preparation.between_starts->lowest, length);
    if (least > preparation.between_starts->highest) {
        return std::nullopt;
    }
    return std::clamp(evening, second + least, second + preparation.between_starts->highest);
}

minutes journey_or_usual(const Rules& rules, Journey journey)
{
    return journey.value_or(parameter(rules, rules.protocol.engine.usual_journey));
}

/// A preparation is confirmed as a whole: portions, windows and diet.
std::vector<std::string> not_confirmed_of(const Rules& rules, const Preparation& preparation, Journey journey)
{
    screening::HowSure sure = std::max(preparation.sure, preparation.diet_sure);
    for (const screening::StartWindow& window : preparation.windows) {
        sure = std::max(sure, window.sure);
    }
    const auto& engine = rules.protocol.engine;
    std::vector<std::string> names;
    if (!screening::may_give_a_date(screening::rank_in(rules.policy, preparation.id, sure))) {
        names.push_back(fmt::format("the preparation itself ({})", screening::name_of(sure)));
    }
    const auto numbers =
        not_confirmed(rules, {engine.clear_liquid_hours, engine.preferred_second_start, engine.evening_start,
                              engine.bathroom_margin, engine.arrive_before});
    names.insert(names.end(), numbers.begin(), numbers.end());
    if (!journey) {
        const auto usual = not_confirmed(rules, {engine.usual_journey});
        names.insert(names.end(), usual.begin(), usual.end());
    }
    return names;
}

Refused refused_until_confirmed(std::string_view what, const std::vector<std::string>& names)
{
    Refused refused;
    refused.why = Refused::Why::not_confirmed;
    refused.reason =
        fmt::format("{}: no times before the unit has confirmed {}", what, fmt::join(names, ", "));
    refused.choices = {"a clinician of the unit confirms it in the unit's policy",
                       "the endoscopist states the plan"};
    return refused;
}

void add_ends(const Rules& rules, Fitted& fitted, Moment start, minutes journey)
{
    const auto& engine = rules.protocol.engine;
    fitted.last_clear_liquid = start - parameter(rules, engine.clear_liquid_hours);
    fitted.steps.push_back(
        {fitted.last_clear_liquid, "Last clear liquid. Nothing by mouth after this time", false});
    const auto open = not_confirmed(rules, {engine.arrive_before});
    if (!open.empty()) {
        fitted.notes.push_back(
            fmt::format("No time for leaving home before the unit has confirmed {}.", open.front()));
        return;
    }
    fitted.leave_home = start - parameter(rules, engine.arrive_before) - journey;
    fitted.steps.push_back({*fitted.leave_home, "Leave home", false});
}

void add_journey(const Rules& rules, Fitted& fitted, Journey journey)
{
    if (!journey) {
        fitted.journey_assumed = true;
        fitted.open_on = {
            {rules.protocol.facts.at(rules.protocol.journey_fact).id, screening::OpenWhy::not_asked}};
    }
}

/// A night in which the clocks change makes wall-clock times easy to misread.
void add_clock_change(const Rules& rules, Fitted& fitted, Moment start)
{
    const screening::Zone& zone = rules.zone;
    for (const screening::Transition& change : zone.transitions) {
        if (change.from <= fitted.steps.front().at || change.from > start) {
            continue;
        }
        const auto before = screening::offset_at(zone, change.from - std::chrono::seconds{1});
        if (change.offset == before) {
            continue;
        }
        fitted.notes.push_back(
            fmt::format("The clocks are put {} on {}. Times are those of the clock after that; one "
                        "that comes twice has its offset beside it.",
                        change.offset < before ? "back" : "forward",
                        day_in_words(screening::date_of(screening::local_of(zone, change.from)))));
    }
}

std::vector<Span> around_portions(const Fitted& fitted, const Preparation& preparation, minutes before,
                                  minutes after)
{
    const Moment first = fitted.first_portion.value();
    const Moment second = fitted.second_portion.value();
    return {{first - before, first + screening::length_of(preparation.first) + after},
            {second - before, second + screening::length_of(preparation.second) + after}};
}

void add_medicine_times(const Rules& rules, const Preparation& preparation, Fitted& fitted)
{
    if (preparation.no_medicine_before.count() > 0) {
        fitted.no_medicine = around_portions(fitted, preparation, preparation.no_medicine_before, minutes{0});
        std::vector<std::string> spans;
        spans.reserve(fitted.no_medicine.size());
        for (const Span& span : fitted.no_medicine) {
            spans.push_back(fmt::format("from {} until {}", clock_words(rules.zone, span.from),
                                        clock_words(rules.zone, span.until)));
        }
        fitted.notes.push_back(fmt::format("No medicine by mouth {}.", fmt::join(spans, " and ")));
    }
    if (!preparation.spaced_classes.empty()) {
        fitted.spaced =
            around_portions(fitted, preparation, preparation.spaced_before, preparation.spaced_after);
    }
}

void add_sources(const Rules& rules, const Preparation& preparation, Fitted& fitted)
{
    const auto add = [&](const std::vector<screening::SourceUse>& sources) {
        for (const screening::SourceUse& use : sources) {
            if (std::ranges::find(fitted.sources, use) == fitted.sources.end()) {
                fitted.sources.push_back(use);
            }
        }
    };
    for (const screening::StartWindow& window : preparation.windows) {
        add(window.sources);
    }
    add(preparation.sources);
    add(preparation.between_sources);
    add(preparation.diet_sources);
    add(preparation.no_medicine_sources);
    add(rules.protocol.parameters.at(rules.protocol.engine.clear_liquid_hours).sources);
}

/// @param first, second  minutes before the start at which the portions begin
Fitted lay_out(const Rules& rules, const Preparation& preparation, Moment start, minutes first,
               minutes second)
{
    Fitted fitted;
    fitted.first_portion = start - first;
    fitted.second_portion = start - second;
    fitted.second_ends = *fitted.second_portion + screening::length_of(preparation.second);
    const screening::Date eve = screening::date_of(screening::local_of(rules.zone, start)) - date::days{1};
    const Moment last_meal = screening::moment_of(rules.zone, LocalMinute{eve} + preparation.last_solid);
    fitted.last_solid = std::min(last_meal, *fitted.first_portion);
    const std::string& diet = preparation.last_solid_words;
    fitted.steps.push_back({fitted.last_solid, diet.empty() ? "Last solid food" : diet, false});
    add_portion(fitted.steps, preparation.first, *fitted.first_portion);
    add_portion(fitted.steps, preparation.second, *fitted.second_portion);
    fitted.notes = preparation.notes;
    return fitted;
}

}  // namespace

std::variant<Fitted, Refused> fit_preparation(const Rules& rules, screening::PreparationIndex place,
                                              Moment start, Journey journey)
{
    const Preparation& preparation = rules.protocol.preparations.at(place);
    if (const auto names = not_confirmed_of(rules, preparation, journey); !names.empty()) {
        return refused_until_confirmed(preparation.generic, names);
    }
    if (auto refused = windows_apart(preparation)) {
        return *std::move(refused);
    }
    const minutes way = journey_or_usual(rules, journey);
    const StartBounds bounds = start_bounds(rules, preparation, way);
    if (bounds.at_least > bounds.at_most) {
        return refused_by(preparation, bounds);
    }
    const minutes preferred = parameter(rules, rules.protocol.engine.preferred_second_start);
    const minutes second =
        on_the_quarter(std::clamp(preferred, bounds.at_least, bounds.at_most), bounds, start, rules.zone);
    const auto first = first_start(rules, preparation, start, second);
    if (!first) {
        return Refused{
            Refused::Why::no_common_time,
            fmt::format("{}: its first portion takes longer than the {} from one start to the next",
                        preparation.generic, length_words(preparation.between_starts.value().highest)),
            {"another preparation"},
            preparation.between_sources};
    }
    Fitted fitted = lay_out(rules, preparation, start, *first, second);
    fitted.preparation = place;
    add_journey(rules, fitted, journey);
    add_ends(rules, fitted, start, way);
    std::ranges::stable_sort(fitted.steps, {}, &Step::at);
    add_medicine_times(rules, preparation, fitted);
    add_clock_change(rules, fitted, start);
    add_sources(rules, preparation, fitted);
    return fitted;
}

std::variant<Fitted, Refused> fit_fasting(const Rules& rules, Moment start, Journey journey)
{
    const auto light = screening::find_parameter(rules.protocol, "light_meal_hours");
    const auto fatty = screening::find_parameter(rules.protocol, "fatty_meal_hours");
    if (!light || !fatty) {
        return Refused{Refused::Why::no_plan,
                       "the protocol names no gap for meals, so no fasting plan can be made",
                       {"the endoscopist states the plan"},
                       {}};
    }
    const auto& engine = rules.protocol.engine;
    if (const auto names = not_confirmed(rules, {*light, *fatty, engine.clear_liquid_hours});
        !names.empty()) {
        return refused_until_confirmed("fasting", names);
    }
    Fitted fitted;
    add_journey(rules, fitted, journey);
    fitted.last_solid = start - parameter(rules, *light);
    fitted.steps.push_back(
        {start - parameter(rules, *fatty), "Last meal with fat, meat or anything fried", false});
    fitted.steps.push_back(
        {fitted.last_solid, "Last light meal, such as toast. After this only clear liquids", false});
    add_ends(rules, fitted, start, journey_or_usual(rules, journey));
    std::ranges::stable_sort(fitted.steps, {}, &Step::at);
    add_clock_change(rules, fitted, start);
    for (const screening::ParameterIndex place : {*light, *fatty, engine.clear_liquid_hours}) {
        const auto& sources = rules.protocol.parameters[place].sources;
        fitted.sources.insert(fitted.sources.end(), sources.begin(), sources.end());
    }
    return fitted;
}

std::string clock_words(const screening::Zone& zone, Moment moment)
{
    const LocalMinute local = screening::local_of(zone, moment);
    std::string text = fmt::format("{} {}", screening::weekday_name(screening::date_of(local)),
                                   screening::iso_time_of_day(screening::time_of_day(local)));
    if (screening::moments_of(zone, local).count == screening::Moments::Count::two) {
        constexpr std::size_t after_the_minute = 16;  // "2027-04-12T09:00"
        text += fmt::format(" (UTC{})", screening::iso_with_offset(zone, moment).substr(after_the_minute));
    }
    return text;
}

}  // namespace foreday::checklists
