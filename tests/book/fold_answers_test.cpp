#include <gtest/gtest.h>

#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;

const std::vector<Answer>& answers(const book::FoldedCase& folded, std::string_view id)
{
    return folded.file.record.answers.at(fact(id));
}

FactReading reading(const book::FoldedCase& folded, std::string_view id)
{
    const auto& rules = demo_rules();
    return read_answers(rules.protocol.facts.at(fact(id)), answers(folded, id), rules.zone,
                        at("2027-06-12T09:00"));
}

NumberInterval kilograms(std::string_view text)
{
    return {Exact::parse(text).value(), Exact::parse(text).value()};
}

TEST(FoldAnswers, AnAnswerKeepsWhoWhenAndWhere)
{
    Journal journal = Journal::booked();
    auto answer = weight("84.6");
    answer.words = "84 and a bit";
    answer.who = "Orla Finch";
    answer.interpreter = "4711";
    answer.dated = day("2027-06-09");
    answer.strength = Strength::dated_document;
    answer.informant = Informant::letter;
    answer.origin = Origin::import;
    const auto number = journal.add(answer);
    const auto folded = journal.fold();
    ASSERT_EQ(answers(folded, "weight").size(), 1U);
    const Answer& kept = answers(folded, "weight").front();
    EXPECT_EQ(std::get<NumberInterval>(*kept.value), kilograms("84.6"));
    EXPECT_EQ(kept.words, "84 and a bit");
    EXPECT_EQ(kept.who, "Orla Finch");
    EXPECT_EQ(kept.interpreter, "4711");
    EXPECT_EQ(kept.dated, day("2027-06-09"));
    EXPECT_EQ(kept.strength, Strength::dated_document);
    EXPECT_EQ(kept.informant, Informant::letter);
    EXPECT_EQ(kept.origin, Origin::import);
    EXPECT_EQ(kept.at, at("2027-06-10T09:00"));
    EXPECT_EQ(kept.desk, "phone desk");
    EXPECT_FALSE(kept.unseen);
    EXPECT_EQ(folded.answer_entries.at(fact("weight")), std::vector{number});
    EXPECT_TRUE(folded.not_placed.empty());
}

TEST(FoldAnswers, AskedAndNotKnownSaysWhy)
{
    Journal journal = Journal::booked();
    book::Answered answer;
    answer.fact = "weight";
    answer.why_not_known = WhyNotKnown::would_not_say;
    journal.add(answer);
    const auto folded = journal.fold();
    EXPECT_FALSE(answers(folded, "weight").at(0).value);
    EXPECT_EQ(answers(folded, "weight").at(0).why_not_known, WhyNotKnown::would_not_say);
    EXPECT_EQ(reading(folded, "weight").state, FactState::not_known);
}

TEST(FoldAnswers, OneWrittenInViewReplacesAndOneJustOutOfViewIsInConflict)
{
    for (const std::int64_t short_of : {0, 1}) {
        Journal journal = Journal::booked();
        const auto first = journal.add(weight("84"));
        journal.add_seen(first - short_of, weight("95"));
        const auto folded = journal.fold();
        EXPECT_EQ(answers(folded, "weight").at(1).unseen, short_of == 1);
        EXPECT_EQ(reading(folded, "weight").state, short_of == 1 ? FactState::in_conflict : FactState::known);
    }
}

TEST(FoldAnswers, OnlyWhatStandsCountsForUnseen)
{
    Journal journal = Journal::booked();
    auto measured = weight("84");
    measured.strength = Strength::measured;
    const auto first = journal.add(measured);
    journal.add(weight("90"));  // weaker: kept beside, stands not
    auto again = weight("85");
    again.strength = Strength::measured;
    journal.add_seen(first, again);
    const auto folded = journal.fold();
    EXPECT_FALSE(answers(folded, "weight").at(2).unseen);
    EXPECT_EQ(std::get<NumberInterval>(reading(folded, "weight").values.at(0)), kilograms("85"));
}

TEST(FoldAnswers, WhoeverSawBothSettlesTheConflict)
{
    Journal journal = Journal::booked();
    const auto first = journal.add(weight("84"));
    journal.add_seen(first - 1, weight("95"));
    journal.add(weight("94"));
    const auto folded = journal.fold();
    EXPECT_EQ(reading(folded, "weight").state, FactState::known);
    EXPECT_EQ(std::get<NumberInterval>(reading(folded, "weight").values.at(0)), kilograms("94"));
}

