#pragma once
#include "screening/protocol.h"

namespace foreday::tests {

/// The protocol of the repository under the demo unit's policy, in the unit's zone around 2027. Read once.
/// @throws std::runtime_error when it does not read
[[nodiscard]] const screening::Rules& demo_rules();

}  // namespace foreday::tests
