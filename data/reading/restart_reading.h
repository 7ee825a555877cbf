#pragma once
#include "data/reading/map_reader.h"
#include "data/reading/protocol_draft.h"
#include "screening/rules.h"

namespace foreday::data {

/// `restart:` of a hold: by the bleeding risk of what was done, each with its own sources.
void read_restart(const MapReader& hold, screening::HoldRule& rule, ProtocolDraft& draft);

}  // namespace foreday::data
