#include "gui/present/arrival_desk.h"

#include <fmt/format.h>

#include "data/book/verbs_phone.h"
#include "tests/present/arrival.h"

/// The arrival desk up to the door of the procedure room.
namespace foreday::tests {
namespace {

using present::ArrivalDesk;
using present::ChecklistView;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using ::testing::StartsWith;

const book::Writer anaesthetist{"Dr Pavel Oriane", screening::Role::anaesthesia, "arrival desk"};
constexpr const char* theodora = "09:30 Theodora Langrish, Colonoscopy: ";

enum : std::size_t { clear_liquid, light_meal, fatty_meal, milk };

using Arrival = OnTheDay;
using ArrivalChecklist = OnTheDay;
using ArrivalDoor = OnTheDay;

TEST_F(Arrival, ShowsTheListOfTheDayAndWhoIsHere)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(clerk, id);
    EXPECT_EQ("Booked today: 1", place.list_heading());
    ASSERT_THAT(place.rows(), SizeIs(1));
    EXPECT_EQ(std::string(theodora) + "not here yet.", place.rows().front().sentence);
    ArrivalDesk desk(place);
    EXPECT_EQ("Not here yet", desk.verdict().words);
    EXPECT_FALSE(desk.here());

    ASSERT_TRUE(desk.receive()) << place.notice().words;
    EXPECT_TRUE(done(place, {"08:05: the patient is here."}));
    EXPECT_TRUE(desk.here());
    EXPECT_EQ(std::string(theodora) + "here since 08:05.", place.rows().front().sentence);
    EXPECT_EQ(wall("2027-06-15T08:05"), last<book::Arrived>(id).here_since);

    const auto before = last_number();
    EXPECT_FALSE(desk.receive());
    EXPECT_TRUE(refused(place, {"the patient has been received already"}));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(Arrival, ReceivesOnTheDayOfTheSessionAlone)
{
    const std::string id = begin_at_the_door();
    for (const char* when : {"2027-06-14T23:59", "2027-06-16T00:00"}) {
        SCOPED_TRACE(when);
        set_clock(when);
        Workplace& place = sit(clerk, id);
        const auto before = last_number();
        EXPECT_EQ("Nobody is booked today", place.list_heading());
        EXPECT_FALSE(ArrivalDesk(place).receive());
        EXPECT_TRUE(refused(place, {"the session is on 2027-06-15, not today", "the booking moved first"}));
        EXPECT_TRUE(nothing_written_since(before));
    }
    set_clock("2027-06-15T00:00");
    Workplace& place = sit(clerk, id);
    EXPECT_TRUE(ArrivalDesk(place).receive()) << place.notice().words;
}

TEST_F(Arrival, TakesNothingOfAPatientWhoIsNotHere)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    const auto before = last_number();
    const std::vector<std::function<bool()>> acts{
        [&] { return desk.confirm("identity_two_ways", true); },
        [&] { return desk.measure("pulse_in_range", "72"); },
        [&] {
            return desk.record_intake({clear_liquid, "06:20", "water"});
        },
        [&] { return desk.record_nothing_else(); },
        [&] { return desk.record_dose_taken("m1", "2027-06-09 18:00"); },
        [&] { return desk.go_in(); },
    };
    for (std::size_t act = 0; act < acts.size(); ++act) {
        SCOPED_TRACE(act);
        EXPECT_FALSE(acts[act]());
        EXPECT_TRUE(
            refused(place, {"the patient has not been received; right would be the arrival recorded first"}));
    }
    EXPECT_TRUE(nothing_written_since(before));
}

// --- the checklist ---

TEST_F(ArrivalChecklist, IsBlankUntilSomebodyHasShownIt)
{
    ArrivalDesk desk(sit(nurse, begin_at_the_door()));
    ASSERT_TRUE(desk.receive());
    EXPECT_EQ("Not ready", desk.verdict().words);
    for (const ChecklistView& view : desk.checklist()) {
        EXPECT_FALSE(view.met) << view.title;
        EXPECT_THAT(view.state, StartsWith("Not done yet")) << view.title;
        EXPECT_EQ(view.id != "belongings", view.enters_verdict) << view.title;
        EXPECT_EQ(view.control == ChecklistView::Control::none, view.question.empty()) << view.title;
    }
}

/// Every item confirmed with yes or no: yes shows it, no does not and says what would.
TEST_F(ArrivalChecklist, IsConfirmedWithYesOrNo)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    std::size_t confirmed = 0;
    for (const ChecklistView& view : desk.checklist()) {
        if (view.control != ChecklistView::Control::confirm) {
            continue;
        }
        SCOPED_TRACE(view.title);
        ++confirmed;
        ASSERT_TRUE(desk.confirm(view.id, false)) << place.notice().words;
        EXPECT_TRUE(done(place, {view.title + ": no."}));
        EXPECT_FALSE(item(desk, view.id).met);
        EXPECT_THAT(item(desk, view.id).state, StartsWith("Not as it should be: "));
        EXPECT_THAT(item(desk, view.id).state, HasSubstr(" Needed: "));
        ASSERT_TRUE(desk.confirm(view.id, true)) << place.notice().words;
        EXPECT_EQ("Shown: yes.", item(desk, view.id).state);
        EXPECT_TRUE(item(desk, view.id).met);
        const auto said = last<book::ItemConfirmed>(id);
        EXPECT_EQ(view.id, said.item);
        EXPECT_TRUE(said.confirmed);
    }
    EXPECT_EQ(9U, confirmed);
    EXPECT_FALSE(desk.confirm("pulse_in_range", true));
    EXPECT_TRUE(refused(place, {"That item is not confirmed with yes or no."}));
    EXPECT_FALSE(desk.confirm("no such item", true));
    EXPECT_FALSE(desk.measure("identity_two_ways", "72"));
    EXPECT_TRUE(refused(place, {"That item is not measured."}));
}

