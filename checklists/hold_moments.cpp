#include "checklists/hold_moments.h"

#include <algorithm>
#include <stdexcept>

#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

using screening::CaseRecord;
using screening::Date;
using screening::Dose;
using screening::DoseWithoutTime;
using screening::Hold;
using screening::HoldAction;
using screening::HoldPlan;
using screening::LocalMinute;
using screening::MedicineItem;
using screening::Moment;
using screening::Rules;

/// The earliest a dose may fall due.
Moment due(const Dose& dose, const screening::Zone& zone)
{
    return screening::moment_of_dose(dose, zone, DoseWithoutTime::start_of_day);
}

void take_earlier(std::optional<HoldMoments>& earliest, const std::optional<HoldMoments>& one)
{
    if (one && (!earliest || one->last_dose < earliest->last_dose)) {
        earliest = one;
    }
}

bool has_a_date(const HoldPlan& plan)
{
    return plan.last_dose || plan.none_from || plan.day_of || !plan.dates_omitted.empty();
}

}  // namespace

std::optional<HoldMoments> moments_of(const Rules& rules, const CaseRecord& record,
                                      const MedicineItem& medicine, HoldAction action,
                                      const screening::Exact& number)
{
    if (!screening::leaves_out(action)) {
        return std::nullopt;
    }
    const screening::HoldSetting setting{rules.zone, medicine.pattern, record.booking.start,
                                         record.booking.start_moment};
    const Moment from = screening::forbidden_from(action, number, setting);
    if (!screening::has_schedule(medicine.pattern)) {
        return HoldMoments{from, from};
    }
    const auto left_out = screening::doses_left_out(setting, from, action);
    if (left_out.empty()) {
        return std::nullopt;
    }
    const Moment first = due(left_out.front(), rules.zone);
    const HoldPlan plan = screening::lay_out(action, number, {}, setting);
    return HoldMoments{plan.last_dose ? due(*plan.last_dose, rules.zone) : first, first};
}

std::optional<HoldMoments> moments_after(const Rules& rules, const CaseRecord& record,
                                         const MedicineItem& medicine, Date last_dose)
{
    const Moment next_midnight = screening::moment_of(rules.zone, LocalMinute{last_dose + date::days{1}});
    if (!screening::has_schedule(medicine.pattern)) {
        return HoldMoments{next_midnight, next_midnight};
    }
    const auto later = screening::doses_between(medicine.pattern, last_dose + date::days{1},
                                                screening::date_of(record.booking.start));
    if (later.empty() || due(later.front(), rules.zone) >= record.booking.start_moment) {
        return std::nullopt;
    }
    const auto on_the_day = screening::doses_between(medicine.pattern, last_dose, last_dose);
    const Dose last = on_the_day.empty() ? Dose{last_dose, std::nullopt} : on_the_day.back();
    return HoldMoments{due(last, rules.zone), due(later.front(), rules.zone)};
}

std::optional<HoldMoments> earliest_moments(const Rules& rules, const CaseRecord& record, const Hold& hold)
{
    const MedicineItem& medicine = medicine_of(record, hold);
    std::optional<HoldMoments> earliest;
    const auto look_at_plan = [&](const HoldPlan& plan) {
        take_earlier(earliest, moments_of(rules, record, medicine, plan.action,
                                          plan.number.value_or(screening::Exact{0})));
    };
    look_at_plan(hold.plan);
    for (const auto* options : {&hold.options, &hold.other_policies}) {
        for (const screening::HoldOption& option : *options) {
            look_at_plan(option.plan);
        }
    }
    for (const auto* ids : {&hold.beneath, &hold.pulling_apart}) {
        for (const screening::HoldRule& rule : rules.protocol.holds) {
            if (std::ranges::find(*ids, rule.head.id) != ids->end()) {
                const auto number = screening::needs_a_number(rule.action)
                                        ? screening::number_of(rule.number, rules.policy)
                                        : screening::Exact{0};
                take_earlier(earliest, moments_of(rules, record, medicine, rule.action, number));
            }
        }
    }
    return earliest;
}

std::optional<HoldMoments> standing_moments(const Rules& rules, const CaseRecord& record, const Hold& hold,
                                            const Decided& decided)
{
    const MedicineItem& medicine = medicine_of(record, hold);
    if (decided.state == DecisionState::standing) {
        if (decided.asked_outside || decided.not_go_ahead) {
            return std::nullopt;
        }
        if (decided.by->last_dose) {
            return moments_after(rules, record, medicine, *decided.by->last_dose);
        }
    }
    if (!has_a_date(hold.plan)) {
        return std::nullopt;
    }
    return moments_of(rules, record, medicine, hold.plan.action,
                      hold.plan.number.value_or(screening::Exact{0}));
}

const MedicineItem& medicine_of(const CaseRecord& record, const Hold& hold)
{
    const auto& items = record.medicines.items;
    const auto found = std::ranges::find(items, hold.medicine_item, &MedicineItem::id);
    if (found == items.end()) {
        throw std::logic_error("a hold of a medicine that is not on the list");
    }
    return *found;
}

const Decided& decided_on_hold(const WholeCase& whole, std::size_t place)
{
    return whole.decided.at(whole.assessment.findings.size() + place);
}

}  // namespace foreday::checklists
