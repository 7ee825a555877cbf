#include <fmt/format.h>
#include <gtk/gtk.h>
#include <wx/notebook.h>
#include <wx/wx.h>

#include <cctype>

#include "gui/windows/dialogs.h"
#include "gui/windows/flow_panel.h"
#include "gui/windows/text.h"
#include "gui/windows/text_scale.h"
#include "tests/windows/at_the_window.h"
#include "tests/windows/walks.h"

/// Every screen is looked at: at 100 and 200 per cent of the text, in a light, a dark and a high-contrast
/// theme.
namespace foreday::tests {
namespace {

using ::testing::IsEmpty;

struct Look {
    const char* name;
    const char* theme;
    bool dark;
    int text;  ///< per cent
};

void PrintTo(const Look& look, std::ostream* out)
{
    *out << look.name;
}

class RunScreens : public AtTheWindow, public testing::WithParamInterface<Look> {
protected:
    void SetUp() override { wear(GetParam().theme, GetParam().dark); }

    void TearDown() override
    {
        AtTheWindow::TearDown();
        wear("Adwaita", false);
    }

    static void wear(const char* theme, bool dark)
    {
        g_object_set(gtk_settings_get_default(), "gtk-theme-name", theme, "gtk-application-prefer-dark-theme",
                     dark ? TRUE : FALSE, nullptr);
        settle();
    }

    static void let_it_draw()
    {
        constexpr int looks = 25;
        constexpr unsigned pause_ms =
            5;  // GTK draws every 16; the window measures itself after three of them
        for (int i = 0; i < looks; ++i) {
            settle();
            wxMilliSleep(pause_ms);
        }
        settle();
    }

    void open_at_this_size(const book::Writer& writer)
    {
        open_window(writer);
        windows::set_text_scale(GetParam().text);
        let_it_draw();  // the window measures itself again
        let_it_draw();
        SCOPED_TRACE("no patient in hand");
        look(fmt::format("{}, nobody in hand", present::name_of(window().place().desk())));
    }

    /// All of it, from the top of what scrolls to its bottom.
    void look(const std::string& screen)
    {
        SCOPED_TRACE(screen);
        let_it_draw();
        keep_picture(fmt::format("{} ({})", screen, GetParam().name));
        look_as_it_stands(&window());
        for (wxWindow* one : shown_under(&window())) {
            if (auto* scrolls = dynamic_cast<windows::FlowPanel*>(one)) {
                scroll_through(*scrolls);
            }
        }
    }

    static void look_as_it_stands(wxWindow* on)
    {
        EXPECT_THAT(unnamed(on), IsEmpty());
        EXPECT_THAT(clipped(on), IsEmpty());
        const Contrasts seen = contrasts(on);
        EXPECT_THAT(seen.faint, IsEmpty());
        EXPECT_GT(seen.measured, 2);
    }

    static void scroll_through(windows::FlowPanel& panel)
    {
        constexpr unsigned frame_ms = 20;
        int step = 0;
        panel.GetScrollPixelsPerUnit(nullptr, &step);
        const int half = panel.GetClientSize().y / 2;  // what is cut off at the edge is seen whole once
        for (int y = half; y < panel.GetVirtualSize().y; y += half) {
            panel.Scroll(0, y / step);
            settle();
            wxMilliSleep(frame_ms);
            settle();
            EXPECT_THAT(contrasts(&panel).faint, IsEmpty());
        }
        panel.Scroll(0, 0);
        settle();
    }

    void look_at_every_section()
    {
        auto* sections = dynamic_cast<wxChoice*>(control("Section of the call"));
        ASSERT_NE(nullptr, sections);
        ASSERT_GT(sections->GetCount(), 3U);
        for (unsigned i = 0; i < sections->GetCount(); ++i) {
            sections->SetSelection(static_cast<int>(i));
            wxCommandEvent chosen(wxEVT_CHOICE, sections->GetId());
            sections->ProcessWindowEvent(chosen);
            settle();
            const std::string words = windows::typed(sections->GetStringSelection());
            look(fmt::format("phone desk, call, {}", words.substr(0, words.find(':'))));
        }
    }
};

TEST_P(RunScreens, OfThePhoneDeskAreNamedReadableAndWhole)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    open_at_this_size(nurse);
    take_in_hand(id, "");
    look_at_every_section();
    auto* parts = dynamic_cast<wxNotebook*>(control("Parts of the call"));
    ASSERT_NE(nullptr, parts);
    for (std::size_t page = 1; page < parts->GetPageCount(); ++page) {
        parts->SetSelection(page);
        look(fmt::format("phone desk, {}", windows::typed(parts->GetPageText(page))));
    }
}

TEST_P(RunScreens, OfTheReviewDeskAreNamedReadableAndWhole)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    open_at_this_size(physician);
    take_in_hand(id, "");
    look("review desk, page and items");
    click(control("Agree"));
    look("review desk, something chosen");
}

TEST_P(RunScreens, OfTheArrivalDeskAreNamedReadableAndWhole)
{
    const std::string id = begin_on_the_day("arriving_with_everything_right.yaml");
    open_at_this_size(nurse);
    key('3', wxMOD_CONTROL);
    take_in_hand(id, "");
    look("arrival desk, not here yet");
    click(control("Receive the patient"));
    look("arrival desk, checklist");
}

TEST_P(RunScreens, OfQuestionsToTheUserAreNamedReadableAndWhole)
{
    open_at_this_size(nurse);
    windows::DialogQuestioner questioner;
    questioner.ask_over(&window());
    const auto seen_in_dialog = [this](const std::string& screen, const auto& asks) {
        window().CallAfter([screen] {
            let_it_draw();
            auto* dialog = dynamic_cast<wxDialog*>(wxTopLevelWindows.GetLast()->GetData());
            SCOPED_TRACE(screen);
            keep_picture(fmt::format("{} ({})", screen, GetParam().name));
            look_as_it_stands(dialog);
            dialog->EndModal(wxID_CANCEL);
        });
        asks();
    };
    seen_in_dialog("question, one of several", [&] {
        EXPECT_FALSE(questioner.choose("To whom does the case go?", {"review desk", "another nurse"}));
    });
    seen_in_dialog("question, words",
                   [&] { EXPECT_FALSE(questioner.write("What did the patient say when ringing in?", "")); });
    seen_in_dialog("question, yes or give up", [&] {
        EXPECT_FALSE(questioner.agree("End the call now and send for an ambulance?", "End it"));
    });
    seen_in_dialog("who is at work", [&] {
        EXPECT_FALSE(windows::ask_who_signs_in(&window(), {"", screening::Role::nurse}));
    });
}

const auto all_looks = ::testing::Values(
    Look{"100 per cent", "Adwaita", false, 100}, Look{"200 per cent", "Adwaita", false, 200},
    Look{"dark, 100 per cent", "Adwaita", true, 100}, Look{"dark, 200 per cent", "Adwaita", true, 200},
    Look{"high contrast, 100 per cent", "HighContrast", false, 100});
std::string name_of_look(const testing::TestParamInfo<Look>& info)
{
    std::string name;
    for (const char c : std::string_view(info.param.name)) {
        if (std::isalnum(static_cast<unsigned char>(c)) != 0) {
            name += c;
        }
    }
    return name;
}
INSTANTIATE_TEST_SUITE_P(RunLooks, RunScreens, all_looks, name_of_look);

}  // namespace
}  // namespace foreday::tests