/// Limits of the demo unit, each just below, at and just above.
TEST_F(ArrivalChecklist, MeasuresAreHeldToTheirLimits)
{
    struct Row {
        const char* item;
        const char* typed;
        bool met;
    };
    const std::vector<Row> rows{
        {"inr_below_limit", "1.49", true},
        {"inr_below_limit", "1,5", false},
        {"inr_below_limit", "1.51", false},
        {"upper_pressure_not_too_high", "179", true},
        {"upper_pressure_not_too_high", "180", false},
        {"upper_pressure_not_too_high", "181 mmHg", false},
        {"lower_pressure_not_too_high", "109", true},
        {"lower_pressure_not_too_high", "110", false},
        {"lower_pressure_not_too_high", "111", false},
        {"upper_pressure_not_too_low", "89", false},
        {"upper_pressure_not_too_low", "90", true},
        {"upper_pressure_not_too_low", "91", true},
        {"pulse_in_range", "49", false},
        {"pulse_in_range", "50", true},
        {"pulse_in_range", "51", true},
        {"pulse_in_range", "119", true},
        {"pulse_in_range", "120", true},
        {"pulse_in_range", "121", false},
        {"oxygen_enough", "91", false},
        {"oxygen_enough", "92%", true},
        {"oxygen_enough", "93", true},
        {"no_fever", "37.9", true},
        {"no_fever", "38", false},
        {"no_fever", "38.1 C", false},
        {"no_fever", "100.3 F", true},
        {"no_fever", "100.4 F", false},
    };
    const std::string id = begin_at_the_door();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    for (const Row& row : rows) {
        SCOPED_TRACE(std::string(row.item) + ": " + row.typed);
        ASSERT_TRUE(desk.measure(row.item, row.typed)) << place.notice().words;
        const auto view = item(desk, row.item);
        EXPECT_EQ(row.met, view.met) << view.state;
        EXPECT_THAT(view.state, StartsWith(row.met ? "Shown: " : "Not as it should be: "));
        EXPECT_EQ(row.typed, last<book::Measured>(id).words);
    }
}

