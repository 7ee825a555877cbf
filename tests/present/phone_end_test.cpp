#include <fmt/format.h>

#include "data/book/verbs_decision.h"
#include "gui/present/follows.h"
#include "tests/present/phone_call.h"

/// What a call ends with, and what is noted beside it.
namespace foreday::tests {
namespace {

using present::PhoneDesk;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::SizeIs;

using PhoneDeskEnd = AtWork;
using PhoneDeskBeside = AtWork;

// --- the end of the call ---

TEST_F(PhoneDeskEnd, ClearsWhereNothingAsks)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    EXPECT_TRUE(says(present::follows(*place.now()), "Nothing stands in its way."));
    ASSERT_TRUE(desk.clear()) << place.notice().words;
    EXPECT_EQ("clearance given", last_entry(id).said.kind);
    EXPECT_TRUE(done(place, {"the case is cleared."}));
    EXPECT_TRUE(says(present::follows(*place.now()), "Given by Nurse Ilse Marrack."));
}

TEST_F(PhoneDeskEnd, DoesNotClearWhereAClinicianDecides)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = last_number();
    EXPECT_FALSE(desk.clear());
    EXPECT_TRUE(refused(place, {"the case cannot be cleared yet; right would be this settled first:",
                                "Warfarin pauses for five days"}));
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_TRUE(says(present::follows(*place.now()), "Lacks "));
}

TEST_F(PhoneDeskEnd, WhatOnlyWaitsForAQuestionIsCountedInOneSentence)
{
    const std::string id = begin_with_a_booking();
    const auto lines = present::follows(*sit(nurse, id).now());
    const auto lacks = [&](std::string_view words) {
        return std::ranges::count_if(
            lines, [&](const checklists::Line& line) { return line.text.find(words) != std::string::npos; });
    };
    EXPECT_EQ(1, lacks("Lacks answers still to be asked: "));
    EXPECT_EQ(1, lacks("Lacks nobody has said that the medicine list is complete."));
    EXPECT_EQ(2, lacks("Lacks "));
}

TEST_F(PhoneDeskEnd, DoesNotClearWhileTheListIsOpenAndSaysSo)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    person().will({Writes{"something for the heart"}});
    ASSERT_TRUE(desk.reopen_list());
    const auto before = last_number();
    EXPECT_FALSE(desk.clear());
    EXPECT_EQ(present::Notice::Kind::refused, place.notice().kind);
    EXPECT_TRUE(
        says(present::follows(*place.now()), "Lacks nobody has said that the medicine list is complete."));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(PhoneDeskEnd, TellsTheSheetThatIsShown)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_TRUE(desk.clear());
    EXPECT_FALSE(desk.sheet_is_draft());
    EXPECT_TRUE(says(desk.sheet(), "Marit Oldenshaw"));
    const std::string shown = book::sheet_hash(*place.now());
    ASSERT_TRUE(desk.tell()) << place.notice().words;
    const auto told = last<book::HoldsTold>(id);
    EXPECT_EQ(shown, told.sheet);
    EXPECT_EQ("read out by phone", told.words);
    EXPECT_THAT(store().document(told.sheet).value(), HasSubstr(desk.sheet().front().text));

    ASSERT_TRUE(desk.record_said_back());
    EXPECT_EQ(last_number() - 1, last<book::SaidBack>(id).entry);
    EXPECT_FALSE(desk.record_said_back());
    EXPECT_TRUE(refused(place, {"it was said back already"}));
}

TEST_F(PhoneDeskEnd, DoesNotTellASheetThatSaysSomethingElseByNow)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id, 0);
    PhoneDesk desk(place);
    const auto before_other = desk.sheet();
    Workplace& other = sit(second_nurse, id, 1);
    ASSERT_TRUE(PhoneDesk(other).add_medicine(daily("clopidogrel")));
    const auto before = last_number();
    EXPECT_FALSE(desk.tell());
    EXPECT_TRUE(refused(place, {"the sheet says something else than when it was shown"}));
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_NE(before_other, desk.sheet()) << "it is read again";
}

