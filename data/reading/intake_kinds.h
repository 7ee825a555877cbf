#pragma once
#include <array>
#include <string_view>

namespace foreday::data {

/// Kinds of food and drink that readiness items and arrivals speak about; see screening::Intake::kind.
inline constexpr std::array<std::string_view, 4> intake_kinds{"clear liquid", "light meal", "fatty meal", "milk"};

}  // namespace foreday::data
