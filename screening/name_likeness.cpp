#include "screening/name_likeness.h"

#include <algorithm>
#include <array>
#include <bit>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

namespace foreday::screening {
namespace {

bool is_vowel(char letter)
{
    return std::string_view("aeiouy").find(letter) != std::string_view::npos;
}

bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

bool softens(char next)
{
    return next == 'e' || next == 'i' || next == 'y';
}

/// What is heard of the letter at the head of `rest`, and how many letters that takes up.
struct Sounded {
    std::string_view as;
    std::size_t letters = 1;
};

bool starts_silent(std::string_view word)
{
    constexpr std::array<std::string_view, 5> silent{"ps", "pn", "pt", "kn", "gn"};
    return std::any_of(silent.begin(), silent.end(),
                       [word](std::string_view pair) { return word.starts_with(pair); });
}

/// Steps 3 to 5 of `sound_key`; `rest` is not empty, `before` is the letter before it or a blank.
Sounded sounded(std::string_view rest, char before)
{
    const char letter = rest.front();
    const char next = rest.size() > 1 ? rest[1] : ' ';
    switch (letter) {
        case 'p':
            return next == 'h' ? Sounded{"f", 2} : Sounded{"p"};
        case 'c':
            return next == 'h' ? Sounded{"k", 2} : Sounded{softens(next) ? "s" : "k"};
        case 'q':
            return next == 'u' ? Sounded{"k", 2} : Sounded{"k"};
        case 'x':
            return Sounded{before == ' ' ? "s" : "x"};
        case 'z':
            return Sounded{"s"};
        case 'g':
            if (rest.starts_with("ght")) {
                return Sounded{"t", 3};
            }
            return Sounded{softens(next) ? "j" : "g"};
        case 'w':
            return Sounded{is_vowel(next) && (before == ' ' || is_vowel(before)) ? "v" : ""};
        case 'h':
            return Sounded{""};
        case 'e':
            return Sounded{next == ' ' && before != ' ' ? "" : "a"};
        default:
            return is_vowel(letter) ? Sounded{"a"} : Sounded{rest.substr(0, 1)};
    }
}

/// Steps 3 and 6: k and s run together are x, and a letter sounded again adds nothing.
void sound_on(std::string& key, char sound)
{
    const char last = key.empty() ? ' ' : key.back();
    if (last == 'k' && sound == 's') {
        key.back() = 'x';
    } else if (last != sound || is_digit(sound)) {
        key.push_back(sound);
    }
}

/// What one error costs, in units of the caller.
struct SpellingCosts {
    static constexpr int swap = 1;
    static int drop(char /*letter*/) { return 1; }
    static int replace(char /*one*/, char /*other*/) { return 1; }
};

/// Halves: a vowel more or less, and sounds that a telephone does not keep apart, are half an error.
struct SoundCosts {
    static constexpr int swap = 2;
    static int drop(char letter) { return letter == 'a' ? 1 : 2; }
    static int replace(char one, char other)
    {
        constexpr std::array<std::string_view, 8> alike{"bp", "bv", "dt", "gk", "gj", "fv", "mn", "sx"};
        const auto holds_both = [one, other](std::string_view pair) {
            return pair.find(one) != std::string_view::npos && pair.find(other) != std::string_view::npos;
        };
        return std::any_of(alike.begin(), alike.end(), holds_both) ? 1 : 2;
    }
};

/// Three rows of numbers, on the stack for texts as short as names are: a look may need thousands.
struct Rows {
    explicit Rows(std::size_t width)
    {
        std::span<int> all(near);
        if (3 * width > near.size()) {
            far.resize(3 * width);
            all = far;
        }
        three = {all.subspan(0, width), all.subspan(width, width), all.subspan(2 * width, width)};
    }
    Rows(const Rows&) = delete;
    Rows& operator=(const Rows&) = delete;

