#include "tests/published/healthy_case.h"

#include <algorithm>
#include <stdexcept>

#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "data/reading/zone_reading.h"

namespace foreday::tests {

using namespace screening;

namespace {

Date years_before(Date day, int years)
{
    return add_months(day, -12 * years);
}

/// What is yes in everyone who is well.
const std::set<std::string>& yes_in_health()
{
    static const std::set<std::string> facts{
        "reason_for_blood_thinner_known", "words_fit_booking", "makes_own_decisions",
        "can_drink_two_litres",           "moves_alone",       "escort_named"};
    return facts;
}

std::optional<Value> value_of(const FactDefinition& fact, const CaseWish& wish)
{
    switch (fact.type) {
        case FactType::yes_no:
            if (fact.id == "diagnostic_only") {
                return wish.risk == BleedingRisk::low;
            }
            return wish.yes.contains(fact.id) || yes_in_health().contains(fact.id);
        case FactType::choice: {
            const auto male = std::ranges::find(fact.choices, "male");
            return Choice{
                male == fact.choices.end() ? 0U : static_cast<std::uint32_t>(male - fact.choices.begin())};
        }
        case FactType::number:
            if (fact.id == "creatinine") {
                // (140 - 40) x 72 kg / (72 x creatinine) = 100 / creatinine
                const Exact creatinine =
                    convert(Exact{100} / wish.clearance, Unit::mg_per_dl_creatinine, fact.unit);
                return NumberInterval{creatinine, creatinine};
            }
            if (fact.id == "weight") {
                return NumberInterval{Exact{72}, Exact{72}};
            }
            if (fact.id == "height") {
                return NumberInterval{Exact{175}, Exact{175}};
            }
            return std::nullopt;
        case FactType::date: {
            if (fact.id == "birth_date") {
                const Date born = years_before(procedure_day(), 40);
                return DateInterval{born, born};
            }
            for (const auto& [id, date] : wish.dates) {
                if (id == fact.id) {
                    return DateInterval{date, date};
                }
            }
            return std::nullopt;
        }
        case FactType::time:
        case FactType::text:
            return std::nullopt;
    }
    return std::nullopt;
}

Pattern pattern_of(const Protocol& protocol, const MedicineDefinition& medicine)
{
    const TimeOfDay morning = std::chrono::hours{7};
    const TimeOfDay evening = std::chrono::hours{20};
    const auto in = [&](std::string_view id) {
        const auto group = find_class(protocol, id);
        return group && std::ranges::binary_search(medicine.classes, *group);
    };
    if (in("glp1_weekly")) {
        return OnWeekdays{{4}, {morning}};  // Thursdays: one falls on the day, one a week before
    }
    if (in("opioid_antagonist_monthly")) {
        return Monthly{17, {morning}};
    }
    static const std::set<std::string> twice_daily{"apixaban",   "dabigatran", "ticagrelor",
                                                   "cilostazol", "enoxaparin", "dalteparin"};
    return twice_daily.contains(medicine.id) ? Daily{{morning, evening}} : Daily{{morning}};
}

FactIndex fact_named(const Protocol& protocol, const std::string& id)
{
    const auto fact = find_fact(protocol, id);
    if (!fact) {
        throw std::runtime_error("the protocol has no fact " + id);
    }
    return *fact;
}

void add_measures(CaseRecord& record, const Rules& rules, const CaseWish& wish)
{
    const Moment measured =
        moment_of(rules.zone, LocalMinute{procedure_day()} + std::chrono::minutes{7 * 60 + 30});
    for (const auto& [id, value] : wish.measures) {
        Answer answer;
        answer.value = NumberInterval{value, value};
        answer.informant = Informant::staff;
        answer.strength = Strength::measured;
        answer.at = measured;
        record.answers[fact_named(rules.protocol, id)] = {answer};
    }
}

void add_medicines(CaseRecord& record, const Rules& rules, const CaseWish& wish)
{
    for (const std::string& id : wish.medicines) {
        const auto medicine = find_medicine(rules.protocol, id);
        if (!medicine) {
            throw std::runtime_error("the protocol has no medicine " + id);
        }
        MedicineItem item;
        item.id = id;
        item.medicine = medicine;
        item.heard = id;
        item.pattern = pattern_of(rules.protocol, rules.protocol.medicines[*medicine]);
        item.at = call_moment(rules);
        record.medicines.items.push_back(std::move(item));
    }
    record.medicines.closed = MedicineList::Closing{"nurse", call_moment(rules)};
}

}  // namespace

Rules real_rules()
{
    auto read = data::read_protocol(FOREDAY_SOURCE_DATA_DIR "/protocol");
    if (!read.protocol) {
        throw std::runtime_error("data/protocol has faults");
    }
    auto policy = data::default_policy(*read.protocol);
    auto zone = data::read_zone("America/New_York", procedure_day() - date::days{60},
                                procedure_day() + date::days{60});
    if (!zone) {
        throw std::runtime_error(zone.error().what);
    }
    return Rules{std::move(*read.protocol), std::move(policy), std::move(*zone)};
}

Rules with_option(Rules rules, const std::string& question, const std::string& option)
{
    const auto& questions = rules.protocol.policy_questions;
    const auto asked = std::ranges::find(questions, question, &PolicyQuestion::id);
    if (asked == questions.end()) {
        throw std::runtime_error("no policy question " + question);
    }
    const auto chosen = std::ranges::find(asked->options, option, &PolicyOption::id);
    if (chosen == asked->options.end()) {
        throw std::runtime_error("no option " + option + " of " + question);
    }
    rules.policy.options[static_cast<std::size_t>(asked - questions.begin())] =
        static_cast<std::uint32_t>(chosen - asked->options.begin());
    return rules;
}

Date procedure_day()
{
    return Date{date::year{2027} / 6 / 17};
}

Moment call_moment(const Rules& rules)
{
    return moment_of(rules.zone, LocalMinute{procedure_day() - date::days{20}} + std::chrono::hours{9});
}

CaseRecord healthy_case(const Rules& rules, const CaseWish& wish)
{
    CaseRecord record;
    record.id = "published";
    Booking& booking = record.booking;
    booking.patient = {"Invented Name", "1", years_before(procedure_day(), 40)};
    booking.procedures = {find_procedure(rules.protocol, "colonoscopy").value()};
    booking.start = LocalMinute{procedure_day()} + std::chrono::hours{8};
    booking.start_moment = moment_of(rules.zone, booking.start);
    booking.ordered = find_preparation(rules.protocol, "peg_els_4l_split");
    record.answers.resize(rules.protocol.facts.size());
    for (std::size_t place = 0; place < rules.protocol.facts.size(); ++place) {
        if (const auto value = value_of(rules.protocol.facts[place], wish)) {
            Answer answer;
            answer.value = value;
            answer.at = call_moment(rules);
            record.answers[place] = {answer};
        }
    }
    add_measures(record, rules, wish);
    add_medicines(record, rules, wish);
    if (!wish.intake.empty()) {
        record.arrival.emplace();
        record.arrival->intake = wish.intake;
        record.arrival->nothing_else_taken = true;
    }
    return record;
}

Hold hold_of(const Rules& rules, const CaseWish& wish)
{
    const CaseRecord record = healthy_case(rules, wish);
    const Assessment assessment = assess(rules, record, call_moment(rules));
    const auto found = std::ranges::find(assessment.holds, wish.medicines.front(), &Hold::medicine_item);
    if (found == assessment.holds.end()) {
        throw std::runtime_error("no hold for " + wish.medicines.front());
    }
    return *found;
}

}  // namespace foreday::tests
