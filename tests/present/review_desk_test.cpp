#include "gui/present/review_desk.h"

#include <fmt/format.h>

#include "data/book/verbs_booking.h"
#include "data/book/verbs_decision.h"
#include "tests/present/phone_call.h"

/// The physician at the page. Nothing chosen is in the book before it is signed.
namespace foreday::tests {
namespace {

using present::DecisionView;
using present::Notice;
using present::PhoneDesk;
using present::ReviewDesk;
using present::Workplace;
using screening::DecisionAnswer;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using ::testing::StartsWith;

const book::Writer anaesthetist{"Dr Pavel Oriane", screening::Role::anaesthesia, "review desk"};

using Review = AtWork;
using ReviewSigning = AtWork;
using ReviewLater = AtWork;

DecisionView view_of(ReviewDesk& desk, const std::string& id)
{
    for (const DecisionView& view : desk.to_decide()) {
        if (view.id == id) {
            return view;
        }
    }
    ADD_FAILURE() << id << " is not to be decided";
    return {};
}

std::vector<std::string> ids_of(ReviewDesk& desk)
{
    std::vector<std::string> ids;
    for (const DecisionView& view : desk.to_decide()) {
        ids.push_back(view.id);
    }
    return ids;
}

/// A nurse at the other workplace writes that clopidogrel is taken too.
void nurse_adds_clopidogrel(Workplace& other)
{
    ASSERT_TRUE(PhoneDesk(other).add_medicine(daily("clopidogrel"))) << other.notice().words;
}

TEST_F(Review, ShowsWhatIsToBeDecidedByWhomAndBecauseOfWhat)
{
    Workplace& place = sit(physician, begin_with("warfarin_no_valve.yaml"));
    ReviewDesk desk(place);
    ASSERT_THAT(ids_of(desk), ElementsAre("hold:m1"));
    const auto view = view_of(desk, "hold:m1");
    EXPECT_EQ(
        "warfarin: Warfarin pauses for five days before a procedure of high bleeding risk (a clinician "
        "decides)",
        view.title);
    EXPECT_EQ("Endoscopist decides, by Fri 16 Apr 2027, 12:30.", view.by);
    EXPECT_THAT(view.ground, HasSubstr("Proposed: no dose on the 5 days before"));
    EXPECT_THAT(view.ground, HasSubstr("last dose Fri 16 Apr 2027, 18:00."));
    EXPECT_EQ("", view.chosen);
    EXPECT_TRUE(view.mine);
    EXPECT_TRUE(says(desk.page(), "Petra Innisford"));
    EXPECT_TRUE(says(desk.page(), "Warfarin pauses for five days"));
    EXPECT_EQ("1 to decide on this page.", desk.unsigned_in_words());
    EXPECT_THAT(desk.changed_since_signed(), IsEmpty());
}

TEST_F(Review, KeepsWhatIsChosenOutOfTheBookUntilItIsSigned)
{
    const std::string id = begin_with("recent_stent.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    const auto before = last_number();
    EXPECT_EQ("3 to decide on this page.", desk.unsigned_in_words());
    ASSERT_TRUE(desk.agree("finding:stent_in_window"));
    EXPECT_EQ("Chosen, not signed: agreed.", view_of(desk, "finding:stent_in_window").chosen);
    EXPECT_EQ("", view_of(desk, "hold:m1").chosen);
    EXPECT_EQ("1 of 3 chosen; nothing of it is in the book before it is signed.", desk.unsigned_in_words());
    person().will({Writes{"the cardiologist of the stent"}});
    ASSERT_TRUE(desk.ask_outside("finding:stent_in_window"));
    EXPECT_EQ("1 of 3 chosen; nothing of it is in the book before it is signed.", desk.unsigned_in_words())
        << "the second choice on one item takes the place of the first";
    desk.take_back("finding:stent_in_window");
    EXPECT_EQ("3 to decide on this page.", desk.unsigned_in_words());
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_FALSE(desk.sign());
    EXPECT_TRUE(refused(place, {"nothing is decided", "at least one decision, or a clearance"}));
    EXPECT_TRUE(nothing_written_since(before));
}

/// Each of the four answers, with what is asked for it; given up at each question, nothing is chosen.
TEST_F(Review, AsksForTheReasonWhereOneIsNeeded)
{
    struct Row {
        const char* what;
        bool (ReviewDesk::*choose)(const std::string&);
        std::vector<Reply> replies;
        const char* chosen;
        DecisionAnswer answer;
        const char* words;
        const char* last_dose;
    };
    const std::vector<Row> rows{
        {"agree", &ReviewDesk::agree, {}, "Chosen, not signed: agreed.", DecisionAnswer::agree, "", ""},
        {"change",
         &ReviewDesk::change,
         {Writes{"four days will do"}, Writes{"17 Apr 2027"}},
         "Chosen, not signed: changed, last dose Sat 17 Apr 2027, \"four days will do\".",
         DecisionAnswer::change,
         "four days will do",
         "2027-04-17"},
        {"change without a day",
         &ReviewDesk::change,
         {Writes{"goes on, we look only"}, LeavesAsItStands{}},
         "Chosen, not signed: changed, \"goes on, we look only\".",
         DecisionAnswer::change,
         "goes on, we look only",
         ""},
        {"ask outside",
         &ReviewDesk::ask_outside,
         {Writes{"Dr Moss: may it pause?"}},
         "Chosen, not signed: asked outside first, \"Dr Moss: may it pause?\".",
         DecisionAnswer::ask_outside,
         "Dr Moss: may it pause?",
         ""},
        {"not go ahead",
         &ReviewDesk::not_go_ahead,
         {Writes{"too early after the stroke"}},
         "Chosen, not signed: not to go ahead, \"too early after the stroke\".",
         DecisionAnswer::not_go_ahead,
         "too early after the stroke",
         ""},
    };
    const std::string id = begin_with("warfarin_no_valve.yaml");
    for (const Row& row : rows) {
        SCOPED_TRACE(row.what);
        begin_with("warfarin_no_valve.yaml");
        Workplace& place = sit(physician, id);
        const auto before = last_number();
        for (std::size_t given = 0; given < row.replies.size(); ++given) {
            ReviewDesk desk(place);
            std::vector<Reply> replies(row.replies.begin(),
                                       row.replies.begin() + static_cast<std::ptrdiff_t>(given));
            replies.emplace_back(GivesUp{});
            person().will(replies);
            EXPECT_FALSE((desk.*row.choose)("hold:m1"));
            EXPECT_EQ("", view_of(desk, "hold:m1").chosen) << "given up at question " << given + 1;
        }
        ReviewDesk desk(place);
        person().will(row.replies);
        ASSERT_TRUE((desk.*row.choose)("hold:m1"));
        EXPECT_EQ(row.chosen, view_of(desk, "hold:m1").chosen);
        EXPECT_TRUE(nothing_written_since(before));
        const std::string shown = book::shown_items(*place.now()).at("hold:m1");

        ASSERT_TRUE(desk.sign()) << place.notice().words;
        EXPECT_TRUE(done(place, {"11:00: signed."}));
        const auto decided = last<book::DecisionSigned>(id);
        EXPECT_EQ("hold:m1", decided.decided.item);
        EXPECT_EQ(row.answer, decided.decided.answer);
        EXPECT_EQ(row.words, decided.decided.words);
        EXPECT_EQ(row.last_dose, decided.decided.last_dose ? screening::iso_date(*decided.decided.last_dose)
                                                           : std::string());
        EXPECT_EQ(shown, decided.decided.fingerprint);
        EXPECT_THAT(store().document(decided.shown.page).value(), HasSubstr("Petra Innisford"));
        EXPECT_EQ(physician.who, last_entry(id).said.who);
        EXPECT_EQ("review desk", last_entry(id).said.desk);
    }
}

TEST_F(Review, TakesOnlyADayOfTheCalendarForTheLastDose)
{
    Workplace& place = sit(physician, begin_with("warfarin_no_valve.yaml"));
    ReviewDesk desk(place);
    for (const char* typed :
         {"tomorrow", "April 2027", "30 February 2027", "2027", "2027-04-16 18:00", "-1"}) {
        SCOPED_TRACE(typed);
        person().will({Writes{"four days will do"}, Writes{typed}});
        EXPECT_FALSE(desk.change("hold:m1"));
        EXPECT_TRUE(
            refused(place, {fmt::format("Not chosen: \"{}\" is no day", typed), "such as 2026-11-03"}));
        EXPECT_EQ("", view_of(desk, "hold:m1").chosen);
    }
}

/// The session is on 22 April 2027.
TEST_F(Review, TakesNoLastDoseAfterTheSession)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    for (const auto& [typed, stands] : std::vector<std::pair<const char*, bool>>{
             {"2027-04-21", true}, {"2027-04-22", true}, {"2027-04-23", false}, {"2028-04-16", false}}) {
        SCOPED_TRACE(typed);
        Workplace& place = sit(physician, id);
        ReviewDesk desk(place);
        person().will({Writes{"as written"}, Writes{typed}});
        EXPECT_EQ(stands, desk.change("hold:m1"));
        EXPECT_TRUE(stands || refused(place, {"Not chosen: ", " is after the session"}));
    }
}

TEST_F(Review, LetsAStopGoAheadOnlyWithAReason)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& phone = sit(nurse, id, 1);
    person(1).will({Writes{"sounds confused"}, Picks{"do not go ahead"}});
    ASSERT_TRUE(PhoneDesk(phone).raise_concern());
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    const auto ids = ids_of(desk);
    const auto concern =
        std::ranges::find_if(ids, [](const auto& one) { return one.starts_with("finding:own_"); });
    ASSERT_NE(ids.end(), concern);
    EXPECT_THAT(view_of(desk, *concern).title, HasSubstr("(do not go ahead)"));
    person().will({GivesUp{}});
    EXPECT_FALSE(desk.agree(*concern));
    EXPECT_EQ("", view_of(desk, *concern).chosen);
    person().will({Writes{"known, her son is with her"}});
    ASSERT_TRUE(desk.agree(*concern));
    EXPECT_THAT(person().asked(), ElementsAre("Why may it go ahead all the same?"));
    ASSERT_TRUE(desk.sign()) << place.notice().words;
    EXPECT_EQ("known, her son is with her", last<book::DecisionSigned>(id).decided.words);
}

TEST_F(Review, StatesThePreparationInWordsWhereNonePlanFits)
{
    const std::string id = begin_with("heart_failure_wrong_preparation.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    ASSERT_THAT(ids_of(desk), SizeIs(2));
    EXPECT_THAT(view_of(desk, "preparation").title, StartsWith("The preparation: "));
    person().will({GivesUp{}});
    EXPECT_FALSE(desk.agree("preparation"));
    person().will({Writes{"4 litres of PEG, in two halves"}});
    ASSERT_TRUE(desk.agree("preparation"));
    EXPECT_THAT(person().asked(), ElementsAre("The plan of preparation, in words for the patient"));
    ASSERT_TRUE(desk.agree("preparation:sulfate_solution_split:sulfate_heart_failure"));
    ASSERT_TRUE(desk.sign()) << place.notice().words;
    EXPECT_THAT(ids_of(desk), IsEmpty());
    EXPECT_EQ("Nothing is left to decide.", desk.unsigned_in_words());
    EXPECT_EQ("4 litres of PEG, in two halves", place.now()->whole.preparation.stated.substr(
                                                    place.now()->whole.preparation.stated.find("4 litres")));
}

TEST_F(Review, SaysWhoseItIsAndRefusesThoseWhoMayNot)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    const auto before = last_number();
    Workplace& place = sit(anaesthetist, id);
    ReviewDesk desk(place);
    EXPECT_FALSE(view_of(desk, "hold:m1").mine);
    ASSERT_TRUE(desk.agree("hold:m1"));
    EXPECT_FALSE(desk.sign());
    EXPECT_TRUE(refused(place, {"Dr Pavel Oriane as anaesthesia may not decide on \"Warfarin pauses",
                                "one of: endoscopist"}));
    EXPECT_TRUE(nothing_written_since(before));

    Workplace& phone = sit(nurse, id);
    ReviewDesk nurses(phone);
    EXPECT_FALSE(view_of(nurses, "hold:m1").mine);
    ASSERT_TRUE(nurses.agree("hold:m1"));
    EXPECT_FALSE(nurses.sign());
    EXPECT_TRUE(refused(phone, {"signed in as nurse, who may not sign a decision"}));
    EXPECT_TRUE(nothing_written_since(before));
}

// --- signing ---

TEST_F(ReviewSigning, ClearsInTheSameActWhenNothingIsLeft)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    const auto before = last_number();
    ASSERT_TRUE(desk.agree("hold:m1"));
    ASSERT_TRUE(desk.sign_and_clear()) << place.notice().words;
    EXPECT_TRUE(done(place, {"signed, and the case is cleared."}));
    EXPECT_THAT(kinds_of(id, before), ElementsAre("decision signed", "clearance given"));
    EXPECT_EQ("Nothing is left to decide, and the case is cleared.", desk.unsigned_in_words());
    EXPECT_THAT(desk.to_decide(), IsEmpty());
}

