#include <gtest/gtest.h>

#include <algorithm>
#include <set>
#include <stdexcept>

#include "checklists/readiness_checks.h"
#include "data/reading/policy_reading.h"
#include "screening/hold_plan.h"
#include "tests/published/healthy_case.h"
#include "tests/published/rows.h"

namespace foreday::tests {
namespace {

using namespace screening;

const Rules& defaults()
{
    static const Rules rules = real_rules();
    return rules;
}

const std::vector<Row>& rows()
{
    static const std::vector<Row> table = read_rows(FOREDAY_SOURCE_DIR "/tests/from_memory/from_memory.tsv");
    return table;
}

Rules confirming(const std::vector<std::string>& ids)
{
    Rules rules = defaults();
    for (const std::string& id : ids) {
        rules.policy.confirmations.push_back(
            {id, "Dr Invented", Role::medical_director, procedure_day() - date::days{200}});
    }
    std::ranges::sort(rules.policy.confirmations, {}, &Confirmation::item);
    return rules;
}

std::vector<std::string> unconfirmed(const Rules& rules, const std::string& kind)
{
    std::vector<std::string> ids;
    for (const data::Unconfirmed& one : data::unconfirmed_under(rules.protocol, rules.policy)) {
        if (one.kind == kind) {
            ids.push_back(one.id);
        }
    }
    return ids;
}

const HoldRule& hold_rule(const std::string& id)
{
    const auto& holds = defaults().protocol.holds;
    const auto found = std::ranges::find_if(holds, [&](const HoldRule& rule) { return rule.head.id == id; });
    if (found == holds.end()) {
        throw std::runtime_error("no hold rule " + id);
    }
    return *found;
}

/// How sure the protocol says the figure is.
HowSure sure_of(const Row& row)
{
    const Protocol& protocol = defaults().protocol;
    if (row.at("where") == "parameter") {
        return protocol.parameters.at(find_parameter(protocol, row.at("id")).value()).sure;
    }
    if (row.at("where") == "preparation") {
        return protocol.preparations.at(find_preparation(protocol, row.at("id")).value()).sure;
    }
    return hold_rule(row.at("id")).head.sure;
}

bool same_value(const Parameter& parameter, const std::string& figure)
{
    if (const auto* time = std::get_if<TimeOfDay>(&parameter.by_default)) {
        return iso_time_of_day(*time) == figure;
    }
    const auto quantity = parse_quantity(figure);
    return quantity && comparable(quantity->unit, parameter.unit) &&
           convert(quantity->value, quantity->unit, parameter.unit) == std::get<Exact>(parameter.by_default);
}

bool carries(const Row& row)
{
    const Protocol& protocol = defaults().protocol;
    const std::string& figure = row.at("figure");
    if (row.at("where") == "parameter") {
        return same_value(protocol.parameters.at(find_parameter(protocol, row.at("id")).value()), figure);
    }
    if (row.at("where") == "preparation") {
        const Preparation& one = protocol.preparations.at(find_preparation(protocol, row.at("id")).value());
        const auto pace = parse_quantity(figure).value();
        return Exact{one.first.steps.at(0).every.count()} == convert(pace.value, pace.unit, Unit::minute);
    }
    const HoldRule& rule = hold_rule(row.at("id"));
    if (figure == "the day") {
        return rule.action == HoldAction::omit_on_the_day;
    }
    return rule.action == HoldAction::omit_days &&
           number_of(rule.number, defaults().policy) == parse_quantity(figure).value().value;
}

TEST(FromMemory, EachFigureStandsInTheProtocolAndSaysThatNobodyReadIt)
{
    for (const Row& row : rows()) {
        SCOPED_TRACE(row.at("id"));
        EXPECT_EQ(name_of(sure_of(row)), row.at("sure"));
        EXPECT_FALSE(may_give_a_date(sure_of(row)));
        EXPECT_TRUE(carries(row)) << row.at("what") << ": " << row.at("figure");
    }
}

TEST(FromMemory, EveryUnconfirmedFigureOfTheProtocolIsInTheTable)
{
    std::set<std::string> listed;
    for (const Row& row : rows()) {
        listed.insert(row.at("where") + " " + row.at("id"));
    }
    std::set<std::string> standing;
    for (const char* kind : {"parameter", "preparation", "hold"}) {
        for (const std::string& id : unconfirmed(defaults(), kind)) {
            if (kind != std::string_view{"hold"} || leaves_out(hold_rule(id).action)) {
                standing.insert(std::string{kind} + " " + id);
            }
        }
    }
    EXPECT_EQ(listed, standing);
}

TEST(FromMemory, AFigureIsUnconfirmedUntilTheUnitConfirmsItByName)
{
    for (const Row& row : rows()) {
        SCOPED_TRACE(row.at("id"));
        const auto before = unconfirmed(defaults(), row.at("where"));
        const auto after = unconfirmed(confirming({row.at("id")}), row.at("where"));
        EXPECT_EQ(std::ranges::count(before, row.at("id")), 1);
        EXPECT_EQ(std::ranges::count(after, row.at("id")), 0);
    }
}

TEST(FromMemory, AHoldFromMemoryGivesNoDateUntilItIsConfirmed)
{
    const std::map<std::string, std::string> medicines{{"pramlintide", "pramlintide"},
                                                       {"coating_medicines_on_the_day", "sucralfate"},
                                                       {"nsaid_on_the_day", "ibuprofen"}};
    for (const auto& [rule, medicine] : medicines) {
        SCOPED_TRACE(rule);
        CaseWish wish;
        wish.medicines = {medicine};
        const Hold before = hold_of(defaults(), wish);
        EXPECT_EQ(before.item.rule, rule);
        EXPECT_FALSE(before.plan.last_dose);
        EXPECT_TRUE(before.plan.dates_omitted.empty());
        EXPECT_FALSE(before.plan.day_of);
        EXPECT_EQ(std::ranges::count(before.warnings, HoldWarning::no_date_until_confirmed), 1);
        const Hold after = hold_of(confirming({rule}), wish);
        ASSERT_TRUE(after.plan.last_dose);
        EXPECT_TRUE(after.plan.dates_omitted.empty());
        EXPECT_EQ(after.plan.last_dose->day, procedure_day() - date::days{1});
        EXPECT_EQ(after.plan.day_of, DayOf::omit);
    }
}

/// State of one measured item of the day's checklist in a case.
checklists::ReadinessState measured(const Rules& rules, const std::string& id, const std::string& fact,
                                    int value)
{
    CaseWish wish;
    wish.measures = {{fact, Exact{value}}};
    const CaseRecord record = healthy_case(rules, wish);
    const Judge judge(rules, record, record.booking.start_moment);
    const Assessment assessment = assess(rules, record, record.booking.start_moment);
    const std::vector<checklists::Decided> decided;
    const checklists::ReadinessSetting setting{judge, assessment, decided, record.booking.start_moment};
    const auto& all = rules.protocol.readiness;
    const auto rule = std::ranges::find_if(all, [&](const ReadinessRule& one) { return one.head.id == id; });
    if (rule == all.end()) {
        throw std::runtime_error("no readiness item " + id);
    }
    checklists::ReadinessItem item;
    item.sure = rank_in(rules.policy, id, rule->head.sure);
    checklists::check_measured(std::get<MeasuredCheck>(rule->check), setting, item);
    return item.state;
}

TEST(FromMemory, ALimitFromMemoryShowsNobodyReadyUntilItIsConfirmed)
{
    struct Limit {
        std::string item;
        std::string fact;
        std::vector<std::string> confirms;
        int inside;
        int outside;
    };
    const Limit limits[] = {
        {"upper_pressure_not_too_low",
         "systolic_today",
         {"upper_pressure_not_too_low", "systolic_low"},
         90,
         89},
        {"pulse_in_range", "pulse_today", {"pulse_in_range", "pulse_low", "pulse_high"}, 50, 49},
        {"pulse_in_range", "pulse_today", {"pulse_in_range", "pulse_low", "pulse_high"}, 120, 121},
        {"oxygen_enough", "oxygen_today", {"oxygen_enough", "oxygen_limit"}, 92, 91},
        {"no_fever", "temperature_today", {"no_fever", "fever_limit"}, 37, 38},
    };
    for (const Limit& limit : limits) {
        SCOPED_TRACE(limit.item);
        const Rules confirmed = confirming(limit.confirms);
        EXPECT_EQ(measured(defaults(), limit.item, limit.fact, limit.inside),
                  checklists::ReadinessState::open);
        EXPECT_EQ(measured(confirmed, limit.item, limit.fact, limit.inside), checklists::ReadinessState::met);
        EXPECT_EQ(measured(defaults(), limit.item, limit.fact, limit.outside),
                  checklists::ReadinessState::not_met);
        EXPECT_EQ(measured(confirmed, limit.item, limit.fact, limit.outside),
                  checklists::ReadinessState::not_met);
    }
}

}  // namespace
}  // namespace foreday::tests
