#include "gui/windows/split.h"

namespace foreday::windows {

Split::Split(wxWindow* parent, double share)
    : wxSplitterWindow(parent, wxID_ANY, wxDefaultPosition, wxSize(600, 400),
                       wxSP_LIVE_UPDATE | wxSP_THIN_SASH | wxSP_NO_XP_THEME),
      share_(share)
{
    constexpr int least_pane = 160;
    SetMinimumPaneSize(FromDIP(least_pane));
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        if (!moved_ && IsSplit()) {
            SetSashPosition(static_cast<int>(GetClientSize().x * share_));
        }
    });
    Bind(wxEVT_SPLITTER_SASH_POS_CHANGING, [this](wxSplitterEvent& event) {
        event.Skip();
        moved_ = true;  // only a hand on the sash makes this event
        SetSashGravity(share_);
    });
}

void Split::split(wxWindow* first, wxWindow* second)
{
    // A size given at birth counts as the least size, and the sash would stop there.
    first->SetMinSize(wxSize(1, 1));
    second->SetMinSize(wxSize(1, 1));
    SplitVertically(first, second, static_cast<int>(GetClientSize().x * share_));
}

}  // namespace foreday::windows
