#include "gui/windows/sentence_list.h"

#include <gtk/gtk.h>

#include <algorithm>

#include "gui/windows/controls.h"
#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

GtkWidget* tree_view_in(GtkWidget* widget)
{
    if (GTK_IS_TREE_VIEW(widget) != 0) {
        return widget;
    }
    GtkWidget* found = nullptr;
    if (GTK_IS_CONTAINER(widget) != 0) {
        const auto look = [](GtkWidget* child, gpointer data) {
            auto** result = static_cast<GtkWidget**>(data);
            if (*result == nullptr) {
                *result = tree_view_in(child);
            }
        };
        gtk_container_forall(GTK_CONTAINER(widget), look, &found);
    }
    return found;
}

/// White on the usual blue of a chosen row is 3.8:1; readable text needs 4.5:1 (WCAG 2.1, 1.4.3).
void darken_chosen_row(GtkWidget* tree)
{
    constexpr const char* rule =
        "treeview.view:selected { background-color: shade(@theme_selected_bg_color, 0.8); }";
    GtkCssProvider* provider = gtk_css_provider_new();
    gtk_css_provider_load_from_data(provider, rule, -1, nullptr);
    gtk_style_context_add_provider(gtk_widget_get_style_context(tree), GTK_STYLE_PROVIDER(provider),
                                   GTK_STYLE_PROVIDER_PRIORITY_APPLICATION);
    g_object_unref(provider);
}

/// A list of GTK searches itself on Ctrl+F, and what has the focus comes before a menu.
void keep_keys_of_the_menus(GtkWidget* tree)
{
    gtk_tree_view_set_enable_search(GTK_TREE_VIEW(tree), FALSE);
    gtk_binding_entry_remove(gtk_binding_set_by_class(GTK_TREE_VIEW_GET_CLASS(tree)), GDK_KEY_f,
                             GDK_CONTROL_MASK);
}

}  // namespace

SentenceList::SentenceList(wxWindow* parent, const std::string& name, std::function<void(std::size_t)> open)
    : wxListBox(parent, wxID_ANY, wxDefaultPosition, wxSize(260, 200), 0, nullptr, wxLB_SINGLE)
{
    set_name(this, name);
    GtkWidget* tree = tree_view_in(static_cast<GtkWidget*>(GetHandle()));
    darken_chosen_row(tree);
    keep_keys_of_the_menus(tree);
    if (open) {
        const auto open_selected = [this, open = std::move(open)] {
            later(this, [this, open] {
                if (const auto place = selected()) {
                    open(*place);
                }
            });
        };
        Bind(wxEVT_LISTBOX_DCLICK, [open_selected](wxCommandEvent&) { open_selected(); });  // Enter too
        Bind(wxEVT_LEFT_UP, [open_selected](wxMouseEvent& event) {
            event.Skip();
            open_selected();
        });
    }
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        wrap_rows();
    });
}

void SentenceList::wrap_rows()
{
    constexpr int beside_text = 12;  // the cell's own padding and the scroll bar, in pixels of GTK
    const int width = GetClientSize().x - beside_text;
    GtkWidget* tree = tree_view_in(static_cast<GtkWidget*>(GetHandle()));
    if (tree == nullptr || width <= 0 || width == wrapped_to_) {
        return;
    }
    wrapped_to_ = width;
    GtkTreeViewColumn* column = gtk_tree_view_get_column(GTK_TREE_VIEW(tree), 0);
    GList* cells = gtk_cell_layout_get_cells(GTK_CELL_LAYOUT(column));
    for (GList* cell = cells; cell != nullptr; cell = cell->next) {
        if (GTK_IS_CELL_RENDERER_TEXT(cell->data) != 0) {
            g_object_set(cell->data, "wrap-mode", PANGO_WRAP_WORD_CHAR, "wrap-width", width, "ypad", 4,
                         nullptr);
        }
    }
    g_list_free(cells);
    fill();  // rows keep the height they were first measured with
}

void SentenceList::fill()
{
    const int kept = GetSelection();
    wxArrayString rows;
    for (const std::string& sentence : sentences_) {
        rows.Add(shown(sentence));
    }
    Set(rows);
    if (kept != wxNOT_FOUND && kept < static_cast<int>(rows.size())) {
        SetSelection(kept);
    }
}

void SentenceList::show(const std::vector<std::string>& sentences)
{
    if (sentences == sentences_) {
        return;
    }
    std::string kept;
    if (const auto place = selected()) {
        kept = sentences_.at(*place);
    }
    sentences_ = sentences;
    fill();
    const auto again = std::ranges::find(sentences_, kept);
    if (!kept.empty() && again != sentences_.end()) {
        SetSelection(static_cast<int>(again - sentences_.begin()));
    } else {
        SetSelection(wxNOT_FOUND);
    }
}

std::optional<std::size_t> SentenceList::selected() const
{
    const int place = GetSelection();
    return place == wxNOT_FOUND || static_cast<std::size_t>(place) >= sentences_.size()
               ? std::nullopt
               : std::optional(static_cast<std::size_t>(place));
}

}  // namespace foreday::windows