TEST_F(ArrivalChecklist, MeasuresThatCannotBeRightAreNotWritten)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    const auto before = last_number();
    const std::vector<std::pair<const char*, std::string>> rows{
        {"pulse_in_range", ""},
        {"pulse_in_range", "abc"},
        {"pulse_in_range", "-72"},
        {"pulse_in_range", "19"},
        {"pulse_in_range", "251"},
        {"pulse_in_range", "1e2"},
        {"pulse_in_range", "72 %"},
        {"oxygen_enough", "100.1"},
        {"oxygen_enough", "49"},
        {"no_fever", "31.9"},
        {"no_fever", "98.6"},
        {"no_fever", "44"},
        {"inr_below_limit", "15.1"},
        {"inr_below_limit", "0,4"},
        {"inr_below_limit", std::string(10000, '1')},
        {"upper_pressure_not_too_high", "132/78"},
        {"lower_pressure_not_too_high", "\x01\x02"},
    };
    for (const auto& [of, typed] : rows) {
        SCOPED_TRACE(std::string(of) + ": " + typed.substr(0, 40));
        EXPECT_FALSE(desk.measure(of, typed));
        EXPECT_TRUE(refused(place, {"Measured", "Not written: ", "; right would be "}));
    }
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(ArrivalChecklist, MeasuresIntakeAndDosesAreANursesAndIdentityIsTheClerksToo)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(clerk, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    ASSERT_TRUE(desk.confirm("identity_two_ways", true)) << place.notice().words;
    const auto before = last_number();
    EXPECT_FALSE(desk.measure("pulse_in_range", "72"));
    EXPECT_TRUE(refused(place, {"signed in as arrival clerk, who may not enter a measure"}));
    EXPECT_FALSE(desk.record_intake({clear_liquid, "06:20", "water"}));
    EXPECT_TRUE(refused(place, {"who may not record food and drink"}));
    EXPECT_FALSE(desk.record_dose_taken("m1", "2027-06-09 18:00"));
    EXPECT_TRUE(refused(place, {"who may not record the last dose really taken"}));
    EXPECT_TRUE(nothing_written_since(before));
}

/// The session is at 09:30: clear liquids end 2 hours before, a light meal and milk 6, fatty food 8.
TEST_F(ArrivalChecklist, FoodAndDrinkAreHeldToTheirHours)
{
    struct Row {
        std::size_t kind;
        const char* item;
        const char* at;
        bool met;
    };
    const std::vector<Row> rows{
        {clear_liquid, "fasting_clear_liquid", "07:29", true},
        {clear_liquid, "fasting_clear_liquid", "0730", true},
        {clear_liquid, "fasting_clear_liquid", "07:31", false},
        {light_meal, "fasting_light_meal", "03:29", true},
        {light_meal, "fasting_light_meal", "3:30", true},
        {light_meal, "fasting_light_meal", "03:31", false},
        {fatty_meal, "fasting_fatty_meal", "2027-06-14 22:00", true},
        {fatty_meal, "fasting_fatty_meal", "2027-06-15 01:30", true},
        {fatty_meal, "fasting_fatty_meal", "15 Jun 2027 01:31", false},
        {milk, "fasting_milk", "03:30", true},
        {milk, "fasting_milk", "03:31", false},
    };
    const std::string id = begin_at_the_door();
    for (const Row& row : rows) {
        SCOPED_TRACE(fmt::format("{} at {}", row.item, row.at));
        begin_at_the_door();
        Workplace& place = sit(nurse, id);
        ArrivalDesk desk(place);
        ASSERT_TRUE(desk.receive());
        ASSERT_TRUE(desk.record_intake({row.kind, row.at, "as said"})) << place.notice().words;
        EXPECT_EQ(present::kinds_of_intake().at(row.kind), last<book::IntakeStated>(id).intake);
        EXPECT_EQ(row.met, item(desk, row.item).met) << item(desk, row.item).state;
        EXPECT_THAT(desk.taken_so_far(), ElementsAre(EndsWith(": as said.")));
    }
}

TEST_F(ArrivalChecklist, FoodAndDrinkWithoutATimeThatIsOverAreNotWritten)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    const auto before = last_number();
    const std::vector<std::pair<std::string, std::string>> rows{
        {"", "nothing was typed; right would be such as 06:30, or 2026-11-03 22:00 for the evening before."},
        {"2026", "that time is still to come"},
        {"  ", "nothing was typed"},
        {"08:06", "that time is still to come"},
        {"22:00", "that time is still to come"},
        {"2027-06-16 06:00", "that time is still to come"},
        {"last night 22:00", "\"last night\" is no date of the calendar"},
        {"2500", "is no date of the calendar"},
        {"last night", "is no date of the calendar"},
        {"2027-06-14", "the time of day is missing; such as 06:30"},
        {"25:00", "\"25:00\" is no time of day"},
        {"6.20", "is no date of the calendar"},
        {"30 February 2027 06:00", "is no date of the calendar"},
        {std::string(10000, '6'), "Not written"},
    };
    for (const auto& [typed, words] : rows) {
        SCOPED_TRACE(typed.substr(0, 40));
        EXPECT_FALSE(desk.record_intake({clear_liquid, typed, "water"}));
        EXPECT_TRUE(refused(place, {"Not written: ", words}));
    }
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_TRUE(desk.record_intake({clear_liquid, "08:05", "a sip just now"}));
}

