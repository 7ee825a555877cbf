#include <gtest/gtest.h>

#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;

constexpr const char* clinician = "Dr Teodor Wexcombe";

/// Id of the rule about somebody's own concern.
std::string concern_item(int place)
{
    for (const auto& rule : demo_rules().protocol.findings) {
        if (record_test(rule.when) == RecordHas::What::own_concern) {
            return "finding:" + rule.head.id + ":" + std::to_string(place);
        }
    }
    throw std::runtime_error("the protocol has no rule about somebody's own concern");
}

book::DecidedItem agreed(std::string item)
{
    return {std::move(item), DecisionAnswer::agree, "", std::string(64, 'a'), std::nullopt};
}

const std::vector<Decision>& decisions(const book::FoldedCase& folded)
{
    return folded.file.record.decisions;
}

TEST(FoldDecision, ASignatureIsTheWritersOwn)
{
    Journal journal = Journal::booked();
    journal.by(clinician, Role::endoscopist, "review desk").when("2027-06-11T14:00");
    book::DecidedItem changed{"hold:m1", DecisionAnswer::change, "two days more", "", day("2027-06-09")};
    const auto number = journal.add(book::DecisionSigned{changed, {}});
    const auto folded = journal.fold();
    ASSERT_EQ(decisions(folded).size(), 1U);
    const Decision& decision = decisions(folded)[0];
    EXPECT_EQ(decision.item, "hold:m1");
    EXPECT_EQ(decision.answer, DecisionAnswer::change);
    EXPECT_EQ(decision.words, "two days more");
    EXPECT_EQ(decision.who, clinician);
    EXPECT_EQ(decision.role, Role::endoscopist);
    EXPECT_EQ(decision.manner, DecisionManner::is_signed);
    EXPECT_EQ(decision.when, at("2027-06-11T14:00"));
    EXPECT_FALSE(decision.fingerprint) << "empty is not bound";
    EXPECT_EQ(decision.last_dose, day("2027-06-09"));
    EXPECT_EQ(folded.decision_entries, std::vector{number});
}

TEST(FoldDecision, ASpokenOneIsTheCliniciansAndWaitsForTheirOwnSignature)
{
    Journal journal = Journal::booked();
    const auto spoken = journal.add(book::DecisionSpoken{
        agreed("hold:m1"), {}, clinician, Role::endoscopist, wall("2027-06-10T08:40"), "by phone", true});
    auto folded = journal.fold();
    EXPECT_EQ(decisions(folded).at(0).who, clinician);
    EXPECT_EQ(decisions(folded)[0].role, Role::endoscopist);
    EXPECT_EQ(decisions(folded)[0].manner, DecisionManner::spoken);
    EXPECT_EQ(decisions(folded)[0].when, at("2027-06-10T08:40"));
    EXPECT_EQ(decisions(folded)[0].fingerprint, std::string(64, 'a'));

    journal.by("Dr Somebody Else", Role::endoscopist).add(book::Countersigned{spoken, {}});
    EXPECT_EQ(decisions(journal.fold())[0].manner, DecisionManner::spoken);
    EXPECT_EQ(journal.fold().not_placed.size(), 1U);
    journal.by(clinician, Role::endoscopist).add(book::Countersigned{spoken, {}});
    EXPECT_EQ(decisions(journal.fold())[0].manner, DecisionManner::is_signed);
    EXPECT_EQ(decisions(journal.fold())[0].when, at("2027-06-10T08:40"));
    journal.add(book::Countersigned{spoken, {}});
    journal.add(book::Countersigned{1, {}});
    EXPECT_EQ(journal.fold().not_placed.size(), 3U) << "nothing left to sign, and no decision at all";
}

TEST(FoldDecision, OneFromOutsideNamesWhoGaveIt)
{
    Journal journal = Journal::booked();
    journal.add(book::DecisionFromOutside{agreed("hold:m1"),
                                          {},
                                          "Dr Ida Marsh",
                                          Role::cardiology,
                                          "Heart Clinic Nettlecombe",
                                          "by letter",
                                          wall("2027-06-09T00:00"),
                                          "letter 12"});
    const auto folded = journal.fold();
    EXPECT_EQ(decisions(folded).at(0).who, "Dr Ida Marsh");
    EXPECT_EQ(decisions(folded)[0].role, Role::cardiology);
    EXPECT_EQ(decisions(folded)[0].manner, DecisionManner::from_outside);
    EXPECT_EQ(decisions(folded)[0].when, at("2027-06-09T00:00"));
}

TEST(FoldDecision, AStruckDecisionIsNone)
{
    Journal journal = Journal::booked();
    const auto number = journal.add(book::DecisionSigned{agreed("hold:m1"), {}});
    journal.add(book::EntryStruck{number, ""});
    EXPECT_TRUE(decisions(journal.fold()).empty());
    EXPECT_TRUE(journal.fold().decision_entries.empty());
}

