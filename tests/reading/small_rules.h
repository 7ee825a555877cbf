#pragma once
#include "screening/protocol.h"
#include "tests/reading/small_protocol.h"

namespace foreday::tests {

/// The small protocol under its defaults, in New York. Read once.
/// @throws std::runtime_error when it does not read, with every fault
[[nodiscard]] const screening::Rules& small_rules();

}  // namespace foreday::tests