TEST_F(PhoneDeskEnd, NothingIsSaidBackBeforeItWasTold)
{
    Workplace& place = sit(nurse, begin_with("nothing_to_ask.yaml"));
    PhoneDesk desk(place);
    const auto before = last_number();
    EXPECT_FALSE(desk.record_said_back());
    EXPECT_TRUE(refused(place, {"The patient has not been told anything yet."}));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(PhoneDeskEnd, ASheetWithSomethingOpenIsADraft)
{
    PhoneDesk desk(sit(nurse, begin_with("warfarin_no_valve.yaml")));
    EXPECT_TRUE(desk.sheet_is_draft());
}

TEST_F(PhoneDeskEnd, HandsTheCaseToTheReviewDeskOrAClinician)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    person().will({Picks{"review desk"}});
    ASSERT_TRUE(desk.hand_to_review());
    EXPECT_THAT(person().offered(), ElementsAre("review desk", "Dr Teodor Wexcombe", "Dr Imke Sandvoort"));
    EXPECT_EQ("review desk", last<book::HandedOver>(id).to);
    EXPECT_EQ("review desk", place.now()->file().who_has_it);
    person().will({Picks{"Dr Teodor"}});
    ASSERT_TRUE(desk.hand_to_review());
    EXPECT_EQ("Dr Teodor Wexcombe", last<book::HandedOver>(id).to);
    EXPECT_TRUE(done(place, {"the case is with: Dr Teodor Wexcombe."}));
}

// --- beside the call ---

TEST_F(PhoneDeskBeside, AConcernWaitsForAClinician)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    person().will({Writes{"sounds confused, not as in April"}, Picks{"do not go ahead"}});
    ASSERT_TRUE(desk.raise_concern());
    EXPECT_THAT(person().offered(), ElementsAre("a clinician decides", "do not go ahead"));
    const auto concern = last<book::ConcernRaised>(id);
    EXPECT_EQ("sounds confused, not as in April", concern.words);
    EXPECT_EQ(screening::Level::stop, concern.level);
    EXPECT_TRUE(says(present::follows(*place.now()), "sounds confused, not as in April"));
    EXPECT_FALSE(desk.clear());
}

TEST_F(PhoneDeskBeside, ANoteIsWrittenAndNothingElseChanges)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = present::follows(*place.now());
    person().will({Writes{"hard of hearing, ring twice"}});
    ASSERT_TRUE(desk.note());
    EXPECT_EQ("hard of hearing, ring twice", last<book::NoteMade>(id).words);
    EXPECT_EQ(before, present::follows(*place.now()));
}

TEST_F(PhoneDeskBeside, AnOutsideAskIsSentAndAnswered)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    EXPECT_FALSE(desk.record_outside_answer());
    EXPECT_TRUE(refused(place, {"No ask is out without an answer."}));

    person().will({Picks{""}, Writes{"May warfarin pause for five days?"}, Writes{"Dr Moss, by fax"},
                   Writes{"12 Apr 2027"}});
    ASSERT_TRUE(desk.ask_outside()) << place.notice().words;
    const auto sent = last<book::OutsideAskSent>(id);
    EXPECT_EQ("hold:m1", sent.item);
    EXPECT_EQ("May warfarin pause for five days?", sent.what);
    EXPECT_EQ("Dr Moss, by fax", sent.whom);
    EXPECT_EQ(day("2027-04-12"), sent.reply_by);

    person().will(
        {Picks{"something else"}, Writes{"the last INR"}, Writes{"laboratory"}, Writes{"2027-04-13"}});
    ASSERT_TRUE(desk.ask_outside());
    EXPECT_EQ("", last<book::OutsideAskSent>(id).item);
    EXPECT_NE(sent.id, last<book::OutsideAskSent>(id).id);

    person().will({Picks{"the last INR, of laboratory"}, Writes{"2.4 on 1 April"}});
    ASSERT_TRUE(desk.record_outside_answer());
    EXPECT_THAT(person().offered(), SizeIs(2));
    EXPECT_EQ("2.4 on 1 April", last<book::OutsideAskAnswered>(id).answer);
    person().will({Picks{"May warfarin pause"}, Writes{"yes, without bridging"}});
    ASSERT_TRUE(desk.record_outside_answer());
    EXPECT_THAT(person().offered(), SizeIs(1)) << "one that was answered is not offered again";
    EXPECT_EQ(sent.id, last<book::OutsideAskAnswered>(id).id);
    EXPECT_FALSE(desk.record_outside_answer());
}

