#include <fmt/format.h>
#include <gtk/gtk.h>
#include <wx/scrolwin.h>
#include <wx/wx.h>

#include "gui/windows/controls.h"
#include "gui/windows/text.h"
#include "tests/windows/at_the_window.h"
#include "tests/windows/walks.h"

namespace foreday::tests {
namespace {

std::string described(wxWindow* window)
{
    std::string words = windows::typed(wxControl::RemoveMnemonics(window->GetLabel()));
    if (words.empty() && window->AcceptsFocus()) {
        words = windows::name_of(window);
    }
    constexpr std::size_t enough = 60;
    return fmt::format("\"{}\"", words.substr(0, enough));
}

/// Has words of its own, each of which ought to be read.
bool has_words(wxWindow* window)
{
    if (const auto* text = dynamic_cast<wxTextCtrl*>(window)) {
        return text->IsSingleLine();
    }
    return (dynamic_cast<wxStaticText*>(window) != nullptr &&
            !windows::typed(wxControl::RemoveMnemonics(window->GetLabel())).empty()) ||
           dynamic_cast<wxButton*>(window) != nullptr || dynamic_cast<wxCheckBox*>(window) != nullptr ||
           dynamic_cast<wxChoice*>(window) != nullptr;
}

/// How high it has to be to show its words in the width it has, and how wide at the least.
wxSize needed(wxWindow* window)
{
    auto* widget = static_cast<GtkWidget*>(window->GetHandle());
    gint width = 0;
    gint height = 0;
    gtk_widget_get_preferred_width(widget, &width, nullptr);
    gtk_widget_get_preferred_height_for_width(widget, std::max(window->GetSize().x, width), &height, nullptr);
    return {width, height};
}

}  // namespace

std::vector<std::string> clipped(wxWindow* window)
{
    std::vector<std::string> wrong;
    int seen = 0;
    for (wxWindow* one : shown_under(window)) {
        if (!has_words(one)) {
            continue;
        }
        ++seen;
        const wxSize size = one->GetSize();
        const wxSize least = needed(one);
        if (size.x < least.x || size.y < least.y) {
            wrong.push_back(fmt::format("{} is {} x {} and needs {} x {}", described(one), size.x, size.y,
                                        least.x, least.y));
        }
        const wxWindow* parent = one->GetParent();
        const wxRect where = one->GetRect();
        const auto* scrolls = dynamic_cast<const wxScrolledWindow*>(parent);
        const wxSize room = parent->GetClientSize();
        const bool beside = where.x < 0 || where.GetRight() >= room.x;
        const bool beyond = scrolls == nullptr && (where.y < 0 || where.GetBottom() >= room.y);
        if (beside || beyond) {
            wrong.push_back(fmt::format("{} stands at {},{} to {},{} in {} x {}", described(one), where.x,
                                        where.y, where.GetRight(), where.GetBottom(), room.x, room.y));
        }
    }
    if (seen == 0) {
        wrong.emplace_back("no words were found at all");
    }
    return wrong;
}

}  // namespace foreday::tests
