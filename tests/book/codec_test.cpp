#include "data/book/codec.h"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck.h>

#include <array>
#include <fstream>
#include <map>
#include <set>
#include <stdexcept>

#include "tests/book/contents_sample.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using book::Content;
using book::from_payload;
using book::to_payload;

/// In the order in which they were made. `added_fields` has the kinds to which a field was added that may be
/// missing.
constexpr std::array golden_files{FOREDAY_SOURCE_DIR "/tests/book/golden/payloads_v1.jsonl",
                                  FOREDAY_SOURCE_DIR "/tests/book/golden/added_fields_v1.jsonl"};

std::string line_of(std::string_view kind, int version, std::string_view payload)
{
    return fmt::format(R"({{"kind":"{}","version":{},"payload":{}}})", kind, version, payload);
}

std::string payload_in(const std::string& line)
{
    const std::string before = R"(,"payload":)";
    const auto from = line.find(before) + before.size();
    return line.substr(from, line.size() - from - 1);
}

std::string kind_in(const std::string& line)
{
    return line.substr(9, line.find('"', 9) - 9);
}

std::vector<std::string> golden_lines()
{
    std::vector<std::string> lines;
    for (const char* name : golden_files) {
        std::ifstream file(name);
        for (std::string line; std::getline(file, line);) {
            lines.push_back(line);
        }
    }
    return lines;
}

bool is_fault(std::string_view kind, int version, std::string_view payload)
{
    const auto read = from_payload(kind, version, payload);
    return !read && !read.error().what.empty() && !read.error().would_be_right.empty();
}

const std::string note = R"({"role":"nurse","said":{"words":"rings back"},"seen":4})";

TEST(Codec, EveryKindReadsBackAsItWasWritten)
{
    for_each_kind([](const Content& kind) {
        const auto& row = book::kind_of(kind);
        const bool passed = rc::check(std::string(row.name), [&] {
            const Content content = by_chance(kind);
            const book::Envelope envelope{*rc::gen::element(screening::Role::nurse, screening::Role::auditor),
                                          *rc::gen::arbitrary<std::int64_t>()};
            const std::string payload = to_payload(envelope, content);
            const auto read = from_payload(row.name, row.version, payload);
            RC_ASSERT(read.has_value());
            RC_ASSERT(read->content.index() == content.index());
            RC_ASSERT(read->envelope == envelope);
            RC_ASSERT(to_payload(read->envelope, read->content) == payload);
        });
        EXPECT_TRUE(passed) << row.name;
    });
}

TEST(Codec, EveryEntryEverWrittenReadsForEver)
{
    const auto lines = golden_lines();
    std::set<std::string> kinds;
    for (const std::string& line : lines) {
        const std::string kind = kind_in(line);
        kinds.insert(kind);
        const auto read = from_payload(kind, 1, payload_in(line));
        ASSERT_TRUE(read) << line << "\n" << read.error().what;
        EXPECT_EQ(line_of(kind, 1, to_payload(read->envelope, read->content)), line);
    }
    EXPECT_EQ(kinds.size(), std::variant_size_v<book::AnyContent>);
}

/// The files were made once, by printing what is compared here. They are never made again: a later version of
/// a kind, or a field added to one, gets a line in a file of its own.
TEST(Codec, TheGoldenEntriesSayWhatTheirFieldsSay)
{
    std::map<std::string, std::string, std::less<>> last;
    for (const std::string& line : golden_lines()) {
        last[kind_in(line)] = line;
    }
    for_each_kind([&](const Content& kind) {
        const auto& row = book::kind_of(kind);
        EXPECT_EQ(last[std::string(row.name)],
                  line_of(row.name, 1, to_payload({screening::Role::nurse, 41}, sample_of(kind))));
    });
}

TEST(Codec, AnAnswerIsReadableByAPerson)
{
    book::Answered answer = weight("84.6");
    answer.words = "about 84";
    EXPECT_EQ(to_payload({screening::Role::nurse, 12}, answer),
              R"({"role":"nurse","said":{"fact":"weight","informant":"patient","origin":"this case",)"
              R"("strength":"said","value":{"number":{"from":"84.6","to":"84.6","unit":"kg"}},)"
              R"("words":"about 84"},"seen":12})");
}