TEST_F(PhoneDeskBeside, AnOutsideAskNeedsADayForItsReply)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = last_number();
    for (const char* no_day : {"soon", "April 2027", "30 February 2027", "2027-04-12 09:00"}) {
        SCOPED_TRACE(no_day);
        person().will({Picks{""}, Writes{"May it pause?"}, Writes{"Dr Moss"}, Writes{no_day}});
        EXPECT_FALSE(desk.ask_outside());
        EXPECT_TRUE(refused(place, {"Not written: the day of the reply is not clear"}));
    }
    EXPECT_TRUE(nothing_written_since(before));
}

/// Today is 8 April 2027.
TEST_F(PhoneDeskBeside, AnOutsideAskIsNotAnsweredBeforeItIsSent)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    for (const auto& [typed, stands] : std::vector<std::pair<const char*, bool>>{
             {"2027-04-07", false}, {"2026-04-12", false}, {"2027-04-08", true}, {"2027-04-09", true}}) {
        SCOPED_TRACE(typed);
        Workplace& place = sit(nurse, id);
        const auto before = last_number();
        person().will({Picks{""}, Writes{"May it pause?"}, Writes{"Dr Moss"}, Writes{typed}});
        EXPECT_EQ(stands, PhoneDesk(place).ask_outside()) << place.notice().words;
        EXPECT_TRUE(stands || refused(place, {"the day of the reply is over", "today or a later day"}));
        EXPECT_EQ(stands ? before + 1 : before, last_number());
    }
}

TEST_F(PhoneDeskBeside, ASpokenDecisionIsInEffectAtOnceAndWaitsForItsSignature)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const std::string shown = book::shown_items(*place.now()).at("hold:m1");
    person().will({Picks{""}, Writes{"Dr Teodor Wexcombe"}, Picks{"endoscopist"}, Picks{"agree"},
                   Writes{"five days, no bridging"}, LeavesAsItStands{}, Agrees{}});
    ASSERT_TRUE(desk.record_spoken_decision()) << place.notice().words;
    EXPECT_EQ("Read it back: \"five days, no bridging\". Did Dr Teodor Wexcombe confirm it?",
              person().asked().back());
    const auto spoken = last<book::DecisionSpoken>(id);
    EXPECT_EQ("hold:m1", spoken.decided.item);
    EXPECT_EQ(screening::DecisionAnswer::agree, spoken.decided.answer);
    EXPECT_EQ("five days, no bridging", spoken.decided.words);
    EXPECT_EQ(shown, spoken.decided.fingerprint);
    EXPECT_EQ("Dr Teodor Wexcombe", spoken.clinician);
    EXPECT_EQ("by phone", spoken.how);
    EXPECT_TRUE(spoken.read_back);
    EXPECT_EQ(nurse.who, last_entry(id).said.who);
    EXPECT_TRUE(says(present::follows(*place.now()), "warfarin: no dose on the 5 days before"));
    EXPECT_FALSE(says(present::follows(*place.now()), "Not agreed"));
    EXPECT_TRUE(done(place, {"the spoken decision is in effect, and waits for the signature."}));
}

TEST_F(PhoneDeskBeside, ADecisionThatWasNotReadBackIsNone)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = last_number();
    person().will({Picks{""}, Writes{"Dr Teodor Wexcombe"}, Picks{"endoscopist"}, Picks{"agree"},
                   Writes{"five days"}, LeavesAsItStands{}, GivesUp{}});
    EXPECT_FALSE(desk.record_spoken_decision());
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_TRUE(says(present::follows(*place.now()), "Not agreed"));
}

TEST_F(PhoneDeskBeside, NoDecisionIsSpokenWhereNothingWaitsForOne)
{
    Workplace& place = sit(nurse, begin_with("nothing_to_ask.yaml"));
    EXPECT_FALSE(PhoneDesk(place).record_spoken_decision());
    EXPECT_TRUE(refused(place, {"Nothing waits for a decision."}));
}

}  // namespace
}  // namespace foreday::tests
