#include "screening/medicine_lookup.h"

#include <algorithm>
#include <array>
#include <optional>
#include <tuple>
#include <utility>

#include "screening/everyday_words.h"
#include "screening/name_likeness.h"

namespace foreday::screening {
namespace {

// The numbers here shape a search over spellings, not a clinical decision, so they stand in code and not in
// the protocol. They were set by trying: names with a letter dropped, doubled or swapped, or spelled as they
// sound, must come back, and everyday words must not (tests/screening/misheard_medicines_test.cpp).

constexpr int whole = 1000;                ///< the score of a name heard as it is
constexpr int only_blanks_differ = 990;    ///< "pepto bismol" and "peptobismol"
constexpr int nearest_not_equal = 980;     ///< the most for a name that is not the same
constexpr int near_by_letters_alone = 25;  ///< what counting letters only takes off
constexpr int same_sound = 820;            ///< the least for a name that sounds the same
constexpr std::size_t telling_sounds = 5;  ///< with fewer, too many words sound the same
constexpr int nearly_same_sound = 805;     ///< the least for a long name that sounds nearly the same
constexpr int clipped_points = 805;        ///< a name without its middle: "hydrothiazide"
constexpr int kept_without_dose = 950;     ///< of 1000: what a score is worth then
constexpr int kept_of_a_word_alone = 900;  ///< the same, for one word out of several
constexpr std::size_t longest_heard = 200;
constexpr std::size_t shortest_beginning = 4;
constexpr std::size_t shortest_contained = 3;     ///< a name standing in what was heard
constexpr std::size_t shortest_word_of_name = 6;  ///< what was heard standing in a name
constexpr std::size_t shortest_word_alone = 6;
constexpr std::size_t most_words_alone = 3;   ///< so that a long sentence stays quick
constexpr std::size_t shortest_misheard = 5;  ///< of names; below, one letter off is another word

/// Words said with a name that name no medicine by themselves: strength, form, salt, release, how often.
constexpr std::array<std::string_view, 49> words_beside_a_name{
    "acetate", "besylate",      "calcium",  "capsule",   "capsules",  "cr",       "cream",
    "daily",   "day",           "dr",       "drops",     "er",        "extended", "g",
    "hcl",     "hydrochloride", "inhaler",  "injection", "la",        "liquid",   "maleate",
    "mcg",     "meq",           "mesylate", "mg",        "ml",        "nightly",  "once",
    "patch",   "pen",           "pill",     "pills",     "potassium", "release",  "shot",
    "sodium",  "spray",         "sr",       "succinate", "tab",       "tablet",   "tablets",
    "tabs",    "tartrate",      "twice",    "units",     "weekly",    "xl",       "xr",
};

bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

// Scores --------------------------------------------------------------------------------------------------

/// What was heard, made ready as the names are.
struct Heard {
    std::string folded;
    std::string letters;
    std::string spelled;
    std::string sound;
    std::uint32_t held = 0;
    std::uint32_t sounds = 0;
    int kept = whole;  ///< of 1000: what a score is worth when words were left out
};

struct Score {
    int points = 0;
    std::string_view how;
};

Heard heard_as(std::string folded, int kept)
{
    std::string letters = without_blanks(folded);
    std::string spelled = plainly_spelled(letters);
    std::string sound = sound_key(folded);
    const auto held = letters_held(spelled);
    const auto sounds = letters_held(sound);
    return {std::move(folded), std::move(letters), std::move(spelled), std::move(sound), held, sounds, kept};
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
    int letters_right;    ///< of 1000; fewer are too few unless the sound is the same
    int beginning_alike;  ///< points for each of the first four letters that is shared
};

constexpr Bar misheard{800, 620, 0};
/// For names beside one that was hit: no ordinary word comes this far, and names that begin alike are taken
/// for one another even where much of the rest differs.
constexpr Bar taken_for_another{680, 450, 30};
constexpr int fewest_letters_right = 450;  ///< of 1000, where the sound is nearly the same

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

/// How near a long name must sound for its letters hardly to count. A machine that writes down speech makes
/// several words of its own out of one name ("am low to peen"); a single word must sound the same.
bool nearly_the_same(const Heard& heard, int half_errors, std::size_t sounds)
{
    constexpr std::array<std::size_t, 3> fewest_sounds{telling_sounds, 6, 8};
    const auto place = static_cast<std::size_t>(half_errors);
    return place < fewest_sounds.size() && sounds >= fewest_sounds.at(place) &&
           (half_errors == 0 || heard.folded != heard.letters);
}

/// A quick look that spares most names the slow one: false only where `nearly_the_same` would be.
bool may_be_nearly_the_same(const Heard& heard, const LookupIndex::Entry& entry)
{
    constexpr int most = 2;  // half errors, and a half error is one letter at most
    const auto [shorter, longer] = std::minmax({heard.sound.size(), entry.sound.size()});
    return longer >= telling_sounds && longer - shorter <= static_cast<std::size_t>(most) &&
           fewest_errors(heard.sounds, entry.sounds) <= most;
}

/// Spelling and sound count alike, as each alone lets in words that only look or only sound near. But few
/// wrong letters are enough, because one dropped consonant spoils the sound of a short name, and so is a long
/// name sounded nearly right throughout, because nobody can spell what they only heard.
std::optional<Score> by_nearness(const Heard& heard, const LookupIndex::Entry& entry, const Bar& bar)
{
    // What was heard may be a letter short of the shortest name.
    if (entry.letters.size() < shortest_misheard || heard.letters.size() + 1 < shortest_misheard ||
        entry.sound.empty() || heard.sound.empty()) {
        return std::nullopt;
    }
    const auto longer = std::max(heard.spelled.size(), entry.spelled.size());
    const auto sounds = std::max(heard.sound.size(), entry.sound.size());
    const int letters_right = may_be_nearly_the_same(heard, entry) ? fewest_letters_right : bar.letters_right;
    const int most_wrong = static_cast<int>(longer) * (whole - letters_right) / whole;
    if (fewest_errors(heard.held, entry.held) > most_wrong) {
        return std::nullopt;
    }
    const int letters_wrong = spelling_errors(heard.spelled, entry.spelled, most_wrong);
    if (letters_wrong > most_wrong) {
        return std::nullopt;
    }
    const int half_errors = half_errors_of_sound(heard.sound, entry.sound);
    const bool alike_to_the_ear = nearly_the_same(heard, half_errors, sounds);
    const int by_letters = likeness(letters_wrong, longer);
    if (by_letters < bar.letters_right && !alike_to_the_ear) {
        return std::nullopt;
    }
    const int by_sound = likeness(half_errors, 2 * sounds);
    const int alike = bar.beginning_alike * shared_beginning(heard.letters, entry.letters);
    const int by_ear = !alike_to_the_ear ? 0 : half_errors == 0 ? same_sound : nearly_same_sound;
    const int points =
        std::max({(by_letters + by_sound) / 2 + alike, by_letters - near_by_letters_alone, by_ear});
    if (points < bar.points) {
        return std::nullopt;
    }
    return Score{std::min(points, nearest_not_equal),
                 letters_wrong <= 1 || by_letters >= by_sound ? "spelling" : "sound"};
}

/// The beginning and the end of the name with a piece of its middle lost, three letters of each and 600 of
/// 1000 in all.
std::optional<Score> by_both_ends(const Heard& heard, const LookupIndex::Entry& entry)
{
    constexpr std::size_t of_each = 3;
    const std::string_view said = heard.letters;
    const std::string_view name = entry.letters;
    if (said.size() < 2 * of_each || said.size() >= name.size() || share(said.size(), name.size()) < 600) {
        return std::nullopt;
    }
    const auto [differ, _] = std::ranges::mismatch(said, name);
    const auto begins = static_cast<std::size_t>(differ - said.begin());
    if (begins < of_each) {
        return std::nullopt;
    }
    const std::string_view rest = said.substr(std::min(begins, said.size() - of_each));
    return name.ends_with(rest) ? std::optional<Score>{{clipped_points, "spelling"}} : std::nullopt;
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
        offer(by_both_ends(heard, entry));
    }
    best.points = best.points * heard.kept / whole;
    return best;
}

// Forms of what was heard ---------------------------------------------------------------------------------

bool beside_a_name(std::string_view word)
{
    return word.empty() || is_digit(word.front()) ||
           std::find(words_beside_a_name.begin(), words_beside_a_name.end(), word) !=
               words_beside_a_name.end();
}

std::vector<std::string_view> words_of(std::string_view folded)
{
    std::vector<std::string_view> words;
    while (!folded.empty()) {
        words.push_back(folded.substr(0, folded.find(' ')));
        folded.remove_prefix(std::min(words.back().size() + 1, folded.size()));
    }
    return words;
}

std::string without_dose_and_form(std::string_view folded)
{
    std::string kept;
    for (const auto word : words_of(folded)) {
        if (!beside_a_name(word)) {
            kept.append(kept.empty() ? "" : " ").append(word);
        }
    }
    return kept;
}

bool hits_a_name(const LookupIndex& index, const Heard& heard)
{
    return std::any_of(index.entries.begin(), index.entries.end(),
                       [&heard](const auto& entry) { return entry.letters == heard.letters; });
}

/// One everyday word at least, and none but such and what stands beside a name.
bool nothing_but_everyday_words(std::string_view folded)
{
    const auto words = words_of(folded);
    return std::ranges::any_of(words, is_everyday_word) && std::ranges::all_of(words, [](auto word) {
               return beside_a_name(word) || is_everyday_word(word);
           });
}

/// Everyday words are no name misheard. They may begin one ("fish", as one types), or several of them stand
/// in one ("nose spray").
Score everyday_score_of(const Heard& heard, const LookupIndex::Entry& entry)
{
    auto score = by_beginning(heard, entry);
    if (!score && heard.folded != heard.letters) {
        score = by_containing(heard, entry);
    }
    Score best = score.value_or(Score{});
    best.points = best.points * heard.kept / whole;
    return best;
}

/// The best name of each medicine so far, in the order of `LookupIndex::medicine_ids`; no score, no name.
using Best = std::vector<Candidate>;

void score_all(const LookupIndex& index, const Heard& heard, Best& best)
{
    const bool hit = hits_a_name(index, heard);
    const bool everyday = !hit && nothing_but_everyday_words(heard.folded);
    const Bar& bar = hit ? taken_for_another : misheard;
    for (const auto& entry : index.entries) {
        const auto score = everyday ? everyday_score_of(heard, entry) : score_of(heard, entry, bar);
        auto& so_far = best[entry.medicine];
        const bool better =
            score.points > so_far.score || (score.points == so_far.score && entry.name.shown < so_far.shown);
        if (score.points > 0 && better) {
            so_far = {entry.name.medicine_id, entry.name.shown, score.points, std::string(score.how)};
        }
    }
}

bool nothing_in(const Best& best)
{
    return std::all_of(best.begin(), best.end(), [](const auto& candidate) { return candidate.score == 0; });
}

/// As it was heard; then without dose and form; and where neither is near a name, its longest words alone.
Best score_forms(const LookupIndex& index, std::string_view folded)
{
    Best best(index.medicine_ids.size());
    score_all(index, heard_as(std::string(folded), whole), best);
    auto name = without_dose_and_form(folded);
    if (!name.empty() && name != folded) {
        score_all(index, heard_as(std::move(name), kept_without_dose), best);
    }
    auto words = words_of(folded);
    if (words.size() < 2 || !nothing_in(best)) {
        return best;
    }
    std::erase_if(words, [](auto word) {
        return word.size() < shortest_word_alone || beside_a_name(word) || is_everyday_word(word);
    });
    std::stable_sort(words.begin(), words.end(),
                     [](auto one, auto other) { return one.size() > other.size(); });
    words.resize(std::min(words.size(), most_words_alone));
    for (const auto word : words) {
        score_all(index, heard_as(std::string(word), kept_of_a_word_alone), best);
    }
    return best;
}

}  // namespace

LookupIndex make_lookup_index(std::vector<LookupName> names)
{
    std::erase_if(names, [](const LookupName& name) { return without_blanks(name.folded).empty(); });
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
        auto spelled = plainly_spelled(letters);
        const auto held = letters_held(spelled);
        const auto sounds = letters_held(sound);
        index.entries.push_back({std::move(name), std::move(letters), std::move(spelled), std::move(sound),
                                 held, sounds, static_cast<std::size_t>(medicine)});
    }
    return index;
}

std::vector<Candidate> rank_candidates(const LookupIndex& index, std::string_view folded_heard,
                                       std::size_t at_most)
{
    if (folded_heard.empty() || folded_heard.size() > longest_heard) {
        return {};
    }
    auto best = score_forms(index, folded_heard);
    std::erase_if(best, [](const Candidate& candidate) { return candidate.score == 0; });
    std::sort(best.begin(), best.end(), [](const Candidate& one, const Candidate& other) {
        return std::tie(other.score, one.medicine_id, one.shown) <
               std::tie(one.score, other.medicine_id, other.shown);
    });
    best.resize(std::min(best.size(), at_most));
    return best;
}

}  // namespace foreday::screening
