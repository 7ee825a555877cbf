#include "checklists/working_time.h"

#include <gtest/gtest.h>

#include "tests/checklists/builders.h"

namespace foreday::checklists {
namespace {

using namespace build;
using std::chrono::hours;
using std::chrono::minutes;

/// Larkmoor works Monday to Friday from 07:00 to 16:30 in New York; closed on Thursday 27 May and Friday 28
/// May.
struct Unit {
    screening::Calendar calendar{
        clock("07:00"), clock("16:30"), {1, 2, 3, 4, 5}, {day("2027-05-27"), day("2027-05-28")}};
    screening::Zone zone = new_york_2027();
    [[nodiscard]] WorkingTime time() const { return {calendar, zone}; }
};

struct Row {
    const char* asked;
    const char* answer;
};

TEST(WorkingDay, IsAWeekdayTheUnitWorksOnThatIsNoHoliday)
{
    const Unit unit;
    const std::pair<const char*, bool> rows[] = {
        {"2027-05-26", true},  {"2027-05-27", false}, {"2027-05-28", false},
        {"2027-05-29", false}, {"2027-05-30", false}, {"2027-05-31", true},
    };
    for (const auto& [date, works] : rows) {
        EXPECT_EQ(is_working_day(unit.time(), day(date)), works) << date;
    }
}

TEST(WorkingDay, IsNoneWhereTheUnitClosesAsItOpens)
{
    Unit unit;
    unit.calendar.closes = clock("07:01");
    EXPECT_TRUE(is_working_day(unit.time(), day("2027-05-26")));
    unit.calendar.closes = clock("07:00");
    EXPECT_FALSE(is_working_day(unit.time(), day("2027-05-26")));
    unit.calendar.closes = clock("06:59");
    EXPECT_FALSE(is_working_day(unit.time(), day("2027-05-26")));
}

TEST(LastWorkingMoment, IsTheMomentItselfFromOpeningToClosing)
{
    const Unit unit;
    const Row rows[] = {
        {"2027-06-10T06:59-04:00",
         "2027-06-09T16:30-04:00"},  // just before opening: closing of the day before
        {"2027-06-10T07:00-04:00", "2027-06-10T07:00-04:00"},
        {"2027-06-10T07:01-04:00", "2027-06-10T07:01-04:00"},
        {"2027-06-10T16:29-04:00", "2027-06-10T16:29-04:00"},
        {"2027-06-10T16:30-04:00", "2027-06-10T16:30-04:00"},
        {"2027-06-10T16:31-04:00", "2027-06-10T16:30-04:00"},
        {"2027-06-12T12:00-04:00", "2027-06-11T16:30-04:00"},  // Saturday
        {"2027-06-13T23:59-04:00", "2027-06-11T16:30-04:00"},  // Sunday
        {"2027-06-14T06:00-04:00", "2027-06-11T16:30-04:00"},  // Monday before opening
        {"2027-05-31T06:59-04:00", "2027-05-26T16:30-04:00"},  // two holidays and a weekend
        {"2027-05-28T12:00-04:00", "2027-05-26T16:30-04:00"},  // on the holiday itself
    };
    for (const Row& row : rows) {
        EXPECT_EQ(text(last_working_moment(unit.time(), at(row.asked))), row.answer) << row.asked;
    }
}

TEST(NextWorkingMoment, IsTheMomentItselfFromOpeningUntilJustBeforeClosing)
{
    const Unit unit;
    const Row rows[] = {
        {"2027-06-10T06:59-04:00", "2027-06-10T07:00-04:00"},
        {"2027-06-10T07:00-04:00", "2027-06-10T07:00-04:00"},
        {"2027-06-10T16:29-04:00", "2027-06-10T16:29-04:00"},
        {"2027-06-10T16:30-04:00", "2027-06-11T07:00-04:00"},  // at closing nothing can be begun
        {"2027-06-11T16:30-04:00", "2027-06-14T07:00-04:00"},  // Friday evening
        {"2027-05-26T16:30-04:00", "2027-05-31T07:00-04:00"},  // before two holidays and a weekend
    };
    for (const Row& row : rows) {
        EXPECT_EQ(text(next_working_moment(unit.time(), at(row.asked))), row.answer) << row.asked;
    }
}

TEST(WorkingTimeBefore, CountsOnlyTheTimeTheUnitIsOpen)
{
    const Unit unit;
    const std::pair<Row, minutes> rows[] = {
        {{"2027-06-10T12:00-04:00", "2027-06-10T12:00-04:00"}, minutes{0}},
        {{"2027-06-10T11:01-04:00", "2027-06-10T07:01-04:00"}, hours{4}},
        {{"2027-06-10T11:00-04:00", "2027-06-10T07:00-04:00"}, hours{4}},  // exactly back to opening
        {{"2027-06-10T10:59-04:00", "2027-06-09T16:29-04:00"}, hours{4}},  // one minute from the day before
        {{"2027-06-10T09:00-04:00", "2027-06-09T14:30-04:00"}, hours{4}},
        {{"2027-06-10T16:30-04:00", "2027-06-10T12:30-04:00"}, hours{4}},  // from closing
        {{"2027-06-10T20:00-04:00", "2027-06-10T12:30-04:00"}, hours{4}},  // after closing: the same
        {{"2027-06-10T07:00-04:00", "2027-06-09T12:30-04:00"},
         hours{4}},  // at opening none of the day counts
        {{"2027-06-14T08:00-04:00", "2027-06-11T13:30-04:00"}, hours{4}},      // over a weekend
        {{"2027-05-31T07:30-04:00", "2027-05-26T13:00-04:00"}, hours{4}},      // over holidays and a weekend
        {{"2027-06-10T07:00-04:00", "2027-06-09T07:00-04:00"}, minutes{570}},  // a whole day of 9 h 30 min
        {{"2027-06-10T07:00-04:00", "2027-06-08T16:29-04:00"}, minutes{571}},
        {{"2027-06-10T12:00-04:00", "2027-06-09T07:00-04:00"}, minutes{870}},
    };
    for (const auto& [row, length] : rows) {
        EXPECT_EQ(text(working_time_before(unit.time(), at(row.asked), length)), row.answer)
            << row.asked << " less " << length.count();
    }
}

TEST(WorkingTimeBefore, IsElapsedTimeWhereTheClocksChangeWhileTheUnitIsOpen)
{
    Unit unit;  // a unit that works on Sunday nights as well
    unit.calendar = {clock("00:00"), clock("08:00"), {7}, {}};
    // 14 March: 02:00 to 03:00 does not exist, so 08:00 is seven hours after midnight.
    EXPECT_EQ(text(working_time_before(unit.time(), at("2027-03-14T08:00-04:00"), hours{6})),
              "2027-03-14T01:00-05:00");
    EXPECT_EQ(text(working_time_before(unit.time(), at("2027-03-14T08:00-04:00"), hours{7})),
              "2027-03-14T00:00-05:00");
    EXPECT_EQ(text(working_time_before(unit.time(), at("2027-03-14T08:00-04:00"), minutes{421})),
              "2027-03-07T07:59-05:00");
    // 7 November: 01:00 to 02:00 comes twice, so 08:00 is nine hours after midnight.
    EXPECT_EQ(text(working_time_before(unit.time(), at("2027-11-07T08:00-05:00"), hours{9})),
              "2027-11-07T00:00-04:00");
    EXPECT_EQ(text(working_time_before(unit.time(), at("2027-11-07T08:00-05:00"), hours{7})),
              "2027-11-07T01:00-05:00");
    EXPECT_EQ(text(working_time_before(unit.time(), at("2027-11-07T08:00-05:00"), hours{8})),
              "2027-11-07T01:00-04:00");
}

TEST(WorkingTimeBefore, SkipsADayWhoseWorkingTimeTheClocksSwallow)
{
    Unit unit;
    unit.calendar = {clock("02:00"), clock("03:00"), {6, 7}, {}};
    EXPECT_EQ(text(last_working_moment(unit.time(), at("2027-03-14T12:00-04:00"))), "2027-03-13T03:00-05:00");
    EXPECT_EQ(text(next_working_moment(unit.time(), at("2027-03-14T00:00-05:00"))), "2027-03-20T02:00-04:00");
}

TEST(LastWorkingHour, LiesBeforeTheProcedure)
{
    const Unit unit;
    const Row rows[] = {
        {"2027-06-17T10:00-04:00", "2027-06-17T09:00-04:00"},
        {"2027-06-17T08:00-04:00", "2027-06-17T07:00-04:00"},
        {"2027-06-17T07:59-04:00", "2027-06-16T16:29-04:00"},
        {"2027-06-17T07:00-04:00", "2027-06-16T15:30-04:00"},
        {"2027-06-14T07:00-04:00", "2027-06-11T15:30-04:00"},
    };
    for (const Row& row : rows) {
        EXPECT_EQ(text(last_working_hour_before(unit.time(), at(row.asked))), row.answer) << row.asked;
    }
}

TEST(EndOfTheWorkingDay, IsTheClosingOfTheDayOneIsInOrOfTheNext)
{
    const Unit unit;
    const Row rows[] = {
        {"2027-06-10T06:59-04:00", "2027-06-10T16:30-04:00"},
        {"2027-06-10T07:00-04:00", "2027-06-10T16:30-04:00"},
        {"2027-06-10T16:29-04:00", "2027-06-10T16:30-04:00"},
        {"2027-06-10T16:30-04:00", "2027-06-11T16:30-04:00"},  // at closing the day is over
        {"2027-06-12T10:00-04:00", "2027-06-14T16:30-04:00"},
        {"2027-05-27T10:00-04:00", "2027-05-31T16:30-04:00"},
    };
    for (const Row& row : rows) {
        EXPECT_EQ(text(end_of_working_day(unit.time(), at(row.asked))), row.answer) << row.asked;
    }
}

TEST(ACalendarWithoutWorkingTime, EndsTheSearchWithNothing)
{
    const screening::Moment noon = at("2027-06-10T12:00-04:00");
    Unit no_weekday;
    no_weekday.calendar.working_weekdays.clear();
    Unit closes_as_it_opens;
    closes_as_it_opens.calendar.closes = closes_as_it_opens.calendar.opens;
    for (const Unit& unit : {no_weekday, closes_as_it_opens}) {
        EXPECT_EQ(last_working_moment(unit.time(), noon), std::nullopt);
        EXPECT_EQ(next_working_moment(unit.time(), noon), std::nullopt);
        EXPECT_EQ(working_time_before(unit.time(), noon, hours{4}), std::nullopt);
        EXPECT_EQ(last_working_hour_before(unit.time(), noon), std::nullopt);
        EXPECT_EQ(end_of_working_day(unit.time(), noon), std::nullopt);
    }
}

TEST(ACalendarWithoutWorkingTime, IsAlsoOneOfHolidaysForOverAYear)
{
    const auto closed_from_the_second = [](int days) {  // of June 2027; worked on Tuesday 1 June
        Unit unit;
        for (int count = 0; count < days; ++count) {
            unit.calendar.holidays.push_back(day("2027-06-02") + date::days{count});
        }
        return unit;
    };
    // 1 June 2028 lies 366 days after 1 June 2027, 2 June 2028 lies 367.
    const Unit closed = closed_from_the_second(400);
    EXPECT_EQ(text(last_working_moment(closed.time(), at("2028-06-01T12:00-04:00"))),
              "2027-06-01T16:30-04:00");
    EXPECT_EQ(last_working_moment(closed.time(), at("2028-06-02T12:00-04:00")), std::nullopt);
}

}  // namespace
}  // namespace foreday::checklists
