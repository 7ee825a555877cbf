#include "gui/windows/text_scale.h"

#include <gtk/gtk.h>
#include <wx/config.h>

#include <algorithm>

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

void restore_text_scale()
{
    set_text_scale(static_cast<int>(wxConfigBase::Get()->ReadLong(wxS("text/per_cent"), usual_text)));
}

}  // namespace foreday::windows
