#pragma once
#include "data/reading/entries.h"
#include "data/reading/map_reader.h"
#include "data/reading/policy_reading.h"
#include "screening/rules.h"

namespace foreday::data {

/// A policy while it is read. What the file does not say stands as in the default policy.
struct PolicyDraft {
    explicit PolicyDraft(const screening::Protocol& protocol_read);

    const screening::Protocol& protocol;
    Faults faults;
    Faults warnings;
    screening::UnitPolicy policy;
    std::vector<UnitChange> changes;
    IdTable parameters;
    IdTable questions;
    IdTable holds;
    IdTable preparations;
    IdTable medicines;
};

/// Whether a change must be signed for.
enum class Signed { required, optional };
/// Keys of a change: reason, by, role, on.
[[nodiscard]] Keys change_keys();
/// Reads them; those missing are a fault where they are required.
[[nodiscard]] UnitChange read_change(const MapReader& map, std::string item, Signed needed,
                                     PolicyDraft& draft);

void read_unit_hours(const Located& node, PolicyDraft& draft);
void read_unit_parameters(const Located& node, PolicyDraft& draft);
void read_unit_answers(const Located& node, PolicyDraft& draft);
void read_confirmations(const Located& node, PolicyDraft& draft);
void read_standing_orders(const Located& node, PolicyDraft& draft);
void read_preparation_order(const Located& node, PolicyDraft& draft);
void read_may_agree(const Located& node, PolicyDraft& draft);

}  // namespace foreday::data
