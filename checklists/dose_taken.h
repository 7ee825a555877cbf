#pragma once
#include <cstdint>
#include <string>

#include "checklists/decisions.h"
#include "screening/judge.h"

namespace foreday::checklists {

/// One medicine as really taken, against what was agreed.
struct DoseTaken {
    enum class Kind : std::uint8_t {
        nothing_to_ask,  ///< taken as usual, and unmarked
        as_agreed,
        shorter_than_told,  ///< between what was told and what would be too short; to be noted
        too_late,           ///< a dose that was to be left out was taken
        too_early,          ///< a marked medicine was stopped a dose or more before it had to be
        agreed_in_words,    ///< agreed without a date: a clinician compares
        nobody_asked,
        nothing_agreed,  ///< a clinician still has to decide on it
    } kind = Kind::nothing_to_ask;
    std::string words;
};

/// What was agreed is the clinician's own last dose where one was stated, else the plan. A dose is too late
/// when it lies in the time the plan keeps free (for hour rules by the elapsed minute, a dose without a time
/// of day counting as the last minute of its day; for day rules by the civil date), or after the day the
/// clinician stated. A marked medicine must be asked about also where it goes on.
[[nodiscard]] DoseTaken dose_taken(const screening::Judge& judge, const screening::Hold& hold,
                                   const Decided& decided);

}  // namespace foreday::checklists
