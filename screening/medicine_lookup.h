#pragma once
#include <cstddef>
#include <cstdint>
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

    std::string folded;         ///< as `data::fold` gives it; a name that folds to nothing is left out
    std::string shown;          ///< as a person reads it
    std::string medicine_id;    ///< the medicine it belongs to; several may share a name
    Kind kind = Kind::generic;  ///< told to whoever shows the index; it lifts no name above another
};

/// The names, made ready for ranking. Build it with `make_lookup_index`; it does not depend on the order
/// in which the names were given, and never changes after, so several threads may rank over one.
struct LookupIndex {
    struct Entry {
        LookupName name;
        std::string letters;       ///< `name.folded` without its blanks
        std::string spelled;       ///< `plainly_spelled(letters)`
        std::string sound;         ///< `sound_key(name.folded)`
        std::uint32_t held = 0;    ///< `letters_held(spelled)`
        std::uint32_t sounds = 0;  ///< `letters_held(sound)`
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
    /// "spelling": one letter is off, or it is at least as near by letters as by ear. "sound": nearer by ear.
    std::string how;
};

[[nodiscard]] LookupIndex make_lookup_index(std::vector<LookupName> names);

/// Ranks what may have been meant by `folded_heard` (from `data::fold`).
///
/// By score, highest first, then by medicine id, then by shown name; each medicine once, by its best name;
/// `at_most` of them. Empty when nothing is near enough, which is what words that name no medicine should
/// give; also for an empty text, for one of more than 200 bytes (no name is that long), and for fewer than
/// four letters that are no name themselves (they begin too many).
///
/// Strength, form and salt said with a name are set aside; of a sentence in which nothing is near as a whole
/// the three longest words are tried alone. Both cost points. Where a name was hit, those easily taken for it
/// are offered below it under a lower bar.
[[nodiscard]] std::vector<Candidate> rank_candidates(const LookupIndex& index, std::string_view folded_heard,
                                                     std::size_t at_most = 5);

}  // namespace foreday::screening
