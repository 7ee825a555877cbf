#include "screening/judge.h"

#include <fmt/format.h>

#include <algorithm>

#include "screening/condition_walk.h"

namespace foreday::screening {
namespace {

/// Beyond so many combinations of conflicting values a rule is simply open (a bound of the program, so
/// that a record full of conflicts cannot stall it; it never turns an answer).
constexpr std::size_t most_combinations = 64;
/// Scope of the program: adults.
constexpr int adult_age = 18;

bool has_plan(const Procedure& procedure)
{
    return procedure.is_intervention || procedure.plan != Procedure::Plan::other;
}

template <class T>
void sort_once(std::vector<T>& items)
{
    std::ranges::sort(items);
    items.erase(std::ranges::unique(items).begin(), items.end());
}

/// Steps through every combination of places, the last one fastest. False after the last.
bool next_combination(std::vector<std::size_t>& picks, const std::vector<std::size_t>& sizes)
{
    for (std::size_t place = picks.size(); place-- > 0;) {
        if (++picks[place] < sizes[place]) {
            return true;
        }
        picks[place] = 0;
    }
    return false;
}

std::string_view name_of(Informant informant)
{
    switch (informant) {
        case Informant::patient:
            return "patient";
        case Informant::relative:
            return "relative";
        case Informant::care_home:
            return "care home";
        case Informant::letter:
            return "letter";
        case Informant::booking:
            return "booking";
        case Informant::staff:
            return "staff";
    }
    return "";
}

std::string who_said(const Answer& answer, const Zone& zone)
{
    std::string text{name_of(answer.informant)};
    if (!answer.who.empty()) {
        text += " " + answer.who;
    }
    if (answer.dated) {
        text += ", dated " + iso_date(*answer.dated);
    } else {
        text += ", " + iso_date(date_of(local_of(zone, answer.at)));
    }
    if (answer.origin == Origin::import) {
        text += ", imported";
    } else if (answer.origin == Origin::earlier_case) {
        text += ", from an earlier case";
    }
    if (!answer.words.empty()) {
        text += fmt::format(", \"{}\"", answer.words);
    }
    return text;
}

}  // namespace

std::string_view name_of(OpenWhy why)
{
    switch (why) {
        case OpenWhy::not_asked:
            return "not asked";
        case OpenWhy::not_known:
            return "not known";
        case OpenWhy::in_conflict:
            return "in conflict";
        case OpenWhy::unconfirmed:
            return "unconfirmed";
        case OpenWhy::past_its_age:
            return "past its age";
        case OpenWhy::inexact:
            return "a more exact value is needed";
        case OpenWhy::not_applicable:
            return "not applicable";
        case OpenWhy::list_not_closed:
            return "list not closed";
        case OpenWhy::unrecognised_medicine:
            return "unrecognised medicine";
        case OpenWhy::not_known_what_was_ordered:
            return "not known what was ordered";
    }
    return "";
}

std::string value_text(const FactDefinition& fact, const Value& value)
{
    if (const auto* yes = std::get_if<bool>(&value)) {
        return *yes ? "yes" : "no";
    }
    if (const auto* choice = std::get_if<Choice>(&value)) {
        return choice->place < fact.choices.size() ? fact.choices[choice->place] : "";
    }
    const auto span = [](const std::string& low, const std::string& high) {
        return low == high ? low : low + " to " + high;
    };
    if (const auto* number = std::get_if<NumberInterval>(&value)) {
        const std::string text = span(number->lowest.text(), number->highest.text());
        const std::string_view unit = unit_text(fact.unit);
        return unit.empty() ? text : fmt::format("{} {}", text, unit);
    }
    if (const auto* dates = std::get_if<DateInterval>(&value)) {
        return span(iso_date(dates->lowest), iso_date(dates->highest));
    }
    if (const auto* times = std::get_if<TimeInterval>(&value)) {
        return span(iso_local(times->lowest), iso_local(times->highest));
    }
    return std::get<std::string>(value);
}

Judge::Judge(const Rules& rules, const CaseRecord& record, Moment now)
    : rules_(rules), record_(record), now_(now), applies_(rules.protocol.facts.size(), Truth::yes)
{
    const Protocol& protocol = rules.protocol;
    const Exact days = number_of(Limit{protocol.engine.list_closed_days}, rules.policy);
    list_ = list_state(record.medicines, now, date::days{static_cast<int>(days.floor())});
    in_scope_ = completed_years(record.booking.patient.born, day()) >= adult_age &&
                std::ranges::all_of(record.booking.procedures, [&](ProcedureIndex place) {
                    return has_plan(protocol.procedures[place]);
                });

    static const std::vector<Answer> nobody_asked;
    readings_.reserve(protocol.facts.size());
    for (std::size_t fact = 0; fact < protocol.facts.size(); ++fact) {
        const auto& answers = fact < record.answers.size() ? record.answers[fact] : nobody_asked;
        readings_.push_back(read_answers(protocol.facts[fact], answers, rules.zone, now));
    }
    find_differences();
    // The bleeding risk first: the questions of other facts may hang on it.
    std::vector<char> settled(protocol.facts.size(), 0);
    settle(protocol.diagnostic_only_fact, settled);
    const FactReading& diagnostic = readings_[protocol.diagnostic_only_fact];
    const bool diagnostic_only = diagnostic.state == FactState::known && diagnostic.confirmed &&
                                 std::get<bool>(diagnostic.values.front());
    risk_ = BleedingRisk::low;
    for (const ProcedureIndex place : record.booking.procedures) {
        const Procedure& procedure = protocol.procedures[place];
        risk_ = std::max(risk_, diagnostic_only ? procedure.risk_diagnostic_only : procedure.risk);
    }
    for (FactIndex fact = 0; fact < protocol.facts.size(); ++fact) {
        settle(fact, settled);
    }
}

void Judge::settle(FactIndex fact, std::vector<char>& settled)
{
    if (settled[fact] != 0) {
        return;
    }
    settled[fact] = 1;  // the reader refuses circles, so nothing comes back here unsettled
    const FactDefinition& definition = rules_.protocol.facts[fact];
    if (!definition.asked_when) {
        return;
    }
    for (const FactIndex gate : facts_in(*definition.asked_when, rules_.protocol.calculators)) {
        settle(gate, settled);
    }
    applies_[fact] = judge(*definition.asked_when).truth;
    if (applies_[fact] == Truth::no) {
        FactReading& reading = readings_[fact];
        reading.set_aside = std::move(reading.standing);
        reading.set_aside.insert(reading.set_aside.end(), reading.beside.begin(), reading.beside.end());
        std::ranges::sort(reading.set_aside);
        reading.standing.clear();
        reading.beside.clear();
        reading.values.clear();
        reading.confirmed = false;
        reading.past_its_age = false;
        reading.state = FactState::not_applicable;
    }
}

const Value* Judge::value_of(FactIndex fact, const Scenario& scenario) const
{
    const FactReading& reading = readings_[fact];
    if (reading.state == FactState::known) {
        return scenario.confirmed_only && !reading.confirmed ? nullptr : reading.values.data();
    }
    if (reading.state != FactState::in_conflict || scenario.confirmed_only) {
        return nullptr;
    }
    if (scenario.conflicting != nullptr) {
        const auto found = std::ranges::find(*scenario.conflicting, fact);
        if (found != scenario.conflicting->end()) {
            const auto place = static_cast<std::size_t>(found - scenario.conflicting->begin());
            return &reading.values[(*scenario.picks)[place]];
        }
    }
    return nullptr;
}

Calculated Judge::calculated(Calculator calculator, const Scenario& scenario) const
{
    const CalculatorBinding& binding = rules_.protocol.calculators;
    const ValueOf value = [&](FactIndex fact) { return value_of(fact, scenario); };
    Calculated result = calculate(calculator, binding, day(), value);
    if (calculator != Calculator::lower_egfr || !scenario.confirmed_only || !result.value) {
        return result;
    }
    // The lower of two can only fall by an estimate that is there but unconfirmed. Left out, it would
    // reassure.
    const ValueOf as_given = [&](FactIndex fact) {
        return readings_[fact].values.empty() ? nullptr : readings_[fact].values.data();
    };
    const auto& reported = binding.facts[static_cast<std::size_t>(CalculatorInput::laboratory_egfr)];
    if (reported && as_given(*reported) != nullptr && value(*reported) == nullptr) {
        result.missing.push_back(*reported);
    }
    const Calculated ours = calculate(Calculator::ckd_epi, binding, day(), value);
    if (!ours.value && calculate(Calculator::ckd_epi, binding, day(), as_given).value) {
        result.missing.insert(result.missing.end(), ours.missing.begin(), ours.missing.end());
    }
    if (!result.missing.empty()) {
        result.value->lowest = Exact{0};
        sort_once(result.missing);
    }
    return result;
}

OpenWhy Judge::why_open(FactIndex fact, const Scenario& scenario) const
{
    const FactReading& reading = readings_[fact];
    switch (reading.state) {
        case FactState::not_asked:
            return OpenWhy::not_asked;
        case FactState::not_applicable:
            return OpenWhy::not_applicable;
        case FactState::not_known:
            return OpenWhy::not_known;
        case FactState::in_conflict:
            return OpenWhy::in_conflict;
        case FactState::known:
            break;
    }
    if (scenario.confirmed_only && !reading.confirmed) {
        return reading.past_its_age ? OpenWhy::past_its_age : OpenWhy::unconfirmed;
    }
    const bool inexact = std::visit(
        [](const auto& value) {
            if constexpr (requires { value.exact(); }) {
                return !value.exact();
            } else {
                return false;
            }
        },
        reading.values.front());
    // A value that is exact keeps nothing open; the caller asks only for those that are not.
    return inexact ? OpenWhy::inexact : OpenWhy::unconfirmed;
}

Ground Judge::ground_of(FactIndex fact, const Value& value) const
{
    const FactDefinition& definition = rules_.protocol.facts[fact];
    std::string who;
    if (fact < record_.answers.size()) {
        for (const std::size_t place : readings_[fact].standing) {
            const Answer& answer = record_.answers[fact][place];
            if (answer.value && !differ(*answer.value, value, Exact{0})) {
                who = who_said(answer, rules_.zone);
                break;
            }
        }
    }
    return {definition.id, value_text(definition, value), who};
}

void Judge::find_differences()
{
    for (const FactReading& reading : readings_) {
        any_conflict_ = any_conflict_ || reading.state == FactState::in_conflict;
        any_unconfirmed_ = any_unconfirmed_ || (reading.state == FactState::known && !reading.confirmed);
    }
    any_unconfirmed_ =
        any_unconfirmed_ || std::ranges::any_of(record_.medicines.items, [](const MedicineItem& item) {
            return item.origin != Origin::this_case;
        });
}

Judge::Passes Judge::two_passes(const Condition& condition, std::vector<Truth>* outcomes) const
{
    Passes result;
    std::vector<std::size_t> sizes;
    std::size_t combinations = 1;
    if (any_conflict_) {
        for (const FactIndex fact : facts_in(condition, rules_.protocol.calculators)) {
            if (readings_[fact].state == FactState::in_conflict) {
                result.conflicting.push_back(fact);
                sizes.push_back(readings_[fact].values.size());
                combinations = std::min(combinations * sizes.back(), most_combinations + 1);
            }
        }
    }

    // Pass 2: everything unconfirmed and everything in conflict is open.
    const Scenario confirmed{true, nullptr, nullptr};
    const Truth sure = ConditionWalk(*this, confirmed).truth(condition, outcomes);
    result.truth = sure;
    if (result.conflicting.empty() && !any_unconfirmed_) {
        return result;
    }

    // Pass 1: as given, at every combination of conflicting values.
    std::vector<std::size_t> picks(result.conflicting.size(), 0);
    const Scenario given{false, &result.conflicting, &picks};
    const ConditionWalk walk(*this, given);
    bool fires = false;
    std::vector<Truth> these;
    while (combinations <= most_combinations) {
        these.clear();
        const bool yes = walk.truth(condition, outcomes != nullptr ? &these : nullptr) == Truth::yes;
        for (std::size_t place = 0; place < these.size(); ++place) {
            if (these[place] == Truth::yes) {
                (*outcomes)[place] = Truth::yes;
            }
        }
        if (yes && !fires) {
            fires = true;
            result.first_yes = picks;
        }
        if (!next_combination(picks, sizes)) {
            break;
        }
    }
    if (fires) {
        result.truth = Truth::yes;
        result.on_unconfirmed = sure != Truth::yes;
    } else {
        result.truth = sure == Truth::no ? Truth::no : Truth::open;
    }
    return result;
}

Truth Judge::truth(const Condition& condition) const
{
    return two_passes(condition, nullptr).truth;
}

Judged Judge::judge(const Condition& condition) const
{
    Judged result;
    const Passes passes = two_passes(condition, &result.comparisons);
    result.truth = passes.truth;
    result.on_unconfirmed = passes.on_unconfirmed;

    const Scenario confirmed{true, nullptr, nullptr};
    const ConditionWalk cautious(*this, confirmed);
    if (passes.truth == Truth::yes) {
        const std::vector<std::size_t> none;
        const Scenario given{false, &passes.conflicting,
                             passes.first_yes.empty() ? &none : &passes.first_yes};
        ConditionWalk(*this, given).ground(condition, result.because);
    } else if (passes.truth == Truth::no) {
        cautious.ground(condition, result.because);
    }
    if (passes.truth == Truth::open || passes.on_unconfirmed) {
        cautious.open(condition, result.open_on);
    }
    sort_once(result.because);
    sort_once(result.open_on);
    return result;
}

}  // namespace foreday::screening
