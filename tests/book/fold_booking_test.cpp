#include <gtest/gtest.h>

#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;

book::Rescheduled to(std::string_view start)
{
    book::Rescheduled moved;
    moved.start = wall(start);
    return moved;
}

/// Here, identified and measured on 17 June 2027.
Journal with_somebody_here()
{
    Journal journal = Journal::booked();
    journal.add(weight("84"));
    journal.when("2027-06-17T09:00").by("Clerk Petra Lund", Role::arrival_clerk, "arrival desk");
    journal.add(book::Arrived{wall("2027-06-17T08:50")});
    journal.add(book::ItemConfirmed{"identity", "identity_confirmed", true, ""});
    journal.add(book::IntakeStated{"clear liquid", wall("2027-06-17T06:00"), "water"});
    return journal;
}

TEST(FoldBooking, AMovedBookingKeepsItsAnswers)
{
    Journal journal = Journal::booked();
    journal.add(weight("84"));
    journal.when("2027-06-11T11:00").add(to("2027-06-24T08:30"));
    const auto folded = journal.fold();
    EXPECT_EQ(iso_local(folded.file.record.booking.start), "2027-06-24T08:30");
    EXPECT_EQ(folded.file.record.booking.start_moment, at("2027-06-24T08:30"));
    EXPECT_EQ(folded.file.moved_at, at("2027-06-11T11:00"));
    EXPECT_EQ(folded.file.booked_at, at("2027-06-01T09:00"));
    EXPECT_EQ(folded.file.record.answers.at(fact("weight")).size(), 1U);
    EXPECT_TRUE(folded.set_aside.empty());
    EXPECT_TRUE(folded.file.record.booking.ordered) << "what is not named stays";
}

TEST(FoldBooking, AnotherHourOfTheSameDayKeepsWhoIsHere)
{
    Journal journal = with_somebody_here();
    journal.add(to("2027-06-17T23:59"));
    const auto folded = journal.fold();
    ASSERT_TRUE(folded.file.record.arrival);
    EXPECT_EQ(folded.file.record.arrival->intake.size(), 1U);
    EXPECT_EQ(folded.file.record.answers.at(fact("identity_confirmed")).size(), 1U);
}

TEST(FoldBooking, OnAnotherDayNobodyIsHereAndNothingIsConfirmedForIt)
{
    for (const char* start : {"2027-06-18T00:00", "2027-06-16T23:59"}) {
        Journal journal = with_somebody_here();
        journal.add(to(start));
        const auto folded = journal.fold();
        EXPECT_FALSE(folded.file.record.arrival);
        EXPECT_TRUE(folded.file.record.answers.at(fact("identity_confirmed")).empty());
        EXPECT_TRUE(folded.answer_entries.at(fact("identity_confirmed")).empty());
        EXPECT_EQ(folded.file.record.answers.at(fact("weight")).size(), 1U);
        ASSERT_EQ(folded.set_aside.size(), 1U);
        EXPECT_EQ(folded.set_aside[0].fact, "identity_confirmed");
        EXPECT_EQ(folded.set_aside[0].why, "it was said for another day");
    }
}

TEST(FoldBooking, AStruckMoveNeverWas)
{
    Journal journal = with_somebody_here();
    const std::string before = lines_of(journal.fold().file);
    const auto move = journal.add(to("2027-06-24T08:30"));
    journal.add(book::EntryStruck{move, "wrong case"});
    EXPECT_EQ(lines_of(journal.fold().file), before);
}

TEST(FoldBooking, ANewPreparationIsNoMoveAndNewProceduresAre)
{
    Journal journal = Journal::booked();
    book::Rescheduled ordered;
    ordered.ordered = book::OrderedPreparation{"", "the one from last time"};
    journal.add(ordered);
    auto folded = journal.fold();
    EXPECT_FALSE(folded.file.moved_at);
    EXPECT_FALSE(folded.file.record.booking.ordered);
    EXPECT_EQ(folded.file.record.booking.ordered_words, "the one from last time");

    book::Rescheduled more;
    more.procedures = {"upper_endoscopy", "colonoscopy", "colonoscopy"};
    journal.when("2027-06-12T09:00").add(more);
    folded = journal.fold();
    EXPECT_EQ(folded.file.moved_at, at("2027-06-12T09:00"));
    const auto& protocol = demo_rules().protocol;
    EXPECT_EQ(folded.file.record.booking.procedures,
              (std::vector{*find_procedure(protocol, "colonoscopy"),
                           *find_procedure(protocol, "upper_endoscopy")}));
}