TEST_F(ReviewSigning, ClearsNothingWhileOneItemIsUndecidedAndKeepsTheChoice)
{
    const std::string id = begin_with("recent_stent.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    const auto before = last_number();
    ASSERT_TRUE(desk.agree("finding:two_antiplatelets"));
    EXPECT_FALSE(desk.sign_and_clear());
    EXPECT_TRUE(refused(place, {"the case cannot be cleared yet", "A stent in a heart artery inside"}));
    EXPECT_TRUE(nothing_written_since(before)) << "all of it stands or none";
    EXPECT_EQ("Chosen, not signed: agreed.", view_of(desk, "finding:two_antiplatelets").chosen);
    ASSERT_TRUE(desk.sign());
    EXPECT_THAT(kinds_of(id, before), ElementsAre("decision signed"));
    EXPECT_THAT(desk.to_decide(), SizeIs(2));
}

TEST_F(ReviewSigning, IsRefusedWhenANurseAddsClopidogrelMeanwhile)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& phone = sit(nurse, id, 1);
    person(1).will({Writes{"wants to see the endoscopist first"}, Picks{"a clinician decides"}});
    ASSERT_TRUE(PhoneDesk(phone).raise_concern());
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    std::string concern;
    for (const std::string& one : ids_of(desk)) {
        concern = one.starts_with("finding:own_") ? one : concern;
        ASSERT_TRUE(desk.agree(one));
    }
    nurse_adds_clopidogrel(phone);
    const auto before = last_number();

    EXPECT_FALSE(desk.sign());
    EXPECT_EQ(Notice::Kind::refused, place.notice().kind);
    EXPECT_THAT(place.notice().words, HasSubstr("changed"));
    EXPECT_THAT(place.notice().words, HasSubstr("\n- ")) << "each change in a line of its own";
    EXPECT_TRUE(nothing_written_since(before));

    // The page is read again. What was chosen on the changed item is gone; the other choice stands.
    EXPECT_EQ("", view_of(desk, "hold:m1").chosen);
    EXPECT_TRUE(notice(place, Notice::Kind::news, {"An item has changed meanwhile", "dropped"}));
    EXPECT_EQ("Chosen, not signed: agreed.", view_of(desk, concern).chosen);
    EXPECT_TRUE(says(desk.page(), "clopidogrel"));
    EXPECT_THAT(desk.unsigned_in_words(), StartsWith("1 of "));
    ASSERT_TRUE(desk.sign()) << place.notice().words;
    EXPECT_EQ(concern, last<book::DecisionSigned>(id).decided.item);
}

