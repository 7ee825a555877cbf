#include <date/tz.h>
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <iostream>
#include <random>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/zone_reading.h"
#include "tests/support/seed.h"
#include "tests/support/temporary_folder.h"

// The calendar of screening/ and the zones read here against three others: GNU date, Python and date-tz.
// Each of the two programs is started once for a test and answers line by line.
namespace foreday::data {
namespace {

using screening::add_months;
using screening::Date;
using screening::date_of;
using screening::iso_date;
using screening::iso_local;
using screening::LocalMinute;
using screening::Moment;
using screening::Moments;
using screening::Zone;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::seconds;
using tests::any_between;

constexpr std::array<std::string_view, 4> four_zones{"America/New_York", "America/Phoenix", "Europe/London",
                                                     "Australia/Lord_Howe"};
constexpr int random_times = 1'000;

constexpr Date first_day{date::year{2020} / 1 / 1};
constexpr Date last_day{date::year{2037} / 12 / 31};

Zone zone_from_2020_to_2037(std::string_view name)
{
    auto zone = read_zone(name, first_day, last_day);
    if (!zone) {
        throw std::runtime_error(zone.error().what);
    }
    return *std::move(zone);
}

/// What a command prints, line by line; its end must be good.
std::vector<std::string> lines_of(const std::string& command, bool may_fail = false)
{
    std::FILE* output = popen(command.c_str(), "r");
    if (output == nullptr) {
        ADD_FAILURE() << "cannot run: " << command;
        return {};
    }
    std::string text;
    std::array<char, 65536> part{};
    while (const std::size_t size = std::fread(part.data(), 1, part.size(), output)) {
        text.append(part.data(), size);
    }
    const int status = pclose(output);
    EXPECT_TRUE(status == 0 || may_fail) << "ended with status " << status << ": " << command;
    std::vector<std::string> lines;
    for (std::size_t at = 0; at < text.size();) {
        const auto end = std::min(text.find('\n', at), text.size());
        lines.push_back(text.substr(at, end - at));
        at = end + 1;
    }
    return lines;
}

std::string joined(const std::vector<std::string>& lines)
{
    std::string text;
    for (const std::string& line : lines) {
        text += line + '\n';
    }
    return text;
}

bool python_is_here()
{
    return lines_of("python3 -c 'import zoneinfo; print(1)' 2>/dev/null", true) ==
           std::vector<std::string>{"1"};
}

bool gnu_date_is_here()
{
    const auto lines = lines_of("date --version 2>/dev/null", true);
    return !lines.empty() && lines.front().find("GNU coreutils") != std::string::npos;
}

class RunAgainstOthers : public testing::Test {
protected:
    void SetUp() override
    {
        ASSERT_TRUE(python_is_here())
            << "python3 of 3.9 or later is not on the PATH: install package python3";
        ASSERT_TRUE(gnu_date_is_here()) << "date on the PATH is not that of GNU: install package coreutils";
    }

    /// One answer a question, in order.
    [[nodiscard]] std::vector<std::string> ask_python(const std::vector<std::string>& questions) const
    {
        const auto file = file_of("questions", questions);
        auto answers =
            lines_of(fmt::format("python3 '{}/tests/reading/ask_python.py' <'{}'", FOREDAY_SOURCE_DIR, file));
        EXPECT_EQ(answers.size(), questions.size());
        answers.resize(questions.size());
        return answers;
    }

    /// Prints each of the dates in the zone.
    [[nodiscard]] std::vector<std::string> ask_gnu_date(std::string_view zone, std::string_view format,
                                                        const std::vector<std::string>& dates) const
    {
        const auto file = file_of("dates", dates);
        auto answers = lines_of(fmt::format("LC_ALL=C TZ='{}' date -f '{}' '+{}'", zone, file, format));
        EXPECT_EQ(answers.size(), dates.size());
        answers.resize(dates.size());
        return answers;
    }

