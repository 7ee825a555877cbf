#include "tests/checklists/on_the_day.h"

#include <stdexcept>

namespace foreday::checklists::build {

using std::chrono::minutes;

SmallUnit on_the_day(std::string_view start)
{
    SmallUnit unit;
    unit.start(start);
    const auto begins = unit.record.booking.start_moment;
    unit.now = begins - minutes{30};
    unit.record.arrival.emplace();
    unit.record.arrival->here_since = screening::local_of(unit.rules.zone, begins - minutes{60});
    unit.record.arrival->nothing_else_taken = true;
    unit.record.medicines.closed->at = begins - date::days{7};
    unit.clear("2027-06-16T18:00-04:00");
    unit.record.clearance->when = begins - minutes{16 * 60};
    return unit;
}

screening::ReadinessRule& fasting(SmallUnit& unit, std::string_view intake, std::string_view parameter)
{
    auto& rule = unit.readiness(std::string{intake}, screening::ReadinessKind::holds_the_patient);
    rule.check = screening::FastingCheck{std::string{intake}, unit.place_of(parameter)};
    return rule;
}

screening::ReadinessRule& measured(SmallUnit& unit, std::string_view fact, screening::Operator op,
                                   screening::Limit limit)
{
    auto& rule = unit.readiness(std::string{fact}, screening::ReadinessKind::holds_the_patient);
    rule.check = screening::MeasuredCheck{unit.fact(fact), {{op, limit}}};
    return rule;
}

screening::ReadinessRule& confirmed(SmallUnit& unit, std::string_view fact, bool expected)
{
    auto& rule = unit.readiness(std::string{fact}, screening::ReadinessKind::holds_the_patient);
    rule.check = screening::ConfirmedCheck{unit.fact(fact), expected};
    return rule;
}

void drank(SmallUnit& unit, std::string_view intake, std::string_view wall_clock)
{
    unit.record.arrival.value().intake.push_back({std::string{intake}, wall(wall_clock), ""});
}

void really_took(SmallUnit& unit, std::string_view item, std::string_view date, std::string_view hour)
{
    screening::Dose dose{day(date), {}};
    if (!hour.empty()) {
        dose.time = clock(hour);
    }
    unit.record.arrival.value().doses_taken = {{std::string{item}, dose}};
}

Verdict verdict(const SmallUnit& unit)
{
    return unit.look().readiness.verdict;
}

ReadinessItem only_item(const SmallUnit& unit)
{
    auto items = unit.look().readiness.items;
    if (items.size() != 1) {
        throw std::invalid_argument("a slip in the test: not one item");
    }
    return items.front();
}

}  // namespace foreday::checklists::build
