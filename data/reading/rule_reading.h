#pragma once
#include "data/reading/map_reader.h"
#include "data/reading/protocol_draft.h"
#include "screening/readiness_rule.h"

/// What findings, limits of preparations, holds and readiness items have in common.
namespace foreday::data {

/// The keys of a rule's head: all of them required but `sources`, `reading` and `meanwhile`.
[[nodiscard]] Keys head_keys();
/// Adds the keys of one kind of rule.
[[nodiscard]] Keys operator+(Keys keys, const Keys& more);

/// Title, reading, topic, hazard, who, sources, sure and meanwhile. Whether `meanwhile` is needed is for the
/// caller to say.
[[nodiscard]] screening::RuleHead read_head(const MapReader& map, ProtocolDraft& draft);

/// A list of roles, at least one; their names are those of the design.
[[nodiscard]] std::vector<screening::Role> read_roles(const Located& node, Faults& faults);

/// A finding, or a limit of a preparation, which is one too but never about the record.
enum class FindingPlace { finding, preparation };
[[nodiscard]] screening::FindingRule read_finding(const Located& node, FindingPlace place,
                                                  ProtocolDraft& draft);

}  // namespace foreday::data
