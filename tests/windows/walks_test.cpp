#include "tests/windows/walks.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <wx/wx.h>

#include "tests/windows/at_the_window.h"

/// The walks find what they look for: each fault is planted once, beside the same window without it.
namespace foreday::tests {
namespace {

using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

class RunWalks : public testing::Test {
protected:
    void SetUp() override
    {
        frame =
            new wxFrame(nullptr, wxID_ANY, wxS("A window to be walked"), wxDefaultPosition, wxSize(400, 300));
        page = new wxPanel(frame, wxID_ANY, wxDefaultPosition, wxSize(400, 300));
    }
    void TearDown() override
    {
        frame->Destroy();
        draw();
    }

    void show()
    {
        frame->Show();
        draw();
    }
    static void draw()
    {
        constexpr int looks = 40;
        constexpr unsigned pause_ms = 5;
        for (int i = 0; i < looks; ++i) {
            wxYield();
            wxMilliSleep(pause_ms);
        }
    }

    wxFrame* frame = nullptr;
    wxPanel* page = nullptr;
};

TEST_F(RunWalks, FindAControlWithoutANameAndNoneInSoundOnes)
{
    new wxButton(page, wxID_ANY, wxS("Write it down"), wxPoint(10, 10));
    show();
    EXPECT_THAT(unnamed(frame), IsEmpty());
    new wxTextCtrl(page, wxID_ANY, wxEmptyString, wxPoint(10, 80));
    draw();
    EXPECT_THAT(unnamed(frame), Contains(HasSubstr("without a name")));
}

TEST_F(RunWalks, FindALetterThatAltPressesForTwo)
{
    new wxButton(page, wxID_ANY, wxS("&Told"), wxPoint(10, 10));
    new wxButton(page, wxID_ANY, wxS("&Said back"), wxPoint(10, 60));
    show();
    EXPECT_THAT(unnamed(frame), IsEmpty());
    new wxButton(page, wxID_ANY, wxS("Take &this back"), wxPoint(10, 110));
    draw();
    EXPECT_THAT(unnamed(frame), Contains("Alt+T is both \"&Told\" and \"Take &this back\""));
}

TEST_F(RunWalks, FindALetterSharedWithAMenu)
{
    auto* bar = new wxMenuBar;
    bar->Append(new wxMenu, wxS("&Desk"));
    frame->SetMenuBar(bar);
    new wxButton(page, wxID_ANY, wxS("Not to&day"), wxPoint(10, 10));
    show();
    EXPECT_THAT(unnamed(frame), Contains(HasSubstr("Alt+D is both")));
}

TEST_F(RunWalks, FindATextThatHasNoRoom)
{
    const wxString words = wxS("Warfarin pauses for five days before a procedure");
    new wxStaticText(page, wxID_ANY, words, wxPoint(10, 10));
    show();
    EXPECT_THAT(clipped(frame), IsEmpty());
    auto* narrow =
        new wxStaticText(page, wxID_ANY, words, wxPoint(10, 60), wxSize(60, -1), wxST_NO_AUTORESIZE);
    narrow->SetMaxSize(wxSize(60, -1));
    draw();
    EXPECT_THAT(clipped(frame), ::testing::Not(IsEmpty()));
}

TEST_F(RunWalks, FindFaintWords)
{
    auto* words = new wxStaticText(page, wxID_ANY, wxS("Nothing is to be decided."), wxPoint(10, 10));
    words->SetForegroundColour(*wxBLACK);
    show();
    EXPECT_THAT(contrasts(frame).faint, IsEmpty());
    EXPECT_GT(contrasts(frame).measured, 0);
    constexpr unsigned char light = 0xC0;
    words->SetForegroundColour(wxColour(light, light, light));
    words->Refresh();
    draw();
    EXPECT_THAT(contrasts(frame).faint, ::testing::Not(IsEmpty()));
}

}  // namespace
}  // namespace foreday::tests
