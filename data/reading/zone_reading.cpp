#include "data/reading/zone_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <iterator>
#include <optional>
#include <string>

#include "data/reading/hashing.h"
#include "data/reading/zone_file.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::add_months;
using screening::Date;
using screening::Fault;
using screening::iso_date;
using screening::Moment;
using screening::Transition;
using screening::Zone;

constexpr Date first_day{date::year{1900} / 1 / 1};
constexpr Date last_day{date::year{2037} / 12 / 31};
constexpr int months_around = 24;

/// Letters, digits and "+-_" between single slashes, beginning with a letter: no way out of the directory.
bool well_formed(std::string_view name)
{
    const auto letter = [](char c) { return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z'); };
    const auto allowed = [&](char c) {
        return letter(c) || (c >= '0' && c <= '9') || c == '+' || c == '-' || c == '_' || c == '/';
    };
    return !name.empty() && letter(name.front()) && std::ranges::all_of(name, allowed) &&
           name.find("//") == std::string_view::npos && !name.ends_with('/');
}

/// Files beside the zones that look like zones: copies under other names, and what the machine or the
/// makers of the data set as they please.
bool is_no_place(std::string_view name)
{
    constexpr std::array<std::string_view, 3> files{"localtime", "posixrules", "Factory"};
    return std::ranges::find(files, name) != files.end() || name.starts_with("posix/") ||
           name.starts_with("right/");
}

std::optional<std::string> contents_of(const std::filesystem::path& path)
{
    constexpr std::uintmax_t largest = 1U << 20U;  // a zone file has a few thousand bytes
    std::error_code none;
    if (!std::filesystem::is_regular_file(path, none) || std::filesystem::file_size(path, none) > largest) {
        return std::nullopt;
    }
    std::ifstream file(path, std::ios::binary);
    std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    return file.bad() ? std::nullopt : std::optional(std::move(bytes));
}

std::string first_line_of(const std::filesystem::path& path)
{
    std::ifstream file(path);
    std::string line;
    std::getline(file, line);
    return line;
}

/// The version as the files name it. The text form of the data begins with it; machines that do not keep
/// that form have a file for it, or nothing.
std::string version_of(const std::filesystem::path& directory)
{
    constexpr std::string_view before = "# version ";
    const std::string line = first_line_of(directory / "tzdata.zi");
    if (line.starts_with(before)) {
        return line.substr(before.size());
    }
    const std::string version = first_line_of(directory / "+VERSION");
    return version.empty() ? "unknown" : version;
}

std::optional<Fault> fault_of_days(Date from, Date to)
{
    const auto bounds = fmt::format("days from {} to {}", iso_date(first_day), iso_date(last_day));
    if (to > last_day) {
        return Fault{fmt::format("{} is too late to plan for: the zone data applies no daylight-saving rule "
                                 "from 2038 on",
                                 iso_date(to)),
                     bounds};
    }
    if (from < first_day) {
        return Fault{fmt::format("{} is too early to plan for", iso_date(from)), bounds};
    }
    if (from > to) {
        return Fault{fmt::format("the days to plan for end on {}, before they begin on {}", iso_date(to),
                                 iso_date(from)),
                     "a first day that is not after the last"};
    }
    return std::nullopt;
}

/// Midnight UTC; which midnight does not matter two years away from the case.
Moment start_of(Date day)
{
    return Moment{day.time_since_epoch()};
}

/// The changes of clocks end before the days do although a rule with summer time goes on: the data was
/// compiled to rely on the rule.
bool ends_too_early(const ZoneFile& file, Date to)
{
    const bool rule_has_summer_time = file.rule_after.find(',') != std::string::npos;
    const Date end = std::min(add_months(to, months_around), last_day);
    const Date year_begins{date::year_month_day{end}.year() / 1 / 1};
    return rule_has_summer_time &&
           (file.transitions.empty() || file.transitions.back().from < start_of(year_begins));
}

std::vector<Transition> around(const ZoneFile& file, Date from, Date to)
{
    const Moment begin = start_of(add_months(from, -months_around));
    const Moment end = start_of(add_months(to, months_around));
    std::vector<Transition> kept{{begin, file.first_offset}};
    for (const Transition& transition : file.transitions) {
        if (transition.from <= begin) {
            kept.front().offset = transition.offset;
        } else if (transition.from < end && transition.offset != kept.back().offset) {
            kept.push_back(transition);
        }
    }
    return kept;
}

}  // namespace

screening::Result<Zone> read_zone_from(const std::filesystem::path& directory, std::string_view iana_name,
                                       Date around_from, Date around_to)
{
    constexpr std::string_view name_right = "a zone by its IANA name, such as America/New_York";
    const auto not_a_zone = [&](std::string_view why) {
        return tl::unexpected(
            Fault{fmt::format("{} {}", screening::as_written(iana_name), why), std::string(name_right)});
    };
    if (!well_formed(iana_name)) {
        return not_a_zone("is not the name of a zone");
    }
    if (is_no_place(iana_name)) {
        return not_a_zone("does not name a place");
    }
    if (auto fault = fault_of_days(around_from, around_to)) {
        return tl::unexpected(*std::move(fault));
    }
    const auto bytes = contents_of(directory / std::string(iana_name));
    if (!bytes) {
        return not_a_zone(fmt::format("is not in the zone data under {}", directory.string()));
    }
    const auto file = parse_zone_file(*bytes);
    if (!file) {
        return tl::unexpected(
            Fault{fmt::format("the zone data of {} cannot be read: {}", iana_name, file.error().what),
                  file.error().would_be_right});
    }
    if (ends_too_early(*file, around_to)) {
        return tl::unexpected(Fault{
            fmt::format("the zone data of {} lists no change of clocks up to the end of the days to plan "
                        "for, and its rule for the time after is not applied",
                        iana_name),
            "zone data with the changes listed up to 2037 (package tzdata of Debian)"});
    }
    return Zone{std::string(iana_name), version_of(directory), sha256_hex(*bytes),
                around(*file, around_from, around_to)};
}

screening::Result<Zone> read_zone(std::string_view iana_name, Date around_from, Date around_to)
{
    return read_zone_from("/usr/share/zoneinfo", iana_name, around_from, around_to);
}

}  // namespace foreday::data
