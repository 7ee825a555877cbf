#include "data/reading/zone_name.h"

#include <date/date.h>

#include "data/reading/scalars.h"
#include "data/reading/zone_reading.h"

namespace foreday::data {

std::optional<std::string> read_zone_name(const Located& node, Faults& faults)
{
    auto name = read_text(node, faults);
    if (!name) {
        return std::nullopt;
    }
    // Only whether the name is known matters here; any day will do.
    const screening::Date some_day{date::local_days{date::year{2027} / 1 / 1}};
    if (const auto zone = read_zone(*name, some_day, some_day); !zone) {
        faults.add(node, zone.error());
        return std::nullopt;
    }
    return name;
}

}  // namespace foreday::data
