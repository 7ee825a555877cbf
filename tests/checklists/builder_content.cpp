#include "tests/checklists/builders.h"

/// What the small unit's protocol and policy hold.
namespace foreday::checklists::build {
namespace {

using namespace screening;
using std::chrono::hours;
using std::chrono::minutes;

PortionStep step(std::string what, int times, minutes every)
{
    PortionStep made;
    made.what = std::move(what);
    made.times = times;
    made.every = every;
    return made;
}

}  // namespace

Portion glasses(int times, minutes every)
{
    return {"A portion", {step("Glass {n} of {of}", times, every)}};
}

StartWindow window(minutes earliest, minutes latest, std::string source)
{
    return {earliest, latest, {{std::move(source), "on timing"}}, HowSure::published};
}

void SmallUnit::add_parameters()
{
    auto& parameters = rules.protocol.parameters;
    const auto one = [&](std::string id, Unit unit, ParameterValue value) {
        Parameter made;
        made.id = std::move(id);
        made.unit = unit;
        made.by_default = value;
        made.sure = HowSure::published;
        made.sources = {{"a_document", made.id}};
        parameters.push_back(std::move(made));
    };
    one("arrive_before", Unit::minute, Exact{60});
    one("bathroom_margin", Unit::minute, Exact{45});
    one("clear_liquid_hours", Unit::hour, Exact{2});
    one("clearance_days", Unit::day, Exact{14});
    one("evening_start", Unit::none, clock("18:00"));
    one("fatty_meal_hours", Unit::hour, Exact{8});
    one("first_call_days", Unit::day, Exact{14});
    one("inr_limit", Unit::none, num("1.5"));
    one("light_meal_hours", Unit::hour, Exact{6});
    one("list_closed_days", Unit::day, Exact{14});
    one("phone_hours", Unit::hour, Exact{4});
    one("preferred_second_start", Unit::minute, Exact{300});
    one("usual_journey", Unit::minute, Exact{45});
    for (const Parameter& parameter : parameters) {
        rules.policy.parameters.push_back(parameter.by_default);
    }
    rules.protocol.engine = {
        place_of("list_closed_days"), place_of("clear_liquid_hours"), place_of("preferred_second_start"),
        place_of("evening_start"),    place_of("usual_journey"),      place_of("bathroom_margin"),
        place_of("arrive_before"),    place_of("clearance_days"),     place_of("phone_hours"),
        place_of("first_call_days")};
}

void SmallUnit::add_facts()
{
    const auto one = [&](std::string id, FactType type) -> FactDefinition& {
        FactDefinition made;
        made.id = std::move(id);
        made.type = type;
        made.section = "call";
        return rules.protocol.facts.emplace_back(std::move(made));
    };
    rules.protocol.sections = {"call"};
    one("alone_at_home", FactType::yes_no).scope = FactScope::day;
    one("diagnostic_only", FactType::yes_no);
    auto& glucose = one("glucose_today", FactType::number);
    glucose.age_limit = minutes{60};
    glucose.scope = FactScope::day;
    one("heart_failure", FactType::yes_no);
    one("identity_confirmed", FactType::yes_no).scope = FactScope::day;
    one("inr_today", FactType::number).age_limit = hours{24};
    one("journey_minutes", FactType::number).unit = Unit::minute;
    one("slow_stomach", FactType::yes_no);
    one("trouble", FactType::yes_no);
    one("worry", FactType::yes_no);
    rules.protocol.journey_fact = fact("journey_minutes");
    rules.protocol.diagnostic_only_fact = fact("diagnostic_only");
}

void SmallUnit::add_medicines()
{
    rules.protocol.classes = {
        {"anticoagulant", "Anticoagulants", true}, {"iron", "Iron", false}, {"nsaid", "Pain killers", false}};
    for (const auto& [id, one_class] : {std::pair{"apixaban", 0U}, std::pair{"ibuprofen", 2U},
                                        std::pair{"iron", 1U}, std::pair{"warfarin", 0U}}) {
        MedicineDefinition medicine;
        medicine.id = id;
        medicine.generic = id;
        medicine.ingredients = {id};
        medicine.classes = {one_class};
        medicine.marked = rules.protocol.classes[one_class].marked;
        rules.protocol.medicines.push_back(std::move(medicine));
    }
    using enum Role;
    for (int topic = 0; topic <= static_cast<int>(Topic::record); ++topic) {
        rules.policy.may_agree[static_cast<Topic>(topic)] = {endoscopist};
    }
    rules.policy.may_agree[Topic::sugar] = {endoscopist, anaesthesia, diabetes};
    rules.policy.may_agree[Topic::lungs_and_airway] = {anaesthesia};
    rules.policy.may_agree[Topic::sedation_and_site] = {anaesthesia};
}

void SmallUnit::add_procedures()
{
    using Plan = Procedure::Plan;
    const auto one = [&](std::string id, Plan plan) -> Procedure& {
        Procedure made;
        made.id = std::move(id);
        made.plan = plan;
        made.risk_diagnostic_only = BleedingRisk::low;
        return rules.protocol.procedures.emplace_back(std::move(made));
    };
    one("bronchoscopy", Plan::other);
    one("colonoscopy", Plan::bowel);
    one("flexible_sigmoidoscopy", Plan::ask);
    one("polypectomy", Plan::other).is_intervention = true;
    one("upper_endoscopy", Plan::fasting_only);
}

void SmallUnit::add_preparations()
{
    Preparation peg;
    peg.id = "peg";
    peg.generic = "PEG with electrolytes";
    peg.first = {
        "Evening",
        {step("Glass {n} of {of}", 8, minutes{15}), step("The rest of the first half", 1, minutes{5})}};
    peg.second = {"Morning",
                  {step("Glass {n} of {of}", 8, minutes{15}), step("The rest of the jug", 1, minutes{5})}};
    peg.windows = {window(hours{6}, hours{4}, "a_society")};
    peg.last_solid = clock("13:00");
    peg.last_solid_words = "Last meal, low in fibre";
    peg.sure = peg.diet_sure = HowSure::published;

    Preparation sulfate;
    sulfate.id = "sulfate";
    sulfate.generic = "Sulfate solution";
    sulfate.first = {"Evening",
                     {step("The first bottle", 1, hours{1}), step("Water {n} of {of}", 2, minutes{30})}};
    sulfate.second = {"Morning",
                      {step("The second bottle", 1, hours{1}), step("Water {n} of {of}", 2, minutes{30})}};
    sulfate.windows = {window(hours{6}, hours{4}, "a_society"), window(hours{24}, minutes{210}, "a_label")};
    sulfate.between_starts = Interval<minutes>{hours{10}, hours{12}};
    sulfate.last_solid = clock("10:00");
    sulfate.sure = sulfate.diet_sure = HowSure::published;
    rules.protocol.preparations = {std::move(peg), std::move(sulfate)};
    rules.policy.preparation_order = {0, 1};
}

}  // namespace foreday::checklists::build
