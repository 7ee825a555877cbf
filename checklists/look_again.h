#pragma once
#include "checklists/calls.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// The earliest moment after `now` at which time alone may change what is said about the case: a dose of a
/// hold not told yet falls due, the unit opens, the closing of the list or a clearance runs out, an answer
/// passes its age limit, something must be decided, a call falls due or was useful to, the session starts,
/// and at the latest the next midnight of the unit. Always after `now`.
[[nodiscard]] screening::Moment look_again(const screening::Rules& rules, const CaseFile& file,
                                           const WholeCase& whole, screening::Moment now,
                                           const HashText& hash);

}  // namespace foreday::checklists
