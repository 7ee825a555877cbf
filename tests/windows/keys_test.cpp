#include <wx/wx.h>

#include "gui/windows/text.h"
#include "tests/present/phone_call.h"
#include "tests/windows/at_the_window.h"

/// The desks by keyboard alone, and by mouse; what the keys did is looked up in the journal.
namespace foreday::tests {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::StartsWith;

using RunKeys = AtTheWindow;
constexpr const char* orla = "Orla Finch";

TEST_F(RunKeys, EnterOnTheListTakesTheCaseInHandAndTheFirstOpenQuestionHasTheFocus)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    EXPECT_THAT(words(), HasSubstr(orla));
    const auto first = question_about(present::PhoneDesk(window().place()), "identity_confirmed");
    EXPECT_THAT(focused(), StartsWith("Yes: ")) << (first ? first->words : "");
}

TEST_F(RunKeys, YesNoAndNotKnownAnswerAndTheNextQuestionHasTheFocus)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    const auto before = last_number();
    const std::string first = focused();
    key('Y');
    EXPECT_EQ(std::vector<std::string>{"answer"}, kinds_of(id, before));
    EXPECT_TRUE(last<book::Answered>(id).value.has_value());
    EXPECT_NE(first, focused());

    answers().will({Picks{"does not know"}});
    key('K');
    EXPECT_EQ((std::vector<std::string>{"answer", "answer"}), kinds_of(id, before));
    EXPECT_FALSE(last<book::Answered>(id).value.has_value());
}

TEST_F(RunKeys, ALetterInTheFindFieldIsALetterAndNoAnswer)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    const auto before = last_number();
    key('F', wxMOD_CONTROL);
    type("ny");
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_EQ(wxS("ny"), window().find_field()->GetValue());
}

TEST_F(RunKeys, TheListIsFoundAsOneTypes)
{
    begin_with_a_booking();
    open_window(nurse);
    key('F', wxMOD_CONTROL);
    type("finch");
    ASSERT_TRUE(wait_for([this] { return window().list()->GetCount() == 1; }));
    EXPECT_THAT(windows::typed(window().list()->GetString(0)), HasSubstr(orla));
    type("zzz");
    EXPECT_TRUE(wait_for([this] { return window().list()->GetCount() == 0; }));
    EXPECT_THAT(words(), HasSubstr("finchzzz"));
}

TEST_F(RunKeys, EnterInFindTakesTheOnlyOneFoundInHand)
{
    begin_with_a_booking();
    open_window(nurse);
    key('F', wxMOD_CONTROL);
    ASSERT_EQ(focused(), "Find: name, number, phone or birth date");
    key(WXK_RETURN);
    EXPECT_EQ(focused(), "Patients") << "nothing was typed: the list";
    key('F', wxMOD_CONTROL);
    EXPECT_EQ(focused(), "Find: name, number, phone or birth date") << "from the list too";
    type("zzz");
    key(WXK_RETURN);
    EXPECT_EQ(focused(), "Find: name, number, phone or birth date") << "nobody is found: type again";
    window().find_field()->Clear();
    type("finch");
    key(WXK_RETURN);
    EXPECT_THAT(words(), HasSubstr(orla));
    EXPECT_THAT(focused(), StartsWith("Yes: ")) << "in hand, and the first question has the focus";
}

TEST_F(RunKeys, TheDesksAreChangedByKeyAndTheCaseStaysInHand)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    for (const auto& [digit, shows] : std::vector<std::pair<int, const char*>>{
             {'2', "Sign and clear the case"}, {'3', "Receive the patient"}, {'1', "Next section"}}) {
        key(digit, wxMOD_CONTROL);
        EXPECT_TRUE(has_control(shows)) << shows;
        EXPECT_EQ(id, window().place().now()->id());
    }
}

TEST_F(RunKeys, TheTabKeyComesRoundToWhereItBegan)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    const std::string first = focused();
    constexpr int more_than_all = 200;
    std::vector<std::string> met;
    do {
        key(WXK_TAB);
        EXPECT_THAT(focused(), ::testing::Not(IsEmpty())) << "after " << (met.empty() ? first : met.back());
        met.push_back(focused());
    } while (met.back() != first && std::ssize(met) < more_than_all);
    EXPECT_EQ(first, met.back()) << ::testing::PrintToString(met);
    for (const char* must : {"Find: name, number, phone or birth date", "Patients", "Section of the call",
                             "Record this try: Reached", "Answers come from", "Parts of the call",
                             "What follows from the answers so far"}) {
        EXPECT_THAT(met, ::testing::Contains(must));
    }
}

