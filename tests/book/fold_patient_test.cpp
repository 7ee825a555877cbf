#include <gtest/gtest.h>

#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;

constexpr const char* other_id = "P-0901";

const std::vector<Answer>& births(const book::FoldedCase& folded)
{
    return folded.file.record.answers.at(fact("birth_date"));
}

FactState birth_state(const book::FoldedCase& folded)
{
    const auto& rules = demo_rules();
    return read_answers(rules.protocol.facts.at(fact("birth_date")), births(folded), rules.zone,
                        at("2027-06-12T09:00"))
        .state;
}

/// The same person under two ids, the second made after the first and with her own phone.
Journal with_two_patients(const char* born_in_the_second)
{
    Journal journal = Journal::booked();
    journal.add_about(other_id, 0,
                      book::PatientMade{"Orla Fynch", "P-0901", day(born_in_the_second), "", {"555 0199"}});
    return journal;
}

/// Under both, as the verb appends it.
std::int64_t merge(Journal& journal, const char* away, const char* into)
{
    const auto seen = journal.last();
    journal.add_about(away, seen, book::PatientMerged{away, into, "one person"});
    return journal.add_about(into, seen, book::PatientMerged{away, into, "one person"});
}

void split(Journal& journal, const char* away, const char* from)
{
    const auto seen = journal.last();
    journal.add_about(away, seen, book::PatientSplit{away, from, "two after all"});
    journal.add_about(from, seen, book::PatientSplit{away, from, "two after all"});
}

TEST(FoldPatient, ABookingSaysWhoForWhatAndWhen)
{
    const auto folded = Journal::booked().fold();
    EXPECT_TRUE(folded.booked);
    EXPECT_TRUE(folded.patient_known);
    EXPECT_EQ(folded.patient_id, patient_id);
    EXPECT_EQ(folded.booking_entry, 2);
    const Booking& booking = folded.file.record.booking;
    EXPECT_EQ(booking.patient.name, "Orla Finch");
    EXPECT_EQ(booking.patient.number, "P-0900");
    EXPECT_EQ(booking.patient.born, day("1961-03-02"));
    EXPECT_EQ(booking.procedures, std::vector{*find_procedure(demo_rules().protocol, "colonoscopy")});
    EXPECT_EQ(iso_local(booking.start), "2027-06-17T10:00");
    EXPECT_EQ(booking.start_moment, at("2027-06-17T10:00"));
    EXPECT_EQ(booking.ordered, find_preparation(demo_rules().protocol, "peg_els_4l_split"));
    EXPECT_EQ(folded.file.phones, std::vector<std::string>{"555 0100"});
    EXPECT_EQ(folded.file.booked_at, at("2027-06-01T09:00"));
    EXPECT_FALSE(folded.file.moved_at);
    ASSERT_EQ(births(folded).size(), 1U);
    EXPECT_EQ(births(folded)[0].informant, Informant::booking);
    EXPECT_EQ(births(folded)[0].strength, Strength::dated_document);
    EXPECT_EQ(folded.answer_entries.at(fact("sex")), std::vector<std::int64_t>{1});
}

TEST(FoldPatient, ACaseWithoutABookingSaysSo)
{
    Journal journal;
    journal.when("2027-06-10T09:00").add(book::NoteMade{"too early"});
    const auto folded = journal.fold();
    EXPECT_FALSE(folded.booked);
    EXPECT_FALSE(folded.patient_known);
    EXPECT_EQ(folded.patient_id, "");
    EXPECT_EQ(folded.last_read, 1);
    EXPECT_EQ(folded.up_to, 0);
}

TEST(FoldPatient, SpellingAndPhoneChangeNoAnswerAndABirthDateDoes)
{
    Journal journal = Journal::booked();
    book::PatientChanged change;
    change.name = "Orla Fynch";
    change.phones = std::vector<std::string>{};
    journal.add_about(patient_id, journal.last(), change);
    auto folded = journal.fold();
    EXPECT_EQ(folded.file.record.booking.patient.name, "Orla Fynch");
    EXPECT_EQ(folded.file.record.booking.patient.number, "P-0900");
    EXPECT_TRUE(folded.file.phones.empty());
    EXPECT_EQ(births(folded).size(), 1U);

    book::PatientChanged mended;
    mended.born = day("1962-03-02");
    journal.add_about(patient_id, journal.last(), mended);
    folded = journal.fold();
    EXPECT_EQ(folded.file.record.booking.patient.born, day("1962-03-02"));
    EXPECT_EQ(births(folded).size(), 2U);
    EXPECT_EQ(birth_state(folded), FactState::known) << "whoever mends it has seen what stood";
}

TEST(FoldPatient, ASexTheProtocolDoesNotHaveIsSaid)
{
    Journal journal = Journal::booked();
    book::PatientChanged change;
    change.sex = "neither";
    const auto number = journal.add_about(patient_id, journal.last(), change);
    const auto folded = journal.fold();
    ASSERT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.not_placed[0].entry, number);
    EXPECT_EQ(folded.file.record.answers.at(fact("sex")).size(), 1U);
}

TEST(FoldPatient, EntriesOfOtherPatientsAreLeftOut)
{
    Journal journal = with_two_patients("1970-01-01");
    const auto alone = Journal::booked().fold();
    const auto folded =
        book::fold_case(demo_rules().protocol, demo_rules().zone, case_id, journal.about(case_id), [&] {
            auto all = journal.about(patient_id);
            const auto others = journal.about(other_id);
            all.insert(all.end(), others.begin(), others.end());
            return all;
        }());
    EXPECT_EQ(lines_of(folded.file), lines_of(alone.file));
    EXPECT_EQ(folded.up_to, alone.up_to);
}

