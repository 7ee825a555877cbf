#pragma once
#include <nlohmann/json.hpp>

#include "gui/console/report_words.h"

namespace foreday::console {

/// The whole of a case for another program. Keys in a fixed order, times with offsets; the same case at
/// the same moment gives the same bytes.
[[nodiscard]] nlohmann::ordered_json report_json(const ReportHead& head, const screening::Rules& rules,
                                                 const screening::CaseRecord& record,
                                                 const checklists::WholeCase& whole);

}  // namespace foreday::console
