#include "screening/protocol.h"

#include <algorithm>

namespace foreday::screening {
namespace {

template <class T>
std::optional<std::uint32_t> place_of(const std::vector<T>& sorted, std::string_view id)
{
    const auto found =
        std::ranges::lower_bound(sorted, id, {}, [](const T& item) { return std::string_view{item.id}; });
    if (found == sorted.end() || found->id != id) {
        return std::nullopt;
    }
    return static_cast<std::uint32_t>(found - sorted.begin());
}

}  // namespace

bool speaks_about(const HoldRule& rule, MedicineIndex medicine, const Protocol& protocol)
{
    return matches(protocol.medicines.at(medicine), medicine, rule.classes, rule.medicines);
}

HowSure rank_in(const UnitPolicy& policy, const std::string& id, HowSure sure)
{
    if (may_give_a_date(sure)) {
        return sure;
    }
    const bool confirmed = std::ranges::binary_search(policy.confirmations, id, {}, &Confirmation::item);
    return confirmed ? HowSure::unit_policy : sure;
}

Exact number_of(const Limit& limit, const UnitPolicy& policy)
{
    if (const auto* number = std::get_if<Exact>(&limit)) {
        return *number;
    }
    const ParameterValue& value = policy.parameters.at(std::get<ParameterIndex>(limit));
    if (const auto* number = std::get_if<Exact>(&value)) {
        return *number;
    }
    if (const auto* time = std::get_if<TimeOfDay>(&value)) {
        return Exact{time->count()};
    }
    return Exact{std::get<bool>(value) ? 1 : 0};
}

std::chrono::minutes minutes_of(ParameterIndex parameter, const Protocol& protocol, const UnitPolicy& policy)
{
    const ParameterValue& value = policy.parameters.at(parameter);
    if (const auto* time = std::get_if<TimeOfDay>(&value)) {
        return *time;
    }
    const Exact number = number_of(Limit{parameter}, policy);
    return std::chrono::minutes{
        convert(number, protocol.parameters.at(parameter).unit, Unit::minute).floor()};
}

std::optional<FactIndex> find_fact(const Protocol& protocol, std::string_view id)
{
    return place_of(protocol.facts, id);
}
std::optional<MedicineIndex> find_medicine(const Protocol& protocol, std::string_view id)
{
    return place_of(protocol.medicines, id);
}
std::optional<ClassIndex> find_class(const Protocol& protocol, std::string_view id)
{
    return place_of(protocol.classes, id);
}
std::optional<PreparationIndex> find_preparation(const Protocol& protocol, std::string_view id)
{
    return place_of(protocol.preparations, id);
}
std::optional<ProcedureIndex> find_procedure(const Protocol& protocol, std::string_view id)
{
    return place_of(protocol.procedures, id);
}
std::optional<ParameterIndex> find_parameter(const Protocol& protocol, std::string_view id)
{
    return place_of(protocol.parameters, id);
}

}  // namespace foreday::screening