TEST(FoldPatient, OneWhoIsMergedGoesOnUnderTheOtherId)
{
    Journal journal = with_two_patients("1961-03-02");
    const auto last = merge(journal, patient_id, other_id);
    const auto folded = journal.fold();
    EXPECT_EQ(folded.booked_for, patient_id);
    EXPECT_EQ(folded.patient_id, other_id);
    EXPECT_EQ(folded.file.record.booking.patient.name, "Orla Fynch");
    EXPECT_EQ(folded.file.phones, (std::vector<std::string>{"555 0199", "555 0100"}));
    EXPECT_EQ(birth_state(folded), FactState::known);
    EXPECT_EQ(folded.up_to, last);
    EXPECT_TRUE(folded.not_placed.empty());
}

TEST(FoldPatient, EntriesOfBothCountWhereTheCasesOwnPatientGoesOn)
{
    Journal journal = with_two_patients("1961-03-02");
    merge(journal, other_id, patient_id);
    const auto folded = journal.fold();
    EXPECT_EQ(folded.patient_id, patient_id);
    EXPECT_EQ(folded.file.record.booking.patient.name, "Orla Finch");
    EXPECT_EQ(folded.file.phones, (std::vector<std::string>{"555 0100", "555 0199"}));
    EXPECT_EQ(births(folded).size(), 2U);
}

TEST(FoldPatient, TwoWhoseBirthDatesDifferAreInConflictOnceMergedUntilSomebodySettlesIt)
{
    for (const bool own_goes_on : {true, false}) {
        Journal journal = with_two_patients("1961-02-03");
        const char* into = own_goes_on ? patient_id : other_id;
        merge(journal, own_goes_on ? other_id : patient_id, into);
        EXPECT_EQ(birth_state(journal.fold()), FactState::in_conflict);
        book::PatientChanged settled;
        settled.born = day("1961-03-02");
        journal.add_about(into, journal.last(), settled);
        EXPECT_EQ(birth_state(journal.fold()), FactState::known);
        EXPECT_EQ(journal.fold().file.record.booking.patient.born, day("1961-03-02"));
    }
}

TEST(FoldPatient, ASplitUndoesTheMerging)
{
    for (const bool own_goes_on : {true, false}) {
        Journal journal = with_two_patients("1961-02-03");
        const std::string before = lines_of(journal.fold().file);
        const char* away = own_goes_on ? other_id : patient_id;
        const char* into = own_goes_on ? patient_id : other_id;
        merge(journal, away, into);
        EXPECT_NE(lines_of(journal.fold().file), before);
        split(journal, away, into);
        const auto folded = journal.fold();
        EXPECT_EQ(lines_of(folded.file), before);
        EXPECT_EQ(folded.patient_id, patient_id);
    }
}

TEST(FoldPatient, MergingInARingIsSaidAndEndsNowhere)
{
    Journal journal = with_two_patients("1961-03-02");
    merge(journal, patient_id, other_id);
    merge(journal, other_id, patient_id);
    const auto folded = journal.fold();
    EXPECT_EQ(folded.patient_id, other_id);
    EXPECT_EQ(folded.not_placed.size(), 2U) << "under each of the two";
}

TEST(FoldPatient, AChainOfMergingsLeadsToItsEnd)
{
    Journal journal = with_two_patients("1961-03-02");
    journal.add_about("P-0902", 0, book::PatientMade{"O. Finch", "P-0902", day("1961-03-02"), "", {}});
    merge(journal, patient_id, other_id);
    merge(journal, other_id, "P-0902");
    EXPECT_EQ(journal.fold().patient_id, "P-0902");
    EXPECT_EQ(journal.fold().file.record.booking.patient.name, "O. Finch");
    EXPECT_EQ(births(journal.fold()).size(), 3U);
    split(journal, other_id, "P-0902");
    EXPECT_EQ(journal.fold().patient_id, other_id);
    EXPECT_EQ(births(journal.fold()).size(), 2U);
}

TEST(FoldPatient, ACaseLinkedToAnotherPatientIsThatPatients)
{
    Journal journal = with_two_patients("1970-01-01");
    const auto link = journal.add(book::PatientLinked{other_id, "wrong namesake"});
    auto folded = journal.fold();
    EXPECT_EQ(folded.patient_id, other_id);
    EXPECT_EQ(folded.file.record.booking.patient.born, day("1970-01-01"));
    EXPECT_EQ(births(folded).size(), 1U);
    EXPECT_TRUE(folded.file.record.answers.at(fact("sex")).empty());
    journal.add(book::EntryStruck{link, ""});
    EXPECT_EQ(journal.fold().patient_id, patient_id);
}

TEST(FoldPatient, EachPatientIsAskedForOnce)
{
    Journal journal = with_two_patients("1961-03-02");
    merge(journal, patient_id, other_id);
    std::vector<std::string> asked;
    const auto entries = book::patient_entries_for(journal.about(case_id), [&](const std::string& subject) {
        asked.push_back(subject);
        return journal.about(subject);
    });
    EXPECT_EQ(asked, (std::vector<std::string>{patient_id, other_id}));
    EXPECT_EQ(entries.size(), 4U);
}

}  // namespace
}  // namespace foreday::tests