TEST(FoldAnswers, SourcesOfAComparedFactThatDifferAreInConflictThoughSeen)
{
    Journal journal = Journal::booked();
    auto born = said("birth_date", DateInterval{day("1962-03-02"), day("1962-03-02")});
    journal.add(born);
    const auto folded = journal.fold();
    ASSERT_EQ(answers(folded, "birth_date").size(), 2U) << "the booking's comes first";
    EXPECT_FALSE(answers(folded, "birth_date").at(1).unseen);
    EXPECT_EQ(reading(folded, "birth_date").state, FactState::in_conflict);
}

TEST(FoldAnswers, AStruckAnswerLeavesNoTraceInTheRecord)
{
    Journal journal = Journal::booked();
    journal.add(weight("84"));
    const std::string before = lines_of(journal.fold().file);
    const auto wrong = journal.add(weight("48"));
    EXPECT_NE(lines_of(journal.fold().file), before);
    const auto strike = journal.add(book::EntryStruck{wrong, "wrong case"});
    const auto folded = journal.fold();
    EXPECT_EQ(lines_of(folded.file), before);
    EXPECT_EQ(folded.struck, std::vector{wrong});
    EXPECT_EQ(folded.up_to, strike) << "that it was struck is a change";
    EXPECT_TRUE(folded.set_aside.empty());
}

TEST(FoldAnswers, AnAnswerThatWasWrittenInViewOfAStruckOneReplacesWhatStoodBefore)
{
    Journal journal = Journal::booked();
    const auto first = journal.add(weight("84"));
    const auto wrong = journal.add(weight("48"));
    journal.add_seen(first, weight("86"));
    EXPECT_TRUE(answers(journal.fold(), "weight").at(2).unseen);
    journal.add(book::EntryStruck{wrong, ""});
    EXPECT_FALSE(answers(journal.fold(), "weight").at(1).unseen);
}

TEST(FoldAnswers, OneThatIsSetAsideIsShownBesideAndCountsNoLonger)
{
    Journal journal = Journal::booked();
    journal.add(weight("84"));
    const auto doubtful = journal.add(weight("95"));
    const auto aside = journal.add(book::AnswerSetAside{doubtful, "meant in pounds"});
    auto folded = journal.fold();
    EXPECT_EQ(std::get<NumberInterval>(reading(folded, "weight").values.at(0)), kilograms("84"));
    ASSERT_EQ(folded.set_aside.size(), 1U);
    EXPECT_EQ(folded.set_aside[0].entry, doubtful);
    EXPECT_EQ(folded.set_aside[0].fact, "weight");
    EXPECT_EQ(folded.set_aside[0].why, "meant in pounds");
    EXPECT_EQ(std::get<NumberInterval>(*folded.set_aside[0].answer.value), kilograms("95"));

    journal.add(book::EntryStruck{aside, "it was right"});
    folded = journal.fold();
    EXPECT_EQ(std::get<NumberInterval>(reading(folded, "weight").values.at(0)), kilograms("95"));
    EXPECT_TRUE(folded.set_aside.empty());
}

TEST(FoldAnswers, StrikingOrSettingAsideWhatIsNotThereIsSaid)
{
    Journal journal = Journal::booked();
    const auto answer = journal.add(weight("84"));
    const std::string before = lines_of(journal.fold().file);
    const auto strike_of_patient = journal.add(book::EntryStruck{1, "of another subject"});
    const auto strike_of_later = journal.add(book::EntryStruck{journal.last() + 1, "of itself"});
    const auto aside_of_booking = journal.add(book::AnswerSetAside{2, "no answer"});
    const auto folded = journal.fold();
    EXPECT_EQ(lines_of(folded.file), before);
    ASSERT_EQ(folded.not_placed.size(), 3U);
    EXPECT_EQ(folded.not_placed[0].entry, strike_of_patient);
    EXPECT_EQ(folded.not_placed[1].entry, strike_of_later);
    EXPECT_EQ(folded.not_placed[2].entry, aside_of_booking);
    EXPECT_EQ(folded.not_placed[2].kind, "answer set aside");
    EXPECT_GT(answer, 0);
}