TEST_F(ArrivalChecklist, NothingElseTakenIsAsked)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    EXPECT_THAT(desk.taken_so_far(), IsEmpty());
    ASSERT_TRUE(desk.record_nothing_else());
    EXPECT_THAT(desk.taken_so_far(), ElementsAre("Asked: no other food or drink."));
    EXPECT_TRUE(item(desk, "fasting_milk").met);
}

/// Agreed was the last tablet on 9 June.
TEST_F(ArrivalChecklist, DosesReallyTakenAreComparedWithWhatWasAgreed)
{
    struct Row {
        const char* typed;
        const char* words;  ///< of the item
        bool met;
    };
    const std::string id = begin_at_the_door();
    for (const Row& row : std::vector<Row>{{"2027-06-09 18:00", "Shown: ", true},
                                           {"9 Jun 2027", "Shown: ", true},
                                           {"2027-06-10 18:00", "Not as it should be: ", false},
                                           {"06:00", "Not as it should be: ", false}}) {
        SCOPED_TRACE(row.typed);
        begin_at_the_door();
        Workplace& place = sit(nurse, id);
        ArrivalDesk desk(place);
        ASSERT_TRUE(desk.receive());
        ASSERT_THAT(desk.medicines(), SizeIs(1));
        EXPECT_EQ(std::pair(std::string("m1"), std::string("warfarin")), desk.medicines().front());
        ASSERT_TRUE(desk.record_dose_taken("m1", row.typed)) << place.notice().words;
        EXPECT_EQ(row.met, item(desk, "holds_as_taken").met) << item(desk, "holds_as_taken").state;
        EXPECT_THAT(item(desk, "holds_as_taken").state, StartsWith(row.words));
        EXPECT_TRUE(says(desk.taken_so_far(), "Warfarin: last really taken "));
    }
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    const auto before = last_number();
    const std::vector<std::pair<std::string, std::string>> wrong{
        {"", "the day is not clear"},
        {"yesterday", "the day is not clear"},
        {"June 2027", "the day is not clear"},
        {"2027-06-16", "that day is still to come"},
        {"18:00", "that time is still to come"},
        {"2027-06-15 08:06", "that time is still to come"},
        {"2027-06-09 26:00", "is no time of day"},
        {"last night 22:00", "is no date of the calendar"},
        {std::string(10000, '9'), "the day is not clear"},
    };
    for (const auto& [typed, words] : wrong) {
        SCOPED_TRACE(typed.substr(0, 40));
        EXPECT_FALSE(desk.record_dose_taken("m1", typed));
        EXPECT_TRUE(refused(place, {"Not written: ", words}));
    }
    EXPECT_FALSE(desk.record_dose_taken("m77", "2027-06-09"));
    EXPECT_EQ(present::Notice::Kind::refused, place.notice().kind);
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(ArrivalChecklist, CallsSomebodyOfTheRoster)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(clerk, id);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.receive());
    const auto before = last_number();
    for (const auto& given_up : std::vector<std::vector<Reply>>{{GivesUp{}}, {Picks{"Teodor"}, GivesUp{}}}) {
        person().will(given_up);
        EXPECT_FALSE(desk.escalate("consent_signed"));
        EXPECT_TRUE(nothing_written_since(before));
    }
    person().will({Picks{"Teodor"}, Writes{"she has questions on the consent"}});
    ASSERT_TRUE(desk.escalate("consent_signed")) << place.notice().words;
    EXPECT_EQ("Consent signed. Who is called?", person().asked().front());
    EXPECT_TRUE(done(place, {"Dr Teodor Wexcombe is called."}));
    const auto called = last<book::Escalated>(id);
    EXPECT_EQ("consent_signed", called.item);
    EXPECT_EQ("Dr Teodor Wexcombe", called.to);
    EXPECT_EQ("she has questions on the consent", called.words);
    EXPECT_FALSE(desk.escalate("no such item"));
    EXPECT_TRUE(refused(place, {"That item is no longer on the list."}));
}

