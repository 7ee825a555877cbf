#include <algorithm>
#include <memory>
#include <stdexcept>

#include "screening/hold_planner.h"
#include "tests/screening/builders.h"

namespace foreday::screening::build {
namespace {

template <class T>
T right(std::optional<T> found, std::string_view id)
{
    if (!found) {
        throw std::invalid_argument("a slip in the test: there is no " + std::string{id});
    }
    return *std::move(found);
}

FactDefinition fact_of(std::string id, FactType type, std::string section)
{
    FactDefinition fact;
    fact.id = std::move(id);
    fact.type = type;
    fact.section = std::move(section);
    fact.question = "?";
    return fact;
}

template <class Rule>
Rule& insert_sorted(std::vector<Rule>& rules, Rule rule)
{
    const auto place =
        std::ranges::lower_bound(rules, rule.head.id, {}, [](const Rule& one) { return one.head.id; });
    return *rules.insert(place, std::move(rule));
}

RuleHead head_of(std::string id)
{
    RuleHead head;
    head.title = "About " + id;
    head.id = std::move(id);
    head.topic = Topic::other_medicines;
    head.hazard = Hazard::bleeding;
    head.who = {Role::endoscopist};
    head.sure = HowSure::published;
    head.meanwhile = "Go on as you do now.";
    return head;
}

}  // namespace

TinyCase::TinyCase() : now(utc("2027-06-01T12:00"))
{
    rules.zone = fixed_zone();
    add_facts();
    add_medicines();
    add_engine();
    bind_calculators();
    record.id = "T-1";
    record.booking.patient = {"Robin Example", "T-1", day("1960-01-01")};
    record.answers.resize(rules.protocol.facts.size());
    procedures({"colonoscopy"});
    start("2027-06-17T09:00");
}

void TinyCase::add_facts()
{
    auto& facts = rules.protocol.facts;
    rules.protocol.sections = {"first", "second"};
    for (const char* id : {"a", "allergy", "b", "c", "d", "diabetes", "diagnostic_only", "e", "heart_failure",
                           "hypertension", "stent", "stroke_or_tia", "vascular_disease"}) {
        facts.push_back(fact_of(id, FactType::yes_no, "first"));
    }
    for (const char* id :
         {"creatinine", "glucose", "height", "journey_minutes", "laboratory_egfr", "weight"}) {
        facts.push_back(fact_of(id, FactType::number, "second"));
    }
    for (const char* id : {"birth_date", "last_visit", "stent_date"}) {
        facts.push_back(fact_of(id, FactType::date, "second"));
    }
    facts.push_back(fact_of("sex", FactType::choice, "second"));
    std::ranges::sort(facts, {}, &FactDefinition::id);
    definition("sex").choices = {"female", "male", "other"};
    definition("weight").unit = Unit::kilogram;
    definition("weight").age_limit = std::chrono::hours{24 * 90};  // 90 days
    definition("glucose").age_limit = std::chrono::minutes{60};
    definition("allergy").compare = true;
    definition("stent_date").compare = true;
    definition("stent_date").tolerance = Exact{7};
    definition("stent_date").asked_when = std::make_shared<const Condition>(is("stent"));
}

void TinyCase::add_medicines()
{
    rules.protocol.classes = {{"anticoagulant", "Anticoagulants", true},
                              {"glp1", "GLP-1 medicines", false},
                              {"insulin", "Insulins", true},
                              {"nsaid", "Pain killers", false},
                              {"platelet", "Platelet medicines", true}};
    const auto one = [](std::string id, std::vector<ClassIndex> classes, bool marked) {
        MedicineDefinition medicine;
        medicine.generic = id;
        medicine.ingredients = {id};
        medicine.id = std::move(id);
        medicine.classes = std::move(classes);
        medicine.marked = marked;
        return medicine;
    };
    rules.protocol.medicines = {one("apixaban", {0}, true),     one("aspirin", {4}, true),
                                one("dulaglutide", {1}, false), one("ibuprofen", {3}, false),
                                one("pen", {1, 2}, true),       one("warfarin", {0}, true)};
}

void TinyCase::add_engine()
{
    Protocol& protocol = rules.protocol;
    const auto one = [](std::string id, Unit unit, const ParameterValue& value) {
        Parameter parameter;
        parameter.id = std::move(id);
        parameter.unit = unit;
        parameter.by_default = value;
        return parameter;
    };
    protocol.parameters = {one("limit", Unit::none, Exact{2}), one("list_closed_days", Unit::day, Exact{30})};
    for (const Parameter& parameter : protocol.parameters) {
        rules.policy.parameters.push_back(parameter.by_default);
    }
    protocol.engine.list_closed_days = parameter("list_closed_days");
    protocol.journey_fact = fact("journey_minutes");
    protocol.diagnostic_only_fact = fact("diagnostic_only");

    const auto procedure = [](std::string id, Procedure::Plan plan, BleedingRisk risk,
                              BleedingRisk only_looking) {
        Procedure made;
        made.id = std::move(id);
        made.plan = plan;
        made.risk = risk;
        made.risk_diagnostic_only = only_looking;
        return made;
    };
    using enum BleedingRisk;
    protocol.procedures = {procedure("bronchoscopy", Procedure::Plan::other, high, high),
                           procedure("colonoscopy", Procedure::Plan::bowel, high, low),
                           procedure("upper_endoscopy", Procedure::Plan::fasting_only, low, low)};
    for (const char* id : {"polymer", "salts"}) {
        Preparation preparation;
        preparation.id = id;
        preparation.generic = id;
        protocol.preparations.push_back(std::move(preparation));
    }
    rules.policy.unit = "Larkmoor Endoscopy";
    rules.policy.calendar = {clock("07:00"), clock("16:30"), {1, 2, 3, 4, 5}, {}};
}

void TinyCase::bind_calculators()
{
    auto& binding = rules.protocol.calculators;
    for (std::size_t place = 0; place < calculator_input_count; ++place) {
        binding.facts[place] = fact(name_of(static_cast<CalculatorInput>(place)));
    }
    binding.female = Choice{0};
}

FactDefinition& TinyCase::definition(std::string_view id)
{
    return rules.protocol.facts.at(fact(id));
}
FactIndex TinyCase::fact(std::string_view id) const
{
    return right(find_fact(rules.protocol, id), id);
}
ParameterIndex TinyCase::parameter(std::string_view id) const
{
    return right(find_parameter(rules.protocol, id), id);
}

void TinyCase::set_parameter(std::string_view id, const ParameterValue& value)
{
    rules.policy.parameters.at(parameter(id)) = value;
}

Value TinyCase::choice(std::string_view id, std::string_view name) const
{
    const auto& choices = rules.protocol.facts.at(fact(id)).choices;
    const auto found = std::ranges::find(choices, name);
    if (found == choices.end()) {
        throw std::invalid_argument("a slip in the test: no such choice");
    }
    return Choice{static_cast<std::uint32_t>(found - choices.begin())};
}

TinyCase& TinyCase::answer(std::string_view id, const Saying& saying)
{
    record.answers.at(fact(id)).push_back(saying.answer);
    return *this;
}

TinyCase& TinyCase::forget(std::string_view id)
{
    record.answers.at(fact(id)).clear();
    return *this;
}

MedicineItem& TinyCase::take(std::string id, std::string_view medicine, Pattern pattern)
{
    MedicineItem item;
    item.id = std::move(id);
    if (!medicine.empty()) {
        item.medicine = right(find_medicine(rules.protocol, medicine), medicine);
    }
    item.heard = medicine.empty() ? "the small white one" : std::string{medicine};
    item.pattern = std::move(pattern);
    item.at = utc("2027-06-01T12:00");
    return record.medicines.items.emplace_back(std::move(item));
}

TinyCase& TinyCase::close_list(std::string_view moment)
{
    record.medicines.closed = MedicineList::Closing{"Robin Example", utc(moment)};
    return *this;
}

TinyCase& TinyCase::start(std::string_view iso)
{
    record.booking.start = wall(iso);
    record.booking.start_moment = moment_of(rules.zone, wall(iso));
    return *this;
}

TinyCase& TinyCase::procedures(std::initializer_list<std::string_view> ids)
{
    record.booking.procedures.clear();
    for (const std::string_view id : ids) {
        record.booking.procedures.push_back(right(find_procedure(rules.protocol, id), id));
    }
    return *this;
}

Condition TinyCase::is(std::string_view id, bool value) const
{
    return leaf(FactIs{fact(id), value});
}

Condition TinyCase::chosen(std::string_view id, std::initializer_list<std::string_view> names) const
{
    FactIsOneOf asked{fact(id), {}};
    for (const std::string_view name : names) {
        asked.choices.push_back(std::get<Choice>(choice(id, name)).place);
    }
    std::ranges::sort(asked.choices);
    return leaf(asked);
}

Condition TinyCase::compares(std::string_view id, Operator op, Limit limit) const
{
    return leaf(FactCompares{fact(id), op, limit});
}

Condition TinyCase::within(std::string_view id, Limit length, Unit unit) const
{
    return leaf(FactWithin{fact(id), length, unit});
}

Condition TinyCase::takes(std::initializer_list<std::string_view> ids) const
{
    TakesMedicine asked;
    for (const std::string_view id : ids) {
        if (const auto medicine = find_medicine(rules.protocol, id)) {
            asked.medicines.push_back(*medicine);
        } else {
            asked.classes.push_back(right(find_class(rules.protocol, id), id));
        }
    }
    std::ranges::sort(asked.classes);
    std::ranges::sort(asked.medicines);
    return leaf(asked);
}

Condition TinyCase::includes(std::string_view procedure) const
{
    return leaf(ProcedureIncludes{right(find_procedure(rules.protocol, procedure), procedure)});
}

Condition TinyCase::ordered(std::initializer_list<std::string_view> ids) const
{
    PreparationOrdered asked;
    for (const std::string_view id : ids) {
        asked.preparations.push_back(right(find_preparation(rules.protocol, id), id));
    }
    std::ranges::sort(asked.preparations);
    return leaf(asked);
}

FindingRule& TinyCase::finding(std::string id, Level level, Condition when)
{
    FindingRule rule;
    rule.head = head_of(std::move(id));
    rule.level = level;
    rule.when = std::move(when);
    return insert_sorted(rules.protocol.findings, std::move(rule));
}

HoldRule& TinyCase::hold_rule(std::string id, std::initializer_list<std::string_view> ids, HoldAction action,
                              Limit number)
{
    HoldRule rule;
    rule.head = head_of(std::move(id));
    const auto asked = std::get<TakesMedicine>(takes(ids).comparison);
    rule.classes = asked.classes;
    rule.medicines = asked.medicines;
    rule.action = action;
    rule.number = number;
    return insert_sorted(rules.protocol.holds, std::move(rule));
}

Judged TinyCase::judge(const Condition& condition) const
{
    return Judge(rules, record, now).judge(condition);
}

FactReading TinyCase::reading(std::string_view id) const
{
    return Judge(rules, record, now).readings().at(fact(id));
}

Assessment TinyCase::assess() const
{
    return screening::assess(rules, record, now);
}

Hold TinyCase::hold(std::string_view item) const
{
    const auto found = std::ranges::find(record.medicines.items, item, &MedicineItem::id);
    if (found == record.medicines.items.end()) {
        throw std::invalid_argument("a slip in the test: no such item");
    }
    return plan_hold(Judge(rules, record, now), *found);
}

std::optional<Item> TinyCase::found(std::string_view id) const
{
    const Assessment assessment = assess();
    const auto item = std::ranges::find(assessment.findings, id, &Item::id);
    return item == assessment.findings.end() ? std::nullopt : std::optional{*item};
}

}  // namespace foreday::screening::build
