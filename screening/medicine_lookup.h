#pragma once
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace foreday::screening {

/// One name by which a medicine may be asked for.
struct LookupName {
    enum class Kind {
        generic,
        brand,
        local  ///< the unit's own word, typed into its policy
    };

    std::string folded;       ///< as `data::fold` gives it; a name that folds to nothing is left out
    std::string shown;        ///< as a person reads it
    std::string medicine_id;  ///< the medicine it belongs to; several may share a name
    Kind kind = Kind::generic;  ///< told to whoever shows the index; it lifts no name above another
};

/// The names, made ready for ranking. Build it with `make_lookup_index`; it does not depend on the order
/// in which the names were given, and never changes after, so several threads may rank over one.
struct LookupIndex {
    struct Entry {
        LookupName name;
        std::string letters;       ///< `name.folded` without its blanks
        std::string sound;         ///< `sound_key(name.folded)`
        std::size_t medicine = 0;  ///< place of its medicine in `medicine_ids`
    };

    std::vector<Entry> entries;             ///< sorted by folded name, then shown, then medicine
    std::vector<std::string> medicine_ids;  ///< sorted, each once
};

/// A medicine that may have been meant. A person picks; nothing here does.
struct Candidate {
    std::string medicine_id;
    std::string shown;  ///< the name of the medicine that fits best
    int score = 0;      ///< 1 to 1000; 1000 only where `how` is "exact"
    /// "exact": what was heard is the name.
    /// "begins with": the name begins with what was heard.
    /// "contains": one of the two stands in the other, word for word.
    /// "spelling": few letters differ. "sound": it is nearer by ear than by letters.
    std::string how;
};

[[nodiscard]] LookupIndex make_lookup_index(std::vector<LookupName> names);

/// Ranks what may have been meant by `folded_heard` (from `data::fold`).
///
/// By score, highest first, then by medicine id, then by shown name; each medicine once, by its best name;
/// `at_most` of them. Empty when nothing is near enough, which is what a word that names no medicine should
/// give, and also for an empty text, for one of more than 200 bytes (no name is that long), and for fewer
/// than four letters that are no name themselves (they begin too many).
/// Where a name was hit exactly, names easily taken for it are offered below it under a lower bar.
[[nodiscard]] std::vector<Candidate> rank_candidates(const LookupIndex& index, std::string_view folded_heard,
                                                     std::size_t at_most = 5);

/// How many letters (bytes) must be dropped, added or replaced, or neighbours swapped, to make one text the
/// other; each counts one, and no letter is touched twice (restricted Damerau-Levenshtein).
[[nodiscard]] int spelling_distance(std::string_view one, std::string_view other);

/// A folded name as the ear keeps it, by rules of our own for the sound-alikes of medicine names:
///  1. blanks go: where a word ends cannot be heard
///  2. at the start p is silent before s, n, t; k and g before n; w before r; x there sounds s
///  3. ph is f; c is s before e, i, y, else k; ch, ck, q and qu are k; x elsewhere is ks; z is s;
///     g before e, i, y is j; w is v, but silent after a vowel when none follows
///  4. any other h is silent, and so is an e at the end
///  5. vowels, y among them, become one `a`, however many stand together
///  6. a letter sounded twice running is kept once
/// Digits and letters beyond a to z stay. Empty gives empty.
[[nodiscard]] std::string sound_key(std::string_view folded);

}  // namespace foreday::screening
