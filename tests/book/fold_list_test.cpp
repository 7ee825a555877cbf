#include <gtest/gtest.h>

#include "data/book/fold_value.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;

book::MedicineAdded added(std::string id, std::string which)
{
    book::MedicineAdded content{std::move(id), {}};
    content.medicine.medicine = std::move(which);
    content.medicine.dose = "4 mg";
    content.medicine.pattern = Daily{{std::chrono::hours{18}}};
    return content;
}

const MedicineList& list(const book::FoldedCase& folded)
{
    return folded.file.record.medicines;
}

TEST(FoldList, AMedicineIsAddedChangedAndStopped)
{
    Journal journal = Journal::booked();
    const auto first = journal.add(added("m1", "warfarin"));
    journal.add(added("m2", "clopidogrel"));
    auto folded = journal.fold();
    ASSERT_EQ(list(folded).items.size(), 2U);
    EXPECT_EQ(list(folded).items[0].medicine, medicine("warfarin"));
    EXPECT_EQ(list(folded).items[0].at, at("2027-06-10T09:00"));
    EXPECT_EQ(folded.medicine_entries[0], first);

    book::MedicineChanged change{"m1", added("m1", "warfarin").medicine};
    change.medicine.last_dose = Dose{day("2027-06-11"), std::nullopt};
    const auto changed = journal.when("2027-06-12T09:00").add(change);
    folded = journal.fold();
    EXPECT_EQ(list(folded).items[0].last_dose, change.medicine.last_dose);
    EXPECT_EQ(list(folded).items[0].at, at("2027-06-12T09:00"));
    EXPECT_EQ(folded.medicine_entries[0], changed);

    journal.add(book::MedicineStopped{"m1", "years ago"});
    folded = journal.fold();
    ASSERT_EQ(list(folded).items.size(), 1U);
    EXPECT_EQ(list(folded).items[0].id, "m2");
    EXPECT_EQ(folded.medicine_entries.size(), 1U);
    ASSERT_EQ(folded.stopped.size(), 1U);
    EXPECT_EQ(folded.stopped[0].item.id, "m1");
    EXPECT_TRUE(folded.not_placed.empty());
}

TEST(FoldList, AStruckMedicineIsGoneAndAStruckChangeIsTakenBack)
{
    Journal journal = Journal::booked();
    journal.add(added("m1", "warfarin"));
    const std::string before = lines_of(journal.fold().file);
    const auto other = journal.add(added("m2", "clopidogrel"));
    const auto change = journal.add(book::MedicineChanged{"m1", added("", "apixaban").medicine});
    journal.add(book::EntryStruck{other, ""});
    journal.add(book::EntryStruck{change, ""});
    EXPECT_EQ(lines_of(journal.fold().file), before);
}

TEST(FoldList, NoMedicineIsLostWhereTwoHaveOneId)
{
    Journal journal = Journal::booked();
    journal.add(added("m1", "warfarin"));
    const auto second = journal.add(added("m1", "clopidogrel"));
    const auto folded = journal.fold();
    ASSERT_EQ(list(folded).items.size(), 2U);
    EXPECT_EQ(list(folded).items[1].id, "m1." + std::to_string(second));
    EXPECT_EQ(list(folded).items[1].medicine, medicine("clopidogrel"));
    ASSERT_EQ(folded.not_placed.size(), 1U);
    EXPECT_EQ(folded.not_placed[0].about, "m1");
}

TEST(FoldList, AMedicineTheProtocolNoLongerHasStaysAsOneNobodyHasNamed)
{
    Journal journal = Journal::booked();
    journal.add(added("m1", "phenprocoumon_x"));
    const auto folded = journal.fold();
    ASSERT_EQ(list(folded).items.size(), 1U);
    EXPECT_FALSE(list(folded).items[0].medicine);
    EXPECT_EQ(list(folded).items[0].heard, "phenprocoumon_x");
    EXPECT_EQ(folded.not_placed.size(), 1U);
}

TEST(FoldList, ChangesOfWhatIsNotThereAreSaid)
{
    Journal journal = Journal::booked();
    journal.add(book::MedicineChanged{"m9", {}});
    journal.add(book::MedicineStopped{"m9", ""});
    journal.add(book::DoseReallyTaken{"m9", {day("2027-06-11"), std::nullopt}});
    EXPECT_EQ(journal.fold().not_placed.size(), 3U);
    EXPECT_TRUE(list(journal.fold()).items.empty());
}

