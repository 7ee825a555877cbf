#pragma once
#include <string>

#include "screening/calculator.h"

namespace foreday::screening {

/// How a calculated value is shown: eGFR as a whole number, clearance and body-mass index with one
/// decimal, ages and scores as they are. What is compared is never this rounding: a kidney result at most
/// 2 away from the limit it is compared with says so, with two decimals of the unrounded value.
[[nodiscard]] std::string calculated_words(Calculator calculator, const NumberInterval& value,
                                           const Exact& limit);

}  // namespace foreday::screening
