#include "gui/windows/page_view.h"

#include <gtk/gtk.h>

#include <algorithm>

#include "gui/windows/controls.h"
#include "gui/windows/text.h"

namespace foreday::windows {

PageView::PageView(wxWindow* parent, const std::string& name)
    : wxTextCtrl(parent, wxID_ANY, wxEmptyString, wxDefaultPosition, wxSize(320, 200),
                 wxTE_MULTILINE | wxTE_READONLY | wxTE_RICH2)
{
    set_name(this, name);
    GtkWidget* text = gtk_bin_get_child(GTK_BIN(GetHandle()));
    if (GTK_IS_TEXT_VIEW(text) != 0) {
        const int margin = FromDIP(6);
        gtk_text_view_set_left_margin(GTK_TEXT_VIEW(text), margin);
        gtk_text_view_set_right_margin(GTK_TEXT_VIEW(text), margin);
    }
    // Tab leaves the page instead of writing one.
    Bind(wxEVT_KEY_DOWN, [this](wxKeyEvent& event) {
        if (event.GetKeyCode() == WXK_TAB) {
            Navigate(event.ShiftDown() ? 0 : wxNavigationKeyEvent::IsForward);
        } else {
            event.Skip();
        }
    });
}

void PageView::show(const std::vector<checklists::Line>& lines)
{
    if (lines == lines_) {
        return;
    }
    lines_ = lines;
    const long place = GetInsertionPoint();
    Freeze();
    ChangeValue(wxEmptyString);
    wxFont heading = GetFont();
    heading.MakeBold();
    for (const checklists::Line& line : lines) {
        if (line.kind == checklists::LineKind::heading) {
            SetDefaultStyle(wxTextAttr(wxNullColour, wxNullColour, heading));
            AppendText((GetLastPosition() == 0 ? wxString() : wxString(wxS("\n"))) + shown(line.text) +
                       wxS("\n"));
        } else {
            SetDefaultStyle(wxTextAttr(wxNullColour, wxNullColour, GetFont()));
            AppendText(shown(line.text) + wxS("\n"));
        }
    }
    SetInsertionPoint(std::min(place, GetLastPosition()));
    ShowPosition(GetInsertionPoint());
    Thaw();
}

}  // namespace foreday::windows
