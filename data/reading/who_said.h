#pragma once
#include "data/reading/map_reader.h"
#include "screening/fact.h"

namespace foreday::data {

/// The `informant` of an answer or a medicine, or what is usual without it.
[[nodiscard]] screening::Informant informant_at(const MapReader& map, screening::Informant otherwise,
                                                Faults& faults);
/// `this case`, `earlier case` or `import` under a key; this case without it.
[[nodiscard]] screening::Origin origin_at(const MapReader& map, std::string_view key, Faults& faults);

}  // namespace foreday::data
