#include "tests/book/book_rules.h"

#include <stdexcept>

#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "data/reading/zone_reading.h"

namespace foreday::tests {
namespace {

screening::Rules read_rules()
{
    auto protocol = data::read_protocol(FOREDAY_SOURCE_DATA_DIR "/protocol");
    if (!protocol.protocol) {
        throw std::runtime_error("the protocol has faults");
    }
    auto policy = data::read_policy(FOREDAY_SOURCE_DATA_DIR "/demo/larkmoor.yaml", *protocol.protocol);
    if (!policy.policy) {
        throw std::runtime_error("the demo unit's policy has faults");
    }
    const screening::Date first{date::local_days{date::year{2026} / 1 / 1}};
    const screening::Date last{date::local_days{date::year{2029} / 12 / 31}};
    auto zone = data::read_zone(policy.zone, first, last);
    if (!zone) {
        throw std::runtime_error(zone.error().what);
    }
    return {std::move(*protocol.protocol), std::move(*policy.policy), std::move(*zone)};
}

}  // namespace

const screening::Rules& demo_rules()
{
    static const screening::Rules rules = read_rules();
    return rules;
}

}  // namespace foreday::tests
