#pragma once
#include "screening/medicine_lookup.h"
#include "screening/protocol.h"

namespace foreday::data {

/// Every name of every medicine of a protocol, folded and ready for ranking: generic names, and what patients
/// call them.
[[nodiscard]] screening::LookupIndex medicine_names(const screening::Protocol& protocol);

}  // namespace foreday::data
