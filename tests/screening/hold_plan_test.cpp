#include "screening/hold_plan.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "tests/screening/hold_cases.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

using enum HoldAction;

const Daily twice = daily({"08:00", "20:00"});
const Daily morning = daily({"08:00"});
const Daily evening = daily({"20:00"});
const Daily no_times = daily({});

// --- the worked comparison: Thursday 17 June 2027 at 09:00, taken at 08:00 and 20:00

struct Convention {
    const char* words;
    HoldAction action;
    int number;
    const char* last_dose;
    int hours_before;
    int missed;
};

TEST(WorkedComparison, EachConventionEndsAtItsOwnDose)
{
    constexpr Convention conventions[] = {
        {"go on", take_as_usual, 0, "2027-06-17 08:00", 1, 0},
        {"none on the day", omit_on_the_day, 0, "2027-06-16 20:00", 13, 1},
        {"omit no day before", omit_days, 0, "2027-06-16 20:00", 13, 1},
        {"omit one day", omit_days, 1, "2027-06-15 20:00", 37, 3},
        {"at least 48 hours", last_dose_at_least_hours, 48, "2027-06-15 08:00", 49, 4},
        {"omit two days", omit_days, 2, "2027-06-14 20:00", 61, 5},
    };
    for (const Convention& one : conventions) {
        SCOPED_TRACE(one.words);
        const HoldPlan laid = plan(twice, one.action, one.number);
        EXPECT_EQ(text_of(laid.last_dose), one.last_dose);
        ASSERT_TRUE(laid.last_dose);
        const Moment last = moment_of_dose(*laid.last_dose, fixed_zone(), DoseWithoutTime::start_of_day);
        EXPECT_EQ(utc("2027-06-17T09:00") - last, std::chrono::hours{one.hours_before});
        EXPECT_EQ(laid.doses_missed, one.missed);
    }
}

// --- eight actions on every pattern

struct Laid {
    const char* words;
    Pattern pattern;
    HoldAction action;
    int number;
    const char* last_dose;
    const char* none_from;
    std::vector<std::string> omitted;
    std::optional<DayOf> day_of;
    std::optional<int> missed;
    const char* next_dose;
};

void expect_laid(const Laid& row)
{
    SCOPED_TRACE(row.words);
    const HoldPlan laid = plan(row.pattern, row.action, row.number);
    EXPECT_EQ(laid.action, row.action);
    EXPECT_EQ(text_of(laid.last_dose), row.last_dose);
    EXPECT_EQ(laid.none_from ? iso_date(*laid.none_from) : "none", row.none_from);
    EXPECT_EQ(texts_of(laid.dates_omitted), row.omitted);
    EXPECT_EQ(laid.day_of, row.day_of);
    EXPECT_EQ(laid.doses_missed, row.missed);
    EXPECT_EQ(text_of(laid.next_dose), row.next_dose);
}

TEST(EveryActionOnEveryPattern, TakeAsUsual)
{
    for (const Laid& row : std::vector<Laid>{
             {"mornings", morning, take_as_usual, 0, "2027-06-17 08:00", "none", {}, DayOf::take, 0, "none"},
             {"evenings",
              evening,
              take_as_usual,
              0,
              "2027-06-16 20:00",
              "none",
              {},
              DayOf::nothing_due,
              0,
              "none"},
             {"twice", twice, take_as_usual, 0, "2027-06-17 08:00", "none", {}, DayOf::take, 0, "none"},
             {"no times", no_times, take_as_usual, 0, "2027-06-17", "none", {}, DayOf::take, 0, "none"},
             {"Wednesdays",
              OnWeekdays{{3}, {}},
              take_as_usual,
              0,
              "2027-06-16",
              "none",
              {},
              DayOf::nothing_due,
              0,
              "none"},
             {"monthly",
              Monthly{1, {}},
              take_as_usual,
              0,
              "2027-06-01",
              "none",
              {},
              DayOf::nothing_due,
              0,
              "none"},
             {"as needed",
              AsNeeded{},
              take_as_usual,
              0,
              "none",
              "none",
              {},
              DayOf::take,
              std::nullopt,
              "none"},
             {"pump", Continuous{}, take_as_usual, 0, "none", "none", {}, DayOf::take, std::nullopt, "none"},
             {"not known",
              PatternNotKnown{},
              take_as_usual,
              0,
              "none",
              "none",
              {},
              DayOf::take,
              std::nullopt,
              "none"}}) {
        expect_laid(row);
    }
}

