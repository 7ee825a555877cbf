#include "screening/medicine_lookup.h"

#include <algorithm>
#include <array>
#include <optional>
#include <tuple>
#include <utility>

namespace foreday::screening {
namespace {

// The numbers here shape a search over spellings, not a clinical decision, so they stand in code and not in
// the protocol. They were set by trying: names with one letter dropped, doubled or swapped against a large
// list of everyday words (see the test of the same name).

constexpr int whole = 1000;                    ///< the score of a name heard as it is
constexpr int only_blanks_differ = 990;        ///< "pepto bismol" and "peptobismol"
constexpr int nearest_not_equal = 980;         ///< the most for a name that is not the same
constexpr int near_by_letters_alone = 25;      ///< what that is worth less
constexpr int kept_with_words_left_out = 950;  ///< of 1000, when a dose or form was left out
constexpr std::size_t longest_heard = 200;
constexpr std::size_t shortest_beginning = 4;
constexpr std::size_t shortest_contained = 3;    ///< a name standing in what was heard
constexpr std::size_t shortest_word_of_name = 6; ///< what was heard standing in a name
constexpr std::size_t shortest_misheard = 5;     ///< of names; below, one letter off is another word

/// Words said with a name that name no medicine by themselves: strength, form, salt, release, how often.
constexpr std::array<std::string_view, 46> words_beside_a_name{
    "acetate",  "besylate", "calcium", "capsule", "capsules",  "cr",     "cream",  "daily",
    "day",      "dr",       "drops",   "er",      "extended",  "g",      "hcl",    "hydrochloride",
    "inhaler",  "injection", "la",     "liquid",  "maleate",   "mcg",    "mesylate", "mg",
    "ml",       "nightly",  "once",    "patch",   "pen",       "pill",   "pills",  "potassium",
    "release",  "shot",     "sodium",  "spray",   "sr",        "succinate", "tablet", "tablets",
    "tartrate", "twice",    "units",   "weekly",  "xl",        "xr",
};

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

std::string without_blanks(std::string_view folded)
{
    std::string letters(folded);
    std::erase(letters, ' ');
    return letters;
}

// Sound ---------------------------------------------------------------------------------------------------

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

// Distance ------------------------------------------------------------------------------------------------

/// What one error costs, in units of the caller.
struct SpellingCosts {
    static constexpr int swap = 1;
    static int drop(char /*letter*/)
    {
        return 1;
    }
    static int replace(char /*one*/, char /*other*/)
    {
        return 1;
    }
};

/// Halves: a vowel more or less, and sounds that a telephone does not keep apart, are half an error.
struct SoundCosts {
    static constexpr int swap = 2;
    static int drop(char letter)
    {
        return letter == 'a' ? 1 : 2;
    }
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

// Scores --------------------------------------------------------------------------------------------------

/// What was heard, made ready as the names are.
struct Heard {
    std::string folded;
    std::string letters;
    std::string sound;
    int kept = whole;  ///< of 1000: what a score is worth when words were left out
};

struct Score {
    int points = 0;
    std::string_view how;
};

Heard heard_as(std::string folded, int kept)
{
    std::string letters = without_blanks(folded);
    std::string sound = sound_key(folded);
    return {std::move(folded), std::move(letters), std::move(sound), kept};
}

int share(std::size_t part, std::size_t of)
{
    return static_cast<int>(part * std::size_t{whole} / of);
}

/// Both texts are words with single blanks between them.
bool stands_in(std::string_view words, std::string_view text)
{
    for (auto at = text.find(words); at != std::string_view::npos; at = text.find(words, at + 1)) {
        const auto end = at + words.size();
        if ((at == 0 || text[at - 1] == ' ') && (end == text.size() || text[end] == ' ')) {
            return true;
        }
    }
    return false;
}

/// 700 to 950 by how much of the name was heard.
std::optional<Score> by_beginning(const Heard& heard, const LookupIndex::Entry& entry)
{
    if (heard.letters.size() < shortest_beginning || !entry.letters.starts_with(heard.letters)) {
        return std::nullopt;
    }
    return Score{700 + share(heard.letters.size(), entry.letters.size()) / 4, "begins with"};
}

/// 600 to 900 by how much of the longer text the shorter one is.
std::optional<Score> by_containing(const Heard& heard, const LookupIndex::Entry& entry)
{
    const auto& name = entry.name.folded;
    const auto points = [](std::size_t part, std::size_t of) { return 600 + share(part, of) * 3 / 10; };
    if (name.size() >= shortest_contained && name.size() < heard.folded.size() &&
        stands_in(name, heard.folded)) {
        return Score{points(name.size(), heard.folded.size()), "contains"};
    }
    if (heard.folded.size() >= shortest_word_of_name && heard.folded.size() < name.size() &&
        stands_in(heard.folded, name)) {
        return Score{points(heard.folded.size(), name.size()), "contains"};
    }
    return std::nullopt;
}

/// What counts as near.
struct Bar {
    int points;           ///< below this nothing is offered
    int letters_right;    ///< of 1000; below this nothing is, however near the sound
    int beginning_alike;  ///< points for each of the first four letters that is shared
};

constexpr Bar misheard{800, 620, 0};
/// For names beside one that was hit: no ordinary word comes this far, and names that begin alike are taken
/// for one another even where much of the rest differs.
constexpr Bar taken_for_another{700, 450, 30};

int shared_beginning(std::string_view one, std::string_view other)
{
    int shared = 0;
    while (shared < 4 && one.starts_with(other.substr(0, static_cast<std::size_t>(shared) + 1))) {
        ++shared;
    }
    return shared;
}

/// 1000 less the share of `length` that is wrong.
int likeness(int wrong, std::size_t length)
{
    return whole - whole * wrong / static_cast<int>(length);
}

/// Spelling and sound count alike, as each alone lets in words that only look or only sound near; but few
/// wrong letters are enough, because one dropped consonant spoils the sound of a short name.
std::optional<Score> by_nearness(const Heard& heard, const LookupIndex::Entry& entry, const Bar& bar)
{
    // What was heard may be a letter short of the shortest name.
    if (entry.letters.size() < shortest_misheard || heard.letters.size() + 1 < shortest_misheard ||
        entry.sound.empty() || heard.sound.empty()) {
        return std::nullopt;
    }
    const auto longer = std::max(heard.letters.size(), entry.letters.size());
    const auto shorter = std::min(heard.letters.size(), entry.letters.size());
    const int most_wrong = static_cast<int>(longer) * (whole - bar.letters_right) / whole;
    if (static_cast<int>(longer - shorter) > most_wrong) {
        return std::nullopt;
    }
    const int letters_wrong = distance_within<SpellingCosts>(heard.letters, entry.letters, most_wrong);
    if (letters_wrong > most_wrong) {
        return std::nullopt;
    }
    // In halves, so the whole length counts double.
    const auto sounds = 2 * std::max(heard.sound.size(), entry.sound.size());
    const int sounds_wrong = distance_within<SoundCosts>(heard.sound, entry.sound, static_cast<int>(sounds));
    const int by_letters = likeness(letters_wrong, longer);
    const int by_sound = likeness(sounds_wrong, sounds);
    const int alike = bar.beginning_alike * shared_beginning(heard.letters, entry.letters);
    const int points = std::max((by_letters + by_sound) / 2 + alike, by_letters - near_by_letters_alone);
    if (points < bar.points) {
        return std::nullopt;
    }
    return Score{std::min(points, nearest_not_equal), letters_wrong <= 1 || by_letters >= by_sound ? "spelling" : "sound"};
}

Score score_of(const Heard& heard, const LookupIndex::Entry& entry, const Bar& bar)
{
    Score best;
    const auto offer = [&best](std::optional<Score> score) {
        if (score && score->points > best.points) {
            best = *score;
        }
    };
    if (heard.folded == entry.name.folded) {
        offer(Score{whole, heard.kept == whole ? "exact" : "contains"});
    } else if (heard.letters == entry.letters) {
        offer(Score{only_blanks_differ, "spelling"});
    } else {
        offer(by_beginning(heard, entry));
        offer(by_containing(heard, entry));
        offer(by_nearness(heard, entry, bar));
    }
    best.points = best.points * heard.kept / whole;
    return best;
}

// Forms of what was heard ---------------------------------------------------------------------------------

bool beside_a_name(std::string_view word)
{
    return is_digit(word.front()) ||
           std::find(words_beside_a_name.begin(), words_beside_a_name.end(), word) !=
               words_beside_a_name.end();
}

std::string names_only(std::string_view folded)
{
    std::string kept;
    while (!folded.empty()) {
        const auto word = folded.substr(0, folded.find(' '));
        folded.remove_prefix(std::min(word.size() + 1, folded.size()));
        if (!beside_a_name(word)) {
            kept.append(kept.empty() ? "" : " ").append(word);
        }
    }
    return kept;
}

/// As it was heard, and without dose and form where that leaves something else.
std::vector<Heard> forms_of(std::string_view folded)
{
    std::vector<Heard> forms;
    forms.push_back(heard_as(std::string(folded), whole));
    auto names = names_only(folded);
    if (!names.empty() && names != folded) {
        forms.push_back(heard_as(std::move(names), kept_with_words_left_out));
    }
    return forms;
}

bool hits_a_name(const LookupIndex& index, const Heard& heard)
{
    return std::any_of(index.entries.begin(), index.entries.end(),
                       [&heard](const auto& entry) { return entry.letters == heard.letters; });
}

}  // namespace

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

int spelling_distance(std::string_view one, std::string_view other)
{
    return distance_within<SpellingCosts>(one, other, static_cast<int>(one.size() + other.size()));
}

LookupIndex make_lookup_index(std::vector<LookupName> names)
{
    std::erase_if(names, [](const LookupName& name) { return name.folded.empty(); });
    const auto place = [](const LookupName& name) {
        return std::tie(name.folded, name.shown, name.medicine_id, name.kind);
    };
    std::sort(names.begin(), names.end(),
              [&place](const auto& one, const auto& other) { return place(one) < place(other); });

    LookupIndex index;
    for (const auto& name : names) {
        index.medicine_ids.push_back(name.medicine_id);
    }
    auto& ids = index.medicine_ids;
    std::sort(ids.begin(), ids.end());
    ids.erase(std::unique(ids.begin(), ids.end()), ids.end());

    for (auto& name : names) {
        const auto medicine = std::lower_bound(ids.begin(), ids.end(), name.medicine_id) - ids.begin();
        auto letters = without_blanks(name.folded);
        auto sound = sound_key(name.folded);
        index.entries.push_back(
            {std::move(name), std::move(letters), std::move(sound), static_cast<std::size_t>(medicine)});
    }
    return index;
}

std::vector<Candidate> rank_candidates(const LookupIndex& index, std::string_view folded_heard,
                                       std::size_t at_most)
{
    if (folded_heard.empty() || folded_heard.size() > longest_heard) {
        return {};
    }
    std::vector<Candidate> best(index.medicine_ids.size());
    for (const auto& heard : forms_of(folded_heard)) {
        const Bar& bar = hits_a_name(index, heard) ? taken_for_another : misheard;
        for (const auto& entry : index.entries) {
            const auto score = score_of(heard, entry, bar);
            auto& so_far = best[entry.medicine];
            const bool better = score.points > so_far.score ||
                                (score.points == so_far.score && entry.name.shown < so_far.shown);
            if (score.points > 0 && better) {
                so_far = {entry.name.medicine_id, entry.name.shown, score.points, std::string(score.how)};
            }
        }
    }
    std::erase_if(best, [](const Candidate& candidate) { return candidate.score == 0; });
    std::sort(best.begin(), best.end(), [](const Candidate& one, const Candidate& other) {
        return std::tie(other.score, one.medicine_id, one.shown) <
               std::tie(one.score, other.medicine_id, other.shown);
    });
    best.resize(std::min(best.size(), at_most));
    return best;
}

}  // namespace foreday::screening
