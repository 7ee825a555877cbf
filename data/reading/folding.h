#pragma once
#include <string>
#include <string_view>

namespace foreday::data {

/// The form in which names, and what was heard of them, are compared: two texts that a reader takes for
/// the same name fold to the same bytes.
///
/// Case, accents and width are dropped; letters that no decomposition reaches become the letters they are
/// typed as without a special keyboard (ł l, ø o, đ ð ɗ d, ɓ b, ħ h, ı i, ƙ k, ŋ n, ŧ t, ƴ y, þ th, ß ss, æ
/// ae, œ oe); letters and digits stay (digits of any script as 0 to 9); trade-mark signs and every other
/// character become one blank between words, none at either end. Folding twice gives what folding once gives.
///
/// Bytes that are not UTF-8 are left out, as is U+FFFD: what they stood for is not known, so they split
/// no word. Empty in, or nothing but punctuation: empty out. Only the first MiB is read, as no name is
/// that long. Independent of the locale; throws nothing but for want of memory.
[[nodiscard]] std::string fold(std::string_view utf8);

}  // namespace foreday::data
