#pragma once
#include <array>
#include <cstdint>
#include <string_view>

#include "screening/vocabulary.h"

namespace foreday::present {

/// The three places of work.
enum class Desk : std::uint8_t { phone, review, arrival };
inline constexpr std::array all_desks{Desk::phone, Desk::review, Desk::arrival};

[[nodiscard]] std::string_view name_of(Desk desk);  ///< "phone desk", as entries name it

/// Where somebody of a role begins: clinicians at the review desk, arrival clerks at the arrival desk, all
/// others at the phone desk.
[[nodiscard]] Desk home_desk(screening::Role role);

}  // namespace foreday::present
