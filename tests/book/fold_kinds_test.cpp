#include <gtest/gtest.h>

#include "tests/book/contents_sample.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;
using checklists::TryOutcome;

/// A case with something of everything, so that any kind finds what it speaks of.
Journal full_case()
{
    Journal journal = Journal::booked();
    book::MedicineAdded warfarin{"m1", {}};
    warfarin.medicine.medicine = "warfarin";
    journal.add(warfarin);
    journal.add(weight("84"));
    return journal;
}

TEST(FoldKinds, AKindWithoutEffectChangesNothingButTheLastNumberRead)
{
    for_each_kind([](const book::Content& kind) {
        if (book::kind_of(kind).effect != book::Effect::none) {
            return;
        }
        Journal journal = full_case();
        const auto before = journal.fold();
        const auto number = journal.add(sample_of(kind));
        const auto after = journal.fold();
        EXPECT_EQ(lines_of(after.file), lines_of(before.file)) << book::kind_of(kind).name;
        EXPECT_EQ(after.up_to, before.up_to);
        EXPECT_EQ(after.last_read, number);
        EXPECT_TRUE(after.not_placed.empty());
    });
}

TEST(FoldKinds, TheWorkAroundACaseNeverChangesTheRecordOrTheBasis)
{
    for_each_kind([](const book::Content& kind) {
        if (book::kind_of(kind).effect != book::Effect::work) {
            return;
        }
        Journal journal = full_case();
        const auto before = journal.fold();
        journal.add(sample_of(kind));
        const auto after = journal.fold();
        EXPECT_EQ(lines_of(after.file.record), lines_of(before.file.record)) << book::kind_of(kind).name;
        EXPECT_EQ(after.up_to, before.up_to);
    });
}

TEST(FoldKinds, EverythingElseMovesTheBasis)
{
    int kinds = 0;
    for_each_kind([&](const book::Content& kind) {
        if (book::kind_of(kind).effect != book::Effect::record) {
            return;
        }
        Journal journal = full_case();
        const auto number = journal.add(sample_of(kind));
        EXPECT_EQ(journal.fold().up_to, number) << book::kind_of(kind).name;
        EXPECT_TRUE(book::changes_fold(book::kind_of(kind).name));
        ++kinds;
    });
    EXPECT_GT(kinds, 25);
}

TEST(FoldKinds, TheOrderInWhichEntriesAreHandedInIsOfNoMatter)
{
    Journal journal = full_case();
    journal.add(book::NoteMade{"a"});
    journal.add(weight("85"));
    auto entries = journal.about(case_id);
    const auto patient = journal.about(patient_id);
    const auto fold = [&] {
        return lines_of(
            book::fold_case(demo_rules().protocol, demo_rules().zone, case_id, entries, patient).file);
    };
    const std::string before = fold();
    std::reverse(entries.begin(), entries.end());
    EXPECT_EQ(fold(), before);
}

TEST(FoldKinds, NotesTriesAndCalls)
{
    Journal journal = Journal::booked();
    journal.add(book::NoteMade{"rings back"});
    journal.add(book::TryMade{"first call", TryOutcome::message_left, "with the son"});
    journal.add(book::PatientRangIn{"", "asks about breakfast"});
    journal.when("2027-06-10T09:30").add(book::CallEndedForEmergency{"first call", "chest pain"});
    journal.add(book::HandedOver{"Nurse Ilse Marr", "off sick"});
    const auto file = journal.fold().file;
    ASSERT_EQ(file.notes.size(), 1U);
    EXPECT_EQ(file.notes[0].words, "rings back");
    EXPECT_EQ(file.notes[0].who, "Nurse Ansgar Leith");
    ASSERT_EQ(file.tries.size(), 3U);
    EXPECT_EQ(file.tries[0].call, "first call");
    EXPECT_EQ(file.tries[0].outcome, TryOutcome::message_left);
    EXPECT_EQ(file.tries[0].when, at("2027-06-10T09:00"));
    EXPECT_EQ(file.tries[1].outcome, TryOutcome::rang_in);
    EXPECT_EQ(file.tries[2].outcome, TryOutcome::ended_for_an_emergency);
    EXPECT_EQ(file.tries[2].when, at("2027-06-10T09:30"));
    EXPECT_EQ(file.who_has_it, "Nurse Ilse Marr");
}

TEST(FoldKinds, WhatIsAskedOutsideWaitsForItsAnswer)
{
    Journal journal = Journal::booked();
    journal.add(
        book::OutsideAskSent{"o1", "hold:m1", "may it be stopped", "heart clinic", day("2027-06-14")});
    auto file = journal.fold().file;
    ASSERT_EQ(file.outside_asks.size(), 1U);
    EXPECT_EQ(file.outside_asks[0].whom, "heart clinic");
    EXPECT_EQ(file.outside_asks[0].sent, at("2027-06-10T09:00"));
    EXPECT_EQ(file.outside_asks[0].reply_by, day("2027-06-14"));
    EXPECT_FALSE(file.outside_asks[0].came);
    journal.when("2027-06-13T10:00").add(book::OutsideAskAnswered{"o1", "five days", "letter"});
    journal.add(book::OutsideAskAnswered{"o2", "what", ""});
    file = journal.fold().file;
    EXPECT_EQ(file.outside_asks[0].came, at("2027-06-13T10:00"));
    EXPECT_EQ(file.outside_asks[0].answer, "five days");
    EXPECT_EQ(journal.fold().not_placed.size(), 1U);
}

