#pragma once
#include <array>
#include <string_view>

/// Closed lists of words that several files share.
namespace foreday::data {

/// Kinds of food and drink that readiness items and arrivals speak about; see screening::Intake::kind.
inline constexpr std::array<std::string_view, 4> intake_kinds{"clear liquid", "light meal", "fatty meal",
                                                              "milk"};

/// From Monday, as ISO counts them; the place of a day is its ISO number less 1.
inline constexpr std::array<std::string_view, 7> weekday_words{"monday", "tuesday",  "wednesday", "thursday",
                                                               "friday", "saturday", "sunday"};

}  // namespace foreday::data
