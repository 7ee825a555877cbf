#include <fmt/format.h>
#include <gtk/gtk.h>
#include <wx/wx.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <memory>
#include <set>

#include "tests/windows/at_the_window.h"
#include "tests/windows/walks.h"

namespace foreday::tests {
namespace {

struct Release {
    void operator()(void* object) const { g_object_unref(object); }
};
template <class Object>
using Held = std::unique_ptr<Object, Release>;

class NameWalk {
public:
    void look_at(AtkObject* object)
    {
        const Held<AtkStateSet> states(atk_object_ref_state_set(object));
        const bool showing = atk_state_set_contains_state(states.get(), ATK_STATE_SHOWING) != 0;
        const AtkRole role = atk_object_get_role(object);
        if (!showing) {
            return;
        }
        if (atk_state_set_contains_state(states.get(), ATK_STATE_FOCUSABLE) != 0 && role != ATK_ROLE_FRAME) {
            check(object, role);
        }
        // Rows are read out by their words; menus hold what is shown on demand, with labels.
        if (role == ATK_ROLE_TABLE || role == ATK_ROLE_TREE_TABLE || role == ATK_ROLE_MENU_BAR) {
            return;
        }
        for (gint i = 0; i < atk_object_get_n_accessible_children(object); ++i) {
            if (const Held<AtkObject> child{atk_object_ref_accessible_child(object, i)}) {
                look_at(child.get());
            }
        }
    }

    std::vector<std::string> wrong;
    int seen = 0;

private:
    void check(AtkObject* object, AtkRole role)
    {
        ++seen;
        const char* name = atk_object_get_name(object);
        const std::string kind = atk_role_get_name(role);
        if (name == nullptr || *name == '\0') {
            const AtkObject* parent = atk_object_get_parent(object);
            wrong.push_back(fmt::format("a {} without a name, in {}", kind,
                                        parent == nullptr ? "nothing" : words_of(parent)));
        } else if (!names_.insert({kind, name}).second) {
            wrong.push_back(fmt::format("two controls ({}) are both called \"{}\"", kind, name));
        }
    }

    static std::string words_of(const AtkObject* object)
    {
        const char* name = atk_object_get_name(const_cast<AtkObject*>(object));
        return name == nullptr ? "something without a name" : name;
    }

    std::set<std::pair<std::string, std::string>> names_;
};

/// The letter that Alt presses; 0: none.
char letter_of(const wxString& label)
{
    const int place = label.Find('&');
    const bool any = place != wxNOT_FOUND && place + 1 < static_cast<int>(label.length());
    return any ? static_cast<char>(wxToupper(label[static_cast<size_t>(place) + 1])) : '\0';
}

/// Where two share a letter Alt goes from one to the other, and neither is done.
std::vector<std::string> letters_shared(wxWindow* window)
{
    std::map<char, wxString> taken;
    std::vector<std::string> wrong;
    const auto take = [&](const wxString& label) {
        const char letter = letter_of(label);
        if (letter != '\0' && !taken.emplace(letter, label).second) {
            wrong.push_back(fmt::format("Alt+{} is both \"{}\" and \"{}\"", letter,
                                        taken.at(letter).utf8_string(), label.utf8_string()));
        }
    };
    if (const auto* frame = dynamic_cast<wxFrame*>(window);
        frame != nullptr && frame->GetMenuBar() != nullptr) {
        for (size_t place = 0; place < frame->GetMenuBar()->GetMenuCount(); ++place) {
            take(frame->GetMenuBar()->GetMenuLabel(place));
        }
    }
    for (const wxWindow* one : shown_under(window)) {
        if (dynamic_cast<const wxButton*>(one) != nullptr ||
            dynamic_cast<const wxStaticText*>(one) != nullptr) {
            take(one->GetLabel());
        }
    }
    return wrong;
}

}  // namespace

std::vector<std::string> unnamed(wxWindow* window)
{
    NameWalk walk;
    walk.look_at(gtk_widget_get_accessible(static_cast<GtkWidget*>(window->GetHandle())));
    if (walk.seen == 0) {
        walk.wrong.emplace_back("nothing that takes the focus was found at all");
    }
    std::ranges::move(letters_shared(window), std::back_inserter(walk.wrong));
    return walk.wrong;
}

}  // namespace foreday::tests
