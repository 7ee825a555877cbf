#pragma once
#include <wx/panel.h>

#include <functional>
#include <string>
#include <vector>

#include "gui/present/workplace.h"
#include "gui/windows/controls.h"

namespace foreday::windows {

/// A first size for what is laid out before it is shown: buttons in no room at all make GTK complain.
inline const wxSize usual_size(600, 400);

/// The work of one desk on the case in hand.
class DeskPanel : public wxPanel {
public:
    /// @param changed  to be run after anything was done: shows list, notice and work as they are now
    DeskPanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed)
        : wxPanel(parent, wxID_ANY, wxDefaultPosition, usual_size),
          place_(place),
          changed_(std::move(changed))
    {
    }

    /// Shows the case in hand as it is now; only while there is one.
    virtual void show_case() = 0;

    /// Where the work on a case that was just taken in hand begins.
    virtual void take_focus() = 0;

    /// What can be done with a case beside the form, for the menu.
    struct Command {
        wxString label;  ///< with its key after a tab
        Handler run;
    };
    [[nodiscard]] virtual std::vector<Command> commands() = 0;

protected:
    /// A handler that does one thing and shows what came of it.
    template <class Do>
    Handler doing(Do one_thing)
    {
        return [this, one_thing] {
            if (place_.now() != nullptr) {
                one_thing();
                changed_();
            }
        };
    }
    [[nodiscard]] present::Workplace& place() const { return place_; }
    void changed() const { changed_(); }

private:
    present::Workplace& place_;
    std::function<void()> changed_;
};

}  // namespace foreday::windows
