#pragma once
#include <wx/textctrl.h>

#include <string>
#include <vector>

#include "checklists/lines.h"

namespace foreday::windows {

/// A page of lines that is read, not typed in: headings stand out, steps have their time.
class PageView : public wxTextCtrl {
public:
    PageView(wxWindow* parent, const std::string& name);
    /// Keeps the place scrolled to while the same page is shown again.
    void show(const std::vector<checklists::Line>& lines);

private:
    std::vector<checklists::Line> lines_;
};

}  // namespace foreday::windows
