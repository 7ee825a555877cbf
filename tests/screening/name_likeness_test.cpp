#include "screening/name_likeness.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <utility>
#include <vector>

namespace foreday::screening {
namespace {

using Pairs = std::vector<std::pair<std::string, std::string>>;

void expect_sounding_alike(const Pairs& pairs)
{
    for (const auto& [one, other] : pairs) {
        EXPECT_EQ(sound_key(one), sound_key(other)) << one << " and " << other;
    }
}

/// Short texts of few letters, so that swaps and repeats come up.
rc::Gen<std::string> few_letters()
{
    return rc::gen::resize(8, rc::gen::container<std::string>(rc::gen::element('a', 'b', 'c')));
}

TEST(SpellingErrors, ALetterDroppedAddedOrReplacedCountsOne)
{
    EXPECT_EQ(spelling_errors("warfarin", "warfarin"), 0);
    EXPECT_EQ(spelling_errors("warfarin", "wafarin"), 1);
    EXPECT_EQ(spelling_errors("warfarin", "warrfarin"), 1);
    EXPECT_EQ(spelling_errors("warfarin", "warferin"), 1);
    EXPECT_EQ(spelling_errors("warfarin", ""), 8);
    EXPECT_EQ(spelling_errors("", ""), 0);
}

TEST(SpellingErrors, TwoNeighboursSwappedCountOne)
{
    EXPECT_EQ(spelling_errors("plavix", "palvix"), 1);
    EXPECT_EQ(spelling_errors("ab", "ba"), 1);
    EXPECT_EQ(spelling_errors("plavix", "palvxi"), 2);
}

TEST(SpellingErrors, NoLetterIsTouchedTwice)
{
    // Swapped and then parted by a letter would be two; restricted, it is three.
    EXPECT_EQ(spelling_errors("ca", "abc"), 3);
}

TEST(SpellingErrors, BeyondTheMostAskedForEveryDistanceIsOneMore)
{
    EXPECT_EQ(spelling_errors("hydroxyzine", "hydralazine", 4), 3);
    EXPECT_EQ(spelling_errors("hydroxyzine", "hydralazine", 3), 3);
    EXPECT_EQ(spelling_errors("hydroxyzine", "hydralazine", 2), 3);
    EXPECT_EQ(spelling_errors("hydroxyzine", "hydralazine", 1), 2);
    EXPECT_EQ(spelling_errors("hydroxyzine", "hydralazine", 0), 1);
}

TEST(SpellingErrors, ASwapAtTheLimitIsNotGivenUpTooEarly)
{
    EXPECT_EQ(spelling_errors("ab", "ba", 1), 1);
    EXPECT_EQ(spelling_errors("lasix", "lasxi", 1), 1);
    EXPECT_EQ(spelling_errors("alsix", "lasix", 1), 1);
}

RC_GTEST_PROP(SpellingErrors, AreTheSameBothWaysAndNoMoreThanTheLongerText, ())
{
    const std::string one = *few_letters();
    const std::string other = *few_letters();
    const int errors = spelling_errors(one, other);
    RC_ASSERT(errors == spelling_errors(other, one));
    RC_ASSERT((errors == 0) == (one == other));
    RC_ASSERT(errors <= static_cast<int>(std::max(one.size(), other.size())));
}

/// The distance as its definition says, slow and plain.
int errors_by_definition(std::string_view one, std::string_view other)
{
    if (one.empty() || other.empty()) {
        return static_cast<int>(std::max(one.size(), other.size()));
    }
    const auto rest = [](std::string_view text, std::size_t by) { return text.substr(0, text.size() - by); };
    int fewest = errors_by_definition(rest(one, 1), rest(other, 1)) + (one.back() == other.back() ? 0 : 1);
    fewest = std::min(fewest, errors_by_definition(rest(one, 1), other) + 1);
    fewest = std::min(fewest, errors_by_definition(one, rest(other, 1)) + 1);
    if (one.size() > 1 && other.size() > 1 && one.back() == other[other.size() - 2] &&
        other.back() == one[one.size() - 2]) {
        fewest = std::min(fewest, errors_by_definition(rest(one, 2), rest(other, 2)) + 1);
    }
    return fewest;
}

RC_GTEST_PROP(SpellingErrors, AreThoseOfTheDefinition, ())
{
    const std::string one = *few_letters();
    const std::string other = *few_letters();
    RC_ASSERT(spelling_errors(one, other) == errors_by_definition(one, other));
}

RC_GTEST_PROP(SpellingErrors, OfTextsOfAnyLengthDoNotChangeWithACommonBeginning, ())
{
    // Sixty letters more take the same texts past the sixty-four that are compared in one go.
    const std::string one = *few_letters();
    const std::string other = *few_letters();
    const std::string before(60, 'z');
    RC_ASSERT(spelling_errors(before + one, before + other) == spelling_errors(one, other));
}

RC_GTEST_PROP(SpellingErrors, WithALimitAgreeWithThoseWithout, ())
{
    const std::string one = *few_letters();
    const std::string other = *few_letters();
    const int at_most = *rc::gen::inRange(0, 10);
    RC_ASSERT(spelling_errors(one, other, at_most) == std::min(spelling_errors(one, other), at_most + 1));
}

TEST(SpellingErrors, AreNeverFewerThanTheLettersOnlyOneTextHolds)
{
    EXPECT_EQ(fewest_errors(letters_held("warfarin"), letters_held("farwarin")), 0);
    EXPECT_EQ(fewest_errors(letters_held("plavix"), letters_held("plavi")), 1);
    EXPECT_EQ(fewest_errors(letters_held("abc"), letters_held("xyz")), 3);
    EXPECT_EQ(fewest_errors(letters_held("abc"), letters_held("")), 3);
}

RC_GTEST_PROP(SpellingErrors, AreNeverFewerThanTheLettersHeldTell, ())
{
    const auto one = *rc::gen::arbitrary<std::string>();
    const auto other = *rc::gen::arbitrary<std::string>();
    RC_ASSERT(fewest_errors(letters_held(one), letters_held(other)) <= spelling_errors(one, other));
}

TEST(SpellingErrors, TextsLongerThanAnyNameAreComparedToo)
{
    const std::string longest(300, 'a');
    EXPECT_EQ(spelling_errors(longest, longest), 0);
    EXPECT_EQ(spelling_errors(longest, longest.substr(1)), 1);
    for (std::size_t length = 60; length < 70; ++length) {
        EXPECT_EQ(spelling_errors(longest.substr(0, length), std::string(length, 'b')),
                  static_cast<int>(length));
    }
}

TEST(SoundKey, PhIsFAndQuIsK)
{
    expect_sounding_alike({{"glucophage", "glucofage"}, {"eliquis", "elikis"}, {"naproxen", "naprocksen"}});
    EXPECT_EQ(sound_key("ibuprophen"), "abaprafan");
}

TEST(SoundKey, CIsSBeforeEIAndYAndKElsewhere)
{
    expect_sounding_alike({{"celexa", "selexa"},
                           {"citalopram", "sitalopram"},
                           {"cymbalta", "symbalta"},
                           {"coumadin", "koumadin"},
                           {"clonidine", "klonidine"},
                           {"prozac", "prozack"},
                           {"cholestyramine", "kolestyramine"}});
    EXPECT_NE(sound_key("celexa"), sound_key("kelexa"));
}

TEST(SoundKey, XStartsAsSAndIsOneSoundWithKsElsewhere)
{
    expect_sounding_alike({{"xarelto", "zarelto"}, {"xanax", "zanax"}, {"plavix", "plavicks"}});
    EXPECT_NE(sound_key("plavix"), sound_key("plavis"));
}

TEST(SoundKey, ZIsSAndGIsSoftBeforeEIAndY)
{
    expect_sounding_alike({{"zyrtec", "syrtec"}, {"januvia", "genuvia"}, {"trazodone", "trasodone"}});
    EXPECT_NE(sound_key("gabapentin"), sound_key("jabapentin"));
}

TEST(SoundKey, GhtIsT)
{
    EXPECT_EQ(sound_key("fleckanight"), sound_key("flecanit"));
    EXPECT_NE(sound_key("ghost"), sound_key("host")) << "only before t";
}

TEST(PlainSpelling, WritesPhAsF)
{
    EXPECT_EQ(plainly_spelled("morphine"), "morfine");
    EXPECT_EQ(plainly_spelled("phosphate"), "fosfate");
    EXPECT_EQ(plainly_spelled("hp"), "hp");
    EXPECT_EQ(plainly_spelled("p"), "p");
    EXPECT_EQ(plainly_spelled(""), "");
}

TEST(SoundKey, HAndALastEAreSilent)
{
    expect_sounding_alike({{"synthroid", "syntroid"},
                           {"humira", "umira"},
                           {"amlodipine", "amlodipin"},
                           {"metformin", "metformine"}});
}

TEST(SoundKey, SomeFirstLettersAreSilent)
{
    expect_sounding_alike({{"pseudoephedrine", "sudoefedrin"}, {"psyllium", "sillium"}, {"knopin", "nopin"}});
    EXPECT_EQ(sound_key("pravastatin").front(), 'p') << "p is heard before any other letter";
}

TEST(SoundKey, WIsVBeforeAVowelAndElseSilent)
{
    expect_sounding_alike(
        {{"warfarin", "varfarin"}, {"losartan", "low sartan"}, {"kawasa", "kavasa"}, {"eliquis", "elikwis"}});
}

TEST(SoundKey, VowelsFallTogetherAndDoubledLettersCountOnce)
{
    expect_sounding_alike({{"lisinopril", "lysinopril"},
                           {"coumadin", "cumadin"},
                           {"keppra", "kepra"},
                           {"brilinta", "brillinta"},
                           {"lipitor", "lipator"}});
}

TEST(SoundKey, BlanksGoAndDigitsStayEvenDoubled)
{
    expect_sounding_alike({{"gabapentin", "gaba pentin"}});
    EXPECT_EQ(sound_key("mix 75 55"), "max7555");
}

TEST(SoundKey, NothingSoundsLikeNothing)
{
    EXPECT_EQ(sound_key(""), "");
    EXPECT_EQ(sound_key("h"), "");
    EXPECT_EQ(sound_key("e"), "a") << "a lone e is not a last e";
}

TEST(SoundKey, LettersOfOtherScriptsStayAsTheyAre)
{
    EXPECT_EQ(sound_key("аспирин"), "аспирин");
}

TEST(SoundErrors, AVowelMoreOrLessIsHalfAnErrorAndAConsonantAWholeOne)
{
    EXPECT_EQ(half_errors_of_sound("lapatar", "lapatar"), 0);
    EXPECT_EQ(half_errors_of_sound("lapatar", "laptar"), 1);
    EXPECT_EQ(half_errors_of_sound("lapatar", "lapata"), 2);
    EXPECT_EQ(half_errors_of_sound("lapatar", "lapatal"), 2);
    EXPECT_EQ(half_errors_of_sound("lapatar", "lpaatar"), 2) << "a swap";
    EXPECT_EQ(half_errors_of_sound("", "lat"), 5);
}

TEST(SoundErrors, SoundsATelephoneDoesNotKeepApartAreHalfAnError)
{
    for (const auto& [one, other] :
         Pairs{{"b", "p"}, {"d", "t"}, {"g", "k"}, {"f", "v"}, {"m", "n"}, {"s", "x"}}) {
        EXPECT_EQ(half_errors_of_sound(one, other), 1) << one << other;
        EXPECT_EQ(half_errors_of_sound(other, one), 1) << other << one;
    }
    EXPECT_EQ(half_errors_of_sound("b", "t"), 2);
    EXPECT_EQ(half_errors_of_sound("l", "r"), 2);
}

}  // namespace
}  // namespace foreday::screening
