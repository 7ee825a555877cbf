#include "data/reading/folding.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <string>
#include <vector>

namespace foreday::data {
namespace {

using namespace std::string_view_literals;

TEST(Folding, CaseIsDropped)
{
    EXPECT_EQ(fold("WARFARIN"), "warfarin");
    EXPECT_EQ(fold("NovoLog"), "novolog");
}

TEST(Folding, AccentsAreDroppedComposedOrNot)
{
    EXPECT_EQ(fold("acénocoumarol"), "acenocoumarol");
    EXPECT_EQ(fold("ace\u0301nocoumarol"), "acenocoumarol");
    EXPECT_EQ(fold("Muñoz Çelik Škoda Ångström"), "munoz celik skoda angstrom");
    EXPECT_EQ(fold("Nguyễn"), "nguyen");
}

TEST(Folding, LettersThatNoDecompositionReachesAreSpelledOut)
{
    EXPECT_EQ(fold("Łódź"), "lodz");
    EXPECT_EQ(fold("Sørensen"), "sorensen");
    EXPECT_EQ(fold("Đặng"), "dang");
    EXPECT_EQ(fold("Guðmundur Þór"), "gudmundur thor");
    EXPECT_EQ(fold("Straße STRAẞE"), "strasse strasse");
    EXPECT_EQ(fold("Æsop œuvre"), "aesop oeuvre");
    EXPECT_EQ(fold("Ħal Ŧ Ŋ"), "hal t n");
    EXPECT_EQ(fold("Ɓala Ɗan Ƙasa Ƴaya"), "bala dan kasa yaya");
}

TEST(Folding, DottedAndDotlessIAreI)
{
    EXPECT_EQ(fold("İstanbul ISIRGAN ısırgan"), "istanbul isirgan isirgan");
}

TEST(Folding, PunctuationBecomesOneBlankAndNoneAtTheEnds)
{
    EXPECT_EQ(fold("  Pepto-Bismol! "), "pepto bismol");
    EXPECT_EQ(fold("aspirin / acetaminophen,caffeine"), "aspirin acetaminophen caffeine");
    EXPECT_EQ(fold("St. John's wort"), "st john s wort");
    EXPECT_EQ(fold("St. John\u2019s St. John\u02BCs"), "st john s st john s") << "two more apostrophes";
    EXPECT_EQ(fold("insulin\t70/30\n"), "insulin 70 30");
    EXPECT_EQ(fold("a\u00A0b\u2014c"), "a b c") << "a fixed blank and a long dash";
}

TEST(Folding, TrademarkSignsDoNotStickToTheName)
{
    EXPECT_EQ(fold("Plavix™"), "plavix");
    EXPECT_EQ(fold("Plavix®"), "plavix");
    EXPECT_EQ(fold("Plavix℠ tablets"), "plavix tablets");
}

TEST(Folding, NothingOrOnlyPunctuationFoldsToNothing)
{
    EXPECT_EQ(fold(""), "");
    EXPECT_EQ(fold("   "), "");
    EXPECT_EQ(fold("?!-"), "");
    EXPECT_EQ(fold("\u0301"), "") << "a mark with no letter";
}

TEST(Folding, WidthLigaturesAndDigitsOfOtherScriptsAreTypedOut)
{
    EXPECT_EQ(fold("ｗａｒｆａｒｉｎ　５"), "warfarin 5");
    EXPECT_EQ(fold("ﬁsh oil"), "fish oil");
    EXPECT_EQ(fold("٣ ५"), "3 5");
    EXPECT_EQ(fold("B₁₂"), "b12");
}

TEST(Folding, WhatCannotBeSeenIsLeftOut)
{
    EXPECT_EQ(fold("war\u00ADfa\u200Brin"), "warfarin") << "a soft hyphen and a blank of no width";
    EXPECT_EQ(fold("\uFEFFwarfarin"), "warfarin") << "a byte order mark";
}

TEST(Folding, OtherScriptsKeepTheirLetters)
{
    EXPECT_EQ(fold("Варфарин"), "варфарин");
    EXPECT_EQ(fold("ΒΑΡΦΑΡΊΝΗ"), "βαρφαρινη");
    EXPECT_EQ(fold("华法林"), "华法林");
}

TEST(Folding, BytesThatAreNotUtf8AreLeftOutAndSplitNoWord)
{
    EXPECT_EQ(fold("war\xFF"
                   "farin"),
              "warfarin");
    EXPECT_EQ(fold("warfarin\xC3"), "warfarin") << "cut off inside a letter";
    EXPECT_EQ(fold("\xED\xA0\x80"
                   "warfarin"),
              "warfarin")
        << "half of a surrogate pair";
    EXPECT_EQ(fold("\xC0\xAF"
                   "x"),
              "x")
        << "an overlong slash";
    EXPECT_EQ(fold("war\uFFFDfarin"), "warfarin") << "what another reader put for bytes it could not read";
    EXPECT_EQ(fold("\x80\xBF\xFE"), "");
}

TEST(Folding, AZeroByteIsABlankAndNotTheEnd)
{
    EXPECT_EQ(fold("war\0farin"sv), "war farin");
}

TEST(Folding, NoMoreThanTheFirstMebibyteIsRead)
{
    const std::string mebibyte(std::size_t{1} << 20, 'a');
    EXPECT_EQ(fold(mebibyte), mebibyte);
    EXPECT_EQ(fold(mebibyte + "b"), mebibyte);
    EXPECT_EQ(fold(mebibyte.substr(1) + "é"), mebibyte.substr(1)) << "a letter across the end is left out";
}

/// Any bytes at all, with the lead bytes of UTF-8 among them.
rc::Gen<std::string> any_bytes()
{
    return rc::gen::map(
        rc::gen::arbitrary<std::vector<unsigned char>>(),
        [](const std::vector<unsigned char>& bytes) { return std::string(bytes.begin(), bytes.end()); });
}

/// Letters from every plane, as UTF-8.
rc::Gen<std::string> any_letters()
{
    const auto letter = rc::gen::map(rc::gen::inRange(1, 0x30000), [](int code) {
        std::string text;
        if (code < 0x80) {
            text = {static_cast<char>(code)};
        } else if (code < 0x800) {
            text = {static_cast<char>(0xC0 | (code >> 6)), static_cast<char>(0x80 | (code & 0x3F))};
        } else if (code < 0x10000) {
            text = {static_cast<char>(0xE0 | (code >> 12)), static_cast<char>(0x80 | ((code >> 6) & 0x3F)),
                    static_cast<char>(0x80 | (code & 0x3F))};
        } else {
            text = {static_cast<char>(0xF0 | (code >> 18)), static_cast<char>(0x80 | ((code >> 12) & 0x3F)),
                    static_cast<char>(0x80 | ((code >> 6) & 0x3F)), static_cast<char>(0x80 | (code & 0x3F))};
        }
        return text;
    });
    return rc::gen::map(rc::gen::container<std::vector<std::string>>(letter),
                        [](const std::vector<std::string>& letters) {
                            std::string text;
                            for (const auto& one : letters) {
                                text += one;
                            }
                            return text;
                        });
}

void expect_folded(const std::string& folded)
{
    RC_ASSERT(fold(folded) == folded);
    RC_ASSERT(folded.find("  ") == std::string::npos);
    RC_ASSERT(!folded.starts_with(' '));
    RC_ASSERT(!folded.ends_with(' '));
}

RC_GTEST_PROP(Folding, TwiceIsTheSameAsOnceWhateverTheBytes, ())
{
    expect_folded(fold(*any_bytes()));
}

RC_GTEST_PROP(Folding, TwiceIsTheSameAsOnceWhateverTheLetters, ())
{
    expect_folded(fold(*any_letters()));
}

}  // namespace
}  // namespace foreday::data
