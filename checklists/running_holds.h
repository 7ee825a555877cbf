#pragma once
#include <string>
#include <vector>

#include "checklists/case_file.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// A pause that somebody may have to end because the session does not take place as planned.
struct RunningHold {
    std::string item;      ///< item id of the hold
    std::string medicine;  ///< generic name
    std::string who;       ///< who agreed to it; empty: nobody had to
    bool begun = false;    ///< the last dose before the pause was due by then
    bool operator==(const RunningHold&) const = default;
};

/// Holds that leave out doses and were told by `moment`, begun or not: an instruction that was given stands
/// until it is taken back. And those agreed and not told that had begun.
/// @param told_only  the date has been moved: what is agreed is about the new date, what was told about the
/// old
[[nodiscard]] std::vector<RunningHold> running_holds(const screening::Rules& rules, const CaseFile& file,
                                                     const WholeCase& whole, screening::Moment moment,
                                                     bool told_only);

}  // namespace foreday::checklists