    /// The file the lines now stand in.
    [[nodiscard]] std::string file_of(std::string_view name, const std::vector<std::string>& lines) const
    {
        return folder_.write(name, joined(lines)).string();
    }

private:
    const tests::TemporaryFolder folder_;
};

Moment start_of(Date day)
{
    return Moment{day.time_since_epoch()};
}

/// The seconds around each change of clocks, and moments at random.
std::vector<Moment> moments_to_try(const Zone& zone, std::mt19937_64& random)
{
    std::vector<Moment> moments;
    for (std::size_t i = 1; i < zone.transitions.size(); ++i) {
        for (const int away : {-3600, -60, -1, 0, 1, 59, 60, 3600}) {
            moments.push_back(zone.transitions[i].from + seconds{away});
        }
    }
    const auto span = (start_of(last_day) - start_of(first_day)).count();
    for (int i = 0; i < random_times; ++i) {
        moments.push_back(start_of(first_day) + seconds{any_between(random, 0, span)});
    }
    return moments;
}

/// The minutes around the edges of each hour that is skipped or comes twice, and times at random.
std::vector<LocalMinute> wall_times_to_try(const Zone& zone, std::mt19937_64& random)
{
    std::vector<LocalMinute> times;
    for (std::size_t i = 1; i < zone.transitions.size(); ++i) {
        const Moment from = zone.transitions[i].from;
        if (from >= start_of(last_day + date::days{1})) {
            continue;
        }
        for (const seconds offset : {zone.transitions[i - 1].offset, zone.transitions[i].offset}) {
            const LocalMinute edge{std::chrono::floor<minutes>(from.time_since_epoch() + offset)};
            for (const int away : {-61, -60, -31, -30, -15, -1, 0, 1, 15, 29, 30, 59, 60}) {
                times.push_back(edge + minutes{away});
            }
        }
    }
    const auto span = minutes{last_day - first_day}.count();
    for (int i = 0; i < random_times; ++i) {
        times.push_back(first_day + minutes{any_between(random, 0, span)});
    }
    return times;
}

std::string epoch(Moment moment)
{
    return fmt::format("{}", moment.time_since_epoch().count());
}

/// As ask_python.py says it.
std::string said(const Moments& moments)
{
    switch (moments.count) {
        case Moments::Count::none:
            return "none " + epoch(moments.earlier);
        case Moments::Count::one:
            return "one " + epoch(moments.earlier);
        case Moments::Count::two:
            return "two " + epoch(moments.earlier) + ' ' + epoch(moments.later);
    }
    throw std::logic_error("no such count");
}

TEST_F(RunAgainstOthers, EveryMomentHasTheSameWallClockInGnuDateAndInPython)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    std::size_t tried = 0;
    std::vector<std::string> questions;
    std::vector<std::string> ours;
    for (const std::string_view name : four_zones) {
        const Zone zone = zone_from_2020_to_2037(name);
        std::vector<std::string> dates;
        std::vector<std::string> expected;
        for (const Moment moment : moments_to_try(zone, random)) {
            dates.push_back('@' + epoch(moment));
            questions.push_back(fmt::format("wall {} {}", name, epoch(moment)));
            expected.push_back(iso_with_offset(zone, moment));
        }
        const auto answers = ask_gnu_date(name, "%Y-%m-%dT%H:%M%:z", dates);
        for (std::size_t i = 0; i < dates.size(); ++i) {
            EXPECT_EQ(expected[i], answers[i]) << "GNU date, " << name << ' ' << dates[i];
        }
        tried += dates.size();
        ours.insert(ours.end(), expected.begin(), expected.end());
    }
    const auto answers = ask_python(questions);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        EXPECT_EQ(ours[i], answers[i]) << "Python, " << questions[i];
    }
    EXPECT_GT(tried, four_zones.size() * random_times);
    std::cout << tried << " moments\n";
}

TEST_F(RunAgainstOthers, EveryWallTimeHasTheSameMomentsInPython)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    std::vector<std::string> questions;
    std::vector<std::string> ours;
    std::array<int, 3> seen{};
    for (const std::string_view name : four_zones) {
        const Zone zone = zone_from_2020_to_2037(name);
        for (const LocalMinute time : wall_times_to_try(zone, random)) {
            const Moments moments = moments_of(zone, time);
            ++seen.at(static_cast<std::size_t>(moments.count));
            questions.push_back(fmt::format("moments {} {}", name, iso_local(time)));
            ours.push_back(said(moments));
        }
    }
    const auto answers = ask_python(questions);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        EXPECT_EQ(ours[i], answers[i]) << questions[i];
    }
    for (const int count : seen) {
        EXPECT_GT(count, 100) << "times that exist, do not exist and come twice are all meant to be tried";
    }
    std::cout << questions.size() << " wall times: " << seen[0] << " skipped, " << seen[1] << " once, "
              << seen[2] << " twice\n";
}

