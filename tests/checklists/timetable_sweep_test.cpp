#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

#include "checklists/timetable.h"
#include "tests/checklists/builders.h"

/// Every start, journey, regimen and day against a checker that knows nothing of the program: minutes before
/// the start on a straight line, every bound written out once more, every minute tried.
namespace foreday::checklists {
namespace {

using namespace build;
using ::testing::AnyOf;
using ::testing::HasSubstr;

/// A regimen as the checker knows it, in minutes.
struct Regimen {
    std::string_view id;
    int first_takes = 0;
    int second_takes = 0;
    int latest = 0;       ///< the second portion starts at least so long before
    int between_low = 0;  ///< from start to start
    int between_high = 0;
    int drinks = 0;  ///< steps of one portion
};
constexpr Regimen regimens[] = {{"peg", 125, 125, 240, 125, 24 * 60, 9},
                                {"sulfate", 120, 120, 240, 600, 720, 3}};

/// A day, and how far the evening before lies behind its wall clock.
struct Day {
    std::string_view date;
    std::string_view offset;
    int shift = 0;  ///< minutes the clocks were put forward in the night
};
constexpr Day days[] = {
    {"2027-06-17", "-04:00", 0}, {"2027-03-14", "-04:00", 60}, {"2027-11-07", "-05:00", -60}};

constexpr int earliest = 360;
constexpr int preferred = 300;
constexpr int clear_liquids = 120;
constexpr int at_the_unit = 60;
constexpr int bathroom = 45;
constexpr int minutes_a_day = 1440;

bool keeps_the_window(const Regimen& regimen, int second)
{
    return second <= earliest && second >= regimen.latest;
}
bool ends_before_clear_liquids_do(const Regimen& regimen, int second)
{
    return second - regimen.second_takes >= clear_liquids;
}
bool leaves_time_for_the_way(const Regimen& regimen, int second, int journey)
{
    return second - regimen.second_takes - bathroom >= at_the_unit + journey;
}
bool keeps_all(const Regimen& regimen, int second, int journey)
{
    return keeps_the_window(regimen, second) && ends_before_clear_liquids_do(regimen, second) &&
           leaves_time_for_the_way(regimen, second, journey);
}

/// The start nearest to the wanted one that passes; -1 when no minute does.
template <class Passes>
int nearest(int wanted, Passes passes)
{
    int best = -1;
    for (int one = 0; one < 2 * minutes_a_day; ++one) {
        if (passes(one) && (best < 0 || std::abs(one - wanted) < std::abs(best - wanted))) {
            best = one;
        }
    }
    return best;
}

/// @param start  minutes after midnight on the wall clock
int expected_second(const Regimen& regimen, int journey, int start)
{
    const int second = nearest(preferred, [&](int one) { return keeps_all(regimen, one, journey); });
    if (second < 0) {
        return second;
    }
    const int past_the_quarter = (start - second + minutes_a_day) % 15;
    const int quarter = second + past_the_quarter;
    return keeps_all(regimen, quarter, journey) ? quarter : second;
}

int expected_first(const Regimen& regimen, int second, int start, const Day& day)
{
    const int evening = start + 6 * 60 - day.shift;  // 18:00 is six hours before midnight
    return nearest(evening, [&](int one) {
        return one - second >= regimen.between_low && one - second <= regimen.between_high;
    });
}

int before(screening::Moment start, screening::Moment moment)
{
    return static_cast<int>(std::chrono::duration_cast<std::chrono::minutes>(start - moment).count());
}

/// A plan that was made: the second portion where the checker puts it, and everything around it.
void check_fitted(const Regimen& regimen, const Day& day, int start, int journey, screening::Moment moment,
                  const Fitted& plan)
{
    const int second = before(moment, plan.second_portion.value());
    const int first = before(moment, plan.first_portion.value());
    EXPECT_TRUE(keeps_all(regimen, second, journey));
    EXPECT_EQ(second, expected_second(regimen, journey, start));
    EXPECT_EQ(first, expected_first(regimen, second, start, day));
    EXPECT_GE(first - regimen.first_takes, second);
    EXPECT_EQ(before(moment, plan.second_ends.value()), second - regimen.second_takes);
    EXPECT_EQ(before(moment, plan.leave_home.value()), at_the_unit + journey);
    EXPECT_EQ(before(moment, plan.last_clear_liquid), clear_liquids);
    EXPECT_GE(before(moment, plan.last_solid), first);

    int drinks = 0;
    int later_than = before(moment, plan.steps.front().at);
    for (const Step& step : plan.steps) {
        const int now = before(moment, step.at);
        EXPECT_LE(now, later_than);
        later_than = now;
        if (step.drink) {
            ++drinks;
            const bool of_first = now <= first && now > first - regimen.first_takes;
            const bool of_second = now <= second && now > second - regimen.second_takes;
            EXPECT_TRUE(of_first || of_second) << step.what;
        }
    }
    EXPECT_EQ(drinks, 2 * regimen.drinks);
}

/// A plan that was refused: no minute passes, and the bound it names is one that cannot be kept.
void check_refused(const Regimen& regimen, int journey, const Refused& refusal)
{
    EXPECT_EQ(nearest(preferred, [&](int one) { return keeps_all(regimen, one, journey); }), -1);
    EXPECT_EQ(refusal.why, Refused::Why::no_common_time);
    EXPECT_FALSE(refusal.choices.empty());
    EXPECT_THAT(refusal.reason, HasSubstr("not more than 6 h before"));
    EXPECT_THAT(refusal.reason, AnyOf(HasSubstr("of journey"), HasSubstr("clear liquids end")));
    // At the earliest start the window allows, the bound that is named is broken.
    if (refusal.reason.find("of journey") != std::string::npos) {
        EXPECT_FALSE(leaves_time_for_the_way(regimen, earliest, journey));
    }
    if (refusal.reason.find("clear liquids end") != std::string::npos) {
        EXPECT_FALSE(ends_before_clear_liquids_do(regimen, earliest));
    }
}

struct Counted {
    int made = 0;
    int refused = 0;
};

/// Starts from 06:30 to 17:00 and journeys from 10 minutes to three hours, so many minutes apart.
Counted sweep(const Regimen& regimen, const Day& day, int starts_apart, int journeys_apart)
{
    const SmallUnit unit;
    const auto place = unit.preparation_place(regimen.id);
    Counted counted;
    for (int start = 6 * 60 + 30; start <= 17 * 60; start += starts_apart) {
        const auto moment = at(fmt::format("{}T{:02}:{:02}{}", day.date, start / 60, start % 60, day.offset));
        for (int journey = 10; journey <= 180; journey += journeys_apart) {
            SCOPED_TRACE(fmt::format("{} {} {:02}:{:02}, {} min", regimen.id, day.date, start / 60,
                                     start % 60, journey));
            const auto plan = fit_preparation(unit.rules, place, moment, std::chrono::minutes{journey});
            if (const auto* fits = std::get_if<Fitted>(&plan)) {
                ++counted.made;
                check_fitted(regimen, day, start, journey, moment, *fits);
            } else {
                ++counted.refused;
                check_refused(regimen, journey, std::get<Refused>(plan));
            }
            if (::testing::Test::HasFailure()) {
                return counted;  // one is enough to see what is wrong
            }
        }
    }
    return counted;
}

class RunTimetableSweep : public ::testing::TestWithParam<std::tuple<std::size_t, std::size_t>> {};

TEST_P(RunTimetableSweep, EveryPlanKeepsEveryBoundOrIsRefusedByOneThatCannotBeKept)
{
    const Regimen& regimen = regimens[std::get<0>(GetParam())];
    const Day& day = days[std::get<1>(GetParam())];
    const Counted counted = sweep(regimen, day, 5, 10);
    // 127 starts; of the 18 journeys those up to 130 minutes fit (360 - 60 - 45 - 125, or 120 for the
    // sulfate).
    EXPECT_EQ(counted.made, 127 * 13);
    EXPECT_EQ(counted.refused, 127 * 5);
}

INSTANTIATE_TEST_SUITE_P(Regimens, RunTimetableSweep,
                         ::testing::Combine(::testing::Range<std::size_t>(0, 2),
                                            ::testing::Range<std::size_t>(0, 3)));

class LongTimetableSweep : public RunTimetableSweep {};

TEST_P(LongTimetableSweep, AtEveryMinuteOfStartAndJourneyToo)
{
    const Regimen& regimen = regimens[std::get<0>(GetParam())];
    const Counted counted = sweep(regimen, days[std::get<1>(GetParam())], 1, 1);
    const int longest = 360 - 60 - 45 - regimen.second_takes;  // 130 and 135 minutes
    EXPECT_EQ(counted.made, 631 * (longest - 9));
    EXPECT_EQ(counted.refused, 631 * (180 - longest));
}

INSTANTIATE_TEST_SUITE_P(Regimens, LongTimetableSweep,
                         ::testing::Combine(::testing::Range<std::size_t>(0, 2),
                                            ::testing::Range<std::size_t>(0, 3)));

}  // namespace
}  // namespace foreday::checklists