TEST_F(RunKeys, ThePagesOfTheCallAreGoneThroughByKeyAndTheFocusGoesAlong)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    for (const char* shows : {"Medicine, as the patient says it", "The patient's sheet"}) {
        key(WXK_PAGEDOWN, wxMOD_CONTROL);
        EXPECT_TRUE(wait_for([&] { return has_control(shows); })) << shows;
    }
    for (const char* shows : {"Medicine, as the patient says it", "Section of the call"}) {
        key(WXK_PAGEUP, wxMOD_CONTROL);
        EXPECT_TRUE(wait_for([&] { return has_control(shows); })) << shows;
    }
    EXPECT_THAT(focused(), ::testing::Not(IsEmpty()));
}

TEST_F(RunKeys, AnArrowOpensAChoiceAndAnswersNothing)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    const auto device = question_about(present::PhoneDesk(window().place()), "heart_device");
    ASSERT_TRUE(device);
    const auto* sections = dynamic_cast<wxChoice*>(control("Section of the call"));
    ASSERT_NE(nullptr, sections);
    for (unsigned i = 0; !has_control(device->words) && i < sections->GetCount(); ++i) {
        click(control("Next section"));
    }
    control(device->words)->SetFocus();
    settle();
    const auto before = last_number();
    key(WXK_DOWN);
    key(WXK_DOWN);
    EXPECT_TRUE(nothing_written_since(before));
    key(WXK_RETURN);
    EXPECT_TRUE(wait_for([&] { return !nothing_written_since(before); }));
    EXPECT_EQ(std::vector<std::string>{"answer"}, kinds_of(id, before));
}

TEST_F(RunKeys, AValueTypedIsEnteredAndOneThatCannotBeIsRefusedAndStaysToBeMended)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    auto* sections = dynamic_cast<wxChoice*>(control("Section of the call"));
    ASSERT_NE(nullptr, sections);
    const auto weight = question_about(present::PhoneDesk(window().place()), "weight");
    ASSERT_TRUE(weight);
    const std::string asks = weight->words + " " + weight->expected;
    for (unsigned i = 0; !has_control(asks) && i < sections->GetCount(); ++i) {
        click(control("Next section"));
    }
    auto* field = dynamic_cast<wxTextCtrl*>(control(asks));
    ASSERT_NE(nullptr, field);
    field->SetFocus();
    settle();
    const auto before = last_number();
    type("seventyish");
    key(WXK_RETURN);
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_EQ(wxS("seventyish"), field->GetValue());
    EXPECT_THAT(words(), HasSubstr("Not done. "));
    field->SelectAll();
    type("168 lb");
    key(WXK_RETURN);
    EXPECT_EQ(std::vector<std::string>{"answer"}, kinds_of(id, before));
    EXPECT_THAT(words(), HasSubstr("168 lb"));
}

TEST_F(RunKeys, AMedicineIsHeardPickedAndAddedByKeyAlone)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    key(WXK_PAGEDOWN, wxMOD_CONTROL);
    ASSERT_TRUE(has_control("Medicine, as the patient says it"));
    control("Medicine, as the patient says it")->SetFocus();
    type("elequis");
    key(WXK_TAB);
    EXPECT_TRUE(wait_for([] { return focused() == "Which medicine is meant? Nothing is picked for you"; }));
    key(WXK_HOME);
    const auto before = last_number();
    key('A', wxMOD_ALT);
    EXPECT_TRUE(wait_for([&] { return !nothing_written_since(before); }));
    ASSERT_EQ(std::vector<std::string>{"medicine added"}, kinds_of(id, before)) << window().notice_shown();
    EXPECT_EQ("apixaban", last<book::MedicineAdded>(id).medicine.medicine);
}

TEST_F(RunKeys, WhatAnotherProgramWritesComesIntoViewByItself)
{
    const std::string id = begin_with_a_booking();
    open_window(nurse);
    take_in_hand(id, orla);
    present::Workplace& other = sit(second_nurse, id);
    ASSERT_TRUE(present::PhoneDesk(other).record_try(checklists::TryOutcome::message_left));
    const auto row = [this] {
        return window().place().rows().empty() ? "" : window().place().rows().front().sentence;
    };
    const auto shown_row = [this] { return windows::typed(window().list()->GetString(0)); };
    constexpr int looks = 4;  // of three seconds each; the window looks every five
    bool seen = false;
    for (int i = 0; i < looks && !seen; ++i) {
        seen = wait_for([&] { return words().find("essage left") != std::string::npos; });
    }
    EXPECT_TRUE(seen) << words();
    EXPECT_EQ(row(), shown_row());
}

}  // namespace
}  // namespace foreday::tests
