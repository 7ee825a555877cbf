#include "gui/console/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace foreday::console {
namespace {

using screening::DoseCondition;
using screening::HoldAction;
using screening::HoldPlan;

constexpr std::array<std::string_view, 12> month_names{"January",   "February", "March",    "April",
                                                       "May",       "June",     "July",     "August",
                                                       "September", "October",  "November", "December"};

std::string action_words(const HoldPlan& plan)
{
    const std::string number = plan.number ? plan.number->text() : "";
    const auto days = [&] { return number + (number == "1" ? " day" : " days"); };
    switch (plan.action) {
        case HoldAction::take_as_usual:
            return "take as usual";
        case HoldAction::sip_on_the_morning:
            return "take as usual, on the morning with a sip of water";
        case HoldAction::omit_on_the_day:
            return "leave out on the day, until after the procedure";
        case HoldAction::omit_days:
            return number == "0"
                       ? "leave out on the day, until after the procedure"
                       : fmt::format("no dose on the {} before, nor before the procedure on the day", days());
        case HoldAction::omit_doses_due_within:
            return fmt::format("leave out doses due within {} before", days());
        case HoldAction::last_dose_at_least_hours:
            return fmt::format("last dose at least {} hours before", number);
        case HoldAction::dose_to_be_stated:
            return "a clinician states the dose";
        case HoldAction::ask_first:
            return "ask first: no date until a clinician has decided";
    }
    return "";
}

}  // namespace

std::string day_words(screening::Date day)
{
    const date::year_month_day calendar{day};
    return fmt::format("{} {} {} {}", screening::weekday_name(day), static_cast<unsigned>(calendar.day()),
                       month_names.at(static_cast<unsigned>(calendar.month()) - 1),
                       static_cast<int>(calendar.year()));
}

std::string time_words(screening::TimeOfDay time)
{
    constexpr std::chrono::hours noon{12};
    if (time == noon) {
        return "12 noon";
    }
    return time.count() == 0 ? "12 midnight" : screening::iso_time_of_day(time);
}

std::string moment_words(const screening::Zone& zone, screening::Moment moment)
{
    const screening::LocalMinute local = screening::local_of(zone, moment);
    const std::string iso = screening::iso_with_offset(zone, moment);
    constexpr std::size_t after_the_minute = 16;  // "2027-04-12T09:00"
    return fmt::format("{} at {} (UTC{})", day_words(screening::date_of(local)),
                       time_words(screening::time_of_day(local)), iso.substr(after_the_minute));
}

std::string dose_words(const screening::Dose& dose)
{
    return dose.time ? fmt::format("{} at {}", day_words(dose.day), time_words(*dose.time))
                     : day_words(dose.day);
}

std::string plan_words(const HoldPlan& plan)
{
    std::string text = action_words(plan);
    for (const DoseCondition condition : plan.conditions) {
        text += condition == DoseCondition::with_its_meal ? "; each dose only with its meal"
                                                          : "; keep it apart from the preparation";
    }
    const bool omits =
        plan.action != HoldAction::take_as_usual && plan.action != HoldAction::sip_on_the_morning;
    if (plan.last_dose && omits) {
        text += ". Last dose " + dose_words(*plan.last_dose);
    } else if (plan.none_from && omits) {
        text += ". None from " + day_words(*plan.none_from) + " on";
    }
    if (plan.next_dose) {
        text += ". Next dose due " + dose_words(*plan.next_dose);
    }
    return text + ".";
}

std::string source_words(const screening::Protocol& protocol, const screening::SourceUse& use)
{
    const auto found = std::ranges::find(protocol.sources, use.source, &screening::Source::id);
    if (found == protocol.sources.end()) {
        return use.source;
    }
    std::string text = fmt::format("{} {}", found->by, found->year);
    if (!use.locator.empty()) {
        text += ", " + use.locator;
    }
    return text;
}

std::string caution()
{
    return "This supports trained staff. The clinician decides, and local policy comes first. Nothing marked "
           "is "
           "stopped before a named clinician has agreed.";
}

std::string wrapped(const std::string& text, std::size_t indent, std::size_t width)
{
    const std::string margin(indent, ' ');
    std::string lines;
    std::string line = margin;
    std::size_t start = 0;
    while (start <= text.size()) {
        const std::size_t end = std::min(text.find(' ', start), text.size());
        const std::string word = text.substr(start, end - start);
        if (line.size() > indent && line.size() + 1 + word.size() > width) {
            lines += line + "\n";
            line = margin;
        }
        line += (line.size() > indent ? " " : "") + word;
        start = end + 1;
    }
    return lines + line + "\n";
}

}  // namespace foreday::console
