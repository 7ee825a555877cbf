#include "data/reading/protocol_draft.h"

#include <fmt/format.h>

#include "data/reading/map_reader.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {

using screening::HowSure;
using screening::Limit;
using screening::Parameter;
using screening::ParameterIndex;

std::optional<ParameterIndex> read_parameter_use(const Located& node, ProtocolDraft& draft)
{
    const MapReader map(node, "a limit", {{"parameter"}, {}}, draft.faults);
    if (map["parameter"] == nullptr) {
        return std::nullopt;
    }
    const auto place = draft.parameters.table.use(*map["parameter"], draft.faults);
    if (!place || !draft.parameter_sound.at(*place)) {
        return std::nullopt;
    }
    const Parameter& parameter = draft.protocol.parameters.at(*place);
    if (!std::holds_alternative<screening::Exact>(parameter.by_default)) {
        draft.faults.add(*map["parameter"], fmt::format("the parameter \"{}\" is no number", parameter.id),
                         "a parameter that is a number");
        return std::nullopt;
    }
    return place;
}

std::optional<Limit> read_limit(const Located& node, const LimitOf& of, ProtocolDraft& draft)
{
    if (node.kind != Located::Kind::map) {
        const auto number = read_quantity_in(node, of.unit, of.what, draft.faults);
        return number ? std::optional<Limit>{*number} : std::nullopt;
    }
    const auto place = read_parameter_use(node, draft);
    if (!place) {
        return std::nullopt;
    }
    const Parameter& parameter = draft.protocol.parameters.at(*place);
    if (parameter.unit == of.unit) {
        return Limit{*place};
    }
    const auto written = [](screening::Unit unit) {
        return unit == screening::Unit::none ? std::string{"no unit"} : std::string{unit_text(unit)};
    };
    if (screening::comparable(parameter.unit, of.unit)) {
        draft.faults.add(node,
                         fmt::format("the parameter \"{}\" is in {}, {} in {}", parameter.id,
                                     written(parameter.unit), of.what, written(of.unit)),
                         fmt::format("write the parameter in {}", written(of.unit)));
    } else {
        draft.faults.add(node,
                         fmt::format("the parameter \"{}\" in {} cannot be compared with {} in {}",
                                     parameter.id, written(parameter.unit), of.what, written(of.unit)),
                         fmt::format("a parameter in {}", written(of.unit)));
    }
    return std::nullopt;
}

std::vector<screening::SourceUse> read_sources(const Located& node, ProtocolDraft& draft)
{
    std::vector<screening::SourceUse> uses;
    for (const Located& item : list_items(node, "sources", draft.faults)) {
        const MapReader map(item, "a use of a source", {{"source", "at"}, {}}, draft.faults);
        screening::SourceUse use;
        if (map["source"] != nullptr) {
            if (const auto place = draft.sources.table.use(*map["source"], draft.faults)) {
                use.source = draft.sources.table.ids().at(*place);
            }
        }
        if (map["at"] != nullptr) {
            use.locator = read_text(*map["at"], draft.faults).value_or("");
        }
        uses.push_back(std::move(use));
    }
    return uses;
}

Ground read_ground(const MapReader& map, ProtocolDraft& draft)
{
    Ground ground;
    std::optional<HowSure> sure;
    if (map["sure"] != nullptr) {
        sure = read_named(*map["sure"], HowSure::from_memory, draft.faults);
        ground.sure = sure.value_or(HowSure::from_memory);
    }
    if (map["sources"] != nullptr) {
        ground.sources = read_sources(*map["sources"], draft);
    }
    const bool may_lack = !sure || *sure == HowSure::common_practice || *sure == HowSure::from_memory;
    const bool has_list = map["sources"] != nullptr && map["sources"]->kind == Located::Kind::list;
    const bool empty_list = has_list && ground.sources.empty();
    if (map.is_map() && !may_lack && (!map.wrote("sources") || empty_list)) {
        draft.faults.add(
            map.key("sure"), fmt::format("no source, though it is {}", screening::name_of(*sure)),
            "sources: [{source: ID, at: ...}]; none is needed for common practice and from memory");
    }
    return ground;
}

}  // namespace foreday::data
