#include "data/reading/value_reading.h"

#include <fmt/format.h>

#include <algorithm>

#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::as_written;
using screening::Date;
using screening::DateInterval;
using screening::FactDefinition;
using screening::FactType;
using screening::LocalMinute;
using screening::NumberInterval;
using screening::TimeInterval;
using screening::Value;

std::optional<NumberInterval> read_number(const Located& node, const FactDefinition& fact, CaseDraft& draft)
{
    const std::string what = fmt::format("\"{}\"", fact.id);
    const auto number = read_quantity_in(node, fact.unit, what, draft.faults);
    if (!number) {
        return std::nullopt;
    }
    if (*number < fact.plausible.lowest || *number > fact.plausible.highest) {
        draft.faults.add(node, fmt::format("{} cannot be right for \"{}\"", as_written(node.text), fact.id),
                         fmt::format("from {} to {}", quantity_text(fact.plausible.lowest, fact.unit),
                                     quantity_text(fact.plausible.highest, fact.unit)));
        return std::nullopt;
    }
    return NumberInterval{*number, *number};
}

bool all_digits(std::string_view text)
{
    return !text.empty() && std::ranges::all_of(text, [](char c) { return c >= '0' && c <= '9'; });
}

/// `2026` is that year, `2026-11` that month, `2026-11-03` that day.
std::optional<DateInterval> read_date_interval(const Located& node, CaseDraft& draft)
{
    constexpr std::size_t year_length = 4;
    constexpr std::size_t month_length = 7;
    const std::string& text = node.text;
    const bool scalar = node.kind == Located::Kind::scalar;
    if (scalar && text.size() == year_length && all_digits(text)) {
        const auto first = screening::parse_date(text + "-01-01");
        const auto last = screening::parse_date(text + "-12-31");
        if (first && last) {
            return DateInterval{*first, *last};
        }
    } else if (scalar && text.size() == month_length && text[year_length] == '-' &&
               all_digits(std::string_view{text}.substr(0, year_length))) {
        if (const auto first = screening::parse_date(text + "-01")) {
            return DateInterval{*first, screening::add_months(*first, 1) - date::days{1}};
        }
    }
    const auto day = read_date(node, draft.faults);
    return day ? std::optional{DateInterval{*day, *day}} : std::nullopt;
}

/// A time to the minute, or a day: any time of it.
std::optional<TimeInterval> read_time_interval(const Located& node, CaseDraft& draft)
{
    const bool has_time = node.kind == Located::Kind::scalar && node.text.find('T') != std::string::npos;
    if (has_time) {
        const auto local = read_local(node, draft);
        return local ? std::optional{TimeInterval{*local, *local}} : std::nullopt;
    }
    const auto day = read_date(node, draft.faults);
    if (!day) {
        return std::nullopt;
    }
    return TimeInterval{LocalMinute{*day}, LocalMinute{*day + date::days{1}} - std::chrono::minutes{1}};
}

/// From the beginning of one interval to the end of another, where a range is written; else the one.
template <class Interval, class Read>
std::optional<Value> read_interval(const Located& node, Read read, CaseDraft& draft)
{
    if (node.kind != Located::Kind::map) {
        const auto one = read(node);
        return one ? std::optional<Value>{*one} : std::nullopt;
    }
    const MapReader map(node, "a range", {{"from", "to"}, {}}, draft.faults);
    const auto from = map["from"] == nullptr ? std::nullopt : read(*map["from"]);
    const auto to = map["to"] == nullptr ? std::nullopt : read(*map["to"]);
    if (!from || !to) {
        return std::nullopt;
    }
    if (to->highest < from->lowest) {
        draft.faults.add(node, "the range ends before it begins",
                         "{from: lower or earlier, to: higher or later}");
        return std::nullopt;
    }
    return Interval{from->lowest, to->highest};
}

std::optional<Value> read_choice(const Located& node, const FactDefinition& fact, CaseDraft& draft)
{
    const std::vector<std::string_view> names(fact.choices.begin(), fact.choices.end());
    const auto place = read_place(node, names, draft.faults);
    return place ? std::optional<Value>{screening::Choice{static_cast<std::uint32_t>(*place)}} : std::nullopt;
}

}  // namespace

std::optional<Value> read_value(const Located& node, const FactDefinition& fact, CaseDraft& draft)
{
    switch (fact.type) {
        case FactType::number:
            return read_interval<NumberInterval>(
                node, [&](const Located& end) { return read_number(end, fact, draft); }, draft);
        case FactType::date:
            return read_interval<DateInterval>(
                node, [&](const Located& end) { return read_date_interval(end, draft); }, draft);
        case FactType::time:
            return read_interval<TimeInterval>(
                node, [&](const Located& end) { return read_time_interval(end, draft); }, draft);
        case FactType::choice:
            return read_choice(node, fact, draft);
        case FactType::yes_no: {
            const auto yes = read_yes_no(node, draft.faults);
            return yes ? std::optional<Value>{*yes} : std::nullopt;
        }
        case FactType::text:
            break;
    }
    auto words = read_text(node, draft.faults);
    return words ? std::optional<Value>{std::move(*words)} : std::nullopt;
}

}  // namespace foreday::data
