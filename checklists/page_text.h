#pragma once
#include <string>
#include <vector>

#include "checklists/case_file.h"
#include "checklists/lines.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// One page a case, for the clinician who decides.
struct CasePage {
    std::vector<Line> lines;
    std::string bytes;  ///< canonical: the same case gives the same, whatever the time
};

/// Booking, findings, medicines, open questions, preparation, what was decided, what clearance lacks,
/// cautions.
[[nodiscard]] CasePage case_page(const screening::Rules& rules, const CaseFile& file, const WholeCase& whole);

}  // namespace foreday::checklists