TEST(EveryActionOnEveryPattern, SipOnTheMorning)
{
    for (const Laid& row : std::vector<Laid>{
             {"mornings",
              morning,
              sip_on_the_morning,
              0,
              "2027-06-17 08:00",
              "none",
              {},
              DayOf::sip,
              0,
              "none"},
             {"evenings",
              evening,
              sip_on_the_morning,
              0,
              "2027-06-16 20:00",
              "none",
              {},
              DayOf::nothing_due,
              0,
              "none"},
             {"no times", no_times, sip_on_the_morning, 0, "2027-06-17", "none", {}, DayOf::sip, 0, "none"},
             {"as needed",
              AsNeeded{},
              sip_on_the_morning,
              0,
              "none",
              "none",
              {},
              DayOf::sip,
              std::nullopt,
              "none"}}) {
        expect_laid(row);
    }
}

TEST(EveryActionOnEveryPattern, OmitOnTheDay)
{
    for (const Laid& row : std::vector<Laid>{
             {"mornings",
              morning,
              omit_on_the_day,
              0,
              "2027-06-16 08:00",
              "none",
              {},
              DayOf::omit,
              1,
              "none"},
             {"evenings",
              evening,
              omit_on_the_day,
              0,
              "2027-06-16 20:00",
              "none",
              {},
              DayOf::nothing_due,
              0,
              "none"},
             {"twice", twice, omit_on_the_day, 0, "2027-06-16 20:00", "none", {}, DayOf::omit, 1, "none"},
             {"no times", no_times, omit_on_the_day, 0, "2027-06-16", "none", {}, DayOf::omit, 1, "none"},
             {"Thursdays",
              OnWeekdays{{4}, {}},
              omit_on_the_day,
              0,
              "2027-06-10",
              "none",
              {},
              DayOf::omit,
              1,
              "2027-06-24"},
             {"as needed",
              AsNeeded{},
              omit_on_the_day,
              0,
              "none",
              "2027-06-17",
              {},
              DayOf::omit,
              std::nullopt,
              "none"},
             {"pump",
              Continuous{},
              omit_on_the_day,
              0,
              "none",
              "2027-06-17",
              {},
              DayOf::omit,
              std::nullopt,
              "none"},
             {"not known",
              PatternNotKnown{},
              omit_on_the_day,
              0,
              "2027-06-16",
              "2027-06-17",
              {},
              DayOf::omit,
              std::nullopt,
              "none"}}) {
        expect_laid(row);
    }
}

TEST(EveryActionOnEveryPattern, OmitTwoDays)
{
    const std::vector<std::string> both_days{"2027-06-15", "2027-06-16"};
    for (const Laid& row : std::vector<Laid>{
             {"mornings", morning, omit_days, 2, "2027-06-14 08:00", "none", both_days, DayOf::omit, 3,
              "none"},
             {"evenings", evening, omit_days, 2, "2027-06-14 20:00", "none", both_days, DayOf::nothing_due, 2,
              "none"},
             {"twice", twice, omit_days, 2, "2027-06-14 20:00", "none", both_days, DayOf::omit, 5, "none"},
             {"no times", no_times, omit_days, 2, "2027-06-14", "none", both_days, DayOf::omit, 3, "none"},
             {"Mondays to Wednesdays", OnWeekdays{{1, 2, 3}, {}}, omit_days, 2, "2027-06-14", "none",
              both_days, DayOf::nothing_due, 2, "2027-06-21"},
             {"every other day",
              EveryNDays{2, day("2027-06-16"), {}},
              omit_days,
              2,
              "2027-06-14",
              "none",
              {"2027-06-16"},
              DayOf::nothing_due,
              1,
              "2027-06-18"},
             {"monthly on the 15th",
              Monthly{15, {}},
              omit_days,
              2,
              "2027-05-15",
              "none",
              {"2027-06-15"},
              DayOf::nothing_due,
              1,
              "2027-07-15"},
             {"as needed", AsNeeded{}, omit_days, 2, "none", "2027-06-15", both_days, DayOf::omit,
              std::nullopt, "none"},
             {"pump", Continuous{}, omit_days, 2, "none", "2027-06-15", both_days, DayOf::omit, std::nullopt,
              "none"},
             {"not known", PatternNotKnown{}, omit_days, 2, "2027-06-14", "2027-06-15", both_days,
              DayOf::omit, std::nullopt, "none"}}) {
        expect_laid(row);
    }
}