TEST(FoldKinds, SheetsAreInForceUntilSuperseded)
{
    Journal journal = Journal::booked();
    journal.add(book::SheetIssued{"hash-1", "en", "by post"});
    journal.add(book::SheetSuperseded{"hash-1", "moved"});
    journal.add(book::SheetIssued{"hash-2", "en", "by post"});
    journal.add(book::SheetSuperseded{"hash-1", "again"});
    const auto folded = journal.fold();
    ASSERT_EQ(folded.sheets.size(), 2U);
    EXPECT_TRUE(folded.sheets[0].superseded);
    EXPECT_FALSE(folded.sheets[1].superseded);
    EXPECT_EQ(folded.not_placed.size(), 1U);
}

TEST(FoldKinds, TheDayFromArrivalToTheEnd)
{
    Journal journal = full_case();
    const std::string item = demo_rules().protocol.readiness.front().head.id;
    journal.when("2027-06-17T09:00").by("Nurse Ilse Marr", Role::nurse, "arrival desk");
    journal.add(book::Arrived{wall("2027-06-17T08:50")});
    journal.add(book::IntakeStated{"clear liquid", wall("2027-06-17T06:00"), "water"});
    journal.add(book::NothingElseTaken{});
    journal.add(book::DoseReallyTaken{"m1", {day("2027-06-12"), std::nullopt}});
    journal.add(book::DoseReallyTaken{"m1", {day("2027-06-11"), std::chrono::hours{18}}});
    journal.add(book::Escalated{item, "Dr Teodor Wexcombe", "escort not there"});
    journal.add(
        book::DecidedAtDesk{item, "Dr Teodor Wexcombe", Role::endoscopist, "daughter comes at noon", ""});
    journal.add(book::DecidedAtDesk{item, "Dr Teodor Wexcombe", Role::endoscopist, "again", "not asked"});
    const auto unknown = journal.add(book::DecidedAtDesk{"no_such_item", "x", Role::endoscopist, "", ""});
    journal.add(book::GoneIn{wall("2027-06-17T10:05")});
    journal.add(book::WorkDone{wall("2027-06-17T10:40"), {"colonoscopy"}, ""});
    journal.add(book::QualityStated{"clean throughout"});
    const auto folded = journal.fold();
    const auto& arrival = folded.file.record.arrival.value();
    EXPECT_EQ(iso_local(*arrival.here_since), "2027-06-17T08:50");
    ASSERT_EQ(arrival.intake.size(), 1U);
    EXPECT_EQ(arrival.intake[0].kind, "clear liquid");
    EXPECT_EQ(iso_local(arrival.intake[0].at), "2027-06-17T06:00");
    EXPECT_TRUE(arrival.nothing_else_taken);
    ASSERT_EQ(arrival.doses_taken.size(), 1U) << "the later word on one medicine stands";
    EXPECT_EQ(arrival.doses_taken[0].second, (Dose{day("2027-06-11"), std::chrono::hours{18}}));
    EXPECT_EQ(arrival.let_pass, (std::vector<screening::ItemLetPass>{{item, "not asked"}}))
        << "the later word";
    ASSERT_EQ(folded.escalations.size(), 1U);
    EXPECT_EQ(folded.escalations[0].words, "escort not there");
    ASSERT_EQ(folded.desk_decisions.size(), 3U);
    EXPECT_EQ(folded.desk_decisions[0].by, "Dr Teodor Wexcombe");
    EXPECT_EQ(folded.desk_decisions[0].recorded_by, "Nurse Ilse Marr");
    ASSERT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.not_placed[0].entry, unknown);
    EXPECT_EQ(folded.file.gone_in, at("2027-06-17T10:05"));
    EXPECT_EQ(folded.file.record.done, at("2027-06-17T10:40"));
    EXPECT_EQ(folded.file.preparation_quality, "clean throughout");
}

TEST(FoldKinds, ARestartIsDecidedToldAndTheCaseClosed)
{
    Journal journal = full_case();
    journal.when("2027-06-17T11:00").by("Dr Teodor Wexcombe", Role::endoscopist);
    const auto number = journal.add(book::RestartDecided{"hold:m1", "this evening", day("2027-06-17")});
    auto folded = journal.fold();
    ASSERT_EQ(folded.file.restarts.size(), 1U);
    EXPECT_EQ(folded.file.restarts[0].role, Role::endoscopist);
    EXPECT_EQ(folded.file.restarts[0].from, day("2027-06-17"));
    EXPECT_FALSE(folded.file.restarts[0].told);
    EXPECT_EQ(folded.restart_entries, std::vector{number});
    journal.add(book::RestartDecided{"hold:m1", "tomorrow", day("2027-06-18")});
    journal.when("2027-06-17T12:00").add(book::RestartTold{{"hold:m1", "hold:m9"}, ""});
    journal.when("2027-06-17T12:10").add(book::CaseClosed{""});
    folded = journal.fold();
    EXPECT_FALSE(folded.file.restarts[0].told) << "what was told is the last that was decided";
    EXPECT_EQ(folded.file.restarts[1].told, at("2027-06-17T12:00"));
    EXPECT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.file.closed, at("2027-06-17T12:10"));
}

}  // namespace
}  // namespace foreday::tests
