#pragma once
#include <nlohmann/json.hpp>

#include "checklists/whole_case.h"
#include "data/reading/loaded_case.h"

namespace foreday::console {

/// The whole of a case for another program. Keys in a fixed order, times with offsets; the same case at
/// the same moment gives the same bytes.
[[nodiscard]] nlohmann::ordered_json report_json(const data::LoadedCase& loaded, const checklists::WholeCase& whole);

}  // namespace foreday::console
