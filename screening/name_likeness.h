#pragma once
#include <cstdint>
#include <string>
#include <string_view>

// How near two folded names are, by letters and by ear. Letters are bytes: folded Latin text is plain ASCII,
// and one letter of another script counts as more than one.

namespace foreday::screening {

/// `folded` without its blanks: where a word ends cannot be heard.
[[nodiscard]] std::string without_blanks(std::string_view folded);

/// Letters without blanks in which ph is written f, as everybody does who only heard the name.
[[nodiscard]] std::string plainly_spelled(std::string_view letters);

/// A folded name as the ear keeps it, by rules of our own for the sound-alikes of medicine names:
///  1. blanks go
///  2. at the start p is silent before s, n, t, and k and g before n; x there sounds s
///  3. ph is f; c is s before e, i, y, else k; ch, ck, q and qu are k; z is s; x elsewhere is one sound with
///     ks, written x; ght is t; g before e, i, y is j; w is v before a vowel at the start or after a vowel,
///     else silent
///  4. any other h is silent, and so is an e at the end
///  5. vowels, y among them, become one `a`, however many stand together
///  6. a letter sounded twice running is kept once
/// Digits and letters beyond a to z stay. Empty gives empty, and so does a lone h.
[[nodiscard]] std::string sound_key(std::string_view folded);

/// How many letters must be dropped, added or replaced, or neighbours swapped, to make one text the other;
/// each counts one, and no letter is touched twice (restricted Damerau-Levenshtein). 0 to the longer length.
[[nodiscard]] int spelling_errors(std::string_view one, std::string_view other);

/// The same as far as `at_most` (0 or more); `at_most + 1` stands for every greater distance.
[[nodiscard]] int spelling_errors(std::string_view one, std::string_view other, int at_most);

/// Which letters a text holds, in 32 groups by their last five bits: a to z each have their own.
[[nodiscard]] std::uint32_t letters_held(std::string_view text);

/// No fewer `spelling_errors` than this lie between two texts that hold these letters. Quick to ask first.
[[nodiscard]] int fewest_errors(std::uint32_t held_by_one, std::uint32_t held_by_other);

/// `spelling_errors` over two `sound_key`s, in halves: a vowel more or less is half an error, and so is b for
/// p, d for t, g for k and j, v for b and f, m for n, s for x, which a telephone or another language does not
/// keep apart. 0 to twice the longer length.
[[nodiscard]] int half_errors_of_sound(std::string_view one_key, std::string_view other_key);

}  // namespace foreday::screening
