#include "tests/published/hold_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <stdexcept>

namespace foreday::tests {

using namespace screening;

namespace {

const std::map<std::string, std::vector<std::string>>& medicines_by_words()
{
    static const std::map<std::string, std::vector<std::string>> names{
        {"any twice-daily anticoagulant", {"apixaban", "dabigatran"}},
        {"semaglutide injection", {"semaglutide_weekly"}},
        {"semaglutide tablet", {"semaglutide_tablet"}},
        {"GLP-1 receptor agonist", {"semaglutide_weekly", "dulaglutide", "liraglutide"}},
        {"SGLT2 inhibitor", {"dapagliflozin", "empagliflozin", "canagliflozin", "ertugliflozin"}},
        {"iron by mouth", {"ferrous_sulfate", "ferrous_gluconate", "ferrous_fumarate"}},
        {"fibre supplement", {"psyllium", "methylcellulose"}},
        {"codeine, loperamide", {"loperamide"}},
        {"codeine", {}},
        {"regular morning medicines", {"omeprazole", "famotidine"}},
        {"enoxaparin, treatment dose", {"enoxaparin"}},
        {"enoxaparin, preventive dose", {"enoxaparin"}},
        {"dalteparin, treatment dose", {"dalteparin"}},
        {"low molecular weight heparin", {"enoxaparin", "dalteparin", "tinzaparin"}},
        {"naltrexone tablet", {"naltrexone_tablet"}},
        {"naltrexone monthly injection", {"naltrexone_monthly"}},
    };
    return names;
}

std::vector<std::string> medicines_of(const Row& row)
{
    const auto found = medicines_by_words().find(row.at("medicine"));
    return found != medicines_by_words().end() ? found->second : std::vector<std::string>{row.at("medicine")};
}

std::vector<BleedingRisk> risks_of(const std::string& words)
{
    if (words == "low") {
        return {BleedingRisk::low};
    }
    if (words == "high") {
        return {BleedingRisk::high};
    }
    return {BleedingRisk::low, BleedingRisk::high};
}

bool upper_class_begins_above_50(const Row& row, const std::vector<Row>& rows)
{
    return std::ranges::any_of(rows, [&](const Row& other) {
        return other.at("document") == row.at("document") && other.at("medicine") == row.at("medicine") &&
               other.at("condition").ends_with(">50");
    });
}

Exact number(const std::string& text)
{
    return Exact::parse(text).value();
}

/// The ends of the row's band of clearance, the boundary itself where it belongs to the band.
std::vector<Exact> clearances_of(const Row& row, const std::vector<Row>& rows)
{
    std::string words = row.at("condition");
    if (!words.starts_with("crcl") && !words.starts_with("egfr")) {
        return {Exact{100}};
    }
    words.erase(0, 4);
    const Exact hair = number("0.01");
    if (words.starts_with(">=")) {
        return {number(words.substr(2)), Exact{100}};
    }
    if (words.starts_with(">")) {
        return {number(words.substr(1)) + hair, Exact{100}};
    }
    if (words.starts_with("<")) {
        return {number(words.substr(1)) - hair, Exact{30}};
    }
    const auto dash = words.find('-');
    if (!words.starts_with(" ") || dash == std::string::npos) {
        throw std::runtime_error(row.at("id") + ": no such band of clearance: " + words);
    }
    const Exact low = number(words.substr(1, dash - 1));
    const Exact high = number(words.substr(dash + 1));
    std::vector<Exact> clearances{low, high - hair};
    if (high == Exact{50} && upper_class_begins_above_50(row, rows)) {
        clearances.push_back(high);
    }
    return clearances;
}

/// What the words of the condition say about the patient beside the clearance.
void add_condition(const Row& row, CaseWish& wish)
{
    const std::string& words = row.at("condition");
    if (words == "dual antiplatelet therapy") {
        wish.medicines.emplace_back("clopidogrel");
    } else if (words == "moderate bleeding risk, both agents") {
        wish.medicines.emplace_back("aspirin");
    } else if (words == "ACS or PCI more than 6 months ago") {
        wish.yes.insert("coronary_stent");
        wish.dates.emplace_back("stent_date", add_months(procedure_day(), -7));
    }
    if (row.at("medicine").starts_with("naltrexone")) {
        wish.yes.insert("opioid_sedation_planned");
    }
}

struct Range {
    Exact lowest;
    Exact highest;
};
Range range_of(const Row& row)
{
    const std::string& words = row.at("number");
    const auto dash = words.find('-');
    return {number(words.substr(0, dash)),
            number(dash == std::string::npos ? words : words.substr(dash + 1))};
}

bool omits_days(const Row& row, const HoldPlan& plan)
{
    if (!plan.last_dose) {
        return false;
    }
    const Range days = range_of(row);
    if (row.at("note").find("a week is one dosing interval") != std::string::npos) {
        return plan.last_dose->day == procedure_day() - date::days{7} && plan.day_of == DayOf::omit;
    }
    const auto omitted = static_cast<int>(plan.dates_omitted.size());
    const bool enough = Exact{omitted} >= days.lowest;
    const bool not_more =
        row.at("note").find("at least") != std::string::npos || Exact{omitted} <= days.highest;
    return enough && not_more && plan.last_dose->day == procedure_day() - date::days{omitted + 1} &&
           plan.day_of == DayOf::omit;
}

bool long_enough_ago(const Row& row, const HoldPlan& plan, const Rules& rules)
{
    if (!plan.last_dose || !plan.last_dose->time) {
        return false;
    }
    const Moment taken = moment_of(rules.zone, LocalMinute{plan.last_dose->day} + *plan.last_dose->time);
    const Moment start = moment_of(rules.zone, LocalMinute{procedure_day()} + std::chrono::hours{8});
    return Exact{(start - taken).count()} >= range_of(row).lowest * Exact{3600};
}

}  // namespace

std::vector<RowSetting> settings_of(const Row& row, const std::vector<Row>& rows)
{
    std::vector<RowSetting> settings;
    for (const std::string& medicine : medicines_of(row)) {
        for (const BleedingRisk risk : risks_of(row.at("procedure_bleeding_risk"))) {
            for (const Exact& clearance : clearances_of(row, rows)) {
                RowSetting setting;
                setting.wish.risk = risk;
                setting.wish.clearance = clearance;
                setting.wish.medicines = {medicine};
                add_condition(row, setting.wish);
                setting.words =
                    fmt::format("{}, {}, clearance {}", medicine, name_of(risk), clearance.text());
                settings.push_back(std::move(setting));
            }
        }
    }
    return settings;
}

bool agrees(const Row& row, const HoldPlan& plan, const Rules& rules)
{
    const std::string& rule = row.at("rule");
    if (rule == "take") {
        return (plan.action == HoldAction::take_as_usual || plan.action == HoldAction::sip_on_the_morning) &&
               plan.dates_omitted.empty();
    }
    if (rule == "omit_on_the_day") {
        return plan.action == HoldAction::omit_on_the_day && plan.dates_omitted.empty() &&
               plan.day_of == DayOf::omit && plan.last_dose &&
               plan.last_dose->day == procedure_day() - date::days{1};
    }
    if (rule == "omit_days") {
        return omits_days(row, plan);
    }
    if (rule == "last_dose_hours") {
        return long_enough_ago(row, plan, rules);
    }
    throw std::runtime_error(row.at("id") + ": no such rule: " + rule);
}

std::string plan_words(const HoldPlan& plan)
{
    std::string last = "none";
    if (plan.last_dose) {
        last = iso_date(plan.last_dose->day);
        if (plan.last_dose->time) {
            last += " " + iso_time_of_day(*plan.last_dose->time);
        }
    }
    return fmt::format("{}, last dose {}, {} dates omitted, on the day {}", name_of(plan.action), last,
                       plan.dates_omitted.size(), plan.day_of ? name_of(*plan.day_of) : "not said");
}

}  // namespace foreday::tests
