#include "checklists/decide_by.h"

#include <gtest/gtest.h>

#include "checklists/working_time.h"
#include "tests/checklists/case_at_work.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using screening::HoldAction;
using screening::Level;

/// Warfarin once a day at that hour, left out for five days before Thursday 17 June: last dose on the 11th.
std::string decide_by_with_doses_at(std::string_view hour, bool friday_off = false)
{
    CaseAtWork unit;
    if (friday_off) {
        unit.rules.policy.calendar.holidays = {day("2027-06-11")};
    }
    unit.hold_rule("five days", "warfarin", HoldAction::omit_days, Exact{5});
    unit.take("m1", "warfarin", daily({hour}));
    const auto items = to_decide(unit.rules, unit.record, unit.look());
    return items.size() == 1 ? text(items.front().decide_by) : "not one item";
}

TEST(DecideBy, IsFourWorkingHoursBeforeTheLastDose)
{
    EXPECT_EQ(decide_by_with_doses_at("18:00"), "2027-06-11T12:30-04:00");
    EXPECT_EQ(decide_by_with_doses_at("11:01"), "2027-06-11T07:01-04:00");
    EXPECT_EQ(decide_by_with_doses_at("11:00"), "2027-06-11T07:00-04:00");
    EXPECT_EQ(decide_by_with_doses_at("10:59"), "2027-06-10T16:29-04:00");
    EXPECT_EQ(decide_by_with_doses_at("18:00", true), "2027-06-10T12:30-04:00");
}

TEST(DecideBy, OfWhatMovesNoDateIsBeforeTheFirstStep)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    const auto items = to_decide(unit.rules, unit.record, unit.look());
    ASSERT_EQ(items.size(), 1U);
    EXPECT_EQ(text(items.front().changes_at), "2027-06-16T13:00-04:00");
    EXPECT_EQ(text(items.front().decide_by), "2027-06-16T09:00-04:00");
}

TEST(DecideBy, AHoldIsTheFirstStepWhereItComesBeforeThePreparation)
{
    CaseAtWork unit = with_warfarin();
    unit.finding("breathless", Level::ask, always());
    for (const ToDecide& item : to_decide(unit.rules, unit.record, unit.look())) {
        EXPECT_EQ(text(item.changes_at), "2027-06-11T18:00-04:00") << item.id;
        EXPECT_EQ(text(item.decide_by), "2027-06-11T12:30-04:00") << item.id;
    }
}

TEST(DecideBy, ByTheClockWhereTheUnitHasNoWorkingTime)
{
    CaseAtWork unit;
    unit.rules.policy.calendar.working_weekdays.clear();
    unit.finding("breathless", Level::ask, always());
    EXPECT_EQ(text(to_decide(unit.rules, unit.record, unit.look()).front().decide_by),
              "2027-06-16T09:00-04:00");
}

TEST(DecideBy, IsNeverLaterThanTheLastWorkingHourBeforeTheStart)
{
    CaseAtWork unit;
    unit.set("phone_hours", Exact{0});
    unit.finding("breathless", Level::ask, always());
    unit.procedures({"upper_endoscopy"});
    for (const char* start :
         {"2027-06-17T07:30", "2027-06-17T08:00", "2027-06-17T13:00", "2027-06-19T10:00"}) {
        unit.start(start);
        const WorkingTime time{unit.rules.policy.calendar, unit.rules.zone};
        const auto items = to_decide(unit.rules, unit.record, unit.look());
        ASSERT_EQ(items.size(), 1U);
        EXPECT_LE(items.front().decide_by,
                  last_working_hour_before(time, unit.record.booking.start_moment).value());
    }
}

TEST(DecideBy, DoesNotDependOnTheTimeOfAsking)
{
    CaseAtWork unit = with_warfarin();
    unit.finding("breathless", Level::ask, always());
    const auto before = to_decide(unit.rules, unit.record, unit.look());
    for (const char* asked : {"2027-06-11T12:29-04:00", "2027-06-11T12:30-04:00", "2027-06-11T12:31-04:00",
                              "2027-06-11T17:59-04:00", "2027-06-11T18:01-04:00", "2027-06-16T20:00-04:00"}) {
        unit.look(asked);
        const auto after = to_decide(unit.rules, unit.record, unit.look());
        ASSERT_EQ(after.size(), before.size()) << asked;
        for (std::size_t place = 0; place < after.size(); ++place) {
            EXPECT_EQ(after[place].id, before[place].id) << asked;
            EXPECT_EQ(after[place].decide_by, before[place].decide_by) << asked;
        }
    }
}

TEST(ToDecide, StandsByMomentThenStopBeforeAskThenName)
{
    CaseAtWork unit;
    unit.finding("a_worry", Level::ask, always());
    unit.finding("b_worry", Level::ask, always());
    unit.finding("z_danger", Level::stop, always());
    std::vector<std::string> ids;
    for (const ToDecide& item : to_decide(unit.rules, unit.record, unit.look())) {
        ids.push_back(item.id);
    }
    EXPECT_EQ(ids, (std::vector<std::string>{"finding:z_danger", "finding:a_worry", "finding:b_worry"}));
}

TEST(ToDecide, LeavesOutWhatIsDecidedAndWhatOnlyNeedsAsking)
{
    CaseAtWork unit;
    unit.finding("breathless", Level::ask, always());
    unit.finding("worried", Level::ask, unit.is("worry"));  // nobody has asked
    auto items = to_decide(unit.rules, unit.record, unit.look());
    ASSERT_EQ(items.size(), 1U);
    EXPECT_EQ(items.front().id, "finding:breathless");
    EXPECT_EQ(items.front().who, std::vector{screening::Role::endoscopist});
    unit.decide("finding:breathless");
    EXPECT_EQ(to_decide(unit.rules, unit.record, unit.look()).size(), 0U);
}

TEST(ToDecide, AskedAndNotKnownIsForAClinician)
{
    CaseAtWork unit;
    unit.finding("worried", Level::ask, unit.is("worry"));
    unit.answer("worry", false);
    unit.last_answer("worry").value.reset();
    EXPECT_EQ(to_decide(unit.rules, unit.record, unit.look()).size(), 1U);
}

TEST(ToDecide, AsksForThePreparationWhereNoneCouldBePlanned)
{
    CaseAtWork unit;
    unit.procedures({"flexible_sigmoidoscopy"});
    const auto items = to_decide(unit.rules, unit.record, unit.look());
    ASSERT_EQ(items.size(), 1U);
    EXPECT_EQ(items.front().id, "preparation");
    EXPECT_TRUE(items.front().title.starts_with("The preparation: ")) << items.front().title;
    // The day before begins it: midnight less four working hours is 12:30 of the day before that.
    EXPECT_EQ(text(items.front().decide_by), "2027-06-15T12:30-04:00");
}

}  // namespace
}  // namespace foreday::checklists
