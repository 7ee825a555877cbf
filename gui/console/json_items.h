#pragma once
#include <nlohmann/json.hpp>
#include <optional>
#include <string>

#include "checklists/restart.h"

namespace foreday::console {

/// What stands beside an item besides the item itself.
struct ItemSide {
    std::string fingerprint;  ///< SHA-256 of its canonical bytes, lower-case hexadecimal
    std::string decision;     ///< "none", "standing" or "opened again"
    std::string note;         ///< "not bound" and the like; empty: nothing to say
    std::string stage;        ///< of a hold: "proposed", "agreed" or "told"
};

[[nodiscard]] nlohmann::ordered_json finding_json(const screening::Item& item, const ItemSide& side);
/// @param restart  `earliest_resume` and `restart` are null without one
[[nodiscard]] nlohmann::ordered_json hold_json(const screening::Hold& hold, const ItemSide& side,
                                               const screening::Zone& zone,
                                               const std::optional<checklists::RestartProposal>& restart);

/// A dose as a time with its offset, as a date where the time of day is not known, or null.
[[nodiscard]] nlohmann::ordered_json dose_json(const std::optional<screening::Dose>& dose,
                                               const screening::Zone& zone);

}  // namespace foreday::console
