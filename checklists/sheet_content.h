#pragma once
#include <string>
#include <vector>

#include "checklists/case_file.h"
#include "checklists/lines.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// What the patient gets.
struct SheetContent {
    std::vector<Line> lines;
    std::string bytes;   ///< canonical; its hash is what Telling::sheet and a sheet's entry name
    bool draft = false;  ///< something on it is still open, and it says so
};

/// The session, what is still open and what to do meanwhile, what to do with each medicine, the preparation
/// by the clock, who to ring, and who decides.
///
/// A medicine has an instruction only where it is agreed, told, or nobody has to be asked. Until then its
/// meanwhile words stand there and no date. A figure from common practice or memory that the unit has not
/// confirmed gives neither date nor words. Words of ours and of the protocol that do not belong on a
/// patient's paper are replaced by a promise to ring. The time changes nothing on it, unless what is said
/// changes.
[[nodiscard]] SheetContent sheet_content(const screening::Rules& rules, const CaseFile& file,
                                         const WholeCase& whole);

}  // namespace foreday::checklists