TEST(EveryActionOnEveryPattern, OmitDosesDueWithinTwoDays)
{
    const std::vector<std::string> one_day{"2027-06-16"};
    for (const Laid& row :
         std::vector<Laid>{{"mornings", morning, omit_doses_due_within, 2, "2027-06-15 08:00", "none",
                            one_day, DayOf::omit, 2, "none"},
                           {"evenings", evening, omit_doses_due_within, 2, "2027-06-15 20:00", "none",
                            one_day, DayOf::nothing_due, 1, "none"},
                           {"twice", twice, omit_doses_due_within, 2, "2027-06-15 20:00", "none", one_day,
                            DayOf::omit, 3, "none"},
                           {"no times", no_times, omit_doses_due_within, 2, "2027-06-15", "none", one_day,
                            DayOf::omit, 2, "none"},
                           {"Tuesdays and Wednesdays", OnWeekdays{{2, 3}, {}}, omit_doses_due_within, 2,
                            "2027-06-15", "none", one_day, DayOf::nothing_due, 1, "2027-06-22"},
                           {"every other day",
                            EveryNDays{2, day("2027-06-15"), {}},
                            omit_doses_due_within,
                            2,
                            "2027-06-15",
                            "none",
                            {},
                            DayOf::omit,
                            1,
                            "2027-06-19"},
                           {"monthly on the 16th", Monthly{16, {}}, omit_doses_due_within, 2, "2027-05-16",
                            "none", one_day, DayOf::nothing_due, 1, "2027-07-16"},
                           {"as needed", AsNeeded{}, omit_doses_due_within, 2, "none", "2027-06-16", one_day,
                            DayOf::omit, std::nullopt, "none"},
                           {"pump", Continuous{}, omit_doses_due_within, 2, "none", "2027-06-16", one_day,
                            DayOf::omit, std::nullopt, "none"},
                           {"not known", PatternNotKnown{}, omit_doses_due_within, 2, "2027-06-15",
                            "2027-06-16", one_day, DayOf::omit, std::nullopt, "none"}}) {
        expect_laid(row);
    }
}

TEST(EveryActionOnEveryPattern, LastDoseAtLeastSoManyHoursBefore)
{
    const std::vector<std::string> one_day{"2027-06-16"};
    const std::vector<std::string> both_days{"2027-06-15", "2027-06-16"};
    for (const Laid& row : std::vector<Laid>{
             {"mornings",
              morning,
              last_dose_at_least_hours,
              24,
              "2027-06-16 08:00",
              "none",
              {},
              DayOf::omit,
              1,
              "none"},
             {"evenings", evening, last_dose_at_least_hours, 24, "2027-06-15 20:00", "none", one_day,
              DayOf::nothing_due, 1, "none"},
             {"twice",
              twice,
              last_dose_at_least_hours,
              24,
              "2027-06-16 08:00",
              "none",
              {},
              DayOf::omit,
              2,
              "none"},
             {"no times: as late as it may have been", no_times, last_dose_at_least_hours, 24, "2027-06-15",
              "none", one_day, DayOf::omit, 2, "none"},
             {"Wednesdays at 08:00",
              OnWeekdays{{3}, {clock("08:00")}},
              last_dose_at_least_hours,
              24,
              "2027-06-16 08:00",
              "none",
              {},
              DayOf::nothing_due,
              0,
              "none"},
             {"Wednesdays at 10:00", OnWeekdays{{3}, {clock("10:00")}}, last_dose_at_least_hours, 24,
              "2027-06-09 10:00", "none", one_day, DayOf::nothing_due, 1, "2027-06-23 10:00"},
             {"monthly on the 16th", Monthly{16, {}}, last_dose_at_least_hours, 24, "2027-05-16", "none",
              one_day, DayOf::nothing_due, 1, "2027-07-16"},
             {"as needed", AsNeeded{}, last_dose_at_least_hours, 48, "none", "2027-06-15", both_days,
              DayOf::omit, std::nullopt, "none"},
             {"pump",
              Continuous{},
              last_dose_at_least_hours,
              6,
              "none",
              "2027-06-17",
              {},
              DayOf::omit,
              std::nullopt,
              "none"},
             {"not known", PatternNotKnown{}, last_dose_at_least_hours, 48, "2027-06-14", "2027-06-15",
              both_days, DayOf::omit, std::nullopt, "none"}}) {
        expect_laid(row);
    }
}

