#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "screening/calculator.h"
#include "screening/fact.h"
#include "screening/medicine.h"
#include "screening/truth.h"
#include "screening/vocabulary.h"

namespace foreday::screening {

using ParameterIndex = std::uint32_t;    ///< place in Protocol::parameters
using PreparationIndex = std::uint32_t;  ///< place in Protocol::preparations
using ProcedureIndex = std::uint32_t;    ///< place in Protocol::procedures

enum class Operator : std::uint8_t { below, at_most, equals, at_least, above };
/// "below", "at most", "exactly", "at least", "above"
[[nodiscard]] std::string_view words_for(Operator op);

/// A number in the unit of what it limits, or a parameter the unit may set.
using Limit = std::variant<Exact, ParameterIndex>;

/// Yes/no fact.
struct FactIs {
    FactIndex fact = 0;
    bool value = true;
};
/// Choice fact: one of these places, ascending.
struct FactIsOneOf {
    FactIndex fact = 0;
    std::vector<std::uint32_t> choices;
};
/// Number fact against a limit.
struct FactCompares {
    FactIndex fact = 0;
    Operator op = Operator::equals;
    Limit limit;
};
/// Date fact: the event lies within so long before the procedure, the boundary day inside. Months are
/// calendar months, their end clamped. An event after the procedure day lies within.
struct FactWithin {
    FactIndex fact = 0;
    Limit length;
    Unit unit = Unit::month;  ///< day, week, month or year
};
struct CalculatedCompares {
    Calculator calculator = Calculator::age;
    Operator op = Operator::equals;
    Limit limit;
};
/// Some medicine of one of these classes, or one of these medicines, is taken.
struct TakesMedicine {
    std::vector<ClassIndex> classes;       ///< ascending
    std::vector<MedicineIndex> medicines;  ///< ascending
};
struct ProcedureIncludes {
    ProcedureIndex procedure = 0;
};
struct BleedingRiskIs {
    BleedingRisk risk = BleedingRisk::low;
};
/// The preparation the booking orders is one of these (ascending). Open when what was ordered is not known.
struct PreparationOrdered {
    std::vector<PreparationIndex> preparations;
};
/// Facts about the record itself. Allowed in rules of `kind: record` only.
struct RecordHas {
    enum class What : std::uint8_t {
        conflict,  ///< two standing sources differ
        unrecognised_medicine,
        own_concern,           ///< somebody raised one in own words
        told_no_longer_right,  ///< a hold was told otherwise than it stands now
        out_of_scope,          ///< another procedure, or under 18
    } what = What::conflict;
};

using Comparison =
    std::variant<FactIs, FactIsOneOf, FactCompares, FactWithin, CalculatedCompares, TakesMedicine,
                 ProcedureIncludes, BleedingRiskIs, PreparationOrdered, RecordHas>;

/// A three-valued condition. An empty `all` is yes, an empty `any` is no.
struct Condition {
    enum class Kind : std::uint8_t { compare, all, any, negation, at_least } kind = Kind::all;
    Comparison comparison;            ///< with `compare`
    std::vector<Condition> children;  ///< with `all`, `any`, `at_least`; one with `negation`
    Limit count;                      ///< with `at_least`: so many of the children
};

/// Every fact a condition can look at, calculators' inputs included; ascending, once each.
[[nodiscard]] std::vector<FactIndex> facts_in(const Condition& condition, const CalculatorBinding& binding);

/// Every comparison of a condition, evaluated or not, in the order of the tree.
[[nodiscard]] std::vector<const Comparison*> comparisons_in(const Condition& condition);

/// Whether the comparison asks a class or a medicine of the list.
[[nodiscard]] bool looks_at_medicines(const Condition& condition);

/// Whether a value keeps a limit.
[[nodiscard]] bool holds(const Exact& value, Operator op, const Exact& limit);

/// What a condition asks of the record itself. Empty: nothing.
[[nodiscard]] std::optional<RecordHas::What> record_test(const Condition& condition);

}  // namespace foreday::screening
