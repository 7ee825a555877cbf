#include "data/reading/entries.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "data/reading/map_reader.h"
#include "data/reading/nearest.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {

std::optional<std::uint32_t> IdTable::find(std::string_view id) const
{
    const auto found = std::ranges::lower_bound(ids_, id);
    if (found == ids_.end() || *found != id) {
        return std::nullopt;
    }
    return static_cast<std::uint32_t>(found - ids_.begin());
}

std::optional<std::uint32_t> IdTable::resolve(const Located& node, Faults& faults) const
{
    const auto id = read_id(node, faults);
    if (!id) {
        return std::nullopt;
    }
    const auto place = find(*id);
    if (!place && complete_) {
        const std::vector<std::string_view> names(ids_.begin(), ids_.end());
        faults.add(node, fmt::format("there is no {} {}", what_, screening::as_written(*id)),
                   perhaps(*id, names));
    }
    return place;
}

std::optional<std::uint32_t> IdTable::use(const Located& node, Faults& faults)
{
    const auto place = resolve(node, faults);
    if (place) {
        mark_used(*place);
    }
    return place;
}

Entries gather(const Located* tree, std::string_view what, Faults& faults)
{
    Entries entries;
    if (tree == nullptr) {
        entries.table = IdTable(what, {}, false);
        return entries;
    }
    bool complete = tree->kind == Located::Kind::list;
    std::map<std::string, const Located*> by_id;
    for (const Located& entry : list_items(*tree, fmt::format("every {}", what), faults)) {
        const Located* id_node = data::find(entry, "id");
        const bool written = id_node != nullptr && id_node->kind != Located::Kind::nothing;
        const auto id = written ? read_id(*id_node, faults) : std::nullopt;
        if (!id) {
            complete = false;
            entries.strays.push_back(&entry);
            continue;
        }
        const auto [first, added] = by_id.emplace(*id, &entry);
        if (!added) {
            faults.add(*id_node, fmt::format("the id {} stands twice", screening::as_written(*id)),
                       fmt::format("another id; it stands in line {} already", first->second->line));
            entries.strays.push_back(&entry);
        }
    }
    std::vector<std::string> ids;
    for (const auto& [id, entry] : by_id) {
        ids.push_back(id);
        entries.by_place.push_back(entry);
    }
    entries.table = IdTable(what, std::move(ids), complete);
    return entries;
}

}  // namespace foreday::data
