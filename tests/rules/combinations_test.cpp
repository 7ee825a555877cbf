#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "screening/judge.h"
#include "tests/published/healthy_case.h"
#include "tests/support/seed.h"

// Medicines taken together, at random: two or three of different classes, some facts of the patient turned to
// yes.

namespace foreday::tests {
namespace {

using namespace screening;

constexpr int combinations = 20'000;

const Rules& rules()
{
    static const Rules real = real_rules();
    return real;
}

bool share_a_class(const MedicineDefinition& a, const MedicineDefinition& b)
{
    return std::ranges::any_of(
        a.classes, [&](ClassIndex group) { return std::ranges::binary_search(b.classes, group); });
}

/// Yes/no facts that some hold rule asks about, besides those that say who the patient is.
std::vector<std::string> facts_of_hold_rules()
{
    const Protocol& protocol = rules().protocol;
    std::set<std::string> facts;
    for (const HoldRule& rule : protocol.holds) {
        for (const FactIndex place : facts_in(rule.when, protocol.calculators)) {
            if (protocol.facts[place].type == FactType::yes_no) {
                facts.insert(protocol.facts[place].id);
            }
        }
    }
    return {facts.begin(), facts.end()};
}

CaseWish any_wish(std::mt19937_64& random, const std::vector<std::string>& facts)
{
    const auto& medicines = rules().protocol.medicines;
    const auto any_medicine = [&]() -> const MedicineDefinition& {
        return medicines[static_cast<std::size_t>(
            any_between(random, 0, static_cast<std::int64_t>(medicines.size()) - 1))];
    };
    CaseWish wish;
    std::vector<const MedicineDefinition*> taken;
    const auto wanted = static_cast<std::size_t>(any_between(random, 2, 3));
    while (taken.size() < wanted) {
        const MedicineDefinition& one = any_medicine();
        if (std::ranges::none_of(taken, [&](const auto* other) { return share_a_class(*other, one); })) {
            taken.push_back(&one);
            wish.medicines.push_back(one.id);
        }
    }
    for (std::int64_t more = any_between(random, 0, 3); more > 0; --more) {
        wish.yes.insert(facts[static_cast<std::size_t>(
            any_between(random, 0, static_cast<std::int64_t>(facts.size()) - 1))]);
    }
    wish.clearance = Exact{any_between(random, 10, 120)};
    wish.risk = any_between(random, 0, 1) == 0 ? BleedingRisk::low : BleedingRisk::high;
    return wish;
}

bool leaves_out_a_dose(HoldAction action)
{
    return action == HoldAction::omit_on_the_day || action == HoldAction::omit_days ||
           action == HoldAction::last_dose_at_least_hours;
}

bool requires_the_morning(HoldAction action)
{
    return action == HoldAction::take_as_usual || action == HoldAction::sip_on_the_morning;
}

/// One rule forbids the dose of the morning of the day, another wants it taken. The medicines of these cases
/// have a dose at 07:00, an hour before the procedure.
bool pulled_apart(const CaseRecord& record, const MedicineItem& item)
{
    const Protocol& protocol = rules().protocol;
    const Judge judge(rules(), record, call_moment(rules()));
    bool forbidden = false;
    bool required = false;
    for (const HoldRule& rule : protocol.holds) {
        if (!speaks_about(rule, *item.medicine, protocol) ||
            !in_force(rule.policies, rules().policy.options) || judge.truth(rule.when) != Truth::yes) {
            continue;
        }
        forbidden |= leaves_out_a_dose(rule.action);
        required |= requires_the_morning(rule.action) && rule.protects == Protects::by_taking;
    }
    return forbidden && required && std::holds_alternative<Daily>(item.pattern);
}

bool gives_a_date(const HoldPlan& plan)
{
    return plan.last_dose || plan.none_from || plan.day_of || !plan.dates_omitted.empty();
}

struct Seen {
    int pulled_apart = 0;
    int marked_and_paused = 0;
    int dated = 0;
};

void check(const CaseWish& wish, Seen& seen)
{
    const CaseRecord record = healthy_case(rules(), wish);
    const Assessment assessment = assess(rules(), record, call_moment(rules()));
    ASSERT_EQ(assessment.holds.size(), wish.medicines.size()) << "one action for each medicine";
    std::set<std::string> held;
    for (const Hold& hold : assessment.holds) {
        held.insert(hold.medicine_item);
        if (hold.marked && leaves_out_a_dose(hold.plan.action)) {
            ++seen.marked_and_paused;
            EXPECT_TRUE(hold.needs_agreement) << hold.medicine << " pauses and nobody has agreed";
        }
        const auto item = std::ranges::find(record.medicines.items, hold.medicine_item, &MedicineItem::id);
        ASSERT_NE(item, record.medicines.items.end());
        if (pulled_apart(record, *item)) {
            ++seen.pulled_apart;
            EXPECT_EQ(hold.plan.action, HoldAction::ask_first) << hold.medicine << " by " << hold.item.rule;
            EXPECT_FALSE(gives_a_date(hold.plan)) << hold.medicine << " by " << hold.item.rule;
        }
        seen.dated += gives_a_date(hold.plan) ? 1 : 0;
        for (const Date left_out : hold.plan.dates_omitted) {
            EXPECT_LT(left_out, procedure_day()) << hold.medicine;
        }
    }
    EXPECT_EQ(held.size(), wish.medicines.size()) << "no medicine twice, none forgotten";
}

TEST(RunMedicinesTogether, EachHasOneActionNothingMarkedPausesUnagreedAndNothingPulledApartHasADate)
{
    std::mt19937_64 random{seed_of_this_run()};
    const auto facts = facts_of_hold_rules();
    Seen seen;
    for (int turn = 0; turn < combinations; ++turn) {
        const CaseWish wish = any_wish(random, facts);
        SCOPED_TRACE(fmt::format("medicines {}, yes {}, clearance {}", fmt::join(wish.medicines, ", "),
                                 fmt::join(wish.yes, ", "), wish.clearance.text()));
        check(wish, seen);
        if (testing::Test::HasFailure()) {
            return;
        }
    }
    std::cout << fmt::format("{} combinations: {} pulled apart, {} marked and paused, {} with a date\n",
                             combinations, seen.pulled_apart, seen.marked_and_paused, seen.dated);
    EXPECT_GT(seen.pulled_apart, 100);
    EXPECT_GT(seen.marked_and_paused, 100);
    EXPECT_GT(seen.dated, 1000);
}

}  // namespace
}  // namespace foreday::tests