TEST_F(RunAgainstOthers, EveryWallTimeHasTheSameMomentInGnuDateOrIsRefusedByIt)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    std::vector<std::string> existing;
    std::vector<Moments> ours;
    std::vector<std::string> skipped;
    for (const std::string_view name : four_zones) {
        const Zone zone = zone_from_2020_to_2037(name);
        for (const LocalMinute time : wall_times_to_try(zone, random)) {
            const Moments moments = moments_of(zone, time);
            const std::string text = fmt::format("TZ=\"{}\" {}", name, iso_local(time));
            if (moments.count == Moments::Count::none) {
                skipped.push_back(text);
            } else {
                existing.push_back(text);
                ours.push_back(moments);
            }
        }
    }
    const auto answers = ask_gnu_date("UTC", "%s", existing);
    for (std::size_t i = 0; i < existing.size(); ++i) {
        // Of two moments GNU date gives the one it likes.
        EXPECT_TRUE(answers[i] == epoch(ours[i].earlier) || answers[i] == epoch(ours[i].later))
            << existing[i] << ": " << answers[i] << ", and here " << said(ours[i]);
    }
    const auto file = file_of("skipped", skipped);
    const auto refusals = lines_of(fmt::format("LC_ALL=C TZ=UTC date -f '{}' '+accepted' 2>&1", file), true);
    ASSERT_EQ(refusals.size(), skipped.size());
    for (const std::string& line : refusals) {
        EXPECT_NE(line.find("invalid date"), std::string::npos) << line;
    }
    std::cout << existing.size() << " wall times with a moment, " << skipped.size() << " without\n";
}

/// The changes of clocks as date-tz reads them, without those that leave the offset as it is.
std::vector<screening::Transition> changes_in_date_tz(const date::time_zone& zone, Moment from, Moment to)
{
    auto info = zone.get_info(from);
    std::vector<screening::Transition> changes{{from, info.offset}};
    while (info.end < to) {
        info = zone.get_info(info.end);
        if (info.offset != changes.back().offset) {
            changes.push_back({info.begin, info.offset});
        }
    }
    return changes;
}

TEST(RunZoneReading, EveryZoneOfTheMachineHasTheChangesThatDateTzFinds)
{
    int compared = 0;
    for (const date::time_zone& theirs : date::get_tzdb().zones) {
        if (theirs.name() == "Factory" || theirs.name() == "localtime" || theirs.name() == "posixrules") {
            continue;  // stand for no place
        }
        const auto ours = read_zone(theirs.name(), first_day, last_day);
        ASSERT_TRUE(ours) << theirs.name() << ": " << ours.error().what;
        const Moment from = start_of(add_months(first_day, -24));
        const Moment to = start_of(add_months(last_day, 24));
        EXPECT_EQ(ours->transitions, changes_in_date_tz(theirs, from, to)) << theirs.name();
        ++compared;
    }
    EXPECT_GT(compared, 300) << "the zone data has several hundred zones";
    std::cout << compared << " zones\n";
}

TEST(RunZoneReading, NewYorkLondonAndLordHoweChangedTwiceAYearFrom2020To2025AndPhoenixNever)
{
    constexpr Date year_after{date::year{2026} / 1 / 1};
    for (const std::string_view name : four_zones) {
        const Zone zone = zone_from_2020_to_2037(name);
        const auto changes =
            std::ranges::count_if(zone.transitions, [&](const screening::Transition& change) {
                return change.from >= start_of(first_day) && change.from < start_of(year_after);
            });
        EXPECT_EQ(changes, name == "America/Phoenix" ? 0 : 12) << name;
    }
}

TEST_F(RunAgainstOthers, CountingDaysAcrossAClockChangeNeverChangesADate)
{
    std::vector<std::string> questions;
    std::vector<std::string> ours;
    for (const std::string_view name :
         {"America/New_York", "Europe/London", "Australia/Lord_Howe", "America/Santiago", "Africa/Cairo",
          "Asia/Beirut"}) {  // three at midnight
        const Zone zone = zone_from_2020_to_2037(name);
        for (std::size_t i = 1; i < zone.transitions.size(); ++i) {
            const Date change = date_of(local_of(zone, zone.transitions[i].from));
            for (int count = -8; count <= 8; ++count) {
                const Date procedure = change + date::days{count};
                for (int quarter = 0; quarter < 96; ++quarter) {
                    const LocalMinute time = procedure + minutes{15 * quarter};
                    ASSERT_EQ(date_of(local_of(zone, moment_of(zone, time))), procedure)
                        << name << ' ' << iso_local(time);
                }
                // A dose at nine, so many days before: the date is the one a wall calendar shows.
                const LocalMinute dose = procedure - date::days{5} + hours{9};
                questions.push_back(fmt::format("days {} -5", iso_date(procedure)));
                ours.push_back(iso_local(local_of(zone, moment_of(zone, dose))).substr(0, 10));
            }
        }
    }
    const auto answers = ask_python(questions);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        EXPECT_EQ(ours[i], answers[i]) << questions[i];
    }
    std::cout << questions.size() << " procedure dates around clock changes\n";
}

