#include <gmock/gmock.h>

#include <set>
#include <stdexcept>
#include <thread>

#include "data/reading/hashing.h"
#include "data/store/verify.h"
#include "tests/store/either_store.h"

namespace foreday::tests {
namespace {

using store::Chain;
using store::Entry;
using store::Head;
using store::NewEntry;
using store::Writing;
using testing::ElementsAre;
using testing::IsEmpty;

class Entries : public EitherStore {};

TEST_P(Entries, ANewBookHasNoEntryAndItsHeadsAreZeros)
{
    for (const Chain chain : store::all_chains) {
        EXPECT_EQ(store().head(chain), (Head{0, std::string(64, '0')}));
        EXPECT_THAT(store().entries(chain, 0, 10), IsEmpty());
    }
    EXPECT_EQ(damages_in(store()), "");
}

TEST_P(Entries, TheStoreNumbersTheEntriesOfEachChainByItself)
{
    EXPECT_EQ(append(store(), "c1", "a").number, 1);
    EXPECT_EQ(append(store(), "c2", "b").number, 2);
    EXPECT_EQ(append(store(), "c1", "looked", Chain::looks).number, 1);
    EXPECT_EQ(append(store(), "c1", "c").number, 3);
    EXPECT_EQ(store().head(Chain::journal).number, 3);
    EXPECT_EQ(store().head(Chain::looks).number, 1);
}

TEST_P(Entries, EachHashIsOverTheEntryAndTheHashBeforeIt)
{
    const Entry first = append(store(), "c1", "a");
    const Entry second = append(store(), "c1", "b");
    EXPECT_EQ(first.hash, data::sha256_hex(hash_bytes(Chain::journal, first, std::string(64, '0'))));
    EXPECT_EQ(second.hash, data::sha256_hex(hash_bytes(Chain::journal, second, first.hash)));
    EXPECT_EQ(store().head(Chain::journal), (Head{2, second.hash}));
}

TEST_P(Entries, WhatWasWrittenIsReadBackToTheByte)
{
    NewEntry said = entry_about("case Ł", "");
    said.payload = std::string("{\"words\":\"a\0b\"}\n\xF0\x9F\x92\x8A", 20);
    said.who = "";
    said.desk = "Süd 1";
    said.kind = "answer";
    said.kind_version = 2'147'483'647;
    said.at = screening::Moment{std::chrono::seconds{-1}};
    store().write([&](Writing& writing) { writing.append(Chain::journal, said); });
    const std::vector<Entry> read = store().entries(Chain::journal, 0, 10);
    ASSERT_EQ(read.size(), 1U);
    EXPECT_EQ(read[0].said, said);
    EXPECT_EQ(damages_in(store()), "");
}

TEST_P(Entries, YearsFromZeroTo9999AreTakenAndThoseBesideThemRefused)
{
    const screening::Moment first = date::sys_days{date::year{0} / 1 / 1};
    const screening::Moment last = date::sys_days{date::year{10000} / 1 / 1} - std::chrono::seconds{1};
    const auto append_at = [&](screening::Moment at) {
        store().write([&](Writing& writing) {
            NewEntry said = entry_about("c1", "x");
            said.at = at;
            writing.append(Chain::journal, said);
        });
    };
    append_at(first);
    append_at(last);
    EXPECT_THROW(append_at(first - std::chrono::seconds{1}), std::invalid_argument);
    EXPECT_THROW(append_at(last + std::chrono::seconds{1}), std::invalid_argument);
    EXPECT_EQ(store().head(Chain::journal).number, 2);
    EXPECT_EQ(damages_in(store()), "");
}

TEST_P(Entries, AVersionOfAKindBelowOneIsRefused)
{
    NewEntry said = entry_about("c1", "x");
    said.kind_version = 0;
    EXPECT_THROW(store().write([&](Writing& writing) { writing.append(Chain::journal, said); }),
                 std::invalid_argument);
    said.kind_version = 1;
    store().write([&](Writing& writing) { writing.append(Chain::journal, said); });
    EXPECT_EQ(store().head(Chain::journal).number, 1);
}

TEST_P(Entries, EntriesAfterANumberComeInOrderAndNoMoreThanAskedFor)
{
    for (int i = 1; i <= 5; ++i) {
        append(store(), "c1", std::to_string(i));
    }
    const auto numbers = [&](std::int64_t after, std::size_t at_most) {
        std::vector<std::int64_t> found;
        for (const Entry& entry : store().entries(Chain::journal, after, at_most)) {
            found.push_back(entry.number);
        }
        return found;
    };
    EXPECT_THAT(numbers(0, 100), ElementsAre(1, 2, 3, 4, 5));
    EXPECT_THAT(numbers(2, 2), ElementsAre(3, 4));
    EXPECT_THAT(numbers(4, 2), ElementsAre(5));
    EXPECT_THAT(numbers(5, 2), IsEmpty());
    EXPECT_THAT(numbers(6, 2), IsEmpty());
    EXPECT_THAT(numbers(0, 0), IsEmpty());
    EXPECT_THAT(numbers(-3, 1), ElementsAre(1));
    EXPECT_THAT(numbers(0, SIZE_MAX), ElementsAre(1, 2, 3, 4, 5));
}

TEST_P(Entries, EntriesOfACaseAreTheJournalsAboutItAndNoLooks)
{
    append(store(), "c1", "a");
    append(store(), "c2", "b");
    append(store(), "c1", "seen", Chain::looks);
    append(store(), "c1", "c");
    std::vector<std::string> payloads;
    for (const Entry& entry : store().entries_of("c1")) {
        payloads.push_back(entry.said.payload);
    }
    EXPECT_THAT(payloads, ElementsAre("a", "c"));
    EXPECT_THAT(store().entries_of("c3"), IsEmpty());
}

TEST_P(Entries, ATransactionSeesWhatItHasAppendedBeforeItIsDone)
{
    append(store(), "c1", "a");
    store().write([&](Writing& writing) {
        EXPECT_EQ(writing.entries_of("c1").size(), 1U);
        const Entry second = writing.append(Chain::journal, entry_about("c1", "b"));
        const Entry third = writing.append(Chain::journal, entry_about("c1", "c"));
        EXPECT_EQ(third.number, second.number + 1);
        EXPECT_THAT(writing.entries_of("c1"), testing::SizeIs(3));
        EXPECT_EQ(writing.entries_of("c1").back(), third);
        // The reading verbs see it as well, from inside.
        EXPECT_EQ(store().head(Chain::journal), (Head{3, third.hash}));
        EXPECT_THAT(store().entries_of("c1"), testing::SizeIs(3));
    });
}

TEST_P(Entries, AnExceptionOutOfTheWorkUndoesAllOfItAndComesThrough)
{
    append(store(), "c1", "stays");
    const Head before = store().head(Chain::journal);
    std::string hash;
    try {
        store().write([&](Writing& writing) {
            writing.append(Chain::journal, entry_about("c1", "goes"));
            writing.append(Chain::looks, entry_about("c1", "goes too"));
            hash = writing.keep_document("goes as well");
            writing.project(projection_of("c1", 1));
            throw std::runtime_error("refused: clopidogrel was added meanwhile");
        });
        ADD_FAILURE() << "nothing came through";
    } catch (const std::runtime_error& refusal) {
        EXPECT_STREQ(refusal.what(), "refused: clopidogrel was added meanwhile");
    }
    EXPECT_EQ(store().head(Chain::journal), before);
    EXPECT_EQ(store().head(Chain::looks), Head{});
    EXPECT_THAT(payloads_of(store()), ElementsAre("stays"));
    EXPECT_EQ(store().document(hash), std::nullopt);
    EXPECT_EQ(store().projection("c1"), std::nullopt);
    EXPECT_EQ(append(store(), "c1", "next").number, 2);
    EXPECT_EQ(damages_in(store()), "");
}

TEST_P(Entries, AnExceptionPutsBackTheProjectionThatWasThere)
{
    project(store(), projection_of("c1", 1));
    EXPECT_ANY_THROW(store().write([&](Writing& writing) {
        writing.project(projection_of("c1", 2));
        writing.forget_projections();
        writing.project(projection_of("c9", 9));
        throw 1;
    }));
    EXPECT_EQ(store().projection("c1"), projection_of("c1", 1));
    EXPECT_EQ(store().projection("c9"), std::nullopt);
}

TEST_P(Entries, AWriteInsideAWriteIsRefusedAndTheOuterOneUndone)
{
    EXPECT_THROW(store().write([&](Writing& writing) {
        writing.append(Chain::journal, entry_about("c1", "outer"));
        store().write([](Writing&) {});
    }),
                 std::logic_error);
    EXPECT_THAT(payloads_of(store()), IsEmpty());
    append(store(), "c1", "after");
    EXPECT_THAT(payloads_of(store()), ElementsAre("after"));
}

TEST_P(Entries, TwoHandlesSeeEachOthersEntriesAndMakeOneChain)
{
    const auto other = other_handle();
    append(store(), "c1", "a");
    EXPECT_THAT(payloads_of(*other), ElementsAre("a"));
    append(*other, "c1", "b");
    append(store(), "c1", "c");
    EXPECT_THAT(payloads_of(*other), ElementsAre("a", "b", "c"));
    EXPECT_EQ(store().head(Chain::journal), other->head(Chain::journal));
    EXPECT_EQ(damages_in(store()), "");
}

TEST_P(Entries, EightWritersAtOnceLoseNothingAndDoubleNothing)
{
    constexpr int writers = 8;
    constexpr int each = 40;
    std::vector<std::shared_ptr<store::Store>> handles;
    for (int writer = 0; writer < writers; ++writer) {
        // Every other one shares the first handle: threads of one program.
        handles.push_back(writer % 2 == 0 ? std::shared_ptr<store::Store>{&store(), [](auto*) {}}
                                          : other_handle());
    }
    std::vector<std::jthread> threads;
    for (int writer = 0; writer < writers; ++writer) {
        threads.emplace_back([&, writer] {
            for (int i = 0; i < each; ++i) {
                append(*handles[static_cast<std::size_t>(writer)], "c1",
                       std::to_string(writer) + ':' + std::to_string(i));
            }
        });
    }
    threads.clear();
    const std::vector<std::string> payloads = payloads_of(store());
    EXPECT_EQ(payloads.size(), static_cast<std::size_t>(writers * each));
    EXPECT_EQ(std::set<std::string>(payloads.begin(), payloads.end()).size(), payloads.size());
    EXPECT_EQ(damages_in(store()), "");
}

TEST_P(Entries, AReaderNeverSeesHalfOfATransaction)
{
    const auto other = other_handle();
    std::atomic<bool> done = false;
    std::jthread writer{[&] {
        for (int i = 0; i < 100; ++i) {
            store().write([&](Writing& writing) {
                writing.append(Chain::journal, entry_about("c1", "first of two"));
                writing.append(Chain::journal, entry_about("c1", "second of two"));
            });
        }
        done = true;
    }};
    while (!done) {
        EXPECT_EQ(other->entries_of("c1").size() % 2, 0U);
    }
}

INSTANTIATE_TEST_SUITE_P(Stored, Entries, both_kinds(), name_of_kind);

TEST(HashBytes, AreTheLengthPrefixedFieldsInTheOrderOfTheFormat)
{
    Entry entry{12, entry_about("c7", "{\"a\":1}"), {}};
    entry.said.kind_version = 3;
    const std::string zeros(64, '0');
    const auto field = [](const std::string& text) {
        return std::string{'\0', '\0', '\0', static_cast<char>(text.size())} + text;
    };
    EXPECT_EQ(hash_bytes(Chain::looks, entry, zeros),
              field("looks") + field("12") + field("c7") + field("2027-04-12T13:00:00Z") + field("n.ortega") +
                  field("phone 2") + field("note") + field("3") + field("{\"a\":1}") + field(zeros));
}

TEST(HashBytes, SecondsAreWrittenAndYearsHaveFourDigits)
{
    EXPECT_EQ(store::iso_utc(date::sys_days{date::year{33} / 4 / 3} + std::chrono::seconds{61}),
              "0033-04-03T00:01:01Z");
    EXPECT_EQ(store::iso_utc(screening::Moment{std::chrono::seconds{-1}}), "1969-12-31T23:59:59Z");
    EXPECT_EQ(store::iso_utc(date::sys_days{date::year{2028} / 2 / 29} + std::chrono::hours{23}),
              "2028-02-29T23:00:00Z");
}

TEST(HashBytes, AMomentThatNoEntryCanHaveIsStillToldApart)
{
    EXPECT_EQ(store::iso_utc(screening::Moment{std::chrono::seconds{INT64_MAX}}), "9223372036854775807");
    EXPECT_EQ(store::iso_utc(screening::Moment{std::chrono::seconds{INT64_MIN}}), "-9223372036854775808");
}

}  // namespace
}  // namespace foreday::tests
