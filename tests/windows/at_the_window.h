#pragma once
#include <wx/uiaction.h>

#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "gui/windows/main_frame.h"
#include "tests/present/at_work.h"

namespace foreday::tests {

/// Whoever sits before the real window, on the demo unit's book in memory. What the window asks is answered
/// by `answers()`, so that no dialog stands in the way.
class AtTheWindow : public AtWork {
protected:
    void TearDown() override;

    /// Opens the window at the home desk of whoever signs in; shown, drawn, 1280 by 800.
    windows::MainFrame& open_window(const book::Writer& writer);
    [[nodiscard]] windows::MainFrame& window() const { return *frame_; }
    ListedAnswers& answers() { return answers_; }

    /// Takes a case in hand by its row in the list: down to it with the arrow, then Enter. Where the list has
    /// no row of it, it is found by the name first.
    void take_in_hand(const std::string& id, const std::string& name);

    /// Presses a key, as a person would, and waits until nothing is left to do.
    void key(int code, int modifiers = wxMOD_NONE);
    void type(const char* words);
    void click(wxWindow* control);

    /// True once it is so; false after three seconds.
    static bool wait_for(const std::function<bool()>& so);
    /// Until nothing is left to draw or to do.
    static void settle();

    /// The control that has the focus, by the name that is read out; empty: none.
    static std::string focused();
    /// A control that is shown, by the name that is read out, or by its beginning. A failure where there is
    /// none.
    [[nodiscard]] wxWindow* control(std::string_view name) const;
    [[nodiscard]] bool has_control(std::string_view name) const;
    /// All that the window says in texts and labels now, one a line.
    [[nodiscard]] std::string words() const;

private:
    [[nodiscard]] wxWindow* find_control(std::string_view name) const;

    windows::MainFrame* frame_ = nullptr;
    ListedAnswers answers_;
    wxUIActionSimulator hands_;
};

/// Every window under this one that is shown, it included, in the order of the Tab key.
[[nodiscard]] std::vector<wxWindow*> shown_under(wxWindow* window);

}  // namespace foreday::tests