TEST(FoldAnswers, AStrikeIsNotStruck)
{
    Journal journal = Journal::booked();
    const auto answer = journal.add(weight("84"));
    const auto strike = journal.add(book::EntryStruck{answer, ""});
    const auto second = journal.add(book::EntryStruck{strike, ""});
    const auto folded = journal.fold();
    EXPECT_EQ(folded.struck, std::vector{answer});
    ASSERT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.not_placed[0].entry, second);
}

TEST(FoldAnswers, WhatTheProtocolNoLongerHasIsKeptAndSaid)
{
    Journal journal = Journal::booked();
    const auto gone = journal.add(said("blood_group", std::string("A")));
    const auto choice = journal.add(said("heart_device", book::NamedChoice{"balloon"}));
    const auto type = journal.add(said("heart_failure", std::string("yes")));
    const auto unit = journal.add(said("weight", book::StatedNumber{180, 180, "lb"}));
    const auto good = journal.add(said("heart_failure", true));
    const auto folded = journal.fold();
    ASSERT_EQ(folded.not_placed.size(), 4U);
    EXPECT_EQ(folded.not_placed[0], (book::NotPlaced{gone, "answer", "blood_group",
                                                     "the protocol has no fact \"blood_group\" any more"}));
    EXPECT_EQ(folded.not_placed[1], (book::NotPlaced{choice, "answer", "heart_device",
                                                     "\"heart_device\" has no choice \"balloon\" any more"}));
    EXPECT_EQ(folded.not_placed[2],
              (book::NotPlaced{type, "answer", "heart_failure",
                               "\"heart_failure\" was answered as text and is yes/no now"}));
    EXPECT_EQ(
        folded.not_placed[3],
        (book::NotPlaced{unit, "answer", "weight", "\"weight\" was written in \"lb\" and is in \"kg\" now"}));
    EXPECT_EQ(reading(folded, "weight").state, FactState::not_asked);
    EXPECT_EQ(folded.answer_entries.at(fact("heart_failure")), std::vector{good});
}

TEST(FoldAnswers, AnEntryNobodyUnderstandsIsNamedAndCounts)
{
    Journal journal = Journal::booked();
    const std::string before = lines_of(journal.fold().file);
    const auto unknown = journal.add_raw(case_id, "weather", 1, "{}");
    const auto newer = journal.add_raw(case_id, "note", 2, "{}");
    const auto broken = journal.add_raw(case_id, "answer", 1, "{\"role\":");
    const auto folded = journal.fold();
    EXPECT_EQ(lines_of(folded.file), before);
    ASSERT_EQ(folded.not_placed.size(), 3U);
    EXPECT_EQ(folded.not_placed[0].entry, unknown);
    EXPECT_EQ(folded.not_placed[0].kind, "weather");
    EXPECT_EQ(folded.not_placed[1].entry, newer);
    EXPECT_EQ(folded.not_placed[2].entry, broken);
    EXPECT_EQ(folded.up_to, broken);
}

TEST(FoldAnswers, MeasuredAndConfirmedAreTheStaffs)
{
    Journal journal = Journal::booked();
    const auto& unit = unit_text(demo_rules().protocol.facts.at(fact("pulse_today")).unit);
    journal.add(book::Measured{"pulse_today", book::StatedNumber{72, 72, std::string(unit)}, "", "Leith"});
    journal.add(book::Measured{"oxygen_today", std::nullopt, "probe broken", ""});
    journal.add(book::ItemConfirmed{"identity", "identity_confirmed", false, "another name"});
    const auto folded = journal.fold();
    EXPECT_TRUE(folded.not_placed.empty());
    const Answer& pulse = answers(folded, "pulse_today").at(0);
    EXPECT_EQ(pulse.strength, Strength::measured);
    EXPECT_EQ(pulse.informant, Informant::staff);
    EXPECT_EQ(pulse.who, "Leith");
    const Answer& oxygen = answers(folded, "oxygen_today").at(0);
    EXPECT_FALSE(oxygen.value);
    EXPECT_EQ(oxygen.why_not_known, WhyNotKnown::could_not_be_measured);
    EXPECT_EQ(std::get<bool>(*answers(folded, "identity_confirmed").at(0).value), false);
}

}  // namespace
}  // namespace foreday::tests
