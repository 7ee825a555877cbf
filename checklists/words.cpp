#include "checklists/words.h"

#include <fmt/format.h>

#include "screening/fact_words.h"

namespace foreday::checklists {
namespace {

using screening::HoldAction;
using screening::HoldPlan;

std::string action_in_words(const HoldPlan& plan)
{
    const std::string number = plan.number ? plan.number->text() : "";
    const std::string days = number + (number == "1" ? " day" : " days");
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
                       : fmt::format("no dose on the {} before, nor before the procedure on the day", days);
        case HoldAction::omit_doses_due_within:
            return fmt::format("leave out doses due within {} before", days);
        case HoldAction::last_dose_at_least_hours:
            return fmt::format("last dose at least {} hours before", number);
        case HoldAction::dose_to_be_stated:
            return "a clinician states the dose";
        case HoldAction::ask_first:
            return "ask first: no date until a clinician has decided";
    }
    return "";
}

std::string joined(const std::vector<std::string>& words, std::string_view last)
{
    std::string text;
    for (std::size_t place = 0; place < words.size(); ++place) {
        if (place > 0) {
            text += place + 1 == words.size() ? last : ", ";
        }
        text += words[place];
    }
    return text;
}

}  // namespace

std::string day_in_words(screening::Date day)
{
    return screening::weekday_and_date(day);
}

std::string time_in_words(screening::TimeOfDay time)
{
    constexpr std::chrono::hours noon{12};
    if (time == noon) {
        return "12 noon";
    }
    return time.count() == 0 ? "12 midnight" : screening::iso_time_of_day(time);
}

std::string clock_in_words(const screening::Zone& zone, screening::Moment moment)
{
    const screening::LocalMinute local = screening::local_of(zone, moment);
    std::string text = time_in_words(screening::time_of_day(local));
    if (screening::moments_of(zone, local).count == screening::Moments::Count::two) {
        constexpr std::size_t after_the_minute = 16;  // "2027-04-12T09:00"
        text += fmt::format(" (UTC{})", screening::iso_with_offset(zone, moment).substr(after_the_minute));
    }
    return text;
}

std::string moment_in_words(const screening::Zone& zone, screening::Moment moment)
{
    return fmt::format("{}, {}", day_in_words(screening::date_of(screening::local_of(zone, moment))),
                       clock_in_words(zone, moment));
}

std::string dose_in_words(const screening::Dose& dose)
{
    return dose.time ? fmt::format("{}, {}", day_in_words(dose.day), time_in_words(*dose.time))
                     : day_in_words(dose.day);
}

std::string plan_in_words(const HoldPlan& plan)
{
    std::string text = action_in_words(plan);
    for (const screening::DoseCondition condition : plan.conditions) {
        text += condition == screening::DoseCondition::with_its_meal ? "; each dose only with its meal"
                                                                     : "; keep it apart from the preparation";
    }
    const bool goes_on =
        plan.action == HoldAction::take_as_usual || plan.action == HoldAction::sip_on_the_morning;
    if (goes_on) {
        return text;
    }
    if (plan.last_dose) {
        text += "; last dose " + dose_in_words(*plan.last_dose);
    } else if (plan.none_from) {
        text += "; none from " + day_in_words(*plan.none_from) + " on";
    }
    if (plan.next_dose) {
        text += "; next dose " + dose_in_words(*plan.next_dose);
    }
    return text;
}

std::string roles_in_words(const std::vector<screening::Role>& roles)
{
    std::vector<std::string> words;
    for (const screening::Role role : roles) {
        words.emplace_back(screening::name_of(role));
    }
    return joined(words, " or ");
}

std::string listed(const std::vector<std::string>& words)
{
    return joined(words, " and ");
}

std::string capitalised(std::string text)
{
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

std::string sentence(std::string text)
{
    constexpr std::string_view ends = ".?!";
    const std::size_t last = text.find_last_not_of('"');
    const bool ended = last != std::string::npos && ends.find(text[last]) != std::string_view::npos;
    return text.empty() || ended ? text : text + '.';
}

std::string caution_for_staff()
{
    return "This supports trained staff. The clinician decides, and local policy comes first. Nothing marked "
           "is stopped before a named clinician has agreed.";
}

}  // namespace foreday::checklists
