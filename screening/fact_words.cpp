#include "screening/fact_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace foreday::screening {
namespace {

std::string with_blanks(std::string id)
{
    std::ranges::replace(id, '_', ' ');
    return id;
}

std::string span(const std::string& low, const std::string& high)
{
    return low == high ? low : low + " to " + high;
}

std::string_view unit_in_words(Unit unit)
{
    const bool concentration = unit == Unit::mg_per_dl_creatinine || unit == Unit::umol_per_l_creatinine ||
                               unit == Unit::mg_per_dl_glucose || unit == Unit::mmol_per_l_ketones;
    const std::string_view text = unit_text(unit);
    return concentration ? text.substr(0, text.find(' ')) : text;
}

std::string number_in_words(const NumberInterval& number, Unit unit)
{
    const std::string text = span(number.lowest.text(), number.highest.text());
    const std::string_view of = unit_in_words(unit);
    return of.empty() ? text : fmt::format("{} {}", text, of);
}

std::string time_in_words(LocalMinute time)
{
    return fmt::format("{}, {}", weekday_and_date(date_of(time)), iso_time_of_day(time_of_day(time)));
}

}  // namespace

std::string label_of(const FactDefinition& fact)
{
    return fact.label.empty() ? with_blanks(fact.id) : fact.label;
}

std::string value_in_words(const FactDefinition& fact, const Value& value)
{
    if (const auto* yes = std::get_if<bool>(&value)) {
        return *yes ? "yes" : "no";
    }
    if (const auto* choice = std::get_if<Choice>(&value)) {
        return choice->place < fact.choices.size() ? with_blanks(fact.choices[choice->place]) : "";
    }
    if (const auto* number = std::get_if<NumberInterval>(&value)) {
        return number_in_words(*number, fact.unit);
    }
    if (const auto* dates = std::get_if<DateInterval>(&value)) {
        return span(date_in_words(dates->lowest), date_in_words(dates->highest));
    }
    if (const auto* times = std::get_if<TimeInterval>(&value)) {
        return span(time_in_words(times->lowest), time_in_words(times->highest));
    }
    return std::get<std::string>(value);
}

std::string date_in_words(Date day)
{
    constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                      "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
    const date::year_month_day calendar{day};
    return fmt::format("{} {} {}", static_cast<unsigned>(calendar.day()),
                       months.at(static_cast<unsigned>(calendar.month()) - 1),
                       static_cast<int>(calendar.year()));
}

std::string weekday_and_date(Date day)
{
    constexpr std::size_t letters = 3;
    return fmt::format("{} {}", weekday_name(day).substr(0, letters), date_in_words(day));
}

}  // namespace foreday::screening