TEST(EveryActionOnEveryPattern, AskFirstAndADoseToBeStatedGiveNoDate)
{
    for (const HoldAction action : {ask_first, dose_to_be_stated}) {
        for (const Pattern& pattern :
             {Pattern{twice}, Pattern{no_times}, Pattern{OnWeekdays{{1}, {}}}, Pattern{AsNeeded{}},
              Pattern{Continuous{}}, Pattern{PatternNotKnown{}}}) {
            expect_laid({"", pattern, action, 0, "none", "none", {}, std::nullopt, std::nullopt, "none"});
        }
    }
}

// --- interval dosing

TEST(WeeklyInjection, SixSevenAndEightDaysBefore)
{
    const auto injected_on = [](unsigned weekday) {
        return plan(OnWeekdays{{weekday}, {clock("10:00")}}, omit_doses_due_within, 7);
    };
    // Friday the 11th lies six days before, Thursday the 10th seven, Wednesday the 9th eight.
    const HoldPlan six = injected_on(5);
    EXPECT_EQ(text_of(six.last_dose), "2027-06-04 10:00");
    EXPECT_THAT(texts_of(six.dates_omitted), ElementsAre("2027-06-11"));
    EXPECT_EQ(six.doses_missed, 1);
    EXPECT_EQ(text_of(six.next_dose), "2027-06-18 10:00");

    const HoldPlan seven = injected_on(4);
    EXPECT_EQ(text_of(seven.last_dose), "2027-06-10 10:00") << "a dose on D-7 itself is allowed";
    EXPECT_THAT(seven.dates_omitted, IsEmpty());
    EXPECT_EQ(seven.day_of, DayOf::nothing_due) << "due at 10:00, an hour after the procedure";

    const HoldPlan eight = injected_on(3);
    EXPECT_EQ(text_of(eight.last_dose), "2027-06-09 10:00");
    EXPECT_THAT(texts_of(eight.dates_omitted), ElementsAre("2027-06-16"));
    EXPECT_EQ(text_of(eight.next_dose), "2027-06-23 10:00");
}

TEST(WeeklyInjection, OmittingWholeDaysIsADayStricterThanDosesDueWithin)
{
    const OnWeekdays thursdays{{4}, {clock("10:00")}};
    EXPECT_EQ(text_of(plan(thursdays, omit_doses_due_within, 7).last_dose), "2027-06-10 10:00");
    EXPECT_EQ(text_of(plan(thursdays, omit_days, 7).last_dose), "2027-06-03 10:00");
}

TEST(WeeklyInjection, ADoseDueOnTheMorningItselfIsLeftOut)
{
    const HoldPlan laid = plan(OnWeekdays{{4}, {clock("08:00")}}, omit_doses_due_within, 7);
    EXPECT_EQ(text_of(laid.last_dose), "2027-06-10 08:00");
    EXPECT_EQ(laid.day_of, DayOf::omit);
    EXPECT_THAT(laid.dates_omitted, IsEmpty()) << "the day itself is never among them";
    EXPECT_EQ(laid.doses_missed, 1);
    EXPECT_EQ(text_of(laid.next_dose), "2027-06-24 08:00");
}

