#pragma once
#include <string>

#include "screening/references.h"

namespace foreday::console {

/// One item of the protocol, of whatever kind, as a block that begins with its id.
/// @param item  one of screening::items_of()
[[nodiscard]] std::string item_block(const screening::ItemName& item, const screening::Protocol& protocol,
                                     const screening::UnitPolicy& policy);

/// A fact as `foreday facts` lists it.
[[nodiscard]] std::string fact_block(const screening::FactDefinition& fact);

}  // namespace foreday::console
