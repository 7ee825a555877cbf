#include "gui/present/phone_desk.h"

#include <fmt/format.h>

#include "gui/present/follows.h"
#include "tests/present/phone_call.h"

/// The nurse at the phone. What is done is compared with what the journal has of it.
namespace foreday::tests {
namespace {

using checklists::TryOutcome;
using present::PhoneDesk;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::SizeIs;
using ::testing::StartsWith;

using PhoneDeskAnswers = AtWork;
using PhoneDeskCalls = AtWork;

// --- the call ---

TEST_F(PhoneDeskCalls, AreSaidWithTheirReasonAndTheTriesSoFar)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_THAT(desk.calls(), SizeIs(1));
    EXPECT_THAT(desk.calls().front(),
                StartsWith("Nobody has screened this patient yet. Useful until Wed 16 Jun 2027, 13:00."));
    EXPECT_THAT(desk.calls().front(), ::testing::Not(HasSubstr("Tries")));

    ASSERT_TRUE(desk.record_try(TryOutcome::no_answer));
    EXPECT_TRUE(done(place, {"09:00", "the try is in the book: no answer."}));
    EXPECT_THAT(desk.calls().front(), EndsWith(" Tries: 1."));
    const auto tried = last<book::TryMade>(id);
    EXPECT_EQ("first call", tried.call);
    EXPECT_EQ(TryOutcome::no_answer, tried.outcome);
    ASSERT_TRUE(desk.record_try(TryOutcome::message_left));
    EXPECT_THAT(desk.calls().front(), EndsWith(" Tries: 2."));
}

TEST_F(PhoneDeskCalls, ThePatientRingsInAndTheReasonIsKept)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    person().will({Writes{"asks whether coffee is allowed"}});
    ASSERT_TRUE(desk.record_rang_in());
    EXPECT_EQ("asks whether coffee is allowed", last<book::PatientRangIn>(id).words);
}

TEST_F(PhoneDeskCalls, EndForAnEmergencyWithTheWordsToSayFirst)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    person().will({Writes{"chest pain since an hour, rings off to dial"}});
    ASSERT_TRUE(desk.end_for_emergency());
    EXPECT_THAT(person().asked().front(), StartsWith("Say first: hang up and dial the emergency number."));
    EXPECT_TRUE(done(place, {"the call was ended for an emergency."}));
    const auto ended = last<book::CallEndedForEmergency>(id);
    EXPECT_EQ("chest pain since an hour, rings off to dial", ended.words);
    EXPECT_EQ("first call", ended.call);
}

/// What is said at once stands before everything else that follows.
TEST_F(PhoneDeskCalls, ChestPainNowIsSaidBeforeAnythingElse)
{
    Workplace& place = sit(nurse, begin_with_a_booking());
    PhoneDesk desk(place);
    EXPECT_FALSE(says(present::follows(*place.now()), "Now, while the patient is on the line"));
    ASSERT_TRUE(desk.answer_yes_no(fact("chest_pain_now"), true));
    const auto lines = present::follows(*place.now());
    ASSERT_GE(lines.size(), 2U);
    EXPECT_EQ("Now, while the patient is on the line", lines[0].text);
    EXPECT_THAT(lines[1].text, HasSubstr("emergency number"));
}

// --- the interview ---

TEST_F(PhoneDeskAnswers, ArriveInTheJournalWithInformantInterpreterAndWords)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    desk.set_said_by({screening::Informant::care_home, "Nurse Odile Wren", "line 7"});
    ASSERT_TRUE(desk.answer_typed(fact("weight"), "70,5"));
    EXPECT_TRUE(done(place, {"09:00: the answer is in the book. How much do you weigh?"}));
    const auto said = last<book::Answered>(id);
    EXPECT_EQ("weight", said.fact);
    EXPECT_EQ((book::StatedNumber{screening::Exact::parse("70.5").value(),
                                  screening::Exact::parse("70.5").value(), "kg"}),
              std::get<book::StatedNumber>(said.value.value()));
    EXPECT_EQ("70,5", said.words);
    EXPECT_EQ(screening::Informant::care_home, said.informant);
    EXPECT_EQ("Nurse Odile Wren", said.who);
    EXPECT_EQ("line 7", said.interpreter);
    EXPECT_EQ(screening::Strength::said, said.strength);
    const auto entry = last_entry(id).said;
    EXPECT_EQ(nurse.who, entry.who);
    EXPECT_EQ("phone desk", entry.desk);
    EXPECT_EQ(at("2027-06-07T09:00"), entry.at);
}

