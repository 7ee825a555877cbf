#include <fmt/format.h>

#include <algorithm>

#include "checklists/timetable.h"

namespace foreday::checklists {
namespace {

using screening::Assessment;
using screening::CaseRecord;
using screening::PreparationIndex;
using screening::Procedure;
using screening::Rules;

bool any_plan(const Rules& rules, const CaseRecord& record, Procedure::Plan plan)
{
    return std::ranges::any_of(record.booking.procedures, [&](screening::ProcedureIndex place) {
        const Procedure& procedure = rules.protocol.procedures[place];
        return !procedure.is_intervention && procedure.plan == plan;
    });
}

/// The longest journey the answers allow for: leaving too early harms nobody.
Journey journey_of(const Rules& rules, const Assessment& assessment)
{
    Journey longest;
    const screening::FactReading& reading = assessment.readings.at(rules.protocol.journey_fact);
    for (const screening::Value& value : reading.values) {
        const auto& number = std::get<screening::NumberInterval>(value);
        // Up to the next whole minute.
        const std::chrono::minutes way{-(screening::Exact{0} - number.highest).floor()};
        longest = std::max(longest.value_or(way), way);
    }
    return longest;
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
    for (const screening::Item& item : items) {
        words.push_back(item.title);
    }
    return words;
}

PreparationPlan::Choice choice_for(const Rules& rules, const CaseRecord& record, const Assessment& assessment,
                                   PreparationIndex place)
{
    const screening::PreparationStanding& standing = assessment.preparations.at(place);
    PreparationPlan::Choice choice{place, false, titles(standing.against), titles(standing.cautions),
                                   titles(standing.open), ""};
    const auto fitted = fit_preparation(rules, place, record.booking.start, journey_of(rules, assessment));
    const auto* refused = std::get_if<Refused>(&fitted);
    choice.timetable = refused != nullptr ? refused->reason : "fits";
    choice.acceptable = refused == nullptr && choice.speaks_against.empty() && choice.open.empty();
    return choice;
}

void choose(PreparationPlan& plan, const Rules& rules, const CaseRecord& record, const Assessment& assessment)
{
    const Journey journey = journey_of(rules, assessment);
    Refused refused;
    for (const PreparationPlan::Choice& choice : plan.choices) {
        if (!choice.acceptable) {
            continue;
        }
        const std::string& generic = rules.protocol.preparations[choice.preparation].generic;
        refused.choices.push_back(generic);
        if (!plan.suggestion) {
            plan.suggestion =
                std::get<Fitted>(fit_preparation(rules, choice.preparation, record.booking.start, journey));
        }
    }
    refused.reason = plan.about_the_order;
    if (refused.choices.empty()) {
        refused.reason += "; no preparation of the protocol would do as things stand";
    }
    plan.plan = refused;
}

void plan_bowel(PreparationPlan& plan, const Rules& rules, const CaseRecord& record, const Assessment& assessment)
{
    for (const PreparationIndex place : in_the_units_order(rules)) {
        plan.choices.push_back(choice_for(rules, record, assessment, place));
    }
    const auto& ordered = record.booking.ordered;
    if (!ordered) {
        plan.about_the_order = record.booking.ordered_words.empty()
                                   ? "nobody knows which preparation was ordered"
                                   : fmt::format("ordered as \"{}\", which names no preparation of the protocol",
                                                 record.booking.ordered_words);
        choose(plan, rules, record, assessment);
        return;
    }
    const std::string& generic = rules.protocol.preparations[*ordered].generic;
    const auto choice = std::ranges::find(plan.choices, *ordered, &PreparationPlan::Choice::preparation);
    if (!choice->speaks_against.empty()) {
        plan.about_the_order = fmt::format("{} was ordered, and this speaks against it: {}", generic,
                                           choice->speaks_against.front());
        choose(plan, rules, record, assessment);
        return;
    }
    auto fitted = fit_preparation(rules, *ordered, record.booking.start, journey_of(rules, assessment));
    if (auto* refused = std::get_if<Refused>(&fitted)) {
        plan.about_the_order = refused->reason;
        auto ways_out = refused->choices;
        choose(plan, rules, record, assessment);
        auto& all = std::get<Refused>(plan.plan).choices;
        all.insert(all.end(), ways_out.begin(), ways_out.end());
        return;
    }
    plan.about_the_order = generic + " was ordered and is kept";
    plan.plan = std::get<Fitted>(std::move(fitted));
}

}  // namespace

PreparationPlan plan_preparation(const Rules& rules, const CaseRecord& record, const Assessment& assessment)
{
    PreparationPlan plan;
    if (!assessment.in_scope) {
        plan.plan = Refused{"outside what the protocol has plans for: no preparation is proposed",
                            {"the endoscopist states the preparation"}};
    } else if (any_plan(rules, record, Procedure::Plan::ask)) {
        plan.plan = Refused{"no plan for this procedure stands in the protocol yet",
                            {"the endoscopist states the preparation"}};
    } else if (any_plan(rules, record, Procedure::Plan::bowel)) {
        plan_bowel(plan, rules, record, assessment);
    } else {
        auto fitted = fit_fasting(rules, record.booking.start, journey_of(rules, assessment));
        if (auto* refused = std::get_if<Refused>(&fitted)) {
            plan.plan = *refused;
        } else {
            plan.plan = std::get<Fitted>(std::move(fitted));
        }
    }
    return plan;
}

}  // namespace foreday::checklists
