#include "tests/published/window_rows.h"

#include <algorithm>
#include <functional>
#include <stdexcept>

#include "checklists/readiness_checks.h"
#include "checklists/start_bounds.h"

namespace foreday::tests {

using namespace screening;

namespace {

using Check = std::function<bool(const Row&, const Rules&)>;

Exact figure(const Row& row)
{
    return Exact::parse(row.at("number")).value();
}

std::chrono::minutes time_of(const Row& row)
{
    const Exact minutes = row.at("unit") == "h" ? figure(row) * Exact{60} : figure(row);
    return std::chrono::minutes{minutes.floor()};
}

Unit unit_of(const Row& row)
{
    static const std::map<std::string, Unit> units{
        {"h", Unit::hour},     {"min", Unit::minute},   {"days", Unit::day},
        {"weeks", Unit::week}, {"months", Unit::month}, {"mmHg", Unit::millimetre_mercury}};
    const auto found = units.find(row.at("unit"));
    return found == units.end() ? Unit::none : found->second;
}

const Parameter& parameter(const Rules& rules, const std::string& id)
{
    const auto place = find_parameter(rules.protocol, id);
    if (!place) {
        throw std::runtime_error("no parameter " + id);
    }
    return rules.protocol.parameters[*place];
}

/// The row's figure in the parameter's unit equals the given number of it.
bool same(const Row& row, const Parameter& parameter, const Exact& number)
{
    const Unit unit = unit_of(row);
    return comparable(unit, parameter.unit) && convert(figure(row), unit, parameter.unit) == number;
}

Check default_of(const std::string& id)
{
    return [id](const Row& row, const Rules& rules) {
        const Parameter& one = parameter(rules, id);
        return same(row, one, std::get<Exact>(one.by_default));
    };
}

/// The least a unit may set.
Check lowest_of(const std::string& id)
{
    return [id](const Row& row, const Rules& rules) {
        const Parameter& one = parameter(rules, id);
        return same(row, one, one.range.lowest);
    };
}

template <class Rule>
const Rule& rule_named(const std::vector<Rule>& rules, const std::string& id)
{
    const auto found = std::ranges::find_if(rules, [&](const Rule& rule) { return rule.head.id == id; });
    if (found == rules.end()) {
        throw std::runtime_error("no rule " + id);
    }
    return *found;
}

/// State of one fasting or measured readiness item in a case.
checklists::ReadinessState state_of(const std::string& id, const Rules& rules, const CaseWish& wish)
{
    const CaseRecord record = healthy_case(rules, wish);
    const Judge judge(rules, record, record.booking.start_moment);
    const Assessment assessment = assess(rules, record, record.booking.start_moment);
    const std::vector<checklists::Decided> decided;
    const checklists::ReadinessSetting setting{judge, assessment, decided, record.booking.start_moment};
    const ReadinessRule& rule = rule_named(rules.protocol.readiness, id);
    checklists::ReadinessItem item;
    item.sure = rule.head.sure;
    if (const auto* fasting = std::get_if<FastingCheck>(&rule.check)) {
        checklists::check_fasting(*fasting, setting, item);
    } else {
        checklists::check_measured(std::get<MeasuredCheck>(rule.check), setting, item);
    }
    return item.state;
}

/// Met at exactly so many hours after the last intake of the kind, not met a minute later.
Check fasting(const std::string& id, const std::string& kind)
{
    return [id, kind](const Row& row, const Rules& rules) {
        const LocalMinute start = LocalMinute{procedure_day()} + std::chrono::hours{8};
        const auto state = [&](std::chrono::minutes before) {
            CaseWish wish;
            wish.intake = {{kind, start - before, "as printed"}};
            return state_of(id, rules, wish);
        };
        return state(time_of(row)) == checklists::ReadinessState::met &&
               state(time_of(row) - std::chrono::minutes{1}) == checklists::ReadinessState::not_met;
    };
}

/// A measure of the day must be "<" (or "<=") the figure: just below, at and just above.
Check measured(const std::string& id, const std::string& fact)
{
    return [id, fact](const Row& row, const Rules& rules) {
        const Exact hair = Exact::ratio(1, 100);
        const auto met = [&](const Exact& value) {
            CaseWish wish;
            wish.medicines = {"warfarin"};
            wish.measures = {{fact, value}};
            return state_of(id, rules, wish) == checklists::ReadinessState::met;
        };
        const bool closed = row.at("comparator") == "<=";
        return met(figure(row) - hair) && met(figure(row)) == closed && !met(figure(row) + hair);
    };
}

/// A finding about an event fires when the event lay exactly so long back, and not a day longer ago. A text
/// that writes "less than" leaves the boundary day out; the protocol counts it in, which is the safer side.
Check event_within(const std::string& finding, const std::string& flag, const std::string& date)
{
    return [finding, flag, date](const Row& row, const Rules& rules) {
        const auto count = static_cast<int>(figure(row).floor());
        const Date edge = row.at("unit") == "months"
                              ? add_months(procedure_day(), -count)
                              : procedure_day() - date::days{row.at("unit") == "weeks" ? 7 * count : count};
        const Condition& when = rule_named(rules.protocol.findings, finding).when;
        const auto fires = [&](Date day) {
            CaseWish wish;
            wish.yes = {flag};
            wish.dates = {{date, day}};
            const CaseRecord record = healthy_case(rules, wish);
            return Judge(rules, record, call_moment(rules)).truth(when) == Truth::yes;
        };
        return fires(edge) && !fires(edge - date::days{1});
    };
}

/// The rule or finding compares the calculator with exactly this number (or a parameter whose default it is).
bool compares(const Condition& condition, Calculator calculator, Operator op, const Exact& number,
              const Rules& rules)
{
    return std::ranges::any_of(comparisons_in(condition), [&](const Comparison* one) {
        const auto* calculated = std::get_if<CalculatedCompares>(one);
        return calculated != nullptr && calculated->calculator == calculator && calculated->op == op &&
               number_of(calculated->limit, rules.policy) == number;
    });
}

Check hold_compares(const std::string& rule, Calculator calculator, Operator op)
{
    return [=](const Row& row, const Rules& rules) {
        return compares(rule_named(rules.protocol.holds, rule).when, calculator, op, figure(row), rules);
    };
}

Check bmi_of_sleep_apnoea()
{
    return [](const Row& row, const Rules& rules) {
        const Operator op = row.at("comparator") == ">" ? Operator::above : Operator::at_least;
        return compares(rule_named(rules.protocol.findings, "sleep_apnoea_likely").when, Calculator::bmi, op,
                        figure(row), rules);
    };
}

using OfPreparation = std::function<bool(const Row&, const Rules&, const Preparation&)>;

const Preparation& preparation(const Rules& rules, const std::string& id)
{
    return rules.protocol.preparations.at(find_preparation(rules.protocol, id).value());
}

Check in(const std::string& id, const OfPreparation& check)
{
    return
        [id, check](const Row& row, const Rules& rules) { return check(row, rules, preparation(rules, id)); };
}

Check in_every_preparation(const OfPreparation& check)
{
    return [check](const Row& row, const Rules& rules) {
        return std::ranges::all_of(rules.protocol.preparations,
                                   [&](const Preparation& one) { return check(row, rules, one); });
    };
}

Exact millilitres(const Portion& portion)
{
    Exact sum{0};
    for (const PortionStep& step : portion.steps) {
        sum = sum + step.millilitres * Exact{step.times};
    }
    return sum;
}

Exact fluid_ounces(const Row& row)
{
    return convert(figure(row), Unit::fluid_ounce, Unit::millilitre);
}

/// Drunk at its latest allowed start the second portion still ends so long before the procedure.
bool done_by(const Row& row, const Rules& rules, const Preparation& one)
{
    const auto bounds = checklists::start_bounds(rules, one, std::chrono::minutes{30});
    return bounds.at_least - length_of(one.second) >= time_of(row);
}

bool water_after(const Row& row, const Rules& /*rules*/, const Preparation& one)
{
    const auto water = [](const Portion& portion) {
        return portion.steps.at(1).millilitres * Exact{portion.steps.at(1).times};
    };
    return water(one.first) == fluid_ounces(row) && water(one.second) == fluid_ounces(row);
}

bool interval_between(const Row& row, const Rules& /*rules*/, const Preparation& one)
{
    return one.between_starts && (row.at("comparator") == ">=" ? one.between_starts->lowest
                                                               : one.between_starts->highest) == time_of(row);
}

/// The written fraction of a dose names the figure; a clinician states the dose.
Check fraction(const std::string& rule, const std::string& words)
{
    return [=](const Row& /*row*/, const Rules& rules) {
        const HoldRule& hold = rule_named(rules.protocol.holds, rule);
        return hold.action == HoldAction::dose_to_be_stated &&
               hold.published_fraction.find(words) != std::string::npos;
    };
}

void add_preparations(std::map<std::string, Check>& checks)
{
    const std::string peg = "peg_els_4l_split";
    const std::string oss = "sulfate_solution_split";
    checks["oss_diluted_to_ounces"] = in(oss, [](const Row& row, const Rules&, const Preparation& one) {
        return one.first.steps.at(0).millilitres == fluid_ounces(row) &&
               one.second.steps.at(0).millilitres == fluid_ounces(row);
    });
    checks["oss_16oz_to_ml"] = in(oss, [](const Row& row, const Rules&, const Preparation& one) {
        return one.first.steps.at(0).millilitres == figure(row);
    });
    checks["oss_water_after_dose"] = in(oss, water_after);
    checks["oss_water_after_dose_within"] = in(oss, [](const Row& row, const Rules&, const Preparation& one) {
        return one.first.steps.at(1).every * one.first.steps.at(1).times <= time_of(row);
    });
    checks["oss_total_volume"] = in(oss, [](const Row& row, const Rules&, const Preparation& one) {
        return millilitres(one.first) + millilitres(one.second) == fluid_ounces(row);
    });
    checks["oss_dose_interval"] = in(oss, interval_between);
    checks["oss_second_dose_latest_start"] =
        in(oss, [](const Row& row, const Rules&, const Preparation& one) {
            return std::ranges::any_of(
                one.windows, [&](const StartWindow& window) { return window.latest == time_of(row); });
        });
    checks["peg_glass_ounces"] = in(peg, [](const Row& row, const Rules&, const Preparation& one) {
        return one.first.steps.at(0).what.find(row.at("number") + " oz") != std::string::npos;
    });
    checks["peg_glass_ml"] = in(peg, [](const Row& row, const Rules&, const Preparation& one) {
        return one.first.steps.at(0).millilitres == figure(row) &&
               one.second.steps.at(0).millilitres == figure(row);
    });
    checks["peg_glass_interval"] = in(peg, [](const Row& row, const Rules&, const Preparation& one) {
        return one.first.steps.at(0).every == time_of(row);
    });
    checks["peg_total_volume"] = in(peg, [](const Row& row, const Rules&, const Preparation& one) {
        return millilitres(one.first) + millilitres(one.second) == figure(row) * Exact{1000};
    });
    checks["peg_no_solids_before"] = in(peg, [](const Row& row, const Rules& rules, const Preparation& one) {
        // Also where a unit starts the evening portion as early as it may.
        const Exact earliest = parameter(rules, "evening_start").range.lowest;
        return earliest - Exact{one.last_solid.count()} >= Exact{time_of(row).count()};
    });
    checks["oral_medicine_before_dose"] =
        in_every_preparation([](const Row& row, const Rules&, const Preparation& one) {
            return one.no_medicine_before == time_of(row);
        });
    checks["second_portion_done_by"] = in_every_preparation(done_by);
    checks["last_dose_to_procedure"] =
        in_every_preparation([](const Row& row, const Rules& rules, const Preparation& one) {
            const auto bounds = checklists::start_bounds(rules, one, std::chrono::minutes{30});
            return bounds.at_most - length_of(one.second) <= time_of(row);
        });
    checks["second_portion_earliest"] = default_of("preferred_second_start");
}

void add_events(std::map<std::string, Check>& checks)
{
    checks["mi_days"] = event_within("heart_attack_recent", "heart_attack", "heart_attack_date");
    for (const char* subject : {"stroke_months", "af_stroke_months"}) {
        checks[subject] = event_within("stroke_recent", "stroke_or_tia", "stroke_date");
    }
    checks["vte_months"] = event_within("clot_recent", "clot_in_vein", "clot_date");
    checks["stent_des_months"] = [](const Row& row, const Rules& rules) {
        return row.at("comparator") == "<="
                   ? event_within("stent_in_window", "coronary_stent", "stent_date")(row, rules)
                   : lowest_of("stent_months")(row, rules);
    };
    for (const char* subject : {"stent_des_may_be_considered_months", "stent_urgent_pci_months",
                                "stent_elective_pci_weeks", "stent_bms", "stent_bms_months"}) {
        checks[subject] = event_within("stent_very_recent", "coronary_stent", "stent_date");
    }
    checks["diverticulitis_weeks"] = lowest_of("diverticulitis_weeks");
    checks["diverticulitis_weeks_upper"] =
        event_within("diverticulitis_recent", "diverticulitis", "diverticulitis_date");
}

void add_limits(std::map<std::string, Check>& checks)
{
    checks["fasting_clear_liquid"] = fasting("fasting_clear_liquid", "clear liquid");
    checks["fasting_nonhuman_milk"] = fasting("fasting_milk", "milk");
    checks["fasting_light_meal"] = fasting("fasting_light_meal", "light meal");
    checks["fasting_solids"] = checks["fasting_light_meal"];
    checks["fasting_fatty_meal"] = fasting("fasting_fatty_meal", "fatty meal");
    checks["inr_limit_high_risk"] = measured("inr_below_limit", "inr_today");
    checks["inr_defer_low_risk"] = default_of("inr_upper");
    for (const char* subject : {"bp_limit_systolic", "bp_primary_care_systolic", "bp_normal_systolic"}) {
        checks[subject] = measured("upper_pressure_not_too_high", "systolic_today");
    }
    for (const char* subject : {"bp_limit_diastolic", "bp_primary_care_diastolic", "bp_normal_diastolic"}) {
        checks[subject] = measured("lower_pressure_not_too_high", "diastolic_today");
    }
    checks["glucose_target_min"] = default_of("glucose_low");
    checks["glucose_target_max"] = default_of("glucose_high");
    checks["af_cha2ds2_vasc_high"] =
        hold_compares("clot_risk_of_fibrillation", Calculator::cha2ds2_vasc, Operator::at_least);
    checks["af_chads2_low"] =
        hold_compares("clot_risk_of_fibrillation", Calculator::chads2, Operator::at_least);
    checks["af_chads_high"] = checks["af_chads2_low"];
    checks["sleep_apnoea_bmi"] = bmi_of_sleep_apnoea();
    checks["sleep_apnoea_high_items"] = default_of("sleep_apnoea_facts");
    // Below the floor nobody is told a date; the protocol counts the floor itself in.
    checks["edoxaban_crcl_floor"] =
        hold_compares("edoxaban_weak_kidneys", Calculator::cockcroft_gault, Operator::at_most);
    checks["apixaban_crcl_floor"] =
        hold_compares("apixaban_weak_kidneys", Calculator::cockcroft_gault, Operator::at_most);
    checks["doac_crcl_advice"] = checks["apixaban_crcl_floor"];
    checks["inr_target_high_risk"] = [](const Row& row, const Rules& rules) {
        const auto& fact = rules.protocol.facts.at(find_fact(rules.protocol, "inr_target_high").value());
        return fact.question.find(row.at("number")) != std::string::npos;
    };
    checks["steroid_dose_mg"] = [](const Row& row, const Rules& rules) {
        return rule_named(rules.protocol.holds, "steroids_long_term")
                   .head.reading.find(row.at("number") + " mg") != std::string::npos;
    };
    checks["steroid_weeks"] = [](const Row& row, const Rules& rules) {
        return row.at("number") == "4" &&
               rule_named(rules.protocol.holds, "steroids_long_term").head.reading.find("four weeks") !=
                   std::string::npos;
    };
    checks["insulin_nph_percent"] = fraction("insulin_nph", "half of the usual dose");
    checks["insulin_basal_percent_min"] = fraction("insulin_basal", "75 to 80 percent");
    checks["insulin_basal_percent_max"] = checks["insulin_basal_percent_min"];
    checks["escort_adult"] = [](const Row& /*row*/, const Rules& rules) {
        const ReadinessRule& rule = rule_named(rules.protocol.readiness, "escort_named_and_reached");
        return rule.kind == ReadinessKind::holds_the_patient && std::get<ConfirmedCheck>(rule.check).expected;
    };
}

const std::map<std::string, Check>& all_checks()
{
    static const std::map<std::string, Check> checks = [] {
        std::map<std::string, Check> made;
        add_preparations(made);
        add_events(made);
        add_limits(made);
        return made;
    }();
    return checks;
}

}  // namespace

std::optional<bool> keeps_window(const Row& row, const Rules& rules)
{
    const auto check = all_checks().find(row.at("subject"));
    if (check == all_checks().end()) {
        return std::nullopt;
    }
    return check->second(row, rules);
}

}  // namespace foreday::tests