TEST(FoldBooking, AProcedureTheProtocolDoesNotHaveIsAnotherProcedureAndSaid)
{
    Journal journal = Journal::booked();
    book::Rescheduled unknown;
    unknown.procedures = {"colonoscopy", "enteroscopy"};
    unknown.ordered = book::OrderedPreparation{"old_salts", ""};
    journal.add(unknown);
    const auto folded = journal.fold();
    const auto& booking = folded.file.record.booking;
    ASSERT_EQ(booking.procedures.size(), 2U);
    EXPECT_EQ(demo_rules().protocol.procedures.at(booking.procedures[1]).plan, Procedure::Plan::other);
    EXPECT_FALSE(booking.ordered);
    EXPECT_EQ(booking.ordered_words, "old_salts");
    ASSERT_EQ(folded.not_placed.size(), 2U);
    EXPECT_EQ(folded.not_placed[0].about, "enteroscopy");
    EXPECT_EQ(folded.not_placed[1].about, "old_salts");
}

TEST(FoldBooking, EndingsAndWhatTakesThemBack)
{
    using checklists::EndingKind;
    Journal journal = Journal::booked();
    journal.add(book::CalledOff{"has a cold"});
    ASSERT_TRUE(journal.fold().file.ending);
    EXPECT_EQ(journal.fold().file.ending->kind, EndingKind::called_off);
    EXPECT_EQ(journal.fold().file.ending->words, "has a cold");
    EXPECT_EQ(journal.fold().file.ending->who, "Nurse Ansgar Leith");
    journal.add(book::DidNotCome{""});
    EXPECT_EQ(journal.fold().file.ending->kind, EndingKind::did_not_come);
    journal.add(book::NotToday{"INR too high"});
    EXPECT_EQ(journal.fold().file.ending->kind, EndingKind::not_today);
    journal.add(to("2027-06-24T08:30"));
    EXPECT_FALSE(journal.fold().file.ending);
}

TEST(FoldBooking, ASecondBookingOfTheCaseAndAMoveBeforeTheBookingAreSaid)
{
    Journal journal = Journal::booked();
    const auto second =
        journal.add(book::BookingMade{patient_id, {"upper_endoscopy"}, wall("2027-06-18T10:00"), {}});
    const auto folded = journal.fold();
    EXPECT_EQ(iso_local(folded.file.record.booking.start), "2027-06-17T10:00");
    ASSERT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.not_placed[0].entry, second);

    Journal early;
    early.when("2027-06-10T09:00").add(to("2027-06-24T08:30"));
    EXPECT_EQ(early.fold().not_placed.size(), 1U);
    EXPECT_FALSE(early.fold().booked);
}

TEST(FoldBooking, TheHourOnTheWallIsKeptWhereTheClocksOfTheZoneHaveChanged)
{
    Journal journal = Journal::booked();
    book::Rescheduled moved;
    moved.start = book::WallTime{parse_written_time("2027-06-24T08:30")->local, std::chrono::hours{-5}};
    const auto number = journal.add(moved);
    const auto folded = journal.fold();
    EXPECT_EQ(iso_local(folded.file.record.booking.start), "2027-06-24T08:30");
    EXPECT_EQ(folded.file.record.booking.start_moment, at("2027-06-24T08:30"));
    ASSERT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.not_placed[0].entry, number);
}

TEST(FoldBooking, OfAnHourThatComesTwiceTheOneThatWasBookedIsKept)
{
    const auto& zone = demo_rules().zone;
    const auto local = parse_written_time("2027-11-07T01:30")->local;
    const auto moments = moments_of(zone, local);
    for (const auto moment : {moments.earlier, moments.later}) {
        Journal journal = Journal::booked();
        book::Rescheduled moved;
        moved.start = book::wall_time(zone, moment);
        journal.add(moved);
        EXPECT_EQ(journal.fold().file.record.booking.start_moment, moment);
        EXPECT_EQ(journal.fold().file.record.booking.start, local);
        EXPECT_TRUE(journal.fold().not_placed.empty());
    }
}

}  // namespace
}  // namespace foreday::tests