TEST(FoldList, TwoChangesThatHadNotSeenEachOtherAreSaidAndTheLaterStands)
{
    for (const bool seen : {true, false}) {
        Journal journal = Journal::booked();
        const auto first = journal.add(added("m1", "warfarin"));
        const auto change = journal.add(book::MedicineChanged{"m1", added("", "apixaban").medicine});
        journal.add_seen(seen ? change : first,
                         book::MedicineChanged{"m1", added("", "dabigatran").medicine});
        EXPECT_EQ(journal.fold().not_placed.size(), seen ? 0U : 1U);
        EXPECT_EQ(list(journal.fold()).items.at(0).medicine, medicine("dabigatran"));
    }
}

TEST(FoldList, OnlyAnAnswerClosesTheListAndOneReopensIt)
{
    Journal journal = Journal::booked();
    EXPECT_FALSE(list(journal.fold()).closed);
    journal.add(book::ListClosed{{"anticoagulant"}, Informant::patient, ""});
    ASSERT_TRUE(list(journal.fold()).closed);
    EXPECT_EQ(list(journal.fold()).closed->by, "Nurse Ansgar Leith");
    EXPECT_EQ(list(journal.fold()).closed->at, at("2027-06-10T09:00"));
    const auto reopened = journal.add(book::ListReopened{"something new"});
    EXPECT_FALSE(list(journal.fold()).closed);
    journal.add(book::EntryStruck{reopened, ""});
    EXPECT_TRUE(list(journal.fold()).closed);
}

TEST(FoldList, WhatStoodInAnEarlierCaseComesOverUnconfirmedAndOnlyOfThePerson)
{
    Journal journal = Journal::booked();
    journal.add(said("heart_failure", true));
    auto height = said("height", book::StatedNumber{170, 170, "cm"});
    height.strength = Strength::measured;
    journal.add(height);
    journal.add(weight("84"));                // of the case
    journal.add(said("constipation", true));  // of the case
    journal.add(said("birth_date", DateInterval{day("1961-03-02"), day("1961-03-02")}));
    book::Answered unknown;
    unknown.fact = "stroke_or_tia";
    unknown.why_not_known = WhyNotKnown::does_not_know;
    journal.add(unknown);
    const auto& rules = demo_rules();
    const auto carried =
        book::carry_over(rules.protocol, rules.zone, journal.fold().file, at("2028-01-10T09:00"));
    ASSERT_EQ(carried.size(), 2U);
    EXPECT_EQ(carried[0].fact, std::min(fact("heart_failure"), fact("height")));
    for (const auto& [index, answer] : carried) {
        EXPECT_EQ(answer.origin, Origin::earlier_case);
        EXPECT_EQ(answer.dated, day("2027-06-10"));
        EXPECT_EQ(answer.strength, index == fact("height") ? Strength::dated_document : Strength::said);
    }
}

TEST(FoldList, ACarriedAnswerWarnsAndOneOfThisCaseTakesItsPlace)
{
    Journal earlier = Journal::booked();
    earlier.add(said("heart_failure", true));
    const auto& rules = demo_rules();
    const auto carried =
        book::carry_over(rules.protocol, rules.zone, earlier.fold().file, at("2028-01-10T09:00"));
    ASSERT_EQ(carried.size(), 1U);

    Journal journal = Journal::booked();
    journal.add(book::answered(rules.protocol.facts.at(carried[0].fact), carried[0].answer));
    const auto read = [&] {
        return read_answers(rules.protocol.facts.at(fact("heart_failure")),
                            journal.fold().file.record.answers.at(fact("heart_failure")), rules.zone,
                            at("2027-06-12T09:00"));
    };
    EXPECT_EQ(read().state, FactState::known);
    EXPECT_FALSE(read().confirmed);
    journal.add(said("heart_failure", false));
    EXPECT_EQ(std::get<bool>(read().values.at(0)), false);
    EXPECT_TRUE(read().confirmed);
}

TEST(FoldList, AConflictOfAnEarlierCaseIsCarriedOverAsOne)
{
    Journal earlier = Journal::booked();
    const auto first = earlier.add(said("heart_failure", true));
    earlier.add_seen(first - 1, said("heart_failure", false));
    const auto& rules = demo_rules();
    const auto carried =
        book::carry_over(rules.protocol, rules.zone, earlier.fold().file, at("2028-01-10T09:00"));
    ASSERT_EQ(carried.size(), 2U);
    EXPECT_FALSE(carried[0].answer.unseen);
    EXPECT_TRUE(carried[1].answer.unseen);
}

}  // namespace
}  // namespace foreday::tests
