#include "tests/windows/at_the_window.h"

#include <gtk/gtk.h>
#include <wx/stopwatch.h>
#include <wx/wx.h>

#include <algorithm>

#include "gui/windows/text.h"
#include "gui/windows/text_scale.h"

namespace foreday::tests {
namespace {

constexpr long patience_ms = 3000;

void collect(wxWindow* window, std::vector<wxWindow*>& found)
{
    if (!window->IsShownOnScreen()) {
        return;
    }
    found.push_back(window);
    for (wxWindow* child : window->GetChildren()) {
        collect(child, found);
    }
}

}  // namespace

std::vector<wxWindow*> shown_under(wxWindow* window)
{
    std::vector<wxWindow*> found;
    collect(window, found);
    return found;
}

bool AtTheWindow::wait_for(const std::function<bool()>& so)
{
    constexpr unsigned pause_ms = 5;
    const wxStopWatch watch;
    do {
        wxYield();
        if (so()) {
            return true;
        }
        wxMilliSleep(pause_ms);
    } while (watch.Time() < patience_ms);
    return false;
}

void AtTheWindow::settle()
{
    constexpr int rounds = 4;  // a key, the handler it put off, the layout that follows, the drawing
    for (int i = 0; i < rounds; ++i) {
        gdk_display_sync(gdk_display_get_default());  // what the keys sent is in the queue by then
        wxTheApp->ProcessPendingEvents();
        wxYield();
        while (gtk_events_pending() != 0) {
            gtk_main_iteration_do(0);
        }
    }
}

windows::MainFrame& AtTheWindow::open_window(const book::Writer& writer)
{
    const wxSize screen(1280, 800);
    windows::set_text_scale(windows::usual_text);
    frame_ = new windows::MainFrame(new_workplace(answers_), true);
    frame_->SetSize(wxRect(wxPoint(0, 0), screen));
    frame_->Show();
    frame_->Raise();
    EXPECT_TRUE(wait_for([this] { return frame_->IsActive(); })) << "the window never came up";
    EXPECT_TRUE(frame_->place().sign_in(writer.who, writer.role));
    frame_->begin();
    settle();
    return *frame_;
}

void AtTheWindow::TearDown()
{
    if (frame_ != nullptr) {
        frame_->Destroy();
        EXPECT_TRUE(wait_for([] { return wxTopLevelWindows.empty(); }));
        frame_ = nullptr;
    }
    EXPECT_EQ(0U, answers_.left()) << "the person waited for questions that never came";
    AtWork::TearDown();
}

void AtTheWindow::key(int code, int modifiers)
{
    hands_.Char(code, modifiers);
    settle();
}

void AtTheWindow::type(const char* words)
{
    hands_.Text(words);
    settle();
}

void AtTheWindow::click(wxWindow* control)
{
    ASSERT_NE(nullptr, control);
    const wxRect where = control->GetScreenRect();
    hands_.MouseMove(where.x + where.width / 2, where.y + where.height / 2);
    settle();
    hands_.MouseClick();
    settle();
}

void AtTheWindow::take_in_hand(const std::string& id, const std::string& name)
{
    const auto row_of = [&] {
        const auto& rows = frame_->place().rows();
        return std::ranges::find(rows, id, &present::ListRow::case_id) - rows.begin();
    };
    const auto is_listed = [&] { return row_of() < std::ssize(frame_->place().rows()); };
    if (!is_listed()) {
        key('F', wxMOD_CONTROL);
        type(name.c_str());
        ASSERT_TRUE(wait_for(is_listed)) << name << " is not found";
    }
    key('T', wxMOD_CONTROL);
    key(WXK_HOME);
    for (auto row = row_of(); row > 0; --row) {
        key(WXK_DOWN);
    }
    key(WXK_RETURN);
    ASSERT_TRUE(wait_for([&] {
        return frame_->place().now() != nullptr && frame_->place().now()->id() == id;
    })) << frame_->notice_shown();
    settle();
}

std::string AtTheWindow::focused()
{
    const auto shown = shown_under(wxTheApp->GetTopWindow());
    const auto focus = std::find_if(shown.rbegin(), shown.rend(), [](const wxWindow* one) {
        return one->AcceptsFocus() && windows::has_focus(one);
    });
    return focus == shown.rend() ? "" : windows::name_of(*focus);
}

wxWindow* AtTheWindow::find_control(std::string_view name) const
{
    wxWindow* begins = nullptr;
    for (wxWindow* one : shown_under(frame_)) {
        // A panel would answer with the name of the first control within it.
        const bool control = dynamic_cast<wxControl*>(one) != nullptr && one->AcceptsFocus();
        const std::string its_name = control ? windows::name_of(one) : std::string();
        if (its_name == name) {
            return one;
        }
        if (begins == nullptr && its_name.starts_with(name)) {
            begins = one;
        }
    }
    return begins;
}

wxWindow* AtTheWindow::control(std::string_view name) const
{
    wxWindow* found = find_control(name);
    EXPECT_NE(nullptr, found) << "no control is called " << name;
    return found;
}

bool AtTheWindow::has_control(std::string_view name) const
{
    return find_control(name) != nullptr;
}

std::string AtTheWindow::words() const
{
    std::string all;
    for (wxWindow* one : shown_under(frame_)) {
        if (const auto* text = dynamic_cast<wxTextEntry*>(one)) {
            all += windows::typed(text->GetValue()) + "\n";
        } else {
            all += windows::typed(wxControl::RemoveMnemonics(one->GetLabel())) + "\n";
        }
    }
    return all;
}

}  // namespace foreday::tests
