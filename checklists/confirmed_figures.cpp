#include "checklists/confirmed_figures.h"

#include <fmt/format.h>

namespace foreday::checklists {

screening::HowSure rank_of(const screening::Rules& rules, screening::ParameterIndex parameter)
{
    const screening::Parameter& definition = rules.protocol.parameters.at(parameter);
    if (rules.policy.parameters.at(parameter) != definition.by_default) {
        return screening::HowSure::unit_policy;
    }
    return screening::rank_in(rules.policy, definition.id, definition.sure);
}

std::vector<std::string> not_confirmed(const screening::Rules& rules,
                                       std::initializer_list<screening::ParameterIndex> parameters)
{
    std::vector<std::string> names;
    for (const screening::ParameterIndex parameter : parameters) {
        const screening::HowSure rank = rank_of(rules, parameter);
        if (!screening::may_give_a_date(rank)) {
            names.push_back(
                fmt::format("{} ({})", rules.protocol.parameters[parameter].id, screening::name_of(rank)));
        }
    }
    return names;
}

}  // namespace foreday::checklists
