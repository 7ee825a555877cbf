#pragma once
#include <nlohmann/json.hpp>
#include <string>

#include "screening/assessment.h"

namespace foreday::console {

/// What stands beside an item besides the item itself.
struct ItemSide {
    std::string fingerprint;  ///< SHA-256 of its canonical bytes, lower-case hexadecimal
    std::string decision;     ///< "none", "standing" or "opened again"
    std::string note;         ///< "not bound" and the like; empty: nothing to say
    std::string stage;        ///< of a hold: "proposed", "agreed" or "told"
};

[[nodiscard]] nlohmann::ordered_json finding_json(const screening::Item& item, const ItemSide& side);
/// @param earliest_resume  JSON text of a date, or null until the case says what was done
[[nodiscard]] nlohmann::ordered_json hold_json(const screening::Hold& hold, const ItemSide& side,
                                               const screening::Zone& zone,
                                               const nlohmann::ordered_json& earliest_resume);

/// A dose as a time with its offset, as a date where the time of day is not known, or null.
[[nodiscard]] nlohmann::ordered_json dose_json(const std::optional<screening::Dose>& dose,
                                               const screening::Zone& zone);

}  // namespace foreday::console
