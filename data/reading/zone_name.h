#pragma once
#include <optional>
#include <string>

#include "data/reading/yaml_text.h"

namespace foreday::data {

/// The name of a zone that this machine's zone data has, such as "America/New_York".
[[nodiscard]] std::optional<std::string> read_zone_name(const Located& node, Faults& faults);

}  // namespace foreday::data