TEST(Codec, NoTwoKindsShareAName)
{
    std::set<std::string_view> names;
    for_each_kind([&](const Content& kind) { EXPECT_TRUE(names.insert(book::kind_of(kind).name).second); });
}

TEST(Codec, LooksPrintsAndSignInsGoToTheirOwnChain)
{
    std::set<std::string_view> looks;
    for_each_kind([&](const Content& kind) {
        if (book::kind_of(kind).chain == store::Chain::looks) {
            looks.insert(book::kind_of(kind).name);
            EXPECT_EQ(book::kind_of(kind).effect, book::Effect::none);
        }
    });
    EXPECT_EQ(looks, (std::set<std::string_view>{"looked", "printed", "signed in"}));
}

TEST(Codec, AnUnknownKindOrVersionIsAFault)
{
    ASSERT_TRUE(from_payload("note", 1, note));
    EXPECT_TRUE(is_fault("notes", 1, note));
    EXPECT_TRUE(is_fault("note", 0, note));
    EXPECT_TRUE(is_fault("note", 2, note));
    EXPECT_FALSE(book::is_known_kind("notes"));
    EXPECT_TRUE(book::changes_fold("notes")) << "whoever wrote it may have known why";
}

TEST(Codec, AnyOtherByteThanTheProgramWritesIsAFault)
{
    const std::vector<std::string> wrong{
        "",
        "null",
        "[]",
        "{}",
        R"({"role":"nurse","said":{"words":"a"}})",
        R"({"role":"nurse","said":{"words":"a"},"seen":4,"too":1})",
        R"({"role":"nurse","said":{"words":"a","word":"b"},"seen":4})",
        R"({"role":"nurse","said":{"words":1},"seen":4})",
        R"({"role":"nurse","said":{"words":""},"seen":4})",
        R"({"role":"nurse","said":{"words":null},"seen":4})",
        R"({"role":"nurse","said":[],"seen":4})",
        R"({"role":"matron","said":{"words":"a"},"seen":4})",
        R"({"role":"nurse","said":{"words":"a"},"seen":4.0})",
        R"({"role":"nurse","said":{"words":"a"},"seen":"4"})",
        R"({"role":"nurse","said":{"words":"a"},"seen":9223372036854775808})",
        R"({"role":"nurse","said":{"words":"a"},"seen":-0})",
        R"({"said":{"words":"a"},"role":"nurse","seen":4})",
        R"({"role":"nurse","role":"nurse","said":{"words":"a"},"seen":4})",
        R"({"role":"nurse", "said":{"words":"a"},"seen":4})",
        R"({"role":"nurse","said":{"words":"\u0061"},"seen":4})",
        "{\"role\":\"nurse\",\"said\":{\"words\":\"\xC3\"},\"seen\":4}",
        note + "\n",
        std::string(100000, '['),
    };
    for (const std::string& payload : wrong) {
        EXPECT_TRUE(is_fault("note", 1, payload)) << payload.substr(0, 100);
    }
}

TEST(Codec, AChangedByteIsAFaultOrAnotherCanonicalEntry)
{
    int faults = 0;
    for (const std::string& line : golden_lines()) {
        const std::string kind = kind_in(line);
        const std::string payload = payload_in(line);
        for (std::size_t place = 0; place < payload.size(); ++place) {
            for (const char other : {'"', '}', '0', '\x80'}) {
                std::string changed = payload;
                changed[place] = other;
                const auto read = from_payload(kind, 1, changed);
                faults += read ? 0 : 1;
                ASSERT_TRUE(!read || to_payload(read->envelope, read->content) == changed) << changed;
            }
        }
    }
    EXPECT_GT(faults, 10000);
}

