#include "gui/windows/text_scale.h"

#include <gtk/gtk.h>
#include <wx/config.h>
#include <wx/textctrl.h>

#include <algorithm>
#include <cmath>

#include "gui/windows/controls.h"
#include "gui/windows/flow_panel.h"
#include "gui/windows/sentence_list.h"

namespace foreday::windows {
namespace {

int scale = usual_text;

/// What the desktop asks for, in 1024ths of a dot per inch, as GTK keeps it.
int desktop_dpi()
{
    constexpr int usual_dpi = 96 * 1024;
    static const int dpi = [] {
        gint found = 0;
        g_object_get(gtk_settings_get_default(), "gtk-xft-dpi", &found, nullptr);
        return found > 0 ? found : usual_dpi;
    }();
    return dpi;
}

/// GTK would give what it measured at another size of text.
void forget_sizes(GtkWidget* widget)
{
    if (GTK_IS_CONTAINER(widget) != 0) {
        gtk_container_forall(
            GTK_CONTAINER(widget), [](GtkWidget* child, gpointer) { forget_sizes(child); }, nullptr);
    }
    gtk_widget_queue_resize(widget);
}

void measure_all_in(wxWindow* window, double ratio)
{
    window->InvalidateBestSize();
    const wxSize least = window->GetMinSize();
    const auto scaled = [ratio](int length) {
        return length > 1 ? static_cast<int>(std::lround(length * ratio)) : length;
    };
    if (auto* text = dynamic_cast<wxTextCtrl*>(window); text != nullptr && text->IsSingleLine()) {
        text->SetMinSize(wxSize(scaled(least.x), least.y));
        mend_height(text);
    } else if (dynamic_cast<SentenceList*>(window) != nullptr) {
        window->SetMinSize(wxSize(least.x, scaled(least.y)));
    }
    for (wxWindow* child : window->GetChildren()) {
        measure_all_in(child, ratio);
    }
}

}  // namespace

int text_scale()
{
    return scale;
}

void set_text_scale(int per_cent)
{
    constexpr int whole = 100;
    const int desktop = desktop_dpi();
    scale = std::clamp(per_cent, usual_text, largest_text);
    g_object_set(gtk_settings_get_default(), "gtk-xft-dpi", desktop * scale / whole, nullptr);
    wxConfigBase::Get()->Write(wxS("text/per_cent"), static_cast<long>(scale));
}

void measure_again(wxWindow* window, double ratio)
{
    forget_sizes(static_cast<GtkWidget*>(window->GetHandle()));
    measure_all_in(window, ratio);
}

void lay_out_again(wxWindow* window)
{
    if (auto* panel = dynamic_cast<FlowPanel*>(window)) {
        panel->relayout();
    } else {
        window->Layout();
    }
    for (wxWindow* child : window->GetChildren()) {
        lay_out_again(child);
    }
}

void restore_text_scale()
{
    set_text_scale(static_cast<int>(wxConfigBase::Get()->ReadLong(wxS("text/per_cent"), usual_text)));
}

}  // namespace foreday::windows
