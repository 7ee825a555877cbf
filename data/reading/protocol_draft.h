#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/entries.h"
#include "screening/protocol.h"

namespace foreday::data {

/// A protocol while it is read: what has been read so far, and what the files name.
struct ProtocolDraft {
    Faults faults;
    Faults warnings;
    screening::Protocol protocol;

    Entries sources;
    Entries parameters;
    Entries policy_questions;
    Entries facts;
    Entries classes;
    Entries medicines;
    Entries procedures;
    Entries findings;
    Entries holds;
    Entries preparations;
    Entries readiness;

    // By place: whether type and unit of the entry are known, so that what is said about it can be judged.
    std::vector<bool> parameter_sound;
    std::vector<bool> fact_sound;
};

/// Name and unit that a limit is compared with.
struct LimitOf {
    std::string_view what;
    screening::Unit unit = screening::Unit::none;
};

/// A number in the subject's unit, or `{parameter: ID}` of a parameter in that very unit.
[[nodiscard]] std::optional<screening::Limit> read_limit(const Located& node, const LimitOf& of,
                                                         ProtocolDraft& draft);

/// `{parameter: ID}` alone; a parameter that is no number is a fault. Empty after a fault.
[[nodiscard]] std::optional<screening::ParameterIndex> read_parameter_use(const Located& node,
                                                                          ProtocolDraft& draft);

/// Where something was read, and how sure it is. Sources may be missing only with `common practice` or
/// `from memory`.
struct Ground {
    std::vector<screening::SourceUse> sources;
    screening::HowSure sure = screening::HowSure::from_memory;
};
class MapReader;
[[nodiscard]] Ground read_ground(const MapReader& map, ProtocolDraft& draft);
[[nodiscard]] std::vector<screening::SourceUse> read_sources(const Located& node, ProtocolDraft& draft);

}  // namespace foreday::data
