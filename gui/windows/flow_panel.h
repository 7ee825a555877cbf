#pragma once
#include <wx/checkbox.h>
#include <wx/scrolwin.h>
#include <wx/stattext.h>

#include <string>
#include <string_view>
#include <vector>

namespace foreday::windows {

/// How large words stand.
enum class TextSize { usual, larger, bold };

/// A column of texts and controls that scrolls. Its texts break into lines at its width, at every size of
/// window and text.
class FlowPanel : public wxScrolledWindow {
public:
    /// @param name  what is read out when it takes the focus
    FlowPanel(wxWindow* parent, const std::string& name);

    /// A text that breaks into lines; `indent` in average letters.
    wxStaticText* add_text(std::string_view words, TextSize size = TextSize::usual, int indent = 0);
    /// What stands above and scrolls with it; clear() leaves it.
    [[nodiscard]] wxSizer* head() const { return head_; }

    /// Changes the words of one of its texts; nothing is laid out before relayout().
    void set_text(wxStaticText* text, std::string_view words);
    void add(wxWindow* control, int indent = 0);
    /// As wide as the panel.
    void add_wide(wxWindow* control);
    /// A check box whose words break into lines too.
    void add(wxCheckBox* box);
    void add(wxSizer* row, int indent = 0);
    void add_gap();
    /// Destroys everything in it.
    void clear();
    /// After adding or changing.
    void relayout();

    /// How far it is scrolled, and the name of what in it has the focus; empty: nothing has.
    struct Position {
        int scrolled = 0;
        std::string focused;
    };
    [[nodiscard]] Position position() const;
    /// The first control in it that can takes the focus.
    void focus_first();
    /// To be called when everything is there again.
    void go_back_to(const Position& position);

private:
    struct Text {
        wxStaticText* control;
        std::string words;
        int indent;
    };
    void wrap_all();
    [[nodiscard]] int indent_width(int letters) const;

    wxSizer* head_;
    wxSizer* body_;
    std::vector<Text> texts_;
    std::vector<wxCheckBox*> boxes_;
    int wrapped_to_ = 0;
};

/// The same for a text outside of one: breaks `words` at `width` pixels.
void wrap_text(wxStaticText* control, std::string_view words, int width);

}  // namespace foreday::windows