TEST_F(RunAgainstOthers, AnHourRuleIsExactlyThatManyElapsedHours)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    std::vector<std::string> questions;
    std::vector<std::int64_t> expected;
    int across = 0;
    for (const std::string_view name : four_zones) {
        const Zone zone = zone_from_2020_to_2037(name);
        for (const LocalMinute time : wall_times_to_try(zone, random)) {
            const hours before{any_between(random, 1, 120)};
            const Moment start = moment_of(zone, time);
            const Moment last_dose = start - before;
            across += offset_at(zone, start) != offset_at(zone, last_dose) ? 1 : 0;
            const std::string from = iso_with_offset(zone, last_dose);
            const std::string to = iso_with_offset(zone, start);
            const auto read_back = [&](const std::string& text) {
                return resolve(zone, screening::parse_written_time(text).value()).value();
            };
            EXPECT_EQ(read_back(to) - read_back(from), before) << from << " to " << to;
            questions.push_back(fmt::format("elapsed {} {}", from, to));
            expected.push_back(seconds{before}.count());
        }
    }
    const auto answers = ask_python(questions);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        EXPECT_EQ(fmt::format("{}", expected[i]), answers[i]) << questions[i];
    }
    EXPECT_GT(across, 300) << "many of them are meant to lie across a clock change";
    std::cout << questions.size() << " rules, " << across << " of them across a clock change\n";
}

TEST_F(RunAgainstOthers, MonthsEndWherePythonsCalendarEndsThem)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    std::vector<std::string> questions;
    std::vector<std::string> ours;
    const auto ask = [&](Date day, int months) {
        questions.push_back(fmt::format("months {} {}", iso_date(day), months));
        ours.push_back(iso_date(add_months(day, months)));
    };
    for (Date day = first_day; day <= last_day; day += date::days{1}) {
        if (date::year_month_day{day}.day() >= date::day{28} ||
            date::year_month_day{day}.day() == date::day{1}) {
            for (const int months : {-12, -6, -1, 1, 3, 6, 12}) {
                ask(day, months);
            }
        }
    }
    for (int i = 0; i < random_times; ++i) {
        ask(first_day + date::days{any_between(random, -30'000, (last_day - first_day).count())},
            static_cast<int>(any_between(random, -240, 240)));
    }
    const auto answers = ask_python(questions);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        EXPECT_EQ(ours[i], answers[i]) << questions[i];
    }
    std::cout << questions.size() << " sums of months\n";
}

TEST_F(RunAgainstOthers, CompletedYearsAreTheBirthdaysThatPythonCounts)
{
    std::mt19937_64 random{tests::seed_of_this_run()};
    std::vector<std::string> questions;
    std::vector<std::string> ours;
    const auto ask = [&](Date birth, Date day) {
        questions.push_back(fmt::format("years {} {}", iso_date(birth), iso_date(day)));
        ours.push_back(fmt::format("{}", screening::completed_years(birth, day)));
    };
    constexpr Date earliest{date::year{1915} / 1 / 1};
    for (int i = 0; i < random_times; ++i) {
        const Date birth = earliest + date::days{any_between(random, 0, (first_day - earliest).count())};
        ask(birth, first_day + date::days{any_between(random, 0, (last_day - first_day).count())});
        // On the birthday itself, the day before and the day after.
        const Date birthday = add_months(birth, static_cast<int>(12 * any_between(random, 1, 110)));
        for (const int away : {-1, 0, 1}) {
            ask(birth, birthday + date::days{away});
        }
    }
    for (int year = 1916; year <= 2016; year += 4) {
        for (int later = 2020; later <= 2037; ++later) {
            for (const date::month_day on : {date::February / 27, date::February / 28, date::March / 1}) {
                ask(Date{date::year{year} / 2 / 29}, Date{date::year{later} / on});
            }
        }
    }
    const auto answers = ask_python(questions);
    for (std::size_t i = 0; i < questions.size(); ++i) {
        EXPECT_EQ(ours[i], answers[i]) << questions[i];
    }
    std::cout << questions.size() << " ages\n";
}

}  // namespace
}  // namespace foreday::data
