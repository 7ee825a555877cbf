#include "data/reading/zone_reading.h"

#include <gtest/gtest.h>

#include <cstdint>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

#include "data/reading/hashing.h"
#include "data/reading/zone_file.h"
#include "tests/support/seed.h"
#include "tests/support/temporary_folder.h"

namespace foreday::data {
namespace {

using screening::Date;
using screening::Moment;
using screening::Moments;
using screening::Transition;
using screening::Zone;
using std::chrono::hours;
using tests::TemporaryFolder;

Date day(std::string_view text)
{
    return screening::parse_date(text).value();
}
screening::LocalMinute wall(std::string_view text)
{
    return screening::parse_written_time(text).value().local;
}
Moment utc(std::string_view text)
{
    return Moment{wall(text).time_since_epoch()};
}

/// A zone file with whole hours, as RFC 8536 lays it out.
struct MadeZone {
    std::vector<std::pair<Moment, int>> changes;  ///< hours ahead of UTC from then on
    int first_hours = 0;
    std::string rule_after;
    std::uint32_t leap_seconds = 0;
    char version = '2';
};

void append(std::string& bytes, std::uint64_t value, unsigned width)
{
    for (unsigned i = width; i > 0; --i) {
        bytes += static_cast<char>((value >> (8U * (i - 1))) & 0xFFU);
    }
}

std::string header(char version, std::uint32_t leaps, std::size_t times, std::size_t types)
{
    std::string bytes = "TZif";
    bytes += version;
    bytes.append(15, '\0');
    for (const std::uint64_t count : {std::uint64_t{0}, std::uint64_t{0}, std::uint64_t{leaps},
                                      std::uint64_t{times}, std::uint64_t{types}, std::uint64_t{4}}) {
        append(bytes, count, 4);
    }
    return bytes;
}

std::string type_bytes(int hours_ahead)
{
    std::string bytes;
    append(bytes, static_cast<std::uint64_t>(std::int64_t{hours_ahead} * 3600), 4);
    return bytes + std::string(2, '\0');
}

std::string file_of(const MadeZone& zone)
{
    const std::string letters("LMT\0", 4);
    // The first part is for readers of old and says next to nothing.
    std::string bytes = header(zone.version, 0, 0, 1) + type_bytes(zone.first_hours) + letters;
    bytes += header(zone.version, zone.leap_seconds, zone.changes.size(), zone.changes.size() + 1);
    for (const auto& [moment, hours_ahead] : zone.changes) {
        append(bytes, static_cast<std::uint64_t>(moment.time_since_epoch().count()), 8);
    }
    for (std::size_t i = 0; i < zone.changes.size(); ++i) {
        append(bytes, i + 1, 1);
    }
    bytes += type_bytes(zone.first_hours);
    for (const auto& [moment, hours_ahead] : zone.changes) {
        bytes += type_bytes(hours_ahead);
    }
    bytes += letters + std::string(12UL * zone.leap_seconds, '\0');
    return bytes + '\n' + zone.rule_after + '\n';
}

MadeZone with_summer_time()
{
    return {{{utc("2026-03-08T07:00"), -4},
             {utc("2026-11-01T06:00"), -5},
             {utc("2027-03-14T07:00"), -4},
             {utc("2027-11-07T06:00"), -5},
             {utc("2028-03-12T07:00"), -4},
             {utc("2028-11-05T06:00"), -5},
             {utc("2029-03-11T07:00"), -4}},
            -5,
            "EST5EDT,M3.2.0,M11.1.0"};
}

std::string bytes_of(const std::filesystem::path& path)
{
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

const std::filesystem::path machine = "/usr/share/zoneinfo";

TEST(ZoneReading, TheMachineKnowsWhenNewYorkChangedItsClocks)
{
    const Zone zone = read_zone("America/New_York", day("2021-06-01"), day("2021-06-30")).value();
    EXPECT_EQ(zone.name, "America/New_York");
    const std::vector<Transition> expected{
        {utc("2019-06-01T00:00"), hours{-4}}, {utc("2019-11-03T06:00"), hours{-5}},
        {utc("2020-03-08T07:00"), hours{-4}}, {utc("2020-11-01T06:00"), hours{-5}},
        {utc("2021-03-14T07:00"), hours{-4}}, {utc("2021-11-07T06:00"), hours{-5}},
        {utc("2022-03-13T07:00"), hours{-4}}, {utc("2022-11-06T06:00"), hours{-5}},
        {utc("2023-03-12T07:00"), hours{-4}}};
    EXPECT_EQ(zone.transitions, expected);
}

TEST(ZoneReading, APlaceWithoutSummerTimeHasOneEntry)
{
    const Zone phoenix = read_zone("America/Phoenix", day("2021-06-01"), day("2021-06-30")).value();
    ASSERT_EQ(phoenix.transitions.size(), 1U);
    EXPECT_EQ(phoenix.transitions.front().offset, hours{-7});
    EXPECT_EQ(read_zone("Etc/UTC", day("2021-06-01"), day("2021-06-30")).value().transitions.size(), 1U);
}

TEST(ZoneReading, TheHashIsThatOfTheFileAndTheVersionThatOfTheData)
{
    const Zone zone = read_zone("Europe/London", day("2027-04-12"), day("2027-04-12")).value();
    EXPECT_EQ(zone.file_hash, sha256_hex(bytes_of(machine / "Europe/London")));
    EXPECT_EQ(zone.file_hash.size(), 64U);
    EXPECT_EQ(zone.file_hash.find_first_not_of("0123456789abcdef"), std::string::npos);
    const std::string text_form = bytes_of(machine / "tzdata.zi");
    if (!text_form.empty()) {
        EXPECT_EQ("# version " + zone.version, text_form.substr(0, text_form.find('\n')));
    }
}

TEST(ZoneReading, TheVersionIsReadWhereTheDataKeepsIt)
{
    const TemporaryFolder data;
    data.write("Test/Place", file_of(with_summer_time()));
    const auto version = [&] {
        return read_zone_from(data.path(), "Test/Place", day("2027-04-12"), day("2027-04-12"))
            .value()
            .version;
    };
    EXPECT_EQ(version(), "unknown");
    data.write("+VERSION", "2026a\n");
    EXPECT_EQ(version(), "2026a");
    data.write("tzdata.zi", "# version 2026b\n# more\n");
    EXPECT_EQ(version(), "2026b");
    data.write("tzdata.zi", "R d 1916 o - Jun 14 23s 1 S\n");
    EXPECT_EQ(version(), "2026a");
}

TEST(ZoneReading, OneCaseUnderTwoVersionsOfTheDataDiffersAndShowsIt)
{
    const TemporaryFolder before;
    before.write("America/New_York", file_of(with_summer_time()));
    before.write("tzdata.zi", "# version 2026a\n");
    const TemporaryFolder after;  // summer time is given up after 2026
    after.write("America/New_York",
                file_of({{{utc("2026-03-08T07:00"), -4}, {utc("2026-11-01T06:00"), -5}}, -5, "EST5"}));
    after.write("tzdata.zi", "# version 2026b\n");
    const auto read = [](const TemporaryFolder& data) {
        return read_zone_from(data.path(), "America/New_York", day("2027-04-12"), day("2027-04-12")).value();
    };
    const Zone old_zone = read(before);
    const Zone new_zone = read(after);

    EXPECT_EQ(iso_with_offset(old_zone, moment_of(old_zone, wall("2027-04-12T09:00"))),
              "2027-04-12T09:00-04:00");
    EXPECT_EQ(iso_with_offset(new_zone, moment_of(new_zone, wall("2027-04-12T09:00"))),
              "2027-04-12T09:00-05:00");
    EXPECT_EQ(moment_of(new_zone, wall("2027-04-12T09:00")) - moment_of(old_zone, wall("2027-04-12T09:00")),
              hours{1});
    EXPECT_EQ(moment_of(new_zone, wall("2027-02-12T09:00")), moment_of(old_zone, wall("2027-02-12T09:00")));
    EXPECT_EQ(moments_of(old_zone, wall("2027-03-14T02:30")).count, Moments::Count::none);
    EXPECT_EQ(moments_of(new_zone, wall("2027-03-14T02:30")).count, Moments::Count::one);
    EXPECT_EQ(old_zone.version, "2026a");
    EXPECT_EQ(new_zone.version, "2026b");
    EXPECT_NE(old_zone.file_hash, new_zone.file_hash);
}

TEST(ZoneReading, TwoYearsOnEitherSideAreTakenAndNoMore)
{
    const TemporaryFolder data;
    const auto transitions = [&](Moment change) {
        data.write("Test/Place", file_of({{{change, 1}}, 0, ""}));
        return read_zone_from(data.path(), "Test/Place", day("2027-04-12"), day("2027-05-31"))
            .value()
            .transitions;
    };
    const Moment begin = utc("2025-04-12T00:00");
    const Moment end = utc("2029-05-31T00:00");
    using Expected = std::vector<Transition>;
    EXPECT_EQ(transitions(begin - std::chrono::seconds{1}), (Expected{{begin, hours{1}}}));
    EXPECT_EQ(transitions(begin), (Expected{{begin, hours{1}}}));
    EXPECT_EQ(transitions(begin + std::chrono::seconds{1}),
              (Expected{{begin, hours{0}}, {begin + std::chrono::seconds{1}, hours{1}}}));
    EXPECT_EQ(transitions(end - std::chrono::seconds{1}),
              (Expected{{begin, hours{0}}, {end - std::chrono::seconds{1}, hours{1}}}));
    EXPECT_EQ(transitions(end), (Expected{{begin, hours{0}}}));
}

TEST(ZoneReading, AnEntryThatLeavesTheClocksAsTheyAreIsLeftOut)
{
    const TemporaryFolder data;
    data.write(
        "Test/Place",
        file_of({{{utc("2027-01-01T00:00"), 0}, {utc("2027-02-01T00:00"), 1}, {utc("2027-03-01T00:00"), 1}},
                 0,
                 ""}));
    const Zone zone = read_zone_from(data.path(), "Test/Place", day("2027-04-12"), day("2027-04-12")).value();
    const std::vector<Transition> expected{{utc("2025-04-12T00:00"), hours{0}},
                                           {utc("2027-02-01T00:00"), hours{1}}};
    EXPECT_EQ(zone.transitions, expected);
}

TEST(ZoneReading, TheLastDayThatCanBePlannedForIsTheEndOf2037)
{
    EXPECT_TRUE(read_zone("America/New_York", day("2037-12-30"), day("2037-12-30")));
    EXPECT_TRUE(read_zone("America/New_York", day("2037-12-31"), day("2037-12-31")));
    const auto refused = read_zone("America/New_York", day("2037-12-31"), day("2038-01-01"));
    ASSERT_FALSE(refused);
    EXPECT_EQ(
        refused.error().what,
        "2038-01-01 is too late to plan for: the zone data applies no daylight-saving rule from 2038 on");
    EXPECT_EQ(refused.error().would_be_right, "days from 1900-01-01 to 2037-12-31");
    EXPECT_FALSE(read_zone("America/Phoenix", day("2038-01-01"), day("2038-01-01")));
}

TEST(ZoneReading, DaysBefore1900AndDaysInTheWrongOrderAreRefused)
{
    EXPECT_TRUE(read_zone("America/New_York", day("1900-01-01"), day("1900-01-01")));
    const auto early = read_zone("America/New_York", day("1900-01-01") - date::days{1}, day("1900-01-01"));
    ASSERT_FALSE(early);
    EXPECT_EQ(early.error().what, "1899-12-31 is too early to plan for");
    EXPECT_TRUE(read_zone("America/New_York", day("2027-04-12"), day("2027-04-12")));
    EXPECT_FALSE(read_zone("America/New_York", day("2027-04-13"), day("2027-04-12")));
}

TEST(ZoneReading, WhatIsNotTheNameOfAZoneIsRefused)
{
    for (const std::string_view name :
         {"", "..", "../zoneinfo/UTC", "America/../UTC", "./UTC", "/usr/share/zoneinfo/UTC", "/UTC",
          "America/", "America//New_York", "America\\New_York", "America/New York", "America/New_York\n",
          "+VERSION", "tzdata.zi", "zone.tab", "-5", "5", "EST5EDT,M3.2.0,M11.1.0", "S\xC3\xA3o_Paulo"}) {
        const auto refused = read_zone(name, day("2027-04-12"), day("2027-04-12"));
        ASSERT_FALSE(refused) << name;
        EXPECT_NE(refused.error().what.find("is not the name of a zone"), std::string::npos)
            << refused.error().what;
        EXPECT_EQ(refused.error().would_be_right, "a zone by its IANA name, such as America/New_York");
    }
    EXPECT_FALSE(read_zone(std::string_view("UTC\0", 4), day("2027-04-12"), day("2027-04-12")));
}

TEST(ZoneReading, ANameTheDataDoesNotHaveIsRefused)
{
    for (const std::string_view name :
         {"America", "America/Larkmoor", "america/new_york", "New_York", "EDT", "leapseconds/x"}) {
        const auto refused = read_zone(name, day("2027-04-12"), day("2027-04-12"));
        ASSERT_FALSE(refused) << name;
        EXPECT_NE(refused.error().what.find("is not in the zone data"), std::string::npos)
            << refused.error().what;
        EXPECT_EQ(refused.error().would_be_right, "a zone by its IANA name, such as America/New_York");
    }
}

TEST(ZoneReading, FilesThatStandForNoPlaceAreRefused)
{
    for (const std::string_view name :
         {"localtime", "posixrules", "Factory", "right/America/New_York", "posix/America/New_York"}) {
        const auto refused = read_zone(name, day("2027-04-12"), day("2027-04-12"));
        ASSERT_FALSE(refused) << name;
        EXPECT_NE(refused.error().what.find("does not name a place"), std::string::npos)
            << refused.error().what;
    }
}

TEST(ZoneReading, AFileBesideTheZonesIsNoZone)
{
    const auto refused = read_zone("leapseconds", day("2027-04-12"), day("2027-04-12"));
    ASSERT_FALSE(refused);
    const TemporaryFolder data;
    data.write("Notes", "Not a zone at all, and longer than the forty-four bytes of a header.");
    const auto notes = read_zone_from(data.path(), "Notes", day("2027-04-12"), day("2027-04-12"));
    ASSERT_FALSE(notes);
    EXPECT_EQ(notes.error().what, "the zone data of Notes cannot be read: not a zone file");
    EXPECT_EQ(notes.error().would_be_right, "a compiled zone file (TZif, version 2 or later)");
}

TEST(ZoneReading, DataThatLeavesTheComingYearsToItsRuleIsRefused)
{
    const TemporaryFolder data;
    MadeZone zone = with_summer_time();
    const auto read = [&](std::string_view to) {
        data.write("Test/Place", file_of(zone));
        return read_zone_from(data.path(), "Test/Place", day("2026-04-12"), day(to));
    };
    EXPECT_TRUE(read("2027-12-31")) << "changes are listed up to 2029";
    const auto refused = read("2028-01-01");
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error().what.find("lists no change of clocks up to the end"), std::string::npos);
    zone.rule_after = "EST5";
    EXPECT_TRUE(read("2028-01-01")) << "without summer time there is nothing left to list";
    zone.changes.clear();
    zone.rule_after = "EST5EDT,M3.2.0,M11.1.0";
    EXPECT_FALSE(read("2026-04-12"));
}

TEST(ZoneFile, LeapSecondsAndTheOldestVersionAreRefused)
{
    MadeZone zone = with_summer_time();
    ASSERT_TRUE(parse_zone_file(file_of(zone)));
    zone.leap_seconds = 1;
    EXPECT_EQ(parse_zone_file(file_of(zone)).error().what, "a zone file that counts leap seconds");
    zone.leap_seconds = 0;
    zone.version = '\0';
    EXPECT_EQ(parse_zone_file(file_of(zone)).error().what,
              "a zone file of version 1, which ends in January 2038");
    zone.version = '4';
    EXPECT_TRUE(parse_zone_file(file_of(zone)));
}

TEST(ZoneFile, WhatTheFileSaysIsWhatIsRead)
{
    const MadeZone made = with_summer_time();
    const ZoneFile file = parse_zone_file(file_of(made)).value();
    EXPECT_EQ(file.first_offset, hours{-5});
    EXPECT_EQ(file.rule_after, made.rule_after);
    ASSERT_EQ(file.transitions.size(), made.changes.size());
    for (std::size_t i = 0; i < made.changes.size(); ++i) {
        EXPECT_EQ(file.transitions[i], (Transition{made.changes[i].first, hours{made.changes[i].second}}));
    }
}

TEST(ZoneFile, ChangesOutOfOrderOrTwiceAtOneMomentAreRefused)
{
    MadeZone zone = with_summer_time();
    std::swap(zone.changes[0], zone.changes[1]);
    EXPECT_EQ(parse_zone_file(file_of(zone)).error().what, "the changes of clocks are not in their order");
    zone = with_summer_time();
    zone.changes[1].first = zone.changes[0].first;
    EXPECT_FALSE(parse_zone_file(file_of(zone)));
}

TEST(ZoneFile, AChangeToATypeBeyondTheLastIsRefused)
{
    const MadeZone zone{{{utc("2027-03-14T07:00"), -4}}, -5, ""};
    std::string bytes = file_of(zone);
    // The number of the type stands behind the one time; there are two types.
    const std::size_t number_at = bytes.rfind("TZif") + 44 + 8;
    ASSERT_EQ(bytes[number_at], 1);
    ASSERT_TRUE(parse_zone_file(bytes));
    bytes[number_at] = 2;
    EXPECT_EQ(parse_zone_file(bytes).error().what, "a change of clocks names a type that is not there");
    bytes[number_at] = '\xFF';
    EXPECT_FALSE(parse_zone_file(bytes));
}

TEST(ZoneFile, AFileThatBreaksOffAnywhereIsRefused)
{
    const std::string whole = bytes_of(machine / "America/New_York");
    ASSERT_TRUE(parse_zone_file(whole));
    for (std::size_t length = 0; length < whole.size(); ++length) {
        EXPECT_FALSE(parse_zone_file(std::string_view(whole).substr(0, length)))
            << length << " of " << whole.size();
    }
}

TEST(ZoneFile, AFileWithWrongBytesIsReadOrRefusedAndNothingElse)
{
    const std::string whole = file_of(with_summer_time());
    std::mt19937_64 random{tests::seed_of_this_run()};
    int refused = 0;
    for (int i = 0; i < 20'000; ++i) {
        std::string damaged = whole;
        for (int j = 0; j < 3; ++j) {
            const auto place = static_cast<std::size_t>(
                tests::any_between(random, 0, static_cast<std::int64_t>(whole.size()) - 1));
            damaged[place] = static_cast<char>(tests::any_between(random, -128, 127));
        }
        const auto file = parse_zone_file(damaged);
        refused += file ? 0 : 1;
        for (std::size_t k = 1; file && k < file->transitions.size(); ++k) {
            ASSERT_LT(file->transitions[k - 1].from, file->transitions[k].from);
        }
    }
    EXPECT_GT(refused, 0);
}

}  // namespace
}  // namespace foreday::data
