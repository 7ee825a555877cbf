#include "screening/medicine_lookup.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <span>

#include "tests/screening/heard.h"

namespace foreday::screening {
namespace {

using namespace heard;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

constexpr std::size_t no_limit = 1000;

TEST(MedicineLookup, ANameHeardAsItIsComesFirstWithTheFullScore)
{
    for (const auto& name : all_names()) {
        const auto best = first(name.folded);
        EXPECT_EQ(best.medicine_id, name.medicine_id) << name.folded;
        EXPECT_EQ(best.shown, name.shown);
        EXPECT_EQ(best.score, 1000);
        EXPECT_EQ(best.how, "exact");
    }
}

TEST(MedicineLookup, OnlyANameHeardAsItIsHasTheFullScore)
{
    for (const std::string_view heard : {"warfari", "warfarin 5 mg", "war farin", "wafarin", "insulin"}) {
        for (const auto& candidate : rank_candidates(names(), heard, no_limit)) {
            EXPECT_LT(candidate.score, 1000) << heard << ": " << candidate.shown;
            EXPECT_GT(candidate.score, 0);
            EXPECT_NE(candidate.how, "exact");
        }
    }
}

TEST(MedicineLookup, SaysHowItCameToEachCandidate)
{
    EXPECT_EQ(first("plavix").how, "exact");
    EXPECT_EQ(first("plav").how, "begins with");
    EXPECT_EQ(first("plavix 75 mg").how, "contains");
    EXPECT_EQ(first("glargine").how, "contains");
    EXPECT_EQ(first("palvix").how, "spelling");
    EXPECT_EQ(first("elle quiz").how, "sound");
}

TEST(MedicineLookup, FourLettersBeginANameAndThreeAreTooFew)
{
    EXPECT_THAT(offered("lis"), IsEmpty());
    EXPECT_THAT(offered("lisi"), ElementsAre("lisinopril"));
    EXPECT_THAT(offered("lisin"), ElementsAre("lisinopril"));
}

TEST(MedicineLookup, TheMoreOfANameWasTypedTheHigherItRanks)
{
    EXPECT_LT(first("lisi").score, first("lisin").score);
    EXPECT_LT(first("lisin").score, first("lisinop").score);
}

TEST(MedicineLookup, AShortNameIsFoundOnlyAsItIs)
{
    EXPECT_EQ(first("yaz").medicine_id, "drospirenone");
    EXPECT_THAT(offered("yax"), IsEmpty());
    EXPECT_EQ(first("tums").medicine_id, "calcium carbonate");
    EXPECT_THAT(offered("toms"), IsEmpty()) << "though it sounds the same";
}

TEST(MedicineLookup, ANameOfFiveLettersMayBeMisheardByOne)
{
    EXPECT_THAT(offered("xanac"), Contains("alprazolam"));
    EXPECT_THAT(offered("advl"), Contains("ibuprofen"));
}

TEST(MedicineLookup, ABlankInTheWrongPlaceDoesNoHarm)
{
    EXPECT_EQ(first("war farin").medicine_id, "warfarin");
    EXPECT_EQ(first("peptobismol").medicine_id, "bismuth subsalicylate");
    EXPECT_EQ(first(" warfarin  5").medicine_id, "warfarin") << "though folding leaves no such blanks";
}

TEST(MedicineLookup, DoseFormAndSaltSaidWithANameDoNoHarm)
{
    EXPECT_EQ(first("metoprolol succinate er 50 mg").medicine_id, "metoprolol");
    EXPECT_EQ(first("metoprolal tartrate 25mg twice daily").medicine_id, "metoprolol");
    EXPECT_EQ(first("losartan potassium").medicine_id, "losartan");
    EXPECT_THAT(offered("two tablets daily"), IsEmpty());
    EXPECT_THAT(offered("50 mg"), IsEmpty());
}

TEST(MedicineLookup, ANameInsideASentenceIsFoundEvenMisspelled)
{
    EXPECT_EQ(first("i take aspirin in the morning").medicine_id, "aspirin");
    EXPECT_EQ(first("i take asprin in the morning").medicine_id, "aspirin");
    EXPECT_LT(first("i take asprin in the morning").score, first("asprin").score);
}

TEST(MedicineLookup, ANameInsideAWordIsNotHeard)
{
    const auto index = make_lookup_index({{"iron", "iron", "iron", {}}});
    EXPECT_THAT(medicines(rank_candidates(index, "iron pills")), ElementsAre("iron"));
    EXPECT_THAT(medicines(rank_candidates(index, "an iron pill")), ElementsAre("iron"));
    EXPECT_THAT(rank_candidates(index, "an environ pill"), IsEmpty());
    EXPECT_THAT(rank_candidates(index, "an irony pill"), IsEmpty());
}

TEST(MedicineLookup, EachMedicineIsOfferedOnceByItsNearestName)
{
    const auto candidates = rank_candidates(names(), "celexa", no_limit);
    auto ids = medicines(candidates);
    std::sort(ids.begin(), ids.end());
    EXPECT_EQ(std::adjacent_find(ids.begin(), ids.end()), ids.end()) << in_words(candidates);
    EXPECT_EQ(candidates.front().shown, "Celexa") << "and not citalopram, its generic name";
}

TEST(MedicineLookup, AMedicineWithTwoNamesThatFitAlikeIsShownByTheFirstOfThem)
{
    const auto index = make_lookup_index({{"abcdefm", "Second", "m", LookupName::Kind::local},
                                          {"abcdefn", "First", "m", LookupName::Kind::brand}});
    EXPECT_THAT(in_words(rank_candidates(index, "abcdef")), "m|First|914|begins with\n");
}

TEST(MedicineLookup, MedicinesThatShareANameAreAllOfferedInTheOrderOfTheirIds)
{
    const auto index = make_lookup_index({{"exenatide", "exenatide", "exenatide_weekly", {}},
                                          {"exenatide", "exenatide", "exenatide_daily", {}}});
    EXPECT_THAT(in_words(rank_candidates(index, "exenatide")),
                "exenatide_daily|exenatide|1000|exact\nexenatide_weekly|exenatide|1000|exact\n");
}

TEST(MedicineLookup, CandidatesFallInScoreAndTiesFollowTheMedicineId)
{
    for (const std::string_view heard : {"insulin", "hydroxyzine", "prednisone", "losartan", "metf"}) {
        const auto candidates = rank_candidates(names(), heard, no_limit);
        EXPECT_TRUE(std::is_sorted(candidates.begin(), candidates.end(),
                                   [](const auto& one, const auto& other) {
                                       return one.score != other.score ? one.score > other.score
                                                                       : one.medicine_id < other.medicine_id;
                                   }))
            << in_words(candidates);
    }
}

TEST(MedicineLookup, NoMoreAreOfferedThanAskedForAndTheyAreTheHighest)
{
    const auto all = rank_candidates(names(), "insulin", no_limit);
    ASSERT_GT(all.size(), 5U) << "else this proves nothing";
    EXPECT_THAT(rank_candidates(names(), "insulin"), SizeIs(5));
    EXPECT_THAT(rank_candidates(names(), "insulin", 0), IsEmpty());
    for (std::size_t most = 1; most <= all.size() + 1; ++most) {
        const auto some = rank_candidates(names(), "insulin", most);
        const auto expected = std::span(all).first(std::min(most, all.size()));
        EXPECT_EQ(in_words(some), in_words({expected.begin(), expected.end()}));
    }
}

TEST(MedicineLookup, LookAlikesAreBothShown)
{
    for (const auto& [one, other] : look_alikes) {
        const auto meant = first(one).medicine_id;
        const auto taken_for = first(other).medicine_id;
        ASSERT_NE(meant, taken_for);
        EXPECT_THAT(offered(one), Contains(taken_for)) << one << " hides " << other;
        EXPECT_THAT(offered(other), Contains(meant)) << other << " hides " << one;
    }
}

TEST(MedicineLookup, WithoutANameBesideItALookAlikeIsNotFarFetched)
{
    EXPECT_THAT(offered("warfarin"), ElementsAre("warfarin"));
    EXPECT_THAT(offered("eliquis"), ElementsAre("apixaban"));
}

TEST(MedicineLookup, NothingHeardOffersNothing)
{
    EXPECT_THAT(offered(""), IsEmpty());
    EXPECT_THAT(offered(" "), IsEmpty());
    EXPECT_THAT(rank_candidates(make_lookup_index({}), "warfarin"), IsEmpty());
}

TEST(MedicineLookup, ANameThatFoldsToNothingIsNeverOffered)
{
    const auto index =
        make_lookup_index({{"", "?", "a", {}}, {" ", "!", "b", {}}, {"warfarin", "w", "c", {}}});
    EXPECT_THAT(index.entries, SizeIs(1));
    EXPECT_THAT(index.medicine_ids, ElementsAre("c"));
}

TEST(MedicineLookup, TwoHundredBytesAreHeardAndOneMoreIsNoName)
{
    const std::string padding = "warfarin ";
    const std::string longest = padding + std::string(200 - padding.size(), 'z');
    EXPECT_THAT(offered(longest), ElementsAre("warfarin"));
    EXPECT_THAT(offered(longest + "z"), IsEmpty());
}

TEST(MedicineLookup, LettersOfOtherScriptsAreComparedLikeAnyOther)
{
    const auto index = make_lookup_index({{"варфарин", "Варфарин", "warfarin", LookupName::Kind::local}});
    EXPECT_THAT(in_words(rank_candidates(index, "варфарн")), "warfarin|Варфарин|875|spelling\n");
}

TEST(MedicineLookup, TheOrderInWhichTheNamesAreGivenChangesNothing)
{
    std::mt19937 shuffler(20261125);
    auto given = all_names();
    for (int round = 0; round < 20; ++round) {
        std::shuffle(given.begin(), given.end(), shuffler);
        const auto shuffled = make_lookup_index(given);
        for (const std::string_view heard :
             {"insulin", "hydroxyzine", "celexa", "metf", "elle quiz", "prednison"}) {
            EXPECT_EQ(in_words(rank_candidates(shuffled, heard, no_limit)),
                      in_words(rank_candidates(names(), heard, no_limit)));
        }
    }
}

LookupIndex index_of(std::initializer_list<std::string_view> folded)
{
    std::vector<LookupName> all;
    for (const std::string_view name : folded) {
        all.push_back({std::string(name), std::string(name), std::string(name), LookupName::Kind::generic});
    }
    return make_lookup_index(std::move(all));
}

TEST(MedicineLookup, ANameWithAPieceOfItsMiddleLostIsFound)
{
    const LookupIndex index = index_of({"hydrochlorothiazide", "etodolac"});
    EXPECT_THAT(rank_candidates(index, "hydrothiazide"), SizeIs(1));
    EXPECT_THAT(rank_candidates(index, "etolac"), SizeIs(1)) << "three letters of each end";
    EXPECT_THAT(rank_candidates(index, "hydazide"), IsEmpty()) << "less than 600 of 1000";
}

TEST(MedicineLookup, ALongNameThatSoundsNearlyTheSameIsFoundHoweverItIsSpelled)
{
    const LookupIndex index = index_of({"amlodipine", "methotrexate"});
    EXPECT_THAT(rank_candidates(index, "am low to peen"), SizeIs(1));
    EXPECT_THAT(rank_candidates(index, "method trex eight"), SizeIs(1));
}

TEST(MedicineLookup, AnEverydayWordStillBeginsAName)
{
    const LookupIndex index =
        index_of({"fish oil", "evening primrose oil", "potassium chloride", "milk thistle"});
    EXPECT_THAT(rank_candidates(index, "fish"), SizeIs(1)) << "as one types";
    EXPECT_THAT(rank_candidates(index, "milk"), SizeIs(1));
    EXPECT_THAT(rank_candidates(index, "evening"), SizeIs(1));
    EXPECT_THAT(rank_candidates(index, "in the evening"), IsEmpty()) << "it does not begin a name";
}

TEST(MedicineLookup, SeveralEverydayWordsThatStandInANameOfferIt)
{
    const LookupIndex index = index_of({"azelastine nose spray", "aleve arthritis pain"});
    EXPECT_THAT(rank_candidates(index, "nose spray"), SizeIs(1));
    EXPECT_THAT(rank_candidates(index, "arthritis"), IsEmpty()) << "an illness, and no name";
}

TEST(MedicineLookup, ASaltSaidAloneIsNoEverydayWord)
{
    const LookupIndex index = index_of({"potassium chloride", "calcium carbonate"});
    EXPECT_THAT(rank_candidates(index, "potassium"), SizeIs(1));
    EXPECT_THAT(rank_candidates(index, "calcium"), SizeIs(1));
}

TEST(MedicineLookup, EverydayWordsAreNoMisheardNameUnlessTheyAreAName)
{
    const LookupIndex index = index_of({"concerta", "colestipol", "iron"});
    EXPECT_THAT(rank_candidates(index, "concert on friday"), IsEmpty());
    EXPECT_THAT(rank_candidates(index, "cholesterol pill"), IsEmpty());
    EXPECT_THAT(rank_candidates(index, "iron"), SizeIs(1));
}

}  // namespace
}  // namespace foreday::screening
