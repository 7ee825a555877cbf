#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "screening/exact.h"

namespace foreday::screening {

/// Units that facts, limits and parameters are written in. Two units compare when they measure the
/// same thing; everything else is a fault of the protocol.
enum class Unit {
    none,  ///< a ratio or a count, such as an INR
    kilogram,
    pound,
    centimetre,
    inch,
    mg_per_dl_creatinine,
    umol_per_l_creatinine,
    mg_per_dl_glucose,
    mmol_per_l_ketones,
    celsius,
    fahrenheit,
    millilitre,
    fluid_ounce,
    ml_per_min,              ///< Cockcroft-Gault
    ml_per_min_per_1_73_m2,  ///< eGFR
    kg_per_m2,
    millimetre_mercury,
    per_minute,
    percent,
    milligram,
    minute,
    hour,
    day,
    week,
    month,
    year,
    tablet,
    glass,
};

/// Every unit that compares with this one, itself included, as it is written in files. Empty for Unit::none.
[[nodiscard]] std::vector<std::string_view> units_like(Unit unit);

/// The substance without which the unit of a concentration says nothing: "creatinine". Empty: it needs none.
[[nodiscard]] std::string_view substance_of(Unit unit);

/// The unit as it is written in files: "kg", "mg/dL creatinine", "mL/min/1.73 m2"; "" is Unit::none. "C" or
/// "°C" for "degrees C", "day" for "days" and the like are taken too. Empty when unknown: "mg/dL" alone is,
/// as the substance decides what the number means.
[[nodiscard]] std::optional<Unit> find_unit(std::string_view written);
[[nodiscard]] std::string_view unit_text(Unit unit);

/// Whether values in these units can be compared. Months and years do not compare with days: the
/// calendar decides how long they are.
[[nodiscard]] bool comparable(Unit a, Unit b);

/// Exact conversion. @throws std::invalid_argument when the units are not comparable.
/// 1 lb = 0.45359237 kg and 1 in = 2.54 cm by definition (international yard and pound agreement, 1959);
/// 1 US fl oz = 29.5735 mL and 1 mg/dL creatinine = 88.4 umol/L as the project fixes them.
[[nodiscard]] Exact convert(const Exact& value, Unit from, Unit to);

/// "5 ft 10 in", "5 ft", "70.5 in" in inches; empty when it is not of that form: whole feet, inches below 12
/// after feet, nothing below 0.
[[nodiscard]] std::optional<Exact> parse_feet_and_inches(std::string_view text);

/// A value and its unit as one text: "84.6 kg", "98%", "1.5", "5 ft 10 in" (in inches).
struct Quantity {
    Exact value;
    Unit unit = Unit::none;
    bool operator==(const Quantity&) const = default;
};
[[nodiscard]] Result<Quantity> parse_quantity(std::string_view text);

}  // namespace foreday::screening
