#include "tests/reading/small_rules.h"

#include <stdexcept>

#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "data/reading/zone_reading.h"

namespace foreday::tests {
namespace {

screening::Rules read_rules()
{
    const TemporaryFolder folder;
    write_all(folder, small_protocol());
    auto read = data::read_protocol(folder.path());
    if (!read.protocol) {
        std::string text = "the small protocol has faults:\n";
        for (const auto& fault : read.faults) {
            text += text_of(fault) + "\n";
        }
        throw std::runtime_error(text);
    }
    const screening::Date first{date::local_days{date::year{2027} / 1 / 1}};
    const screening::Date last{date::local_days{date::year{2037} / 12 / 31}};
    auto zone = data::read_zone("America/New_York", first, last);
    if (!zone) {
        throw std::runtime_error(zone.error().what);
    }
    auto policy = data::default_policy(*read.protocol);
    return {std::move(*read.protocol), std::move(policy), std::move(*zone)};
}

}  // namespace

const screening::Rules& small_rules()
{
    static const screening::Rules rules = read_rules();
    return rules;
}

}  // namespace foreday::tests
