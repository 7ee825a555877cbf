#include "data/reading/reading_parts.h"

#include "data/reading/scalars.h"

namespace foreday::data {

std::string text_at(const MapReader& map, std::string_view key, Faults& faults)
{
    return map[key] == nullptr ? std::string{} : read_text(*map[key], faults).value_or("");
}

std::string id_at(const MapReader& map)
{
    return map["id"] == nullptr ? std::string{} : map["id"]->text;
}

}  // namespace foreday::data