TEST_F(ReviewSigning, DropsWhatWasChosenAsSoonAsTheChangeIsSeen)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    ASSERT_TRUE(desk.agree("hold:m1"));
    Workplace& phone = sit(nurse, id, 1);
    nurse_adds_clopidogrel(phone);
    EXPECT_TRUE(place.let_time_pass());
    EXPECT_EQ("", view_of(desk, "hold:m1").chosen);
    EXPECT_TRUE(notice(place, Notice::Kind::news, {"what was chosen on it is dropped"}));
}

TEST_F(ReviewSigning, IsNotDisturbedByANoteOrAnUnrelatedAnswer)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    ASSERT_TRUE(desk.agree("hold:m1"));
    Workplace& phone = sit(nurse, id, 1);
    person(1).will({Writes{"hard of hearing"}});
    ASSERT_TRUE(PhoneDesk(phone).note());
    ASSERT_TRUE(PhoneDesk(phone).answer_typed(fact("weight"), "71"));
    EXPECT_TRUE(desk.sign()) << place.notice().words;
}

TEST_F(ReviewSigning, OfOnePatientIsNeverOnThePageOfAnother)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(physician, id);
    const std::string next = book_orla_finch(place.book());
    ReviewDesk desk(place);
    ASSERT_TRUE(desk.agree("hold:m1"));
    place.open(next);
    EXPECT_FALSE(desk.sign());
    EXPECT_TRUE(refused(place, {"nothing is decided"}));
    place.open(id);
    EXPECT_EQ("", view_of(desk, "hold:m1").chosen);
}

