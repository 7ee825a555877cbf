#include <algorithm>

#include "data/reading/confirmable.h"
#include "data/reading/policy_reading.h"

namespace foreday::data {

using screening::Role;
using screening::Topic;
using screening::UnitPolicy;

namespace {

/// "Who may agree by default" of the design. The prescriber's or cardiologist's answer that a clot rule asks
/// for is named by that rule.
std::vector<Role> who_may_agree(Topic topic)
{
    switch (topic) {
        case Topic::sugar:
            return {Role::endoscopist, Role::anaesthesia, Role::diabetes};
        case Topic::lungs_and_airway:
        case Topic::sedation_and_site:
            return {Role::anaesthesia};
        default:
            return {Role::endoscopist};
    }
}

}  // namespace

UnitPolicy default_policy(const screening::Protocol& protocol)
{
    UnitPolicy policy;
    policy.calendar.opens = std::chrono::hours{8};
    policy.calendar.closes = std::chrono::hours{17};
    policy.calendar.working_weekdays = {1, 2, 3, 4, 5};  // ISO: Monday to Friday
    for (const auto& parameter : protocol.parameters) {
        policy.parameters.push_back(parameter.by_default);
    }
    for (const auto& question : protocol.policy_questions) {
        policy.options.push_back(question.by_default);
    }
    for (std::uint32_t i = 0; i < protocol.preparations.size(); ++i) {
        policy.preparation_order.push_back(i);
    }
    for (int i = 0; i <= static_cast<int>(Topic::record); ++i) {
        const auto topic = static_cast<Topic>(i);
        policy.may_agree.emplace(topic, who_may_agree(topic));
    }
    return policy;
}

std::vector<Unconfirmed> unconfirmed_under(const screening::Protocol& protocol, const UnitPolicy& policy)
{
    std::vector<Unconfirmed> result;
    for (const Confirmable& item : confirmables(protocol, policy.options)) {
        if (item.in_force && !may_give_a_date(rank_in(policy, item.id, item.sure))) {
            result.push_back({item.kind, item.id, item.title, item.sure});
        }
    }
    return result;
}

std::vector<std::size_t> expired_orders(const UnitPolicy& policy, screening::Date day)
{
    std::vector<std::size_t> expired;
    for (std::size_t i = 0; i < policy.standing_orders.size(); ++i) {
        if (policy.standing_orders[i].until < day) {
            expired.push_back(i);
        }
    }
    return expired;
}

}  // namespace foreday::data
