#include "screening/calculator.h"

#include <algorithm>
#include <cmath>

#include "screening/truth.h"

namespace foreday::screening {
namespace {

constexpr std::array<std::string_view, calculator_count> calculator_names{
    "age", "bmi", "ckd_epi", "lower_egfr", "cockcroft_gault", "chads2", "cha2ds2_vasc"};
constexpr std::array<Unit, calculator_count> calculator_units{
    Unit::year, Unit::kg_per_m2, Unit::ml_per_min_per_1_73_m2, Unit::ml_per_min_per_1_73_m2, Unit::ml_per_min,
    Unit::none, Unit::none};
constexpr std::array<std::string_view, calculator_input_count> input_names{
    "birth_date",    "sex",          "weight",   "height",        "creatinine",      "laboratory_egfr",
    "heart_failure", "hypertension", "diabetes", "stroke_or_tia", "vascular_disease"};

/// Collects what goes into one calculation.
class Inputs {
public:
    Inputs(const CalculatorBinding& binding, const ValueOf& value_of) : binding_(binding), value_of_(value_of)
    {
    }

    template <class T>
    const T* get(CalculatorInput input)
    {
        const auto& fact = binding_.facts[static_cast<std::size_t>(input)];
        if (!fact) {
            return nullptr;
        }
        const Value* value = value_of_(*fact);
        const T* typed = value != nullptr ? std::get_if<T>(value) : nullptr;
        (typed != nullptr ? used : missing).push_back(*fact);
        return typed;
    }

