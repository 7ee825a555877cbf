#pragma once
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
    /// Changes the words of one of its texts; nothing is laid out before relayout().
    void set_text(wxStaticText* text, std::string_view words);
    void add(wxWindow* control, int indent = 0);
    void add(wxSizer* row, int indent = 0);
    void add_gap();
    /// Destroys everything in it.
    void clear();
    /// After adding or changing.
    void relayout();

private:
    struct Text {
        wxStaticText* control;
        std::string words;
        int indent;
    };
    void wrap_all();
    [[nodiscard]] int indent_width(int letters) const;

    std::vector<Text> texts_;
    int wrapped_to_ = 0;
};

/// The same for a text outside of one: breaks `words` at `width` pixels.
void wrap_text(wxStaticText* control, std::string_view words, int width);

}  // namespace foreday::windows
