#pragma once
#include <array>
#include <cstdint>
#include <functional>
#include <optional>
#include <string_view>
#include <vector>

#include "screening/fact.h"

namespace foreday::screening {

/// CKD-EPI 2021 creatinine equation (Inker et al., N Engl J Med 2021;385:1737-49), mL/min/1.73 m2.
/// @param creatinine  mg/dL, > 0   @param age  completed years, >= 18   @returns the raw value, not rounded
[[nodiscard]] double ckd_epi_2021(double creatinine, int age, bool female);
/// Cockcroft & Gault, Nephron 1976;16:31-41, mg/dL form, mL/min; not rounded.
/// @param weight  kg, actual  @param creatinine  mg/dL, > 0
[[nodiscard]] Exact cockcroft_gault(int age, const Exact& weight, const Exact& creatinine, bool female);
/// kg/m2, not rounded. @param height  cm, > 0
[[nodiscard]] Exact body_mass_index(const Exact& weight, const Exact& height);

enum class Calculator : std::uint8_t {
    age,              ///< completed years on the procedure date
    bmi,              ///< kg/m2
    ckd_epi,          ///< mL/min/1.73 m2
    lower_egfr,       ///< lower of the laboratory's eGFR and ours; the one known where only one is
    cockcroft_gault,  ///< mL/min
    chads2,           ///< points, 0 to 6
    cha2ds2_vasc,     ///< points, 0 to 9
};
inline constexpr std::size_t calculator_count = 7;

[[nodiscard]] std::optional<Calculator> find_calculator(std::string_view name);
[[nodiscard]] std::string_view name_of(Calculator calculator);
[[nodiscard]] Unit unit_of(Calculator calculator);

/// What calculators need, each bound by the protocol to one of its facts.
enum class CalculatorInput : std::uint8_t {
    birth_date,
    sex,
    weight,
    height,
    creatinine,
    laboratory_egfr,
    heart_failure,
    hypertension,
    diabetes,
    stroke_or_tia,
    vascular_disease,
};
inline constexpr std::size_t calculator_input_count = 11;
[[nodiscard]] std::string_view name_of(CalculatorInput input);
[[nodiscard]] FactType type_of(CalculatorInput input);

/// Facts by input. The choice of `sex` named "female" is at `female`.
struct CalculatorBinding {
    std::array<std::optional<FactIndex>, calculator_input_count> facts;
    Choice female;
};
/// The inputs a calculator may look at, in a fixed order.
[[nodiscard]] std::vector<CalculatorInput> inputs_of(Calculator calculator);

/// A calculated value as an interval, or open. A score with unanswered items is the interval of what
/// it can still become, so that it may settle a limit before every item is known.
struct Calculated {
    std::optional<NumberInterval> value;  ///< empty: open
    std::vector<FactIndex> missing;       ///< facts that would settle or sharpen it, ascending
    std::vector<FactIndex> used;          ///< facts that went in, ascending
};

/// Gives the value of a fact, or nullptr where it is open.
using ValueOf = std::function<const Value*(FactIndex)>;
[[nodiscard]] Calculated calculate(Calculator calculator, const CalculatorBinding& binding,
                                   Date procedure_day, const ValueOf& value_of);

}  // namespace foreday::screening
