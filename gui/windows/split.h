#pragma once
#include <wx/splitter.h>

namespace foreday::windows {

/// Two panes side by side. The first has a share of the width until somebody moves the sash, and keeps it
/// when the window grows.
class Split : public wxSplitterWindow {
public:
    /// @param share  of the first pane, between 0 and 1
    Split(wxWindow* parent, double share);
    void split(wxWindow* first, wxWindow* second);

private:
    double share_;
    bool moved_ = false;  ///< by somebody
};

}  // namespace foreday::windows
