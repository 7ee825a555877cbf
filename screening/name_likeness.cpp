#include "screening/name_likeness.h"

#include <algorithm>
#include <array>
#include <cstddef>
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
    constexpr std::array<std::string_view, 6> silent{"ps", "pn", "pt", "kn", "gn", "wr"};
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
            return Sounded{softens(next) ? "j" : "g"};
        case 'w':
            return Sounded{is_vowel(before) && !is_vowel(next) ? "" : "v"};
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
        constexpr std::array<std::string_view, 6> alike{"bp", "dt", "gk", "fv", "mn", "sx"};
        const auto holds_both = [one, other](std::string_view pair) {
            return pair.find(one) != std::string_view::npos && pair.find(other) != std::string_view::npos;
        };
        return std::any_of(alike.begin(), alike.end(), holds_both) ? 1 : 2;
    }
};

/// Restricted Damerau-Levenshtein by rows. Gives up, with `limit + 1`, once no way within `limit` is left.
template <class Costs>
int distance_within(std::string_view one, std::string_view other, int limit)
{
    const std::size_t width = other.size() + 1;
    std::vector<int> two_before(width, 0);
    std::vector<int> before(width, 0);
    std::vector<int> row(width, 0);
    for (std::size_t j = 1; j < width; ++j) {
        row[j] = row[j - 1] + Costs::drop(other[j - 1]);
    }
    int least_before = 0;
    for (std::size_t i = 1; i <= one.size(); ++i) {
        std::swap(two_before, before);
        std::swap(before, row);
        const char a = one[i - 1];
        row[0] = before[0] + Costs::drop(a);
        int least = row[0];
        for (std::size_t j = 1; j < width; ++j) {
            const char b = other[j - 1];
            int best = before[j - 1] + (a == b ? 0 : Costs::replace(a, b));
            best = std::min({best, before[j] + Costs::drop(a), row[j - 1] + Costs::drop(b)});
            if (i > 1 && j > 1 && a == other[j - 2] && one[i - 2] == b) {
                best = std::min(best, two_before[j - 2] + Costs::swap);
            }
            row[j] = best;
            least = std::min(least, best);
        }
        // A swap reaches back over one row, so two rows beyond the limit are needed to give up.
        if (least > limit && least_before > limit) {
            return limit + 1;
        }
        least_before = least;
    }
    return std::min(row.back(), limit + 1);
}

}  // namespace

std::string without_blanks(std::string_view folded)
{
    std::string letters(folded);
    std::erase(letters, ' ');
    return letters;
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
    return distance_within<SpellingCosts>(one, other, at_most);
}

int spelling_errors(std::string_view one, std::string_view other)
{
    return spelling_errors(one, other, static_cast<int>(std::max(one.size(), other.size())));
}

int half_errors_of_sound(std::string_view one_key, std::string_view other_key)
{
    // Replacing every sound of the longer key is the dearest way there can be.
    const int dearest = 2 * static_cast<int>(std::max(one_key.size(), other_key.size()));
    return distance_within<SoundCosts>(one_key, other_key, dearest);
}

}  // namespace foreday::screening
