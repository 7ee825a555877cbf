#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "screening/medicine_lookup.h"
#include "tests/screening/misheard_medicines.h"

// Looks among the names of misheard_medicines.h.

namespace foreday::screening::heard {

/// ASCII names need no more folding than this; the real one is tested in tests/reading.
inline LookupName named(std::string_view shown, std::string_view medicine, LookupName::Kind kind)
{
    std::string folded;
    for (const char letter : shown) {
        const bool upper = letter >= 'A' && letter <= 'Z';
        folded.push_back(letter == '-' ? ' ' : static_cast<char>(upper ? letter - 'A' + 'a' : letter));
    }
    return {std::move(folded), std::string(shown), std::string(medicine), kind};
}

inline std::vector<LookupName> all_names()
{
    std::vector<LookupName> names;
    for (const auto& medicine : heard_medicines) {
        names.push_back(named(medicine.generic, medicine.generic, LookupName::Kind::generic));
        for (const auto brand : medicine.brands) {
            if (!brand.empty()) {
                names.push_back(named(brand, medicine.generic, LookupName::Kind::brand));
            }
        }
    }
    return names;
}

inline const LookupIndex& names()
{
    static const LookupIndex index = make_lookup_index(all_names());
    return index;
}

inline std::vector<std::string> medicines(const std::vector<Candidate>& candidates)
{
    std::vector<std::string> ids;
    ids.reserve(candidates.size());
    for (const auto& candidate : candidates) {
        ids.push_back(candidate.medicine_id);
    }
    return ids;
}

inline std::vector<std::string> offered(std::string_view heard, std::size_t at_most = 5)
{
    return medicines(rank_candidates(names(), heard, at_most));
}

inline Candidate first(std::string_view heard)
{
    const auto candidates = rank_candidates(names(), heard);
    return candidates.empty() ? Candidate{} : candidates.front();
}

inline std::string in_words(const std::vector<Candidate>& candidates)
{
    std::string words;
    for (const auto& candidate : candidates) {
        words += candidate.medicine_id + "|" + candidate.shown + "|" + std::to_string(candidate.score) + "|" +
                 candidate.how + "\n";
    }
    return words;
}

}  // namespace foreday::screening::heard
