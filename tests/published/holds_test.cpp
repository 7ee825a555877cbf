#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/published/hold_rows.h"

namespace foreday::tests {
namespace {

using namespace screening;

const Rules& defaults()
{
    static const Rules rules = real_rules();
    return rules;
}

/// Rows of one of the small tables beside holds.tsv, by the id of the row they speak about.
std::map<std::string, Row> by_id(const std::string& name)
{
    std::map<std::string, Row> rows;
    for (Row& row : published_rows(name)) {
        rows.emplace(row.at("id"), std::move(row));
    }
    return rows;
}

bool about_all_medicines(const Row& row)
{
    return row.at("medicine") == "any medicine by mouth";
}

/// Where a row of not_followed.tsv says that the protocol differs.
bool excepted(const Row& exception, const RowSetting& setting)
{
    const std::string& where = exception.at("where");
    if (where == "low" || where == "high") {
        return name_of(setting.wish.risk) == where;
    }
    return where == "all" || (where == "at 50" && setting.wish.clearance == Exact{50}) ||
           (where == "above 50" && setting.wish.clearance > Exact{50}) ||
           (where == "at most 25" && setting.wish.clearance <= Exact{25});
}

/// No option of any policy question gives what the row prints.
bool differs_under_every_option(const Row& row, const Hold& hold)
{
    return !agrees(row, hold.plan, defaults()) &&
           std::ranges::none_of(hold.other_policies, [&](const HoldOption& option) {
               return agrees(row, option.plan, defaults());
           });
}

TEST(PublishedHolds, EveryRowIsKeptUnderThePolicyThatFollowsIt)
{
    const auto rows = published_rows("holds.tsv");
    const auto not_followed = by_id("not_followed.tsv");
    const auto options = by_id("follows_option.tsv");
    int kept = 0;
    for (const Row& row : rows) {
        if (about_all_medicines(row)) {
            continue;
        }
        SCOPED_TRACE(row.at("id") + ", " + row.at("document"));
        const auto option = options.find(row.at("id"));
        const Rules& rules = option == options.end() ? defaults()
                                                     : with_option(defaults(), option->second.at("question"),
                                                                   option->second.at("option"));
        const auto exception = not_followed.find(row.at("id"));
        for (const RowSetting& setting : settings_of(row, rows)) {
            if (exception != not_followed.end() && excepted(exception->second, setting)) {
                continue;
            }
            const Hold hold = hold_of(rules, setting.wish);
            EXPECT_TRUE(agrees(row, hold.plan, rules))
                << setting.words << ": printed " << row.at("rule") << " " << row.at("number") << ", told "
                << plan_words(hold.plan) << " by " << hold.item.rule;
        }
        kept += exception == not_followed.end() ? 1 : 0;
    }
    EXPECT_GT(kept, 100);
}

TEST(PublishedHolds, ARowTheProtocolDoesNotFollowTrulyDiffersUnderEveryOption)
{
    const auto rows = published_rows("holds.tsv");
    const auto not_followed = by_id("not_followed.tsv");
    for (const Row& row : rows) {
        const auto exception = not_followed.find(row.at("id"));
        if (exception == not_followed.end() || about_all_medicines(row)) {
            continue;
        }
        SCOPED_TRACE(row.at("id") + ", " + row.at("document"));
        const auto settings = settings_of(row, rows);
        if (settings.empty()) {
            EXPECT_TRUE(exception->second.at("why").starts_with("not in this slice"))
                << "its medicine is not in the protocol";
            continue;
        }
        int differing = 0;
        int looked_at = 0;
        for (const RowSetting& setting : settings) {
            if (excepted(exception->second, setting)) {
                ++looked_at;
                differing += differs_under_every_option(row, hold_of(defaults(), setting.wish)) ? 1 : 0;
            }
        }
        EXPECT_GT(looked_at, 0) << "no case of the row is " << exception->second.at("where");
        EXPECT_EQ(differing, looked_at) << "the protocol does keep this row; strike it from not_followed.tsv";
    }
}

TEST(PublishedHolds, ARowOfAnotherOptionIsNotKeptByTheDefaultAndIsShownBesideIt)
{
    const auto rows = published_rows("holds.tsv");
    const auto options = by_id("follows_option.tsv");
    const auto not_followed = by_id("not_followed.tsv");
    std::size_t seen = 0;
    for (const Row& row : rows) {
        if (!options.contains(row.at("id"))) {
            continue;
        }
        ++seen;
        SCOPED_TRACE(row.at("id") + ", " + row.at("document"));
        bool default_keeps_all = true;
        const auto exception = not_followed.find(row.at("id"));
        for (const RowSetting& setting : settings_of(row, rows)) {
            if (exception != not_followed.end() && excepted(exception->second, setting)) {
                continue;
            }
            const Hold hold = hold_of(defaults(), setting.wish);
            if (agrees(row, hold.plan, defaults())) {
                continue;
            }
            default_keeps_all = false;
            EXPECT_TRUE(std::ranges::any_of(
                hold.other_policies,
                [&](const HoldOption& other) { return agrees(row, other.plan, defaults()); }))
                << setting.words << ": no option beside the hold gives it";
        }
        EXPECT_FALSE(default_keeps_all) << "the default keeps this row; strike it from follows_option.tsv";
    }
    EXPECT_EQ(seen, options.size()) << "follows_option.tsv names a row that is not in holds.tsv";
}

TEST(PublishedHolds, NoMedicineByMouthIsTakenInTheHourBeforeAPortion)
{
    const auto not_followed = by_id("not_followed.tsv");
    int seen = 0;
    for (const Row& row : published_rows("holds.tsv")) {
        if (!about_all_medicines(row)) {
            continue;
        }
        const auto hours = std::chrono::hours{std::stoi(row.at("number"))};
        for (const Preparation& preparation : defaults().protocol.preparations) {
            ++seen;
            EXPECT_EQ(preparation.no_medicine_before >= hours, !not_followed.contains(row.at("id")))
                << row.at("id") << " " << preparation.id;
        }
    }
    EXPECT_EQ(seen, 6);
}

TEST(PublishedHolds, ATwiceDailyTabletHeldOneDayIsThirtySixHoursOldAtEightInTheMorning)
{
    CaseWish wish;
    wish.risk = BleedingRisk::low;
    for (const char* medicine : {"apixaban", "dabigatran"}) {
        wish.medicines = {medicine};
        const HoldPlan plan = hold_of(defaults(), wish).plan;
        ASSERT_TRUE(plan.last_dose && plan.last_dose->time) << medicine;
        EXPECT_EQ(iso_date(plan.last_dose->day), "2027-06-15");
        EXPECT_EQ(iso_time_of_day(*plan.last_dose->time), "20:00");
        ASSERT_EQ(plan.dates_omitted.size(), 1U);
        EXPECT_EQ(iso_date(plan.dates_omitted.front()), "2027-06-16");
        EXPECT_EQ(plan.day_of, DayOf::omit);
        const Moment start = moment_of(defaults().zone, LocalMinute{procedure_day()} + std::chrono::hours{8});
        const Moment taken =
            moment_of(defaults().zone, LocalMinute{plan.last_dose->day} + *plan.last_dose->time);
        EXPECT_EQ(start - taken, std::chrono::hours{36});
        EXPECT_EQ(plan.doses_missed, 3);  // both of the 16th and the morning of the 17th
    }
}

}  // namespace
}  // namespace foreday::tests
