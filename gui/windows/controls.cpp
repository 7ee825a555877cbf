#include "gui/windows/controls.h"

#include <gtk/gtk.h>
#include <wx/weakref.h>

#include <exception>
#include <memory>
#include <utility>

#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

/// The first part of a widget that can take the focus; the widget itself where there is none. A combo box
/// stands for its button: GTK makes the button anew with each style, and shows assistive technology the box
/// alone. The frame that scrolls a list claims that it takes the focus; the list does.
GtkWidget* focusable(GtkWidget* widget)
{
    GtkWidget* scrolled = GTK_IS_SCROLLED_WINDOW(widget) != 0 ? gtk_bin_get_child(GTK_BIN(widget)) : nullptr;
    if (scrolled != nullptr && gtk_widget_get_can_focus(scrolled) != 0) {
        return scrolled;
    }
    if (GTK_IS_COMBO_BOX(widget) != 0 || gtk_widget_get_can_focus(widget) != 0 ||
        GTK_IS_CONTAINER(widget) == 0) {
        return widget;
    }
    GtkWidget* found = nullptr;
    const auto look = [](GtkWidget* child, gpointer data) {
        auto** result = static_cast<GtkWidget**>(data);
        if (*result == nullptr) {
            GtkWidget* inner = focusable(child);
            *result = gtk_widget_get_can_focus(inner) != 0 ? inner : nullptr;
        }
    };
    gtk_container_forall(GTK_CONTAINER(widget), look, &found);
    return found == nullptr ? widget : found;
}

/// What has the focus in the window of a widget; nullptr: nothing.
GtkWidget* focus_beside(GtkWidget* widget)
{
    GtkWidget* top = gtk_widget_get_toplevel(widget);
    return GTK_IS_WINDOW(top) != 0 ? gtk_window_get_focus(GTK_WINDOW(top)) : nullptr;
}

AtkObject* accessible_of(wxWindow* control)
{
    return gtk_widget_get_accessible(focusable(static_cast<GtkWidget*>(control->GetHandle())));
}

/// Up and Down open the answers to be looked through; in a closed box each press would be an answer given.
void open_by_arrows(wxChoice* choice)
{
    const auto pressed = [](GtkWidget* box, GdkEventKey* event, gpointer) -> gboolean {
        switch (event->keyval) {
            case GDK_KEY_Up:
            case GDK_KEY_Down:
            case GDK_KEY_KP_Up:
            case GDK_KEY_KP_Down:
            case GDK_KEY_Page_Up:
            case GDK_KEY_Page_Down:
            case GDK_KEY_Home:
            case GDK_KEY_End:
                if ((event->state & GDK_CONTROL_MASK) == 0) {
                    gtk_combo_box_popup(GTK_COMBO_BOX(box));
                    return GDK_EVENT_STOP;
                }
                break;
            default:
                break;
        }
        return GDK_EVENT_PROPAGATE;
    };
    g_signal_connect(choice->GetHandle(), "key-press-event", G_CALLBACK(+pressed), nullptr);
}

}  // namespace

void set_name(wxWindow* control, const std::string& name)
{
    auto* widget = static_cast<GtkWidget*>(control->GetHandle());
    if (GTK_IS_SCROLLED_WINDOW(widget) != 0) {
        // wx lets the frame take the focus again when nothing within it can.
        gtk_widget_set_can_focus(widget, 0);
        atk_object_set_name(gtk_widget_get_accessible(widget), name.c_str());
        atk_object_set_name(gtk_widget_get_accessible(gtk_bin_get_child(GTK_BIN(widget))), name.c_str());
        return;
    }
    atk_object_set_name(accessible_of(control), name.c_str());
}

std::string name_of(wxWindow* control)
{
    const char* name = atk_object_get_name(accessible_of(control));
    return name == nullptr ? "" : name;
}

bool is_focused(const wxWindow* control)
{
    auto* widget = static_cast<GtkWidget*>(control->GetHandle());
    return focus_beside(widget) == widget;
}