TEST_F(PhoneDeskAnswers, OfALetterAreStrongerThanWhatIsSaid)
{
    const std::string id = begin_with_a_booking();
    PhoneDesk desk(sit(nurse, id));
    desk.set_said_by({screening::Informant::letter, "laboratory letter", ""});
    ASSERT_TRUE(desk.answer_typed(fact("creatinine"), "0.9"));
    EXPECT_EQ(screening::Strength::dated_document, last<book::Answered>(id).strength);
}

TEST_F(PhoneDeskAnswers, ToWhatOnlyTheUnitKnowsAreNeverSaidByThePatient)
{
    const std::string id = begin_with_a_booking();
    PhoneDesk desk(sit(nurse, id));
    desk.set_said_by({screening::Informant::relative, "a son", ""});
    ASSERT_TRUE(desk.answer_yes_no(fact("diagnostic_only"), true));
    EXPECT_EQ(screening::Informant::staff, last<book::Answered>(id).informant);
    EXPECT_EQ("", last<book::Answered>(id).who);
    ASSERT_TRUE(desk.answer_typed(fact("creatinine"), "0.9 mg/dL"));
    EXPECT_EQ(screening::Informant::letter, last<book::Answered>(id).informant);
    EXPECT_EQ(screening::Strength::dated_document, last<book::Answered>(id).strength);
    ASSERT_TRUE(desk.answer_yes_no(fact("seizures"), false));
    EXPECT_EQ(screening::Informant::relative, last<book::Answered>(id).informant);
}

TEST_F(PhoneDeskAnswers, OfTheNextPatientAreNotSaidByTheRelativeOfTheLast)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    const std::string next = book_orla_finch(place.book());
    PhoneDesk desk(place);
    desk.set_said_by({screening::Informant::relative, "a son", ""});
    ASSERT_TRUE(desk.answer_yes_no(fact("seizures"), false));
    EXPECT_EQ(screening::Informant::relative, last<book::Answered>(id).informant);
    place.open(next);
    EXPECT_EQ(screening::Informant::patient, desk.said_by().informant);
    ASSERT_TRUE(desk.answer_yes_no(fact("seizures"), false));
    EXPECT_EQ(screening::Informant::patient, last<book::Answered>(next).informant);
    EXPECT_EQ("", last<book::Answered>(next).who);
}

TEST_F(PhoneDeskAnswers, NotKnownAskWhy)
{
    const std::vector<std::pair<const char*, screening::WhyNotKnown>> reasons{
        {"does not know", screening::WhyNotKnown::does_not_know},
        {"would not say", screening::WhyNotKnown::would_not_say},
        {"could not be measured", screening::WhyNotKnown::could_not_be_measured}};
    for (const auto& [words, why] : reasons) {
        SCOPED_TRACE(words);
        const std::string id = begin_with_a_booking();
        PhoneDesk desk(sit(nurse, id));
        person().will({Picks{words}});
        ASSERT_TRUE(desk.answer_not_known(fact("weight")));
        EXPECT_THAT(person().asked(), ElementsAre("How much do you weigh? Why is it not known?"));
        const auto said = last<book::Answered>(id);
        EXPECT_FALSE(said.value);
        EXPECT_EQ(why, said.why_not_known);
    }
}

TEST_F(PhoneDeskAnswers, ThatCannotBeRightAreNotWrittenAndItIsSaidWhy)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = last_number();
    struct Row {
        const char* fact;
        std::string typed;
        std::vector<std::string> words;
    };
    for (const Row& row : std::vector<Row>{
             {"weight", "", {"How much do you weigh? Not written: nothing was typed", "not known"}},
             {"weight", "abc", {"\"abc\" does not begin with a number"}},
             {"weight", "24.9", {"\"24.9\" cannot be right; right would be from 25 to 400 kg."}},
             {"weight", "400.1", {"from 25 to 400 kg"}},
             {"weight", "84 stone", {"\"stone\" is not a unit we know", "a number in kg or lb"}},
             {"weight", std::string(10000, '8'), {"Not written"}},
             {"creatinine", "80", {"from 0.2 to 20 mg/dL creatinine"}},
             {"birth_date", "30 February 1961", {"is no date of the calendar", "3 Nov 2026"}},
             {"birth_date", "2028-01-01", {"is still to come"}},
             {"heart_attack", "perhaps", {"is neither yes nor no; right would be yes or no."}},
             {"heart_device", "magnet", {"one of: none, pacemaker, defibrillator"}},
         }) {
        SCOPED_TRACE(std::string(row.fact) + ": " + row.typed.substr(0, 40));
        EXPECT_FALSE(desk.answer_typed(fact(row.fact), row.typed));
        EXPECT_TRUE(refused(place, row.words));
        EXPECT_TRUE(nothing_written_since(before));
    }
    EXPECT_TRUE(desk.answer_typed(fact("weight"), "25"));
    EXPECT_TRUE(desk.answer_typed(fact("weight"), "400"));
}

