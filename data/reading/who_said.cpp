#include "data/reading/who_said.h"

#include <array>

#include "data/reading/scalars.h"

namespace foreday::data {

using screening::Informant;
using screening::Origin;

Informant informant_at(const MapReader& map, Informant otherwise, Faults& faults)
{
    constexpr std::array<std::string_view, 6> names{"patient", "relative", "care home",
                                                    "letter",  "booking",  "staff"};
    return map["informant"] == nullptr
               ? otherwise
               : read_word<Informant>(*map["informant"], names, faults).value_or(otherwise);
}

Origin origin_at(const MapReader& map, std::string_view key, Faults& faults)
{
    constexpr std::array<std::string_view, 3> names{"this case", "earlier case", "import"};
    return map[key] == nullptr ? Origin::this_case
                               : read_word<Origin>(*map[key], names, faults).value_or(Origin::this_case);
}

}  // namespace foreday::data