TEST_F(ReviewSigning, IsRefusedAfterAnotherPhysicianDecided)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    const book::Writer other_physician{"Dr Ruben Castell", screening::Role::endoscopist, "review desk"};
    Workplace& place = sit(physician, id, 0);
    Workplace& other = sit(other_physician, id, 1);
    ReviewDesk desk(place);
    ReviewDesk others(other);
    ASSERT_TRUE(desk.agree("hold:m1"));
    person(1).will({Writes{"four days"}, Writes{"2027-04-17"}});
    ASSERT_TRUE(others.change("hold:m1"));
    ASSERT_TRUE(others.sign());
    const auto before = last_number();
    EXPECT_FALSE(desk.sign());
    EXPECT_TRUE(refused(place, {"decision signed by Dr Ruben Castell"}));
    EXPECT_TRUE(nothing_written_since(before));
}

// --- afterwards ---

TEST_F(ReviewLater, SaysItemByItemWhatHasChangedSinceTheSignature)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    ASSERT_TRUE(desk.agree("hold:m1"));
    ASSERT_TRUE(desk.sign_and_clear());
    EXPECT_THAT(desk.changed_since_signed(), IsEmpty());
    Workplace& phone = sit(nurse, id, 1);
    nurse_adds_clopidogrel(phone);
    place.look_again();
    EXPECT_TRUE(says(desk.changed_since_signed(), "clopidogrel"));
    EXPECT_THAT(view_of(desk, "hold:m1").title, HasSubstr(", opened again"));
}

