#pragma once
#include <string>

#include "checklists/whole_case.h"

namespace foreday::console {

/// What the heading of a report names.
struct ReportHead {
    std::string case_id;
    std::string unit;
    std::string protocol_version;
    std::string protocol_hash;
    std::string policy_hash;  ///< empty: the published defaults
    std::string caution;
};

/// The whole of a case for people, as text of at most 100 columns.
[[nodiscard]] std::string report_words(const ReportHead& head, const screening::Rules& rules,
                                       const screening::CaseRecord& record,
                                       const checklists::WholeCase& whole);

}  // namespace foreday::console
