#pragma once
#include <string>

#include "checklists/decisions.h"
#include "screening/judge.h"

namespace foreday::checklists {

/// One medicine as really taken, against what was to be left out.
struct DoseTaken {
    enum class Kind : std::uint8_t {
        nothing_to_leave_out,
        as_agreed,
        shorter_than_told,  ///< between what was told and what would be too short; to be noted
        too_late,           ///< a dose that was to be left out was taken
        too_early,          ///< a marked medicine was stopped a day or more before it had to be
        nobody_asked,
        nothing_agreed,     ///< a clinician still has to decide on it
    } kind = Kind::nothing_to_leave_out;
    std::string words;
};

/// What was agreed is the clinician's own last dose where one was stated, else the plan's.
[[nodiscard]] DoseTaken dose_taken(const screening::Judge& judge, const screening::Hold& hold, const Decided& decided);

}  // namespace foreday::checklists
