#include "data/book/codec_text.h"

#include <fmt/format.h>

#include <charconv>
#include <limits>
#include <stdexcept>
#include <utility>

namespace foreday::book {
namespace {

using screening::Exact;
using screening::LocalMinute;

constexpr int most_places = 9;  // after the point, as Exact::parse() takes them

/// Digits before and after the point. Empty: it takes more places or digits than are taken.
std::optional<std::string> decimal_of(const Exact& number)
{
    Exact scaled = number < Exact{0} ? Exact{0} - number : number;
    const Exact largest{std::numeric_limits<std::int64_t>::max()};
    for (int places = 0; places <= most_places && scaled <= largest; ++places) {
        if (scaled.is_whole()) {
            const std::string digits = fmt::format("{:0{}}", scaled.floor(), places + 1);
            const std::string_view before_point{digits.data(),
                                                digits.size() - static_cast<std::size_t>(places)};
            const std::string_view after_point = std::string_view{digits}.substr(before_point.size());
            return fmt::format("{}{}{}{}", number < Exact{0} ? "-" : "", before_point, places > 0 ? "." : "",
                               after_point);
        }
        scaled = scaled * Exact{10};
    }
    return std::nullopt;
}

std::int64_t next_term(std::int64_t whole, std::int64_t last, std::int64_t before)
{
    std::int64_t product = 0;
    std::int64_t sum = 0;
    if (__builtin_mul_overflow(whole, last, &product) || __builtin_add_overflow(product, before, &sum)) {
        throw std::overflow_error("a fraction has grown beyond 64 bits");
    }
    return sum;
}

/// By its continued fraction, which ends at numerator and denominator in lowest terms.
std::string fraction_of(const Exact& number)
{
    std::pair<std::int64_t, std::int64_t> numerator{1, 0};
    std::pair<std::int64_t, std::int64_t> denominator{0, 1};
    Exact rest = number;
    while (true) {
        const std::int64_t whole = rest.floor();
        numerator = {next_term(whole, numerator.first, numerator.second), numerator.first};
        denominator = {next_term(whole, denominator.first, denominator.second), denominator.first};
        if (rest.is_whole()) {
            return fmt::format("{}/{}", numerator.first, denominator.first);
        }
        rest = Exact{1} / (rest - Exact{whole});
    }
}

std::optional<std::int64_t> find_whole(std::string_view text)
{
    std::int64_t value = 0;
    const auto end = text.data() + text.size();
    const auto read = std::from_chars(text.data(), end, value);
    return read.ec == std::errc{} && read.ptr == end ? std::optional{value} : std::nullopt;
}

/// A text that does not read back as its value is none.
template <class Value, class Found>
std::string unless_lost(std::string text, const Value& value, const Found& found)
{
    if (!found || *found != value) {
        throw std::invalid_argument(fmt::format("{} cannot be kept", text));
    }
    return text;
}

template <class T>
std::optional<T> found_in(const screening::Result<T>& result)
{
    return result ? std::optional<T>{*result} : std::nullopt;
}

}  // namespace

std::string text_of(const Exact& number)
{
    try {
        if (auto decimal = decimal_of(number); decimal && find_exact(*decimal) == number) {
            return *std::move(decimal);
        }
        return fraction_of(number);
    } catch (const std::overflow_error&) {
        throw std::invalid_argument("a number whose fraction does not fit 64 bits cannot be kept");
    }
}

std::optional<Exact> find_exact(std::string_view text)
{
    const auto bar = text.find('/');
    if (bar == std::string_view::npos) {
        return found_in(Exact::parse(text));
    }
    const auto numerator = find_whole(text.substr(0, bar));
    const auto denominator = find_whole(text.substr(bar + 1));
    if (!numerator || !denominator || *denominator <= 0) {
        return std::nullopt;
    }
    return Exact::ratio(*numerator, *denominator);
}

std::string text_of(screening::Date day)
{
    const std::string text = screening::iso_date(day);
    return unless_lost(text, day, find_date(text));
}

std::optional<screening::Date> find_date(std::string_view text)
{
    return found_in(screening::parse_date(text));
}

std::string text_of(screening::TimeOfDay time)
{
    const std::string text = screening::iso_time_of_day(time);
    return unless_lost(text, time, find_time_of_day(text));
}

std::optional<screening::TimeOfDay> find_time_of_day(std::string_view text)
{
    return found_in(screening::parse_time_of_day(text));
}

std::string text_of(LocalMinute local)
{
    const std::string text = screening::iso_local(local);
    return unless_lost(text, local, find_local(text));
}

std::optional<LocalMinute> find_local(std::string_view text)
{
    const auto written = screening::parse_written_time(text);
    return written && !written->offset ? std::optional{written->local} : std::nullopt;
}

std::string text_of(const WallTime& time)
{
    const auto size = time.offset < std::chrono::minutes{0} ? -time.offset : time.offset;
    const std::string text = fmt::format("{}{}{}", screening::iso_local(time.local),
                                         time.offset == size ? '+' : '-', screening::iso_time_of_day(size));
    return unless_lost(text, time, find_wall_time(text));
}

std::optional<WallTime> find_wall_time(std::string_view text)
{
    const auto written = screening::parse_written_time(text);
    return written && written->offset ? std::optional{WallTime{written->local, *written->offset}}
                                      : std::nullopt;
}

WallTime wall_time(const screening::Zone& zone, screening::Moment moment)
{
    return {screening::local_of(zone, moment),
            std::chrono::floor<std::chrono::minutes>(screening::offset_at(zone, moment))};
}

WallTime wall_time(const screening::Zone& zone, LocalMinute local)
{
    const auto moment = screening::moment_of(zone, local);
    return {local,
            std::chrono::floor<std::chrono::minutes>(local.time_since_epoch() - moment.time_since_epoch())};
}

screening::Moment moment_of(const WallTime& time)
{
    return screening::Moment{time.local.time_since_epoch() - time.offset};
}

}  // namespace foreday::book
