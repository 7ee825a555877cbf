#include <fmt/format.h>

#include <algorithm>

#include "checklists/decisions.h"
#include "checklists/timetable.h"

namespace foreday::checklists {
namespace {

using screening::Assessment;
using screening::CaseRecord;
using screening::PreparationIndex;
using screening::Procedure;
using screening::Rules;

/// The journey a plan is made with, and what would make it sure.
struct Way {
    Journey journey;
    std::vector<screening::OpenOn> open_on;
};

bool any_plan(const Rules& rules, const CaseRecord& record, Procedure::Plan plan)
{
    return std::ranges::any_of(record.booking.procedures, [&](screening::ProcedureIndex place) {
        const Procedure& procedure = rules.protocol.procedures[place];
        return !procedure.is_intervention && procedure.plan == plan;
    });
}

screening::OpenWhy why_not_sure(const screening::FactReading& reading)
{
    switch (reading.state) {
        case screening::FactState::not_asked:
            return screening::OpenWhy::not_asked;
        case screening::FactState::not_applicable:
            return screening::OpenWhy::not_applicable;
        case screening::FactState::in_conflict:
            return screening::OpenWhy::in_conflict;
        case screening::FactState::known:
            return reading.past_its_age ? screening::OpenWhy::past_its_age : screening::OpenWhy::unconfirmed;
        case screening::FactState::not_known:
            break;
    }
    return screening::OpenWhy::not_known;
}

/// The longest journey the answers allow for: leaving too early harms nobody. What nobody has confirmed
/// may lengthen the unit's usual journey and never shortens it.
Way way_of(const Rules& rules, const Assessment& assessment)
{
    Way way;
    const screening::FactReading& reading = assessment.readings.at(rules.protocol.journey_fact);
    for (const screening::Value& value : reading.values) {
        const auto& number = std::get<screening::NumberInterval>(value);
        // Up to the next whole minute.
        const std::chrono::minutes minutes{-(screening::Exact{0} - number.highest).floor()};
        way.journey = std::max(way.journey.value_or(minutes), minutes);
    }
    if (reading.state == screening::FactState::known && reading.confirmed) {
        return way;
    }
    way.open_on = {{rules.protocol.facts.at(rules.protocol.journey_fact).id, why_not_sure(reading)}};
    const auto usual =
        screening::minutes_of(rules.protocol.engine.usual_journey, rules.protocol, rules.policy);
    if (way.journey && *way.journey <= usual) {
        way.journey.reset();
    }
    return way;
}

std::variant<Fitted, Refused> open_on_the_way(std::variant<Fitted, Refused> plan, const Way& way)
{
    if (auto* fitted = std::get_if<Fitted>(&plan)) {
        fitted->open_on = way.open_on;
    }
    return plan;
}

/// Medicines that must be kept apart from the preparation, each with the times.
void add_spaced_medicines(const Rules& rules, const CaseRecord& record, Fitted& fitted)
{
    const auto& spaced = rules.protocol.preparations[fitted.preparation.value()].spaced_classes;
    for (const screening::MedicineItem& item : record.medicines.items) {
        if (!item.medicine) {
            continue;
        }
        const screening::MedicineDefinition& medicine = rules.protocol.medicines[*item.medicine];
        const bool is_spaced = std::ranges::any_of(medicine.classes, [&](screening::ClassIndex one) {
            return std::ranges::find(spaced, one) != spaced.end();
        });
        for (const Span& span : fitted.spaced) {
            if (is_spaced) {
                fitted.notes.push_back(fmt::format("No {} from {} until {}.", medicine.generic,
                                                   clock_words(rules.zone, span.from),
                                                   clock_words(rules.zone, span.until)));
            }
        }
    }
}

std::variant<Fitted, Refused> fit_for_case(const Rules& rules, const CaseRecord& record,
                                           PreparationIndex place, const Way& way)
{
    auto plan = open_on_the_way(fit_preparation(rules, place, record.booking.start_moment, way.journey), way);
    if (auto* fitted = std::get_if<Fitted>(&plan)) {
        add_spaced_medicines(rules, record, *fitted);
    }
    return plan;
}

std::vector<PreparationIndex> in_the_units_order(const Rules& rules)
{
    std::vector<PreparationIndex> order = rules.policy.preparation_order;
    for (PreparationIndex place = 0; place < rules.protocol.preparations.size(); ++place) {
        if (std::ranges::find(order, place) == order.end()) {
            order.push_back(place);
        }
    }
    return order;
}

std::vector<std::string> titles(const std::vector<screening::Item>& items)
{
    std::vector<std::string> words;
    words.reserve(items.size());
    for (const screening::Item& item : items) {
        words.push_back(item.title);
    }
    return words;
}

PreparationPlan::Choice choice_for(const Rules& rules, const CaseRecord& record, const Assessment& assessment,
                                   PreparationIndex place)
{
    const screening::PreparationStanding& standing = assessment.preparations.at(place);
    PreparationPlan::Choice choice{
        place, false, titles(standing.against), titles(standing.cautions), titles(standing.open), ""};
    const auto fitted = fit_for_case(rules, record, place, way_of(rules, assessment));
    const auto* refused = std::get_if<Refused>(&fitted);
    choice.timetable = refused != nullptr ? refused->reason : "fits";
    choice.acceptable = refused == nullptr && choice.speaks_against.empty() && choice.open.empty();
    return choice;
}

/// The order cannot stand: the acceptable ones are named and the first is laid out, for whoever decides.
void leave_the_choice(PreparationPlan& plan, Refused refused, const Rules& rules, const CaseRecord& record,
                      const Way& way)
{
    std::vector<std::string> acceptable;
    for (const PreparationPlan::Choice& choice : plan.choices) {
        if (!choice.acceptable) {
            continue;
        }
        acceptable.push_back(rules.protocol.preparations[choice.preparation].generic);
        if (!plan.suggestion) {
            plan.suggestion = std::get<Fitted>(fit_for_case(rules, record, choice.preparation, way));
        }
    }
    refused.reason = plan.about_the_order;
    if (acceptable.empty()) {
        refused.reason += "; no preparation of the protocol would do as things stand";
    }
    refused.choices.insert(refused.choices.begin(), acceptable.begin(), acceptable.end());
    plan.plan = std::move(refused);
}

void without_an_order(PreparationPlan& plan, const Rules& rules, const CaseRecord& record, const Way& way)
{
    const std::string& words = record.booking.ordered_words;
    plan.about_the_order =
        words.empty() ? "nobody knows which preparation was ordered"
                      : fmt::format("ordered as \"{}\", which names no preparation of the protocol", words);
    leave_the_choice(plan, {Refused::Why::order_not_known, {}, {}, {}}, rules, record, way);
}

void plan_bowel(PreparationPlan& plan, const Rules& rules, const CaseRecord& record,
                const Assessment& assessment)
{
    const Way way = way_of(rules, assessment);
    for (const PreparationIndex place : in_the_units_order(rules)) {
        plan.choices.push_back(choice_for(rules, record, assessment, place));
    }
    const auto& ordered = record.booking.ordered;
    if (!ordered) {
        without_an_order(plan, rules, record, way);
        return;
    }
    const std::string& generic = rules.protocol.preparations[*ordered].generic;
    const auto choice = std::ranges::find(plan.choices, *ordered, &PreparationPlan::Choice::preparation);
    if (!choice->speaks_against.empty()) {
        plan.about_the_order = fmt::format("{} was ordered, and this speaks against it: {}", generic,
                                           fmt::join(choice->speaks_against, "; "));
        leave_the_choice(plan, {Refused::Why::speaks_against, {}, {}, {}}, rules, record, way);
        return;
    }
    auto fitted = fit_for_case(rules, record, *ordered, way);
    if (auto* refused = std::get_if<Refused>(&fitted)) {
        plan.about_the_order = refused->reason;
        leave_the_choice(plan, std::move(*refused), rules, record, way);
        return;
    }
    plan.about_the_order = generic + " was ordered and is kept";
    if (!choice->open.empty()) {
        plan.about_the_order +=
            fmt::format(", unless one of these comes out: {}", fmt::join(choice->open, "; "));
    }
    plan.plan = std::get<Fitted>(std::move(fitted));
}

/// The last statement of a clinician who may make it.
std::string stated_by_a_clinician(const Rules& rules, const CaseRecord& record)
{
    const auto row = rules.policy.may_agree.find(screening::Topic::gut_and_preparation);
    std::string stated;
    for (const screening::Decision& decision : record.decisions) {
        const bool may = row != rules.policy.may_agree.end() && is_clinician(decision.role) &&
                         std::ranges::find(row->second, decision.role) != row->second.end();
        if (decision.item != "preparation" || !may) {
            continue;
        }
        const bool states = decision.answer == screening::DecisionAnswer::agree ||
                            decision.answer == screening::DecisionAnswer::change;
        stated = states && !decision.words.empty() ? fmt::format("{}: {}", decision.who, decision.words) : "";
    }
    return stated;
}

void plan_for_booking(PreparationPlan& plan, const Rules& rules, const CaseRecord& record,
                      const Assessment& assessment)
{
    const auto no_plan = [](std::string reason) {
        return Refused{
            Refused::Why::no_plan, std::move(reason), {"the endoscopist states the preparation"}, {}};
    };
    if (!assessment.in_scope) {
        plan.plan = no_plan("outside what the protocol has plans for: no preparation is proposed");
    } else if (any_plan(rules, record, Procedure::Plan::ask)) {
        plan.plan = no_plan("no plan for this procedure stands in the protocol yet");
    } else if (any_plan(rules, record, Procedure::Plan::bowel)) {
        plan_bowel(plan, rules, record, assessment);
    } else if (any_plan(rules, record, Procedure::Plan::fasting_only)) {
        const Way way = way_of(rules, assessment);
        plan.plan = open_on_the_way(fit_fasting(rules, record.booking.start_moment, way.journey), way);
    } else {
        plan.plan = no_plan("no examination is booked, so nothing can be planned for it");
    }
}

}  // namespace

PreparationPlan plan_preparation(const Rules& rules, const CaseRecord& record, const Assessment& assessment)
{
    PreparationPlan plan;
    plan_for_booking(plan, rules, record, assessment);
    if (std::holds_alternative<Refused>(plan.plan)) {
        plan.stated = stated_by_a_clinician(rules, record);
    }
    return plan;
}

}  // namespace foreday::checklists