// --- the door ---

TEST_F(ArrivalDoor, StaysClosedWhileNotReadyAndSaysWhy)
{
    const std::string id = begin_ready();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    ASSERT_EQ("May go in", desk.verdict().words);
    EXPECT_THAT(desk.verdict().reasons, IsEmpty());
    ASSERT_TRUE(desk.measure("inr_below_limit", "1.7"));
    EXPECT_EQ("Not ready", desk.verdict().words);
    EXPECT_THAT(desk.verdict().reasons, ElementsAre("INR below the limit: 1.7, must be below 1.5"));
    EXPECT_EQ("", desk.verdict().earliest) << "waiting lowers no INR in an hour";
    const auto before = last_number();
    EXPECT_FALSE(desk.go_in());
    EXPECT_TRUE(refused(
        place, {"the patient may not go in: not ready", "\n- INR below the limit: 1.7, must be below 1.5"}));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(ArrivalDoor, SaysWhenWaitingAloneWillDo)
{
    Workplace& place = sit(nurse, begin_ready());
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.record_intake({clear_liquid, "08:15", "a glass of water"}));
    EXPECT_EQ("Not ready", desk.verdict().words);
    EXPECT_EQ("Waiting alone will do: at Tue 15 Jun 2027, 10:15.", desk.verdict().earliest);
}