TEST_F(ReviewLater, WhoSpokeSignsItAndNobodyElse)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& phone = sit(nurse, id, 1);
    person(1).will({Picks{""}, Writes{physician.who}, Picks{"endoscopist"}, Picks{"agree"},
                    Writes{"five days"}, LeavesAsItStands{}, Agrees{}});
    ASSERT_TRUE(PhoneDesk(phone).record_spoken_decision());
    const std::string spoken = std::to_string(last_entry(id).number);

    Workplace& other = sit(director, id, 1);
    ReviewDesk others(other);
    EXPECT_THAT(others.to_countersign(), IsEmpty());
    auto before = last_number();
    EXPECT_FALSE(others.countersign(spoken));
    EXPECT_TRUE(refused(other, {"Dr Teodor Wexcombe spoke it, not Dr Imke Sandvoort"}));
    EXPECT_TRUE(nothing_written_since(before));

    Workplace& place = sit(physician, id, 0);
    EXPECT_TRUE(says(
        [&] {
            std::vector<std::string> rows;
            for (const auto& row : place.rows()) {
                rows.push_back(row.sentence);
            }
            return rows;
        }(),
        "What Dr Teodor Wexcombe said is to be signed"));
    ReviewDesk desk(place);
    ASSERT_THAT(desk.to_countersign(), SizeIs(1));
    EXPECT_EQ(spoken, desk.to_countersign().front().id);
    EXPECT_EQ(
        "Spoken by you on Thu 8 Apr 2027, 11:00: Warfarin pauses for five days before a procedure of high "
        "bleeding risk. agreed: \"five days\"",
        desk.to_countersign().front().words);
    ASSERT_TRUE(desk.countersign(spoken)) << place.notice().words;
    EXPECT_EQ(std::stoll(spoken), last<book::Countersigned>(id).entry);
    EXPECT_THAT(desk.to_countersign(), IsEmpty());
}

