#pragma once
#include <string>
#include <string_view>

#include "screening/calculator.h"

namespace foreday::screening {

/// "creatinine clearance by Cockcroft-Gault": what a calculator is called on pages and papers.
[[nodiscard]] std::string_view title_of(Calculator calculator);

/// How a calculated value is shown: eGFR as a whole number, clearance and body-mass index with one
/// decimal, ages and scores as they are. What is compared is never this rounding: a kidney result at most
/// 2 away from the limit it is compared with says so, with two decimals of the unrounded value.
[[nodiscard]] std::string calculated_words(Calculator calculator, const NumberInterval& value,
                                           const Exact& limit);

}  // namespace foreday::screening
