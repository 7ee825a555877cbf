#include "tests/checklists/builders.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

namespace foreday::checklists::build {
namespace {

using namespace screening;
using std::chrono::hours;
using std::chrono::minutes;

template <class T>
T right(Result<T> result)
{
    if (!result) {
        throw std::invalid_argument("a slip in the test: " + result.error().what);
    }
    return *std::move(result);
}

template <class T>
T right(std::optional<T> found, std::string_view id)
{
    if (!found) {
        throw std::invalid_argument("a slip in the test: there is no " + std::string{id});
    }
    return *std::move(found);
}

RuleHead head_of(std::string id, Topic topic)
{
    RuleHead head;
    head.title = "About " + id;
    head.id = std::move(id);
    head.topic = topic;
    head.hazard = Hazard::bleeding;
    head.who = {Role::endoscopist};
    head.sure = HowSure::published;
    head.meanwhile = "Go on as you do now.";
    return head;
}

template <class Rule>
Rule& insert_sorted(std::vector<Rule>& rules, Rule rule)
{
    const auto place =
        std::ranges::lower_bound(rules, rule.head.id, {}, [](const Rule& one) { return one.head.id; });
    return *rules.insert(place, std::move(rule));
}

}  // namespace

Date day(std::string_view iso)
{
    return right(parse_date(iso));
}
LocalMinute wall(std::string_view iso)
{
    return right(parse_written_time(iso)).local;
}

Moment at(std::string_view iso)
{
    const WrittenTime written = right(parse_written_time(iso));
    if (!written.offset) {
        throw std::invalid_argument("a slip in the test: a moment without an offset");
    }
    return Moment{written.local.time_since_epoch() - *written.offset};
}

TimeOfDay clock(std::string_view hour)
{
    return right(parse_time_of_day(hour));
}
Exact num(std::string_view text)
{
    return right(Exact::parse(text));
}

Zone new_york_2027()
{
    return {"America/New_York",
            "by hand",
            "",
            {{at("2026-11-01T06:00Z"), hours{-5}},
             {at("2027-03-14T07:00Z"), hours{-4}},
             {at("2027-11-07T06:00Z"), hours{-5}}}};
}

Condition always()
{
    return {};
}

Condition leaf(Comparison comparison)
{
    Condition condition;
    condition.kind = Condition::Kind::compare;
    condition.comparison = std::move(comparison);
    return condition;
}

Daily daily(std::initializer_list<std::string_view> times)
{
    Daily pattern;
    for (const std::string_view time : times) {
        pattern.times.push_back(clock(time));
    }
    return pattern;
}

std::string hash(std::string_view bytes)
{
    std::string text;
    for (const char one : bytes) {
        text += fmt::format("{:02x}", static_cast<unsigned char>(one));
    }
    return text;
}

SmallUnit::SmallUnit() : now(at("2027-06-10T09:00-04:00"))
{
    rules.zone = new_york_2027();
    rules.policy.unit = "Larkmoor Endoscopy";
    rules.policy.calendar = {clock("07:00"), clock("16:30"), {1, 2, 3, 4, 5}, {}};
    add_parameters();
    add_facts();
    add_medicines();
    add_procedures();
    add_preparations();
    record.id = "LK-1";
    record.booking.patient = {"Robin Example", "P-1", day("1960-01-01")};
    record.answers.resize(rules.protocol.facts.size());
    procedures({"colonoscopy"}).start("2027-06-17T10:00").order("peg");
    number("journey_minutes", "30");
    for (const char* asked : {"heart_failure", "slow_stomach", "trouble", "diagnostic_only"}) {
        answer(asked, false);
    }
    close_list("2027-06-10T09:00-04:00");
}

SmallUnit& SmallUnit::start(std::string_view iso)
{
    record.booking.start = wall(iso);
    record.booking.start_moment = moment_of(rules.zone, record.booking.start);
    return *this;
}

SmallUnit& SmallUnit::procedures(std::initializer_list<std::string_view> ids)
{
    record.booking.procedures.clear();
    for (const std::string_view id : ids) {
        record.booking.procedures.push_back(right(find_procedure(rules.protocol, id), id));
    }
    return *this;
}

SmallUnit& SmallUnit::order(std::string_view id)
{
    record.booking.ordered = preparation_place(id);
    return *this;
}

SmallUnit& SmallUnit::look(std::string_view iso)
{
    now = at(iso);
    return *this;
}

FactIndex SmallUnit::fact(std::string_view id) const
{
    return right(find_fact(rules.protocol, id), id);
}
ParameterIndex SmallUnit::place_of(std::string_view id) const
{
    return right(find_parameter(rules.protocol, id), id);
}
Parameter& SmallUnit::parameter(std::string_view id)
{
    return rules.protocol.parameters.at(place_of(id));
}
PreparationIndex SmallUnit::preparation_place(std::string_view id) const
{
    return right(find_preparation(rules.protocol, id), id);
}
Preparation& SmallUnit::preparation(std::string_view id)
{
    return rules.protocol.preparations.at(preparation_place(id));
}

SmallUnit& SmallUnit::set(std::string_view id, ParameterValue value)
{
    parameter(id).by_default = value;
    rules.policy.parameters.at(place_of(id)) = value;
    return *this;
}

SmallUnit& SmallUnit::confirm(std::string_view item)
{
    rules.policy.confirmations.push_back(
        {std::string{item}, "Dr Example", Role::medical_director, day("2027-01-04")});
    std::ranges::sort(rules.policy.confirmations, {}, &Confirmation::item);
    return *this;
}

SmallUnit& SmallUnit::answer(std::string_view id, Value value)
{
    Answer given;
    given.value = std::move(value);
    given.desk = "phone";
    given.at = now;
    record.answers.at(fact(id)).push_back(std::move(given));
    return *this;
}

SmallUnit& SmallUnit::number(std::string_view id, std::string_view figure)
{
    return answer(id, NumberInterval{num(figure), num(figure)});
}

Answer& SmallUnit::last_answer(std::string_view id)
{
    return record.answers.at(fact(id)).back();
}

SmallUnit& SmallUnit::forget(std::string_view id)
{
    record.answers.at(fact(id)).clear();
    return *this;
}

Condition SmallUnit::is(std::string_view id, bool value) const
{
    return leaf(FactIs{fact(id), value});
}

FindingRule& SmallUnit::finding(std::string id, Level level, Condition when)
{
    FindingRule rule;
    rule.head = head_of(std::move(id), Topic::heart);
    rule.level = level;
    rule.when = std::move(when);
    return insert_sorted(rules.protocol.findings, std::move(rule));
}

HoldRule& SmallUnit::hold_rule(std::string id, std::string_view medicine, HoldAction action, Limit number)
{
    const MedicineIndex place = right(find_medicine(rules.protocol, medicine), medicine);
    HoldRule rule;
    rule.head = head_of(std::move(id), rules.protocol.medicines[place].marked ? Topic::blood_thinners
                                                                              : Topic::other_medicines);
    rule.medicines = {place};
    rule.action = action;
    rule.number = number;
    return insert_sorted(rules.protocol.holds, std::move(rule));
}

FindingRule& SmallUnit::speaks_against(std::string_view id, std::string rule_id, std::string_view fact_id,
                                       Level level)
{
    FindingRule rule;
    rule.head = head_of(std::move(rule_id), Topic::gut_and_preparation);
    rule.level = level;
    rule.when = is(fact_id);
    auto& limits = preparation(id).limits;
    limits.push_back({std::move(rule)});
    return limits.back().finding;
}

ReadinessRule& SmallUnit::readiness(std::string id, ReadinessKind kind)
{
    ReadinessRule rule;
    rule.head = head_of(std::move(id), Topic::record);
    rule.kind = kind;
    rule.check = HoldsCheck{};
    return rules.protocol.readiness.emplace_back(std::move(rule));
}

MedicineItem& SmallUnit::take(std::string id, std::string_view medicine, Pattern pattern)
{
    MedicineItem item;
    item.id = std::move(id);
    if (!medicine.empty()) {
        item.medicine = right(find_medicine(rules.protocol, medicine), medicine);
    }
    item.heard = medicine.empty() ? "the small white one" : std::string{medicine};
    item.pattern = std::move(pattern);
    item.at = now;
    return record.medicines.items.emplace_back(std::move(item));
}

SmallUnit& SmallUnit::close_list(std::string_view iso)
{
    record.medicines.closed = MedicineList::Closing{"Robin Example", at(iso)};
    return *this;
}

Decision& SmallUnit::decide(std::string item, Role role)
{
    Decision decision;
    decision.item = std::move(item);
    decision.who = "Dr Example";
    decision.role = role;
    decision.when = now;
    decision.words = "looked at and thought over";
    return record.decisions.emplace_back(std::move(decision));
}

SmallUnit& SmallUnit::clear(std::string_view iso, Role role)
{
    record.clearance = Clearance{"Dr Example", role, at(iso), record.booking.start};
    return *this;
}

Decided SmallUnit::decided(std::string_view id) const
{
    const WholeCase whole = look();
    const auto items = all_items(whole.assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        if (items[place]->id == id) {
            return whole.decided.at(place);
        }
    }
    throw std::invalid_argument("a slip in the test: no item " + std::string{id});
}

Fitted fitted(const std::variant<Fitted, Refused>& plan)
{
    if (const auto* fits = std::get_if<Fitted>(&plan)) {
        return *fits;
    }
    throw std::logic_error("refused: " + std::get<Refused>(plan).reason);
}

Refused refused(const std::variant<Fitted, Refused>& plan)
{
    if (const auto* why = std::get_if<Refused>(&plan)) {
        return *why;
    }
    throw std::logic_error("was not refused");
}

std::string text(std::optional<Moment> moment)
{
    return moment ? iso_with_offset(new_york_2027(), *moment) : "none";
}

std::vector<std::string> items_of(const std::vector<Lack>& lacks)
{
    std::vector<std::string> items;
    for (const Lack& lack : lacks) {
        items.push_back(lack.item);
    }
    return items;
}

}  // namespace foreday::checklists::build

namespace foreday::checklists {

void PrintTo(DecisionState state, std::ostream* out)
{
    *out << name_of(state);
}
void PrintTo(HoldStage stage, std::ostream* out)
{
    *out << name_of(stage);
}
void PrintTo(ReadinessState state, std::ostream* out)
{
    *out << name_of(state);
}
void PrintTo(Verdict verdict, std::ostream* out)
{
    *out << name_of(verdict);
}
void PrintTo(ClearanceCheck::Given given, std::ostream* out)
{
    switch (given) {
        case ClearanceCheck::Given::no:
            *out << "none given";
            return;
        case ClearanceCheck::Given::stands:
            *out << "stands";
            return;
        case ClearanceCheck::Given::lapsed:
            *out << "lapsed";
            return;
    }
}

}  // namespace foreday::checklists
