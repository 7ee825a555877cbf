#include "data/reading/folding.h"

#include <unicode/normalizer2.h>
#include <unicode/uchar.h>
#include <unicode/unistr.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <utility>

namespace foreday::data {
namespace {

constexpr std::size_t longest_read = std::size_t{1} << 20;
constexpr UChar32 replacement = 0xFFFD;

/// Letters of their own to Unicode, with no mark to take off.
constexpr std::array<std::pair<UChar32, std::string_view>, 16> plain_spellings{{
    {0x00DF, "ss"},  // sharp s
    {0x00E6, "ae"},
    {0x00F0, "d"},  // eth
    {0x00F8, "o"},
    {0x00FE, "th"},  // thorn
    {0x0111, "d"},   // d with stroke
    {0x0127, "h"},   // h with stroke
    {0x0131, "i"},   // i without its dot
    {0x0142, "l"},
    {0x014B, "n"},  // eng
    {0x0153, "oe"},
    {0x0167, "t"},  // t with stroke
    {0x0199, "k"},  // k, y, b and d with hook
    {0x01B4, "y"},
    {0x0253, "b"},
    {0x0257, "d"},
}};

/// Compatibility decomposition spells these out as letters, which would then stick to the name.
bool is_trade_mark(UChar32 letter)
{
    return letter == 0x2122 || letter == 0x2120;
}

/// Without its tables (a broken installation) ICU gives no normalizer; the text then stays as it is.
icu::UnicodeString normalized(const icu::Normalizer2* form, UErrorCode status, const icu::UnicodeString& text)
{
    if (U_FAILURE(status) || form == nullptr) {
        return text;
    }
    UErrorCode outcome = U_ZERO_ERROR;
    icu::UnicodeString result = form->normalize(text, outcome);
    return U_FAILURE(outcome) ? text : result;
}

/// Valid text without the replacement character, trade-mark signs as blanks.
icu::UnicodeString read(std::string_view utf8)
{
    const auto given = utf8.substr(0, longest_read);
    const auto text =
        icu::UnicodeString::fromUTF8(icu::StringPiece(given.data(), static_cast<int32_t>(given.size())));
    icu::UnicodeString kept;
    for (int32_t at = 0; at < text.length(); at = text.moveIndex32(at, 1)) {
        const UChar32 letter = text.char32At(at);
        if (letter != replacement) {
            kept.append(is_trade_mark(letter) ? UChar32{' '} : letter);
        }
    }
    return kept;
}

/// Case folded and taken apart into letters and marks. Case comes first, because it drops what cannot be
/// seen (soft hyphen, zero-width blank) and may itself compose.
icu::UnicodeString taken_apart(const icu::UnicodeString& text)
{
    UErrorCode case_status = U_ZERO_ERROR;
    const auto* without_case = icu::Normalizer2::getNFKCCasefoldInstance(case_status);
    UErrorCode apart_status = U_ZERO_ERROR;
    const auto* apart = icu::Normalizer2::getNFKDInstance(apart_status);
    return normalized(apart, apart_status, normalized(without_case, case_status, text));
}

/// Apostrophes, primes and tone signs that Unicode counts as letters would keep "John\u02BCs" from "John's".
bool is_sign_counted_as_letter(UChar32 letter)
{
    return letter >= 0x02B9 && letter <= 0x02FF;
}

bool is_mark(UChar32 letter)
{
    return (U_GET_GC_MASK(letter) & U_GC_M_MASK) != 0;
}

void append_letter(std::string& folded, UChar32 letter)
{
    if (letter < 0x80) {
        folded.push_back(static_cast<char>(letter));
        return;
    }
    const auto* const plain = std::find_if(plain_spellings.begin(), plain_spellings.end(),
                                           [letter](const auto& row) { return row.first == letter; });
    if (plain != plain_spellings.end()) {
        folded.append(plain->second);
        return;
    }
    const int32_t digit = u_charDigitValue(letter);
    if (digit >= 0) {
        folded.push_back(static_cast<char>('0' + digit));
        return;
    }
    icu::UnicodeString(letter).toUTF8String(folded);
}

}  // namespace

std::string fold(std::string_view utf8)
{
    const icu::UnicodeString text = taken_apart(read(utf8));
    std::string folded;
    bool between_words = false;
    for (int32_t at = 0; at < text.length(); at = text.moveIndex32(at, 1)) {
        const UChar32 letter = text.char32At(at);
        if (is_mark(letter)) {
            continue;
        }
        if (u_isalnum(letter) == 0 || is_sign_counted_as_letter(letter)) {
            between_words = true;
            continue;
        }
        if (between_words && !folded.empty()) {
            folded.push_back(' ');
        }
        between_words = false;
        append_letter(folded, letter);
    }
    return folded;
}

}  // namespace foreday::data
