#include "screening/rules.h"

#include <algorithm>
#include <array>

namespace foreday::screening {
namespace {

constexpr std::array<std::string_view, 8> action_names{
    "take as usual",         "take on the morning with a sip", "omit on the day",   "omit days",
    "omit doses due within", "last dose at least hours",       "dose to be stated", "ask first"};
constexpr std::array<std::string_view, 2> condition_names{"with its meal", "space from the preparation"};

}  // namespace

bool in_force(const std::vector<PolicyUse>& uses, const std::vector<std::uint32_t>& chosen)
{
    return std::ranges::all_of(uses, [&](const PolicyUse& use) {
        return std::ranges::binary_search(use.options, chosen.at(use.question));
    });
}

std::string_view name_of(HoldAction action)
{
    return action_names[static_cast<std::size_t>(action)];
}

std::optional<HoldAction> find_hold_action(std::string_view name)
{
    const auto found = std::ranges::find(action_names, name);
    if (found == action_names.end()) {
        return std::nullopt;
    }
    return static_cast<HoldAction>(found - action_names.begin());
}

bool needs_a_number(HoldAction action)
{
    return action == HoldAction::omit_days || action == HoldAction::omit_doses_due_within ||
           action == HoldAction::last_dose_at_least_hours;
}

std::string_view name_of(DoseCondition condition)
{
    return condition_names[static_cast<std::size_t>(condition)];
}

std::optional<DoseCondition> find_dose_condition(std::string_view name)
{
    const auto found = std::ranges::find(condition_names, name);
    if (found == condition_names.end()) {
        return std::nullopt;
    }
    return static_cast<DoseCondition>(found - condition_names.begin());
}

}  // namespace foreday::screening