    std::vector<FactIndex> used;
    std::vector<FactIndex> missing;

private:
    const CalculatorBinding& binding_;
    const ValueOf& value_of_;
};

std::optional<Interval<int>> age_on(Inputs& inputs, Date day)
{
    const auto* born = inputs.get<DateInterval>(CalculatorInput::birth_date);
    if (born == nullptr) {
        return std::nullopt;
    }
    return Interval<int>{completed_years(born->highest, day), completed_years(born->lowest, day)};
}

std::optional<NumberInterval> bmi(Inputs& inputs)
{
    const auto* weight = inputs.get<NumberInterval>(CalculatorInput::weight);
    const auto* height = inputs.get<NumberInterval>(CalculatorInput::height);
    if (weight == nullptr || height == nullptr) {
        return std::nullopt;
    }
    return NumberInterval{body_mass_index(weight->lowest, height->highest),
                          body_mass_index(weight->highest, height->lowest)};
}

struct KidneyInputs {
    Interval<int> age;
    NumberInterval creatinine;
    bool female = false;
};

std::optional<KidneyInputs> kidney_inputs(Inputs& inputs, Date day, Choice female)
{
    const auto age = age_on(inputs, day);
    const auto* creatinine = inputs.get<NumberInterval>(CalculatorInput::creatinine);
    const auto* sex = inputs.get<Choice>(CalculatorInput::sex);
    if (!age || creatinine == nullptr || sex == nullptr) {
        return std::nullopt;
    }
    return KidneyInputs{*age, *creatinine, *sex == female};
}

std::optional<NumberInterval> ckd_epi(Inputs& inputs, Date day, Choice female)
{
    const auto known = kidney_inputs(inputs, day, female);
    if (!known) {
        return std::nullopt;
    }
    // Both age and creatinine lower the result.
    const auto at = [&](const Exact& creatinine, int age) {
        return Exact::from_double(ckd_epi_2021(creatinine.to_double(), age, known->female));
    };
    return NumberInterval{at(known->creatinine.highest, known->age.highest),
                          at(known->creatinine.lowest, known->age.lowest)};
}

std::optional<NumberInterval> clearance(Inputs& inputs, Date day, Choice female)
{
    const auto known = kidney_inputs(inputs, day, female);
    const auto* weight = inputs.get<NumberInterval>(CalculatorInput::weight);
    if (!known || weight == nullptr) {
        return std::nullopt;
    }
    return NumberInterval{
        cockcroft_gault(known->age.highest, weight->lowest, known->creatinine.highest, known->female),
        cockcroft_gault(known->age.lowest, weight->highest, known->creatinine.lowest, known->female)};
}

/// The lower of two estimates, or the one there is. Requiring both would leave every patient open
/// whose laboratory printed only one of creatinine and eGFR.
std::optional<NumberInterval> lower_egfr(Inputs& inputs, Date day, Choice female)
{
    const auto* reported = inputs.get<NumberInterval>(CalculatorInput::laboratory_egfr);
    const auto ours = ckd_epi(inputs, day, female);
    if (reported != nullptr && ours) {
        return NumberInterval{std::min(reported->lowest, ours->lowest),
                              std::min(reported->highest, ours->highest)};
    }
    if (reported != nullptr) {
        return *reported;
    }
    return ours;
}

/// Points of a score, as far as they are known.
class Points {
public:
    void add(const bool* present, int points)
    {
        if (present == nullptr || *present) {
            highest_ += points;
            lowest_ += present != nullptr ? points : 0;
        }
    }
    void add_range(Truth present, int points)
    {
        lowest_ += present == Truth::yes ? points : 0;
        highest_ += present != Truth::no ? points : 0;
    }
    [[nodiscard]] NumberInterval total() const { return {Exact{lowest_}, Exact{highest_}}; }

private:
    int lowest_ = 0;
    int highest_ = 0;
};

Truth reaches(const std::optional<Interval<int>>& age, int years)
{
    if (!age || (age->lowest < years && age->highest >= years)) {
        return Truth::open;
    }
    return from_bool(age->lowest >= years);
}

// Ages and points of both scores are their definition, not a setting of a unit:
// CHADS2 (Gage et al., JAMA 2001;285:2864-70); CHA2DS2-VASc (Lip et al., Chest 2010;137:263-72).
constexpr int old_age = 75;
constexpr int elderly_age = 65;

NumberInterval chads2(Inputs& inputs, Date day)
{
    Points points;
    points.add(inputs.get<bool>(CalculatorInput::heart_failure), 1);
    points.add(inputs.get<bool>(CalculatorInput::hypertension), 1);
    points.add_range(reaches(age_on(inputs, day), old_age), 1);
    points.add(inputs.get<bool>(CalculatorInput::diabetes), 1);
    points.add(inputs.get<bool>(CalculatorInput::stroke_or_tia), 2);  // the score's double weight
    return points.total();
}

NumberInterval cha2ds2_vasc(Inputs& inputs, Date day, Choice female)
{
    Points points;
    points.add(inputs.get<bool>(CalculatorInput::heart_failure), 1);
    points.add(inputs.get<bool>(CalculatorInput::hypertension), 1);
    const auto age = age_on(inputs, day);
    points.add_range(reaches(age, elderly_age), 1);
    points.add_range(reaches(age, old_age), 1);  // two points in all from 75
    points.add(inputs.get<bool>(CalculatorInput::diabetes), 1);
    points.add(inputs.get<bool>(CalculatorInput::stroke_or_tia), 2);
    points.add(inputs.get<bool>(CalculatorInput::vascular_disease), 1);
    const auto* sex = inputs.get<Choice>(CalculatorInput::sex);
    points.add_range(sex == nullptr ? Truth::open : from_bool(*sex == female), 1);
    return points.total();
}

std::optional<NumberInterval> value_by(Calculator calculator, Inputs& inputs, Date day, Choice female)
{
    switch (calculator) {
        case Calculator::age:
            if (const auto age = age_on(inputs, day)) {
                return NumberInterval{Exact{age->lowest}, Exact{age->highest}};
            }
            return std::nullopt;
        case Calculator::bmi:
            return bmi(inputs);
        case Calculator::ckd_epi:
            return ckd_epi(inputs, day, female);
        case Calculator::lower_egfr:
            return lower_egfr(inputs, day, female);
        case Calculator::cockcroft_gault:
            return clearance(inputs, day, female);
        case Calculator::chads2:
            return chads2(inputs, day);
        case Calculator::cha2ds2_vasc:
            return cha2ds2_vasc(inputs, day, female);
    }
    return std::nullopt;
}

void sort_once(std::vector<FactIndex>& facts)
{
    std::ranges::sort(facts);
    facts.erase(std::ranges::unique(facts).begin(), facts.end());
}

}  // namespace

double ckd_epi_2021(double creatinine, int age, bool female)
{
    // The equation's own constants (Inker et al. 2021): eGFR = 142 x min(Scr/k,1)^a x max(Scr/k,1)^-1.200
    // x 0.9938^age x 1.012 if female; k 0.7 and a -0.241 for women, 0.9 and -0.302 for men.
    const double k = female ? 0.7 : 0.9;
    const double a = female ? -0.241 : -0.302;
    const double ratio = creatinine / k;
    return 142.0 * std::pow(std::min(ratio, 1.0), a) * std::pow(std::max(ratio, 1.0), -1.200) *
           std::pow(0.9938, age) * (female ? 1.012 : 1.0);
}

Exact cockcroft_gault(int age, const Exact& weight, const Exact& creatinine, bool female)
{
    // (140 - age) x weight / (72 x creatinine), x 0.85 for women: the equation's own constants. Nobody
    // is older than 140 in the plausible range, so the result stays above 0.
    const Exact men = Exact{140 - age} * weight / (Exact{72} * creatinine);
    return female ? men * Exact::ratio(85, 100) : men;
}

Exact body_mass_index(const Exact& weight, const Exact& height)
{
    const Exact metres = height / Exact{100};  // centimetres in a metre
    return weight / (metres * metres);
}

std::optional<Calculator> find_calculator(std::string_view name)
{
    const auto found = std::ranges::find(calculator_names, name);
    if (found == calculator_names.end()) {
        return std::nullopt;
    }
    return static_cast<Calculator>(found - calculator_names.begin());
}

std::string_view name_of(Calculator calculator)
{
    return calculator_names[static_cast<std::size_t>(calculator)];
}

Unit unit_of(Calculator calculator)
{
    return calculator_units[static_cast<std::size_t>(calculator)];
}

std::string_view name_of(CalculatorInput input)
{
    return input_names[static_cast<std::size_t>(input)];
}

FactType type_of(CalculatorInput input)
{
    switch (input) {
        case CalculatorInput::birth_date:
            return FactType::date;
        case CalculatorInput::sex:
            return FactType::choice;
        case CalculatorInput::weight:
        case CalculatorInput::height:
        case CalculatorInput::creatinine:
        case CalculatorInput::laboratory_egfr:
            return FactType::number;
        default:
            return FactType::yes_no;
    }
}

std::vector<CalculatorInput> inputs_of(Calculator calculator)
{
    using enum CalculatorInput;
    switch (calculator) {
        case Calculator::age:
            return {birth_date};
        case Calculator::bmi:
            return {weight, height};
        case Calculator::ckd_epi:
            return {birth_date, sex, creatinine};
        case Calculator::lower_egfr:
            return {birth_date, sex, creatinine, laboratory_egfr};
        case Calculator::cockcroft_gault:
            return {birth_date, sex, weight, creatinine};
        case Calculator::chads2:
            return {birth_date, heart_failure, hypertension, diabetes, stroke_or_tia};
        case Calculator::cha2ds2_vasc:
            return {birth_date, sex, heart_failure, hypertension, diabetes, stroke_or_tia, vascular_disease};
    }
    return {};
}

Calculated calculate(Calculator calculator, const CalculatorBinding& binding, Date procedure_day,
                     const ValueOf& value_of)
{
    Inputs inputs(binding, value_of);
    Calculated result;
    result.value = value_by(calculator, inputs, procedure_day, binding.female);
    result.used = std::move(inputs.used);
    result.missing = std::move(inputs.missing);
    if (calculator == Calculator::lower_egfr && result.value) {
        result.missing.clear();  // one estimate is enough
    }
    sort_once(result.used);
    sort_once(result.missing);
    return result;
}

}  // namespace foreday::screening