TEST_F(ReviewLater, DecidesHowAMedicineIsStartedAgainWhenTheSessionIsCalledOff)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(physician, id);
    ReviewDesk desk(place);
    ASSERT_TRUE(desk.agree("hold:m1"));
    ASSERT_TRUE(desk.sign_and_clear());
    ASSERT_TRUE(PhoneDesk(sit(nurse, id, 1)).tell());
    EXPECT_THAT(desk.restarts_to_decide(), IsEmpty()) << "nothing is started again before the end";
    set_clock("2027-04-19T10:00");
    ASSERT_TRUE(book::call_off(place.book(), scheduler, place.on(), "the room floods"));
    place.look_again();
    ASSERT_THAT(desk.restarts_to_decide(), SizeIs(1));
    EXPECT_EQ("hold:m1", desk.restarts_to_decide().front().id);
    EXPECT_THAT(desk.restarts_to_decide().front().words, StartsWith("warfarin: "));
    const auto before = last_number();
    const std::vector<std::pair<std::vector<Reply>, std::string>> no{
        {{GivesUp{}}, ""},
        {{Writes{"tonight"}, GivesUp{}}, ""},
        {{Writes{"tonight"}, Writes{"tonight"}}, "Not written: the day is not clear"},
        {{Writes{"tonight"}, Writes{"April 2027"}}, "Not written: the day is not clear"},
        {{Writes{"tonight"}, Writes{"2027-04-18"}},
         "2027-04-18 has passed; right would be today or a later day"},
    };
    for (const auto& [replies, words] : no) {
        SCOPED_TRACE(words);
        person().will(replies);
        EXPECT_FALSE(desk.decide_restart("hold:m1"));
        EXPECT_TRUE(words.empty() || refused(place, {words}));
        EXPECT_TRUE(nothing_written_since(before));
    }
    person().will({Writes{"the usual dose this evening"}, Writes{"2027-04-19"}});
    ASSERT_TRUE(desk.decide_restart("hold:m1")) << place.notice().words;
    const auto restart = last<book::RestartDecided>(id);
    EXPECT_EQ("the usual dose this evening", restart.words);
    EXPECT_EQ(day("2027-04-19"), restart.from);
    EXPECT_THAT(desk.restarts_to_decide(), IsEmpty());
}

}  // namespace
}  // namespace foreday::tests