bool has_focus(const wxWindow* control)
{
    auto* widget = static_cast<GtkWidget*>(control->GetHandle());
    GtkWidget* focus = focus_beside(widget);
    return focus != nullptr && (focus == widget || gtk_widget_is_ancestor(focus, widget) != 0);
}

void later(wxWindow* window, Handler handler)
{
    const wxWeakRef<wxWindow> alive(window);
    wxTheApp->CallAfter([alive, handler = std::move(handler)] {
        if (!alive) {
            return;
        }
        try {
            handler();
        } catch (const std::exception& fault) {
            wxMessageBox(shown(std::string("That could not be done: ") + fault.what()), wxS("Foreday"),
                         wxOK | wxICON_ERROR);
        }
    });
}

wxButton* button(wxWindow* parent, const wxString& label, Handler handler, const std::string& name)
{
    auto* made = new wxButton(parent, wxID_ANY, label);
    if (!name.empty()) {
        set_name(made, name);
    }
    made->Bind(wxEVT_BUTTON, [made, handler = std::move(handler)](wxCommandEvent&) { later(made, handler); });
    return made;
}

void mend_height(wxWindow* field)
{
    auto* widget = static_cast<GtkWidget*>(field->GetHandle());
    gtk_widget_queue_resize(widget);  // GTK would give what it measured at another size of text
    GtkRequisition natural;
    gtk_widget_get_preferred_size(widget, nullptr, &natural);
    field->SetMinSize(wxSize(field->GetMinSize().x, natural.height));
}

wxTextCtrl* field(wxWindow* parent, const std::string& name, Handler entered)
{
    auto* made =
        new wxTextCtrl(parent, wxID_ANY, wxEmptyString, wxDefaultPosition, wxDefaultSize, wxTE_PROCESS_ENTER);
    set_name(made, name);
    mend_height(made);
    if (entered) {
        const auto before = std::make_shared<wxString>();
        const auto say = [made, before, entered = std::move(entered)] {
            if (made->GetValue() != *before) {
                *before = made->GetValue();
                later(made, entered);
            }
        };
        made->Bind(wxEVT_SET_FOCUS, [made, before](wxFocusEvent& event) {
            *before = made->GetValue();
            event.Skip();
        });
        made->Bind(wxEVT_KILL_FOCUS, [say](wxFocusEvent& event) {
            say();
            event.Skip();
        });
        made->Bind(wxEVT_TEXT_ENTER, [say](wxCommandEvent&) { say(); });
    }
    return made;
}

wxChoice* choice(wxWindow* parent, const std::string& name, const std::vector<std::string>& answers,
                 Handler chosen)
{
    auto* made = new wxChoice(parent, wxID_ANY);
    for (const std::string& answer : answers) {
        made->Append(shown(answer));
    }
    set_name(made, name);
    open_by_arrows(made);
    // Whoever turns the wheel scrolls the page: an answer under the pointer must not change unseen.
    made->Bind(wxEVT_MOUSEWHEEL, [made](wxMouseEvent& event) {
        if (auto* page = dynamic_cast<wxScrolledWindow*>(made->GetParent())) {
            page->HandleOnMouseWheel(event);
        }
    });
    if (chosen) {
        made->Bind(wxEVT_CHOICE,
                   [made, chosen = std::move(chosen)](wxCommandEvent&) { later(made, chosen); });
    }
    return made;
}

wxCheckBox* check_box(wxWindow* parent, const std::string& words, Handler changed)
{
    auto* made = new wxCheckBox(parent, wxID_ANY, label(words));
    made->Bind(wxEVT_CHECKBOX,
               [made, changed = std::move(changed)](wxCommandEvent&) { later(made, changed); });
    return made;
}

wxStaticText* label_for(wxWindow* parent, const wxString& label)
{
    return new wxStaticText(parent, wxID_ANY, label);
}

}  // namespace foreday::windows