TEST(WeeklyInjection, WhereNothingFallsIntoTheTimeNothingIsLeftOut)
{
    const HoldPlan laid = plan(Monthly{1, {}}, omit_doses_due_within, 7);
    EXPECT_EQ(text_of(laid.last_dose), "2027-06-01");
    EXPECT_EQ(laid.doses_missed, 0);
    EXPECT_EQ(text_of(laid.next_dose), "none");
}

// --- what holds for every plan

TEST(EveryPlan, OmitsNoDateOnOrAfterTheDayAndNoDoseAfterItsLast)
{
    const std::vector<Pattern> patterns{twice,
                                        morning,
                                        evening,
                                        no_times,
                                        OnWeekdays{{1, 4}, {clock("08:00")}},
                                        OnWeekdays{{2}, {}},
                                        EveryNDays{3, day("2027-01-02"), {clock("22:00")}},
                                        EveryNDays{14, day("2027-01-02"), {}},
                                        Monthly{31, {}},
                                        AsNeeded{},
                                        Continuous{},
                                        PatternNotKnown{}};
    int plans = 0;
    for (Date date = day("2027-03-01"); date <= day("2027-03-31"); date += date::days{1}) {
        for (const char* hour : {"00:00", "07:30", "13:00", "23:30"}) {
            const Setting setting{new_york_2027(), iso_date(date) + "T" + hour};
            for (const Pattern& pattern : patterns) {
                for (std::size_t action = 0; action < 8; ++action) {
                    for (const int number : {0, 1, 2, 7, 30}) {
                        const HoldPlan laid = setting.plan(pattern, static_cast<HoldAction>(action), number);
                        ++plans;
                        ASSERT_TRUE(std::ranges::is_sorted(laid.dates_omitted));
                        ASSERT_TRUE(laid.dates_omitted.empty() || laid.dates_omitted.back() < date);
                        if (laid.last_dose) {
                            ASSERT_LE(laid.last_dose->day, date);
                            ASSERT_TRUE(laid.dates_omitted.empty() ||
                                        laid.dates_omitted.front() > laid.last_dose->day);
                        }
                        if (laid.doses_missed) {
                            ASSERT_GE(*laid.doses_missed, static_cast<int>(laid.dates_omitted.size()));
                        }
                    }
                }
            }
        }
    }
    EXPECT_GT(plans, 50000);
}

TEST(EveryPlan, MissedDosesAreThoseBetweenTheLastDoseAndTheStart)
{
    for (const int days : {0, 1, 2, 5}) {
        const HoldPlan laid = plan(twice, omit_days, days);
        int between = 0;
        for (const Dose& dose : doses_between(twice, day("2027-06-01"), day("2027-06-17"))) {
            const LocalMinute at = LocalMinute{dose.day} + *dose.time;
            const LocalMinute last = LocalMinute{laid.last_dose->day} + *laid.last_dose->time;
            between += last < at && at < wall("2027-06-17T09:00") ? 1 : 0;
        }
        EXPECT_EQ(laid.doses_missed, between);
    }
}

TEST(EveryPlan, ADoseAtTheStartIsNotBeforeTheProcedure)
{
    EXPECT_EQ(plan(daily({"08:59"}), omit_on_the_day).day_of, DayOf::omit);
    EXPECT_EQ(plan(daily({"09:00"}), omit_on_the_day).day_of, DayOf::nothing_due);
    EXPECT_EQ(plan(daily({"09:01"}), omit_on_the_day).day_of, DayOf::nothing_due);
}

TEST(EveryPlan, WithoutDatesKeepsActionAndNumberAndNothingElse)
{
    const HoldPlan laid = without_dates(plan(OnWeekdays{{5}, {}}, omit_doses_due_within, 7));
    EXPECT_EQ(laid.action, omit_doses_due_within);
    EXPECT_EQ(laid.number, Exact{7});
    EXPECT_FALSE(laid.last_dose);
    EXPECT_FALSE(laid.none_from);
    EXPECT_FALSE(laid.day_of);
    EXPECT_FALSE(laid.doses_missed);
    EXPECT_FALSE(laid.next_dose);
    EXPECT_THAT(laid.dates_omitted, IsEmpty());
}

}  // namespace
}  // namespace foreday::screening