TEST(FoldDecision, ADecisionOnAStruckConcernPassesToNoOther)
{
    Journal journal = Journal::booked();
    const auto first = journal.add(book::ConcernRaised{"looks frail", Level::ask, Topic::heart});
    journal.add(book::ConcernRaised{"smells of alcohol", Level::stop, Topic::brain_and_mind});
    journal.by(clinician, Role::endoscopist).add(book::DecisionSigned{agreed(concern_item(1)), {}});
    journal.add(book::DecisionSigned{agreed(concern_item(2)), {}});
    EXPECT_EQ(decisions(journal.fold()).at(0).item, concern_item(1));
    EXPECT_EQ(decisions(journal.fold()).at(1).item, concern_item(2));

    journal.by("Nurse Ansgar Leith").add(book::EntryStruck{first, "wrong case"});
    auto folded = journal.fold();
    ASSERT_EQ(folded.file.record.concerns.size(), 1U);
    EXPECT_EQ(folded.file.record.concerns[0].words, "smells of alcohol");
    EXPECT_EQ(folded.file.record.concerns[0].level, Level::stop);
    EXPECT_EQ(folded.file.record.concerns[0].who, "Nurse Ansgar Leith");
    ASSERT_EQ(decisions(folded).size(), 1U);
    EXPECT_EQ(decisions(folded)[0].item, concern_item(1)) << "the second is the first now";
    EXPECT_EQ(folded.not_placed.size(), 1U);

    // From now on the places are those of what stands.
    journal.by(clinician, Role::endoscopist).add(book::DecisionSigned{agreed(concern_item(1)), {}});
    journal.add(book::DecisionSigned{agreed(concern_item(2)), {}});
    folded = journal.fold();
    ASSERT_EQ(decisions(folded).size(), 2U);
    EXPECT_EQ(decisions(folded)[1].item, concern_item(1));
    EXPECT_EQ(folded.not_placed.size(), 2U) << "there is no second one any more";
}

TEST(FoldDecision, AClearanceStandsUntilItLapsesAndDoesNotComeBack)
{
    Journal journal = Journal::booked();
    const auto given = journal.by(clinician, Role::endoscopist)
                           .when("2027-06-11T14:00")
                           .add(book::ClearanceGiven{wall("2027-06-17T10:00"), {}, {}});
    auto folded = journal.fold();
    ASSERT_TRUE(folded.file.record.clearance);
    EXPECT_EQ(folded.file.record.clearance->by, clinician);
    EXPECT_EQ(folded.file.record.clearance->role, Role::endoscopist);
    EXPECT_EQ(folded.file.record.clearance->when, at("2027-06-11T14:00"));
    EXPECT_EQ(iso_local(folded.file.record.clearance->for_start), "2027-06-17T10:00");
    EXPECT_EQ(folded.clearance_entry, given);

    journal.add(book::ClearanceLapsed{"a new medicine"});
    folded = journal.fold();
    EXPECT_FALSE(folded.file.record.clearance);
    ASSERT_TRUE(folded.file.clearance_lapsed);
    EXPECT_EQ(folded.file.clearance_lapsed->because, "a new medicine");
    EXPECT_EQ(folded.file.clearance_lapsed->given.by, clinician);
    EXPECT_EQ(folded.clearance_entry, 0);
    journal.add(book::ClearanceLapsed{"twice"});
    EXPECT_EQ(journal.fold().not_placed.size(), 1U);
    journal.add(book::ClearanceGiven{wall("2027-06-17T10:00"), {}, {}});
    EXPECT_TRUE(journal.fold().file.record.clearance);
    EXPECT_FALSE(journal.fold().file.clearance_lapsed);
}

TEST(FoldDecision, WhatWasToldIsKeptHoldByHoldAndWhetherItWasSaidBack)
{
    Journal journal = Journal::booked();
    const auto told = journal.add(
        book::HoldsTold{{{"hold:m1", day("2027-06-11")}, {"hold:m2", std::nullopt}}, "sheet-hash", ""});
    journal.add(book::HoldsTold{{{"hold:m1", day("2027-06-12")}}, "other", ""});
    auto folded = journal.fold();
    ASSERT_EQ(folded.file.record.told.size(), 3U);
    EXPECT_EQ(folded.file.record.told[0].item, "hold:m1");
    EXPECT_EQ(folded.file.record.told[0].last_dose, day("2027-06-11"));
    EXPECT_FALSE(folded.file.record.told[1].last_dose);
    ASSERT_EQ(folded.file.tellings.size(), 2U);
    EXPECT_EQ(folded.file.tellings[0].sheet, "sheet-hash");
    EXPECT_FALSE(folded.file.tellings[0].said_back);
    journal.add(book::SaidBack{told});
    journal.add(book::SaidBack{1});
    folded = journal.fold();
    EXPECT_TRUE(folded.file.tellings[0].said_back);
    EXPECT_FALSE(folded.file.tellings[1].said_back);
    EXPECT_EQ(folded.not_placed.size(), 1U);
}

}  // namespace
}  // namespace foreday::tests
