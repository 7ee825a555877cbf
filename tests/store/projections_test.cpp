#include <gmock/gmock.h>

#include "data/reading/hashing.h"
#include "tests/store/either_store.h"
#include "tests/support/seed.h"

namespace foreday::tests {
namespace {

using store::CaseProjection;
using store::Writing;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::UnorderedElementsAre;

const screening::Date today = date::local_days{date::year{2027} / 4 / 20};

class Documents : public EitherStore {};

TEST_P(Documents, AreKeptUnderTheHashOfTheirBytes)
{
    const std::string page = "page as shown \xC5\x81" + std::string(100'000, 'x') + '\0' + "end";
    std::string hash;
    store().write([&](Writing& writing) { hash = writing.keep_document(page); });
    EXPECT_EQ(hash, data::sha256_hex(page));
    EXPECT_EQ(store().document(hash), page);
    EXPECT_EQ(other_handle()->document(hash), page);
    EXPECT_EQ(store().document(std::string(64, 'a')), std::nullopt);
}

TEST_P(Documents, TheEmptyOneIsKeptAsWell)
{
    std::string hash;
    store().write([&](Writing& writing) { hash = writing.keep_document(""); });
    EXPECT_EQ(store().document(hash), "");
}

TEST_P(Documents, TheSameBytesAreKeptOnce)
{
    store().write([&](Writing& writing) {
        EXPECT_EQ(writing.keep_document("a"), writing.keep_document("a"));
        writing.keep_document("b");
    });
    store().write([&](Writing& writing) { writing.keep_document("a"); });
    EXPECT_EQ(store().info().documents, 2);
}

TEST_P(Documents, AreListedByHashAfterAGivenOne)
{
    std::vector<std::string> hashes;
    store().write([&](Writing& writing) {
        for (const char* bytes : {"a", "b", "c", "d"}) {
            hashes.push_back(writing.keep_document(bytes));
        }
    });
    std::ranges::sort(hashes);
    EXPECT_EQ(store().documents("", 10), hashes);
    EXPECT_THAT(store().documents(hashes[1], 1), ElementsAre(hashes[2]));
    EXPECT_THAT(store().documents(hashes[3], 1), IsEmpty());
}

TEST_P(Documents, OneOf64MiBIsKeptAndOneByteMoreRefused)
{
    const std::string longest(std::size_t{64} << 20U, 'x');
    std::string hash;
    store().write([&](Writing& writing) { hash = writing.keep_document(longest); });
    EXPECT_EQ(store().document(hash), longest);
    EXPECT_THROW(store().write([&](Writing& writing) { writing.keep_document(longest + 'x'); }),
                 std::invalid_argument);
}

INSTANTIATE_TEST_SUITE_P(Stored, Documents, both_kinds(), name_of_kind);

class Projections : public EitherStore {};

TEST_P(Projections, EveryFieldIsReadBack)
{
    CaseProjection one = projection_of("c1", 1);
    one.finished = true;
    one.here_since = at_minute(1);
    one.gone_in = at_minute(2);
    one.ended = at_minute(3);
    project(store(), one);
    EXPECT_EQ(store().projection("c1"), one);
    EXPECT_EQ(other_handle()->projection("c1"), one);
    EXPECT_EQ(store().projection("c2"), std::nullopt);
}

TEST_P(Projections, ALaterOneTakesThePlaceOfTheOneThere)
{
    project(store(), projection_of("c1", 1));
    CaseProjection bare;
    bare.case_id = "c1";
    project(store(), bare);
    EXPECT_EQ(store().projection("c1"), bare);
    EXPECT_EQ(store().info().cases, 1);
    EXPECT_THAT(store().undecided(), IsEmpty());
    EXPECT_THAT(store().with_calls(at_minute(100'000)), IsEmpty());
    EXPECT_THAT(store().search({"nunez"}, std::nullopt, today, 10), IsEmpty());
}

TEST_P(Projections, ForgettingDropsAllOfThemAndNoEntry)
{
    append(store(), "c1", "a");
    project(store(), projection_of("c1", 1));
    project(store(), projection_of("c2", 2));
    store().write([](Writing& writing) { writing.forget_projections(); });
    EXPECT_EQ(store().info().cases, 0);
    EXPECT_THAT(store().on_day(projection_of("c1", 1).day), IsEmpty());
    EXPECT_THAT(store().search({"nunez"}, std::nullopt, today, 10), IsEmpty());
    EXPECT_THAT(payloads_of(store()), ElementsAre("a"));
}

TEST_P(Projections, ACallIsOnTheListFromItsMomentOnAndNotASecondBefore)
{
    CaseProjection one = projection_of("c1", 1);
    one.calls.resize(1);
    project(store(), one);
    const screening::Moment due = one.calls[0].due_from;
    EXPECT_THAT(store().with_calls(due - std::chrono::seconds{1}), IsEmpty());
    EXPECT_THAT(store().with_calls(due), ElementsAre(one));
    EXPECT_THAT(store().with_calls(due + std::chrono::seconds{1}), ElementsAre(one));
}

TEST_P(Projections, ACaseWithTwoCallsDueIsGivenOnceAndAFinishedOneNotAtAll)
{
    project(store(), projection_of("c1", 1));
    CaseProjection finished = projection_of("c2", 2);
    finished.finished = true;
    project(store(), finished);
    EXPECT_THAT(ids_of(store().with_calls(at_minute(100'000))), ElementsAre("c1"));
}

TEST_P(Projections, UndecidedAreTheCasesWithAnItemNobodyHasDecided)
{
    project(store(), projection_of("c1", 1));
    CaseProjection decided = projection_of("c2", 2);
    decided.undecided.clear();
    project(store(), decided);
    project(store(), projection_of("c3", 3));
    EXPECT_THAT(ids_of(store().undecided()), UnorderedElementsAre("c1", "c3"));
}

TEST_P(Projections, TheListOfADayHasItsCasesAndNoOthers)
{
    for (int i = 0; i < 3; ++i) {
        CaseProjection one = projection_of('c' + std::to_string(i), i);
        one.day = today + date::days{i / 2};
        project(store(), one);
    }
    EXPECT_THAT(ids_of(store().on_day(today)), UnorderedElementsAre("c0", "c1"));
    EXPECT_THAT(ids_of(store().on_day(today + date::days{1})), UnorderedElementsAre("c2"));
    EXPECT_THAT(store().on_day(today - date::days{1}), IsEmpty());
}

TEST_P(Projections, LookedAtAgainAreOpenCasesOfOtherRulesOrWhoseMomentHasCome)
{
    const auto put = [&](const char* id, const char* rules, int minute, bool finished) {
        CaseProjection one = projection_of(id, 1);
        one.rules_hash = rules;
        one.look_again = at_minute(minute);
        one.finished = finished;
        project(store(), one);
    };
    put("a just before", "new", 101, false);
    put("b just now", "new", 100, false);
    put("c older rules", "old", 500, false);
    put("d finished", "old", 0, true);
    EXPECT_THAT(store().to_look_at_again("new", at_minute(100), 10),
                UnorderedElementsAre("b just now", "c older rules"));
    EXPECT_EQ(store().to_look_at_again("new", at_minute(100), 1).size(), 1U);
    EXPECT_THAT(store().to_look_at_again("old", at_minute(99), 10),
                UnorderedElementsAre("a just before", "b just now"));
    EXPECT_THAT(store().to_look_at_again("new", at_minute(100), 0), IsEmpty());
}

TEST_P(Projections, OneProgramIsElectedUntilItsTimeIsOver)
{
    const auto other = other_handle();
    EXPECT_TRUE(store().elect("desk 1", at_minute(0), at_minute(10)));
    EXPECT_FALSE(other->elect("desk 2", at_minute(9), at_minute(19)));
    EXPECT_TRUE(store().elect("desk 1", at_minute(5), at_minute(15)));
    EXPECT_FALSE(other->elect("desk 2", at_minute(14), at_minute(24)));
    EXPECT_TRUE(other->elect("desk 2", at_minute(15), at_minute(25)));
    EXPECT_FALSE(store().elect("desk 1", at_minute(16), at_minute(26)));
}

INSTANTIATE_TEST_SUITE_P(Stored, Projections, both_kinds(), name_of_kind);

class Search : public EitherStore {
protected:
    void put(const std::string& id, const std::vector<std::string>& words, int days_away, int birth_day = 1)
    {
        CaseProjection one = projection_of(id, 1);
        one.search_words = words;
        one.day = today + date::days{days_away};
        one.born = date::local_days{date::year{1960} / 1 / birth_day};
        project(store(), one);
    }
    std::vector<std::string> found(const std::vector<std::string>& words,
                                   std::optional<screening::Date> born = std::nullopt,
                                   std::size_t at_most = 10)
    {
        return ids_of(store().search(words, born, today, at_most));
    }
};

TEST_P(Search, EveryWordMustBeginSomeWordOfTheCase)
{
    put("c1", {"nunez", "lucja", "lm000001", "5550100001"}, 0);
    put("c2", {"nunn", "ann", "lm000002"}, 0);
    EXPECT_THAT(found({"nun"}), ElementsAre("c1", "c2"));
    EXPECT_THAT(found({"nune"}), ElementsAre("c1"));
    EXPECT_THAT(found({"nun", "an"}), ElementsAre("c2"));
    EXPECT_THAT(found({"l", "nunez", "555"}), ElementsAre("c1"));
    EXPECT_THAT(found({"unez"}), IsEmpty());
    EXPECT_THAT(found({"nunezz"}), IsEmpty());
    EXPECT_THAT(found({"nun", "x"}), IsEmpty());
}

TEST_P(Search, TheNearestDayComesFirstBeforeOrAfterAndThenTheCaseId)
{
    put("c4", {"ng"}, 1);
    put("c3", {"ng"}, -1);
    put("c1", {"ng"}, 2);
    put("c2", {"ng"}, -300);
    put("c5", {"ng"}, 0);
    EXPECT_THAT(found({"n"}), ElementsAre("c5", "c3", "c4", "c1", "c2"));
    EXPECT_THAT(found({"n"}, std::nullopt, 2), ElementsAre("c5", "c3"));
    EXPECT_THAT(found({"n"}, std::nullopt, 0), IsEmpty());
}

TEST_P(Search, ACaseWithTwoFittingWordsIsFoundOnce)
{
    put("c1", {"maria", "marek"}, 0);
    put("c2", {"mara"}, 1);
    EXPECT_THAT(found({"mar"}), ElementsAre("c1", "c2"));
    EXPECT_THAT(found({"mar"}, std::nullopt, 1), ElementsAre("c1"));
}

TEST_P(Search, ABirthDateNarrowsItAndIsEnoughByItself)
{
    put("c1", {"ng"}, 0, 1);
    put("c2", {"ng"}, 1, 2);
    put("c3", {"okafor"}, 2, 2);
    const screening::Date second = date::local_days{date::year{1960} / 1 / 2};
    EXPECT_THAT(found({"ng"}, second), ElementsAre("c2"));
    EXPECT_THAT(found({}, second), ElementsAre("c2", "c3"));
    EXPECT_THAT(found({"ng"}, second + date::days{1}), IsEmpty());
}

TEST_P(Search, NothingAskedForIsEveryCaseAndAnEmptyWordSaysNothing)
{
    put("c1", {"ng"}, 0);
    put("c2", {}, 1);
    EXPECT_THAT(found({}), ElementsAre("c1", "c2"));
    EXPECT_THAT(found({""}), ElementsAre("c1", "c2"));
    EXPECT_THAT(found({"", "n"}), ElementsAre("c1"));
}

TEST_P(Search, WordsBeyondLatinLettersAndSignsOfPatternsAreTakenAsTheyAre)
{
    put("c1", {"\xD0\xB8\xD0\xB2\xD0\xB0\xD0\xBD"}, 0);
    put("c2", {"100%"}, 0);
    put("c3", {"1000"}, 0);
    put("c4", {"a\xF4\x8F\xBF\xBFz"}, 0);
    EXPECT_THAT(found({"\xD0\xB8\xD0\xB2"}), ElementsAre("c1"));
    EXPECT_THAT(found({"100%"}), ElementsAre("c2"));
    EXPECT_THAT(found({"1_0"}), IsEmpty());
    EXPECT_THAT(found({"a\xF4\x8F\xBF\xBF"}), ElementsAre("c4"));
}

INSTANTIATE_TEST_SUITE_P(Stored, Search, both_kinds(), name_of_kind);

/// Random books asked random questions: both kinds of store must say the same.
TEST(TwoStores, GiveTheSameAnswersToTheSameQuestions)
{
    std::mt19937_64 random{seed_of_this_run()};
    const TemporaryFolder folder;
    const auto book = store::create_book(folder.path() / "unit.foreday");
    const auto memory = store::make_memory_store();
    const auto any_word = [&] {
        std::string word;
        for (auto length = any_between(random, 1, 4); length > 0; --length) {
            word += static_cast<char>('a' + any_between(random, 0, 2));
        }
        return word;
    };
    std::vector<CaseProjection> cases;
    for (int i = 0; i < 300; ++i) {
        CaseProjection one = projection_of('c' + std::to_string(any_between(random, 1, 200)), i);
        one.search_words = {any_word(), any_word(), any_word()};
        one.day = today + date::days{any_between(random, -20, 20)};
        one.born = today - date::days{20'000 + any_between(random, 0, 3)};
        one.finished = any_between(random, 0, 1) == 0;
        one.rules_hash = any_word().substr(0, 1);
        cases.push_back(one);
    }
    for (store::Store* store : {book.get(), memory.get()}) {
        store->write([&](Writing& writing) {
            for (const CaseProjection& one : cases) {
                writing.project(one);
            }
        });
    }
    for (int i = 0; i < 300; ++i) {
        std::vector<std::string> words;
        for (auto count = any_between(random, 0, 3); count > 0; --count) {
            words.push_back(any_word().substr(0, static_cast<std::size_t>(any_between(random, 1, 4))));
        }
        const auto born = any_between(random, 0, 2) == 0
                              ? std::optional{today - date::days{20'000 + any_between(random, 0, 3)}}
                              : std::nullopt;
        const auto around = today + date::days{any_between(random, -20, 20)};
        const auto at_most = static_cast<std::size_t>(any_between(random, 0, 30));
        EXPECT_EQ(book->search(words, born, around, at_most), memory->search(words, born, around, at_most));
        const screening::Moment now = at_minute(static_cast<int>(any_between(random, 0, 400)));
        EXPECT_THAT(book->with_calls(now), testing::UnorderedElementsAreArray(memory->with_calls(now)));
        EXPECT_THAT(book->on_day(around), testing::UnorderedElementsAreArray(memory->on_day(around)));
        const std::string rules = any_word().substr(0, 1);
        EXPECT_EQ(book->to_look_at_again(rules, now, at_most), memory->to_look_at_again(rules, now, at_most));
    }
}

}  // namespace
}  // namespace foreday::tests
