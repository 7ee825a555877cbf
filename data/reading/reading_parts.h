#pragma once
#include <string_view>

#include "data/reading/map_reader.h"
#include "data/reading/protocol_draft.h"

/// One reader for each file of a protocol, in the order in which they are called: each may rely on those
/// before it. Faults go to the draft; what was read stands in its protocol, sorted by id.
namespace foreday::data {

void read_source_file(ProtocolDraft& draft);
void read_parameter_file(ProtocolDraft& draft);
void read_policy_question_file(ProtocolDraft& draft);
void read_class_file(ProtocolDraft& draft);
void read_medicine_file(ProtocolDraft& draft);
void read_procedure_file(ProtocolDraft& draft);
/// The sections of protocol.yaml, which facts name. @param tree  nullptr when it could not be read
void read_sections(const Located* tree, ProtocolDraft& draft);
/// The facts without `asked_when`, which needs all of them.
void read_fact_file(ProtocolDraft& draft);
/// The rest of protocol.yaml. @param tree  nullptr when it could not be read
void read_main_file(const Located* tree, ProtocolDraft& draft);
void read_asked_when(ProtocolDraft& draft);
void read_finding_file(ProtocolDraft& draft);
void read_hold_file(ProtocolDraft& draft);
void read_preparation_file(ProtocolDraft& draft);
void read_readiness_file(ProtocolDraft& draft);

/// A text under a key; empty without it.
[[nodiscard]] std::string text_at(const MapReader& map, std::string_view key, Faults& faults);
/// The id as written; its form was judged when the entries were gathered.
[[nodiscard]] std::string id_at(const MapReader& map);

}  // namespace foreday::data