TEST_F(ArrivalDoor, OpensWhenEverythingIsShown)
{
    const std::string id = begin_ready();
    Workplace& clerks = sit(clerk, id, 1);
    EXPECT_FALSE(ArrivalDesk(clerks).go_in());
    EXPECT_TRUE(refused(clerks, {"who may not record that the patient went in"}));
    Workplace& place = sit(nurse, id);
    place.go_to(present::Desk::arrival);
    ArrivalDesk desk(place);
    ASSERT_TRUE(desk.go_in()) << place.notice().words;
    EXPECT_EQ(wall("2027-06-15T08:30"), last<book::GoneIn>(id).at);
    EXPECT_EQ("Went in at 08:30", desk.verdict().words);
    EXPECT_EQ(std::string(theodora) + "went in at 08:30.", place.rows().front().sentence);
    EXPECT_FALSE(desk.here());
    const auto before = last_number();
    EXPECT_FALSE(desk.go_in());
    EXPECT_TRUE(refused(place, {"the patient has gone in"}));
    EXPECT_FALSE(desk.measure("pulse_in_range", "72"));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(ArrivalDoor, IsLetPassByTheClinicianOfTheItemAlone)
{
    const std::string id = begin_ready();
    ASSERT_TRUE(ArrivalDesk(sit(nurse, id)).measure("inr_below_limit", "1.7"));
    ASSERT_TRUE(ArrivalDesk(sit(nurse, id)).measure("oxygen_enough", "91"));
    const auto before = last_number();
    struct Row {
        const book::Writer& who;
        const char* item;
        const char* words;
    };
    for (const Row& row : std::vector<Row>{
             {clerk, "inr_below_limit",
              "signed in as arrival clerk, who may not let an item of the day pass"},
             {nurse, "inr_below_limit", "signed in as nurse, who may not let an item of the day pass"},
             {anaesthetist, "inr_below_limit", "anaesthesia may not let \"INR below the limit\" pass"},
             {physician, "oxygen_enough",
              "endoscopist may not let \"Oxygen saturation at or above the limit\" pass"},
         }) {
        SCOPED_TRACE(row.words);
        Workplace& place = sit(row.who, id);
        person().will({Writes{"all the same"}});
        EXPECT_FALSE(ArrivalDesk(place).let_pass(row.item));
        EXPECT_TRUE(refused(place, {row.words}));
        EXPECT_TRUE(nothing_written_since(before));
    }
    Workplace& place = sit(physician, id);
    ArrivalDesk desk(place);
    person().will({GivesUp{}});
    EXPECT_FALSE(desk.let_pass("inr_below_limit"));
    EXPECT_TRUE(nothing_written_since(before));
    person().will({Writes{"we look only, nothing is removed"}});
    ASSERT_TRUE(desk.let_pass("inr_below_limit")) << place.notice().words;
    EXPECT_EQ("INR below the limit. Why may it pass?", person().asked().front());
    const auto passed = last<book::DecidedAtDesk>(id);
    EXPECT_EQ(physician.who, passed.who);
    EXPECT_EQ(screening::Role::endoscopist, passed.role);
    EXPECT_EQ("we look only, nothing is removed", passed.reason);
    EXPECT_THAT(item(desk, "inr_below_limit").state, StartsWith("Let pass by a clinician"));
    EXPECT_TRUE(item(desk, "inr_below_limit").met);

    Workplace& other = sit(anaesthetist, id);
    person().will({Writes{"her usual, I stay beside her"}});
    ASSERT_TRUE(ArrivalDesk(other).let_pass("oxygen_enough")) << other.notice().words;
    EXPECT_EQ("May go in", ArrivalDesk(other).verdict().words);
}

TEST_F(ArrivalDoor, WhatWasLetPassHoldsThePatientAgainOnceItReadsOtherwise)
{
    const std::string id = begin_ready();
    ASSERT_TRUE(ArrivalDesk(sit(nurse, id)).measure("inr_below_limit", "1.7"));
    Workplace& place = sit(physician, id);
    ArrivalDesk desk(place);
    person().will({Writes{"we look only, nothing is removed"}});
    ASSERT_TRUE(desk.let_pass("inr_below_limit")) << place.notice().words;
    EXPECT_TRUE(item(desk, "inr_below_limit").met);
    ASSERT_TRUE(ArrivalDesk(sit(nurse, id)).measure("inr_below_limit", "3.4"));
    Workplace& again = sit(nurse, id);
    EXPECT_FALSE(item(ArrivalDesk(again), "inr_below_limit").met);
    const auto before = last_number();
    EXPECT_FALSE(ArrivalDesk(again).go_in());
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(ArrivalDoor, AQuestionToAskAgainIsSomebodysNextActionAndNotAWaitForAClinician)
{
    const std::string id = begin_ready();
    Workplace& place = sit(nurse, id);
    const auto entries = place.now()->folded.answer_entries.at(fact("chest_pain_now"));
    ASSERT_TRUE(book::strike(place.book(), nurse, place.on(), {entries.back(), "of another patient"}));
    place.look_again();
    const present::VerdictView verdict = ArrivalDesk(place).verdict();
    EXPECT_EQ("Not ready", verdict.words);
    EXPECT_THAT(verdict.reasons,
                ::testing::Contains(HasSubstr("clearance lacks the answer to a question still to be asked")));
    EXPECT_THAT(verdict.reasons, ::testing::Contains("the clearance has lapsed"));
}

TEST_F(ArrivalDoor, NotTodayIsAPhysiciansToSayWithTheReason)
{
    const std::string id = begin_ready();
    const auto before = last_number();
    Workplace& nurses = sit(nurse, id, 1);
    person(1).will({Writes{"unwell"}});
    EXPECT_FALSE(ArrivalDesk(nurses).not_today());
    EXPECT_TRUE(refused(nurses, {"who may not record that it is not today"}));
    Workplace& place = sit(physician, id);
    ArrivalDesk desk(place);
    person().will({GivesUp{}});
    EXPECT_FALSE(desk.not_today());
    EXPECT_TRUE(nothing_written_since(before));
    person().will({Writes{"fever since the night"}});
    ASSERT_TRUE(desk.not_today());
    EXPECT_EQ("fever since the night", last<book::NotToday>(id).words);
    EXPECT_EQ("Not today", desk.verdict().words);
    EXPECT_THAT(desk.verdict().reasons, ElementsAre("fever since the night"));
    EXPECT_FALSE(desk.here());
}

TEST_F(ArrivalDoor, WhoDidNotComeIsWrittenDown)
{
    const std::string id = begin_at_the_door();
    Workplace& place = sit(clerk, id);
    ArrivalDesk desk(place);
    person().will({GivesUp{}});
    EXPECT_FALSE(desk.did_not_come());
    person().will({Writes{"no answer at home"}});
    ASSERT_TRUE(desk.did_not_come()) << place.notice().words;
    EXPECT_EQ("did not come", last_entry(id).said.kind);
    EXPECT_EQ("Did not come", desk.verdict().words);
    EXPECT_EQ(std::string(theodora) + "does not take place as booked.", place.rows().front().sentence);
    EXPECT_FALSE(desk.receive());
}

}  // namespace
}  // namespace foreday::tests
