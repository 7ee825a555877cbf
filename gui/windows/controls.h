#pragma once
#include <wx/wx.h>

#include <functional>
#include <string>
#include <vector>

namespace foreday::windows {

/// What every window is built from: each control has a name that assistive technology reads, room for its
/// text at any size of text, and a handler that runs after the event, so that it may rebuild what it sits in.

using Handler = std::function<void()>;

/// Sets the name of the part of a control that takes the focus.
void set_name(wxWindow* control, const std::string& name);
/// The name that assistive technology reads; empty: none.
[[nodiscard]] std::string name_of(wxWindow* control);

/// Whether it, or a part of it, has the focus. wx itself does not notice the focus in a choice.
[[nodiscard]] bool has_focus(const wxWindow* control);

/// Whether it has the focus itself, and no part of it.
[[nodiscard]] bool is_focused(const wxWindow* control);

/// Runs after the present event, unless the window is gone by then. What it throws is shown, and the program
/// goes on.
void later(wxWindow* window, Handler handler);

/// @param label  with `&` before the letter that Alt presses
/// @param name   what is read out; empty: the label
wxButton* button(wxWindow* parent, const wxString& label, Handler handler, const std::string& name = "");
/// One line. `entered` runs on Enter, and when the field is left with other words than it had.
wxTextCtrl* field(wxWindow* parent, const std::string& name, Handler entered = {});
wxChoice* choice(wxWindow* parent, const std::string& name, const std::vector<std::string>& answers,
                 Handler chosen = {});
wxCheckBox* check_box(wxWindow* parent, const std::string& words, Handler changed);

/// A label, made just before its control, so that the two are tied together.
wxStaticText* label_for(wxWindow* parent, const wxString& label);

/// Gives a field the height its text needs; wx measures too little before the window is shown.
void mend_height(wxWindow* field);

}  // namespace foreday::windows