TEST_F(PhoneDeskAnswers, AreNoClerksToWrite)
{
    Workplace& place = sit(clerk, begin_with_a_booking());
    PhoneDesk desk(place);
    const auto before = last_number();
    EXPECT_FALSE(desk.answer_yes_no(fact("heart_attack"), true));
    EXPECT_TRUE(refused(
        place, {"Jonas Quill is signed in as arrival clerk, who may not record an answer", "one of: nurse"}));
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_EQ("Not asked yet.", stands(desk, "heart_attack"));
}

/// Whatever is asked, somebody may give up at it: then nothing is in the book, at whichever question.
TEST_F(PhoneDeskAnswers, GivenUpWriteNothing)
{
    struct Row {
        const char* what;
        std::vector<Reply> replies;  ///< that would carry it through
        std::function<bool(PhoneDesk&)> act;
    };
    const std::vector<Row> rows{
        {"not known",
         {Picks{"does not know"}},
         [](PhoneDesk& desk) { return desk.answer_not_known(fact("weight")); }},
        {"stop a medicine",
         {Writes{"never took it"}},
         [](PhoneDesk& desk) { return desk.stop_medicine("m1"); }},
        {"reopen the list", {Writes{"a new one"}}, [](PhoneDesk& desk) { return desk.reopen_list(); }},
        {"rang in", {Writes{"asks"}}, [](PhoneDesk& desk) { return desk.record_rang_in(); }},
        {"emergency", {Writes{"pain"}}, [](PhoneDesk& desk) { return desk.end_for_emergency(); }},
        {"hand over", {Picks{"review desk"}}, [](PhoneDesk& desk) { return desk.hand_to_review(); }},
        {"note", {Writes{"hard of hearing"}}, [](PhoneDesk& desk) { return desk.note(); }},
        {"concern",
         {Writes{"sounds confused"}, Picks{"do not go ahead"}},
         [](PhoneDesk& desk) { return desk.raise_concern(); }},
        {"ask outside",
         {Picks{"something else"}, Writes{"last INR"}, Writes{"Dr Moss, by fax"}, Writes{"2027-04-12"}},
         [](PhoneDesk& desk) { return desk.ask_outside(); }},
        {"spoken decision",
         {Picks{""}, Writes{"Dr Teodor Wexcombe"}, Picks{"endoscopist"}, Picks{"agree"}, Writes{"five days"},
          LeavesAsItStands{}, Agrees{}},
         [](PhoneDesk& desk) { return desk.record_spoken_decision(); }},
    };
    const std::string id = begin_with("warfarin_no_valve.yaml");
    for (const Row& row : rows) {
        for (std::size_t given = 0; given < row.replies.size(); ++given) {
            SCOPED_TRACE(fmt::format("{}, given up at question {}", row.what, given + 1));
            begin_with("warfarin_no_valve.yaml");
            PhoneDesk desk(sit(nurse, id));
            const auto before = last_number();
            std::vector<Reply> replies(row.replies.begin(),
                                       row.replies.begin() + static_cast<std::ptrdiff_t>(given));
            replies.emplace_back(GivesUp{});
            person().will(replies);
            EXPECT_FALSE(row.act(desk));
            EXPECT_EQ(given + 1, person().asked().size());
            EXPECT_TRUE(nothing_written_since(before));
        }
        SCOPED_TRACE(row.what);
        begin_with("warfarin_no_valve.yaml");
        Workplace& place = sit(nurse, id);
        PhoneDesk desk(place);
        const auto before = last_number();
        person().will(row.replies);
        EXPECT_TRUE(row.act(desk)) << place.notice().words;
        EXPECT_EQ(before + 1, last_number());
        EXPECT_THAT(place.notice().words, StartsWith("11:00: "));
    }
}

}  // namespace
}  // namespace foreday::tests