    std::array<int, 192> near{};
    std::vector<int> far;
    std::array<std::span<int>, 3> three;
};

/// Restricted Damerau-Levenshtein by rows.
template <class Costs>
int distance(std::string_view one, std::string_view other)
{
    const std::size_t width = other.size() + 1;
    Rows rows(width);
    auto [two_before, before, row] = rows.three;
    for (std::size_t j = 1; j < width; ++j) {
        row[j] = row[j - 1] + Costs::drop(other[j - 1]);
    }
    for (std::size_t i = 1; i <= one.size(); ++i) {
        std::swap(two_before, before);
        std::swap(before, row);
        const char a = one[i - 1];
        row[0] = before[0] + Costs::drop(a);
        for (std::size_t j = 1; j < width; ++j) {
            const char b = other[j - 1];
            int best = before[j - 1] + (a == b ? 0 : Costs::replace(a, b));
            best = std::min({best, before[j] + Costs::drop(a), row[j - 1] + Costs::drop(b)});
            if (i > 1 && j > 1 && a == other[j - 2] && one[i - 2] == b) {
                best = std::min(best, two_before[j - 2] + Costs::swap);
            }
            row[j] = best;
        }
    }
    return row.back();
}

constexpr std::size_t bits_in_a_word = 64;

/// What `distance<SpellingCosts>` gives, a whole row at a time: a bit tells of each place in `one` (1
/// to 64 letters) whether the number there is one more or one less than the one beside it. After H. Hyyro, "A
/// bit-vector algorithm for computing Levenshtein and Damerau edit distances", 2003. Kept beside the plain
/// one because a look compares hundreds of names and takes about half the time with it.
int spelling_errors_in_bits(std::string_view one, std::string_view other)
{
    std::array<std::uint64_t, 256> places{};  // of each letter in `one`
    for (std::size_t i = 0; i < one.size(); ++i) {
        places.at(static_cast<unsigned char>(one[i])) |= std::uint64_t{1} << i;
    }
    const std::uint64_t last = std::uint64_t{1} << (one.size() - 1);
    std::uint64_t more_than_above = ~std::uint64_t{0};
    std::uint64_t less_than_above = 0;
    std::uint64_t same_as_aslant = 0;
    std::uint64_t equal_before = 0;
    int errors = static_cast<int>(one.size());
    for (const char letter : other) {
        const std::uint64_t equal = places.at(static_cast<unsigned char>(letter));
        const std::uint64_t swapped = ((~same_as_aslant & equal) << 1U) & equal_before;
        same_as_aslant = (((equal & more_than_above) + more_than_above) ^ more_than_above) | equal |
                         less_than_above | swapped;
        const std::uint64_t more_than_left = less_than_above | ~(same_as_aslant | more_than_above);
        const std::uint64_t less_than_left = same_as_aslant & more_than_above;
        errors += (more_than_left & last) != 0 ? 1 : 0;
        errors -= (less_than_left & last) != 0 ? 1 : 0;
        const std::uint64_t more_below = (more_than_left << 1U) | 1U;  // the top row grows by one a letter
        more_than_above = (less_than_left << 1U) | ~(same_as_aslant | more_below);
        less_than_above = more_below & same_as_aslant;
        equal_before = equal;
    }
    return errors;
}

}  // namespace

std::string without_blanks(std::string_view folded)
{
    std::string letters(folded);
    std::erase(letters, ' ');
    return letters;
}

std::string plainly_spelled(std::string_view letters)
{
    std::string plain;
    for (std::size_t at = 0; at < letters.size(); ++at) {
        if (letters.substr(at).starts_with("ph")) {
            plain += 'f';
            ++at;
        } else {
            plain += letters[at];
        }
    }
    return plain;
}

std::string sound_key(std::string_view folded)
{
    const std::string letters = without_blanks(folded);
    std::string_view rest = letters;
    std::string key;
    char before = ' ';
    if (starts_silent(rest)) {
        rest.remove_prefix(1);
    }
    while (!rest.empty()) {
        const auto heard = sounded(rest, before);
        if (!heard.as.empty()) {
            sound_on(key, heard.as.front());
        }
        before = rest[heard.letters - 1];
        rest.remove_prefix(heard.letters);
    }
    return key;
}

int spelling_errors(std::string_view one, std::string_view other, int at_most)
{
    const auto [shorter, longer] = std::minmax({one.size(), other.size()});
    if (longer - shorter > static_cast<std::size_t>(at_most)) {
        return at_most + 1;
    }
    const bool in_bits = !one.empty() && one.size() <= bits_in_a_word;
    const int errors = in_bits ? spelling_errors_in_bits(one, other) : distance<SpellingCosts>(one, other);
    return std::min(errors, at_most + 1);
}

int spelling_errors(std::string_view one, std::string_view other)
{
    return spelling_errors(one, other, static_cast<int>(std::max(one.size(), other.size())));
}

std::uint32_t letters_held(std::string_view text)
{
    std::uint32_t held = 0;
    for (const char letter : text) {
        held |= std::uint32_t{1} << (static_cast<unsigned char>(letter) % 32U);
    }
    return held;
}

int fewest_errors(std::uint32_t held_by_one, std::uint32_t held_by_other)
{
    // One error rids a text of one letter at most, and brings in one at most.
    return std::max(std::popcount(held_by_one & ~held_by_other), std::popcount(held_by_other & ~held_by_one));
}

int half_errors_of_sound(std::string_view one_key, std::string_view other_key)
{
    return distance<SoundCosts>(one_key, other_key);
}

}  // namespace foreday::screening