TEST(Codec, WhatMustHoldBesidesTheTypesIsLookedAtWhenReadAndWhenWritten)
{
    const auto payload = [](const Content& content) { return to_payload({}, content); };
    const auto medicine_taken = [](screening::Pattern pattern) {
        book::MedicineAdded added{"m1", {}};
        added.medicine.pattern = std::move(pattern);
        return added;
    };
    const std::chrono::hours eight{8};
    EXPECT_NO_THROW((void)payload(medicine_taken(screening::EveryNDays{2, day("2027-06-01"), {}})));
    EXPECT_THROW((void)payload(medicine_taken(screening::EveryNDays{1, day("2027-06-01"), {}})),
                 std::invalid_argument);
    EXPECT_NO_THROW((void)payload(medicine_taken(screening::EveryNDays{366, day("2027-06-01"), {}})));
    EXPECT_THROW((void)payload(medicine_taken(screening::EveryNDays{367, day("2027-06-01"), {}})),
                 std::invalid_argument);
    EXPECT_NO_THROW((void)payload(medicine_taken(screening::Monthly{31, {}})));
    EXPECT_THROW((void)payload(medicine_taken(screening::Monthly{0, {}})), std::invalid_argument);
    EXPECT_THROW((void)payload(medicine_taken(screening::Monthly{32, {}})), std::invalid_argument);
    EXPECT_NO_THROW((void)payload(medicine_taken(screening::OnWeekdays{{1, 7}, {}})));
    EXPECT_THROW((void)payload(medicine_taken(screening::OnWeekdays{{}, {}})), std::invalid_argument);
    EXPECT_THROW((void)payload(medicine_taken(screening::OnWeekdays{{8}, {}})), std::invalid_argument);
    EXPECT_THROW((void)payload(medicine_taken(screening::Daily{{eight, eight}})), std::invalid_argument);
    EXPECT_THROW((void)payload(book::Answered{}), std::invalid_argument) << "neither a value nor why not";
    EXPECT_THROW((void)payload(book::BookingMade{}), std::invalid_argument) << "no procedure";
    EXPECT_THROW((void)payload(book::ConcernRaised{"w", screening::Level::act, {}}), std::invalid_argument);
    EXPECT_TRUE(is_fault("own concern", 1,
                         R"({"role":"nurse","said":{"level":"act","topic":"record","words":"w"},"seen":0})"));
    EXPECT_FALSE(
        is_fault("own concern", 1,
                 R"({"role":"nurse","said":{"level":"ask","topic":"record","words":"w"},"seen":0})"));
}

TEST(Codec, TextThatIsNotUtf8AndDaysOutOfRangeAreRefused)
{
    EXPECT_THROW((void)to_payload({}, book::NoteMade{"caf\xE9"}), std::invalid_argument);
    book::OutsideAskSent ask{"o1", "", "", "", day("2099-12-31")};
    EXPECT_NO_THROW((void)to_payload({}, ask));
    ask.reply_by += date::days{1};
    EXPECT_THROW((void)to_payload({}, ask), std::invalid_argument);
}

TEST(Codec, NumbersAreKeptExactly)
{
    const auto kept = [](const screening::Exact& number) {
        const auto payload = to_payload({}, said("weight", book::StatedNumber{number, number, "kg"}));
        const auto read = from_payload("answer", 1, payload).value();
        return std::get<book::StatedNumber>(*std::get<book::Answered>(read.content).value).lowest == number;
    };
    const std::int64_t largest = 9223372036854775807;
    for (const auto& [numerator, denominator] :
         std::vector<std::pair<std::int64_t, std::int64_t>>{{0, 1},
                                                            {846, 10},
                                                            {-846, 10},
                                                            {1, 3},
                                                            {-1, 3},
                                                            {-7, 3},
                                                            {665, 442},
                                                            {1, 1000000000},
                                                            {1, 10000000000},
                                                            {999999999999, 1},
                                                            {1000000000000, 1},
                                                            {largest, 1},
                                                            {-largest, 7},
                                                            {1, largest},
                                                            {largest, 2}}) {
        EXPECT_TRUE(kept(screening::Exact::ratio(numerator, denominator))) << numerator << "/" << denominator;
    }
    const auto too_large = screening::Exact::ratio(largest, 2) * screening::Exact::ratio(largest, 3);
    EXPECT_THROW((void)kept(too_large), std::invalid_argument);
}

TEST(Codec, AnHourThatComesTwiceIsKeptAsTheOneItWas)
{
    const auto& zone = demo_rules().zone;
    const auto moments =
        screening::moments_of(zone, screening::parse_written_time("2027-11-07T01:30").value().local);
    ASSERT_EQ(moments.count, screening::Moments::Count::two);
    for (const auto moment : {moments.earlier, moments.later}) {
        const auto payload = to_payload({}, book::GoneIn{book::wall_time(zone, moment)});
        const auto read = from_payload("gone in", 1, payload).value();
        EXPECT_EQ(book::moment_of(std::get<book::GoneIn>(read.content).at), moment);
    }
}

}  // namespace
}  // namespace foreday::tests
