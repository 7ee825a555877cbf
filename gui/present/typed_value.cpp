#include "gui/present/typed_value.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <charconv>
#include <string_view>

#include "checklists/words.h"
#include "data/reading/folding.h"
#include "screening/as_written.h"
#include "screening/quantity.h"

namespace foreday::present {
namespace {

using book::StatedValue;
using screening::as_written;
using screening::Date;
using screening::DateInterval;
using screening::FactDefinition;
using screening::FactType;
using screening::LocalMinute;
using screening::Result;

tl::unexpected<screening::Fault> wrong(std::string what, std::string would_be_right)
{
    return tl::unexpected(screening::Fault{std::move(what), std::move(would_be_right)});
}

std::string trimmed(std::string_view text)
{
    const auto blank = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
    while (!text.empty() && blank(text.front())) {
        text.remove_prefix(1);
    }
    while (!text.empty() && blank(text.back())) {
        text.remove_suffix(1);
    }
    return std::string(text);
}

std::vector<std::string> words_of(std::string_view text)
{
    std::vector<std::string> words;
    std::string word;
    for (const char c : text) {
        const bool between = c == ' ' || c == ',' || c == '.' || c == '/' || c == '\t';
        if (!between) {
            word += c;
        } else if (!word.empty()) {
            words.push_back(std::move(word));
            word.clear();
        }
    }
    if (!word.empty()) {
        words.push_back(std::move(word));
    }
    return words;
}

std::optional<int> whole(std::string_view text)
{
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size() ? std::optional(value) : std::nullopt;
}

/// The month a word begins, with at least three letters: "Nov", "november".
std::optional<int> month_of(const std::string& word)
{
    static constexpr std::array<std::string_view, 12> months{"january",   "february", "march",    "april",
                                                             "may",       "june",     "july",     "august",
                                                             "september", "october",  "november", "december"};
    constexpr std::size_t least_letters = 3;
    const std::string folded = data::fold(word);
    if (folded.size() < least_letters) {
        return std::nullopt;
    }
    for (std::size_t month = 0; month < months.size(); ++month) {
        if (months[month].starts_with(folded)) {
            return static_cast<int>(month) + 1;
        }
    }
    return std::nullopt;
}

std::optional<DateInterval> month_interval(int year, int month)
{
    const auto first = screening::parse_date(fmt::format("{:04}-{:02}-01", year, month));
    if (!first) {
        return std::nullopt;
    }
    return DateInterval{*first, screening::add_months(*first, 1) - date::days{1}};
}

std::optional<DateInterval> date_in_words(const std::string& typed)
{
    const auto words = words_of(typed);
    if (words.size() == 2) {
        const auto month = month_of(words[0]);
        const auto year = whole(words[1]);
        return month && year ? month_interval(*year, *month) : std::nullopt;
    }
    constexpr std::size_t day_month_year = 3;
    if (words.size() != day_month_year) {
        return std::nullopt;
    }
    // "3 Nov 2026" and "Nov 3 2026" say the same; three numbers do not say which is the month.
    const bool day_first = whole(words[0]).has_value();
    const auto day = whole(words[day_first ? 0 : 1]);
    const auto month = month_of(words[day_first ? 1 : 0]);
    const auto year = whole(words[2]);
    if (!day || !month || !year) {
        return std::nullopt;
    }
    const auto date = screening::parse_date(fmt::format("{:04}-{:02}-{:02}", *year, *month, *day));
    return date ? std::optional(DateInterval{*date, *date}) : std::nullopt;
}

/// The question says which substance is meant: "0.9 mg/dL" of creatinine needs no further word. The fault
/// says of anything else what was typed.
Result<screening::Quantity> quantity_in(const FactDefinition& fact, const std::string& text)
{
    auto quantity = screening::parse_quantity(text);
    const std::string_view substance = screening::substance_of(fact.unit);
    if (!quantity && !substance.empty()) {
        if (auto of_it = screening::parse_quantity(fmt::format("{} {}", text, substance))) {
            return of_it;
        }
    }
    return quantity;
}

/// The unit a number without one is taken in, as parse_quantity() reads it.
Result<screening::Exact> number_in(const FactDefinition& fact, std::string text)
{
    std::ranges::replace(text, ',', '.');
    const auto plain = screening::Exact::parse(text);
    screening::Exact value;
    if (plain) {
        value = *plain;
    } else {
        const auto quantity = quantity_in(fact, text);
        if (!quantity) {
            const auto units = screening::units_like(fact.unit);
            return wrong(quantity.error().what,
                         units.empty() ? std::string("a number")
                                       : fmt::format("a number in {}", fmt::join(units, " or ")));
        }
        if (!screening::comparable(quantity->unit, fact.unit)) {
            return wrong(fmt::format("{} is not measured in {}", as_written(text),
                                     screening::unit_text(quantity->unit)),
                         fmt::format("a number in {}", screening::unit_text(fact.unit)));
        }
        value = screening::convert(quantity->value, quantity->unit, fact.unit);
    }
    if (value < fact.plausible.lowest || value > fact.plausible.highest) {
        return wrong(fmt::format("{} cannot be right", as_written(text)),
                     trimmed(fmt::format("from {} to {} {}", fact.plausible.lowest.text(),
                                         fact.plausible.highest.text(), screening::unit_text(fact.unit))));
    }
    return value;
}

/// Whether a number was typed without its unit.
bool is_bare(std::string text)
{
    std::ranges::replace(text, ',', '.');
    return screening::Exact::parse(text).has_value();
}

/// The unit as it was typed after a number: " lb" of "150 lb". Empty: none.
std::string unit_after(const std::string& text)
{
    const std::size_t end = text.find_first_not_of("-.,0123456789");
    return end == std::string::npos ? "" : text.substr(end);
}

Result<StatedValue> typed_number(const FactDefinition& fact, const std::string& typed)
{
    constexpr std::string_view to = " to ";
    std::size_t cut = typed.find(to);
    std::size_t cut_length = to.size();
    if (cut == std::string::npos) {
        cut = typed.find('-', 1);
        cut_length = 1;
    }
    std::string low_text = trimmed(typed.substr(0, cut));
    const std::string high_text = cut == std::string::npos ? "" : trimmed(typed.substr(cut + cut_length));
    if (is_bare(low_text)) {
        low_text += unit_after(high_text);  // "150 to 160 lb" are pounds, both times
    }
    const auto low = number_in(fact, low_text);
    if (cut == std::string::npos) {
        if (!low) {
            return tl::unexpected(low.error());
        }
        return book::StatedNumber{*low, *low, std::string(screening::unit_text(fact.unit))};
    }
    const auto high = number_in(fact, high_text);
    if (!low || !high) {
        return tl::unexpected(low ? high.error() : low.error());
    }
    if (*high < *low) {
        return wrong("the range ends before it begins", "the lower number first");
    }
    return book::StatedNumber{*low, *high, std::string(screening::unit_text(fact.unit))};
}

Result<StatedValue> typed_moment(const std::string& typed, Date today)
{
    const std::size_t colon = typed.find(':');
    if (colon == std::string::npos) {
        const auto day = typed_date(typed);
        if (!day) {
            return tl::unexpected(day.error());
        }
        return screening::TimeInterval{LocalMinute{day->lowest},
                                       LocalMinute{day->highest + date::days{1}} - std::chrono::minutes{1}};
    }
    const std::size_t cut = typed.find_last_of(" T", colon);
    const auto time = typed_time(cut == std::string::npos ? typed : typed.substr(cut + 1));
    if (!time) {
        return tl::unexpected(time.error());
    }
    DateInterval day{today, today};
    if (cut != std::string::npos) {
        const auto said = typed_date(typed.substr(0, cut));
        if (!said) {
            return tl::unexpected(said.error());
        }
        day = *said;
    }
    if (!day.exact()) {
        return wrong("a time of day needs one day", "such as 2026-11-03 08:30");
    }
    const LocalMinute minute = LocalMinute{day.lowest} + *time;
    return screening::TimeInterval{minute, minute};
}

Result<StatedValue> typed_choice(const FactDefinition& fact, const std::string& typed)
{
    const std::string folded = data::fold(typed);
    for (const std::string& choice : fact.choices) {
        if (data::fold(choice_in_words(choice)) == folded) {
            return book::NamedChoice{choice};
        }
    }
    std::string all;
    for (const std::string& choice : fact.choices) {
        all += (all.empty() ? "" : ", ") + choice_in_words(choice);
    }
    return wrong(fmt::format("{} is none of the answers", as_written(typed)), "one of: " + all);
}

}  // namespace

Result<DateInterval> typed_date(const std::string& typed)
{
    constexpr std::size_t year_length = 4;
    constexpr std::size_t month_length = 7;
    const std::string text = trimmed(typed);
    if (const auto day = screening::parse_date(text)) {
        return DateInterval{*day, *day};
    }
    if (text.size() == year_length && whole(text)) {
        const auto first = screening::parse_date(text + "-01-01");
        const auto last = screening::parse_date(text + "-12-31");
        if (first && last) {
            return DateInterval{*first, *last};
        }
    }
    if (text.size() == month_length && text[year_length] == '-') {
        const auto year = whole(text.substr(0, year_length));
        const auto month = whole(text.substr(year_length + 1));
        if (const auto interval = year && month ? month_interval(*year, *month) : std::nullopt) {
            return *interval;
        }
    }
    if (const auto interval = date_in_words(text)) {
        return *interval;
    }
    return wrong(fmt::format("{} is no date of the calendar", as_written(text)),
                 "such as 2026-11-03, 3 Nov 2026, Nov 2026 or 2026");
}

Result<screening::TimeOfDay> typed_time(const std::string& typed)
{
    constexpr std::size_t four_digits = 4;
    std::string text = trimmed(typed);
    if (text.size() == four_digits && text.find(':') == std::string::npos) {
        text.insert(2, ":");
    } else if (text.find(':') == 1) {
        text.insert(0, "0");
    }
    const auto time = screening::parse_time_of_day(text);
    if (!time) {
        return wrong(fmt::format("{} is no time of day", as_written(typed)), "from 00:00 to 23:59");
    }
    return *time;
}

Result<StatedValue> typed_value(const FactDefinition& fact, const std::string& typed, Date today)
{
    const std::string text = trimmed(typed);
    if (text.empty()) {
        return wrong("nothing was typed", "an answer, or \"not known\" with the reason");
    }
    switch (fact.type) {
        case FactType::yes_no: {
            const std::string folded = data::fold(text);
            if (folded == "yes" || folded == "no") {
                return folded == "yes";
            }
            return wrong(fmt::format("{} is neither yes nor no", as_written(text)), "yes or no");
        }
        case FactType::number:
            return typed_number(fact, text);
        case FactType::date: {
            const auto day = typed_date(text);
            if (!day) {
                return tl::unexpected(day.error());
            }
            if (day->lowest > today) {
                return wrong(fmt::format("{} is still to come", as_written(text)), "today or an earlier day");
            }
            return *day;
        }
        case FactType::time:
            return typed_moment(text, today);
        case FactType::choice:
            return typed_choice(fact, text);
        case FactType::text:
            break;
    }
    return text;
}

std::string choice_in_words(const std::string& id)
{
    std::string words = id;
    std::ranges::replace(words, '_', ' ');
    return words;
}

std::string value_in_words(const FactDefinition& fact, const screening::Value& value)
{
    struct Words {
        const FactDefinition& fact;
        std::string operator()(bool yes) const { return yes ? "yes" : "no"; }
        std::string operator()(const screening::Choice& choice) const
        {
            return choice_in_words(fact.choices.at(choice.place));
        }
        std::string operator()(const screening::NumberInterval& number) const
        {
            const std::string unit{screening::unit_text(fact.unit)};
            const std::string lowest = number.lowest.text();
            return trimmed(number.exact() ? fmt::format("{} {}", lowest, unit)
                                          : fmt::format("{} to {} {}", lowest, number.highest.text(), unit));
        }
        std::string operator()(const DateInterval& day) const
        {
            return day.exact() ? checklists::day_in_words(day.lowest)
                               : fmt::format("some day from {} to {}", checklists::day_in_words(day.lowest),
                                             checklists::day_in_words(day.highest));
        }
        std::string operator()(const screening::TimeInterval& time) const
        {
            const auto one = [](LocalMinute minute) {
                return fmt::format("{} at {}", checklists::day_in_words(screening::date_of(minute)),
                                   checklists::time_in_words(screening::time_of_day(minute)));
            };
            return time.exact() ? one(time.lowest)
                                : fmt::format("some time from {} to {}", one(time.lowest), one(time.highest));
        }
        std::string operator()(const std::string& words) const { return words; }
    };
    return std::visit(Words{fact}, value);
}

}  // namespace foreday::present
