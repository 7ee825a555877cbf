#include "gui/windows/flow_panel.h"

#include <gtk/gtk.h>
#include <wx/fontutil.h>
#include <wx/sizer.h>
#include <wx/textctrl.h>

#include <algorithm>

#include "gui/windows/controls.h"
#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

/// GTK learns of a font by its style sheet, too late for the first measuring: the text would be clipped.
void set_font_now(wxStaticText* text, const wxFont& font)
{
    text->SetFont(font);
    PangoAttrList* list = pango_attr_list_new();
    pango_attr_list_insert(list, pango_attr_font_desc_new(font.GetNativeFontInfo()->description));
    gtk_label_set_attributes(GTK_LABEL(text->GetHandle()), list);
    pango_attr_list_unref(list);
    text->InvalidateBestSize();
}

}  // namespace

void wrap_text(wxStaticText* control, std::string_view words, int width)
{
    control->SetLabel(label(words));
    control->Wrap(std::max(width, control->GetCharWidth()));
}

FlowPanel::FlowPanel(wxWindow* parent, const std::string& name)
    : wxScrolledWindow(parent, wxID_ANY, wxDefaultPosition, wxSize(400, 300), wxVSCROLL | wxTAB_TRAVERSAL),
      head_(new wxBoxSizer(wxVERTICAL)),
      body_(new wxBoxSizer(wxVERTICAL))
{
    auto* column = new wxBoxSizer(wxVERTICAL);
    column->Add(head_, wxSizerFlags().Expand());
    column->Add(body_, wxSizerFlags().Expand());
    SetSizer(column);
    SetScrollRate(0, GetCharHeight());
    set_name(this, name);
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        if (GetClientSize().x != wrapped_to_) {
            relayout();
        }
        event.Skip();
    });
}

int FlowPanel::indent_width(int letters) const
{
    return letters * GetCharWidth();
}

wxStaticText* FlowPanel::add_text(std::string_view words, TextSize size, int indent)
{
    constexpr double larger = 1.25;
    auto* text = new wxStaticText(this, wxID_ANY, label(words));
    if (size != TextSize::usual) {
        wxFont font = text->GetFont();
        if (size == TextSize::larger) {
            font.SetFractionalPointSize(font.GetFractionalPointSize() * larger);
        } else {
            font.MakeBold();
        }
        set_font_now(text, font);
    }
    texts_.push_back({text, std::string(words), indent});
    body_->Add(text, wxSizerFlags().Expand().Border(wxLEFT, indent_width(indent) + FromDIP(4)));
    return text;
}

void FlowPanel::set_text(wxStaticText* text, std::string_view words)
{
    const auto known = std::ranges::find(texts_, text, &Text::control);
    if (known != texts_.end() && known->words != words) {
        known->words = words;
        wrapped_to_ = 0;
    }
}

void FlowPanel::add(wxWindow* control, int indent)
{
    body_->Add(control, wxSizerFlags().Border(wxLEFT, indent_width(indent) + FromDIP(4)));
}

void FlowPanel::add_wide(wxWindow* control)
{
    body_->Add(control, wxSizerFlags().Expand().Border(wxALL, FromDIP(4)));
}

void FlowPanel::add(wxCheckBox* box)
{
    GtkWidget* words = gtk_bin_get_child(GTK_BIN(box->GetHandle()));
    gtk_label_set_line_wrap(GTK_LABEL(words), 1);
    gtk_label_set_xalign(GTK_LABEL(words), 0);
    boxes_.push_back(box);
    body_->Add(box, wxSizerFlags().Expand().Border(wxLEFT, FromDIP(4)));
}

void FlowPanel::add(wxSizer* row, int indent)
{
    body_->Add(row, wxSizerFlags().Expand().Border(wxLEFT, indent_width(indent) + FromDIP(4)));
}

void FlowPanel::add_gap()
{
    body_->AddSpacer(GetCharHeight() * 2 / 3);
}

void FlowPanel::clear()
{
    texts_.clear();
    boxes_.clear();
    body_->Clear(true);
    wrapped_to_ = 0;
}

void FlowPanel::wrap_all()
{
    const int width = GetClientSize().x;
    wrapped_to_ = width;
    for (const Text& text : texts_) {
        wrap_text(text.control, text.words, width - indent_width(text.indent + 1) - FromDIP(8));
    }
    for (wxCheckBox* box : boxes_) {
        gint height = 0;
        const int room = std::max(width - FromDIP(8), GetCharWidth());
        gtk_widget_get_preferred_height_for_width(static_cast<GtkWidget*>(box->GetHandle()), room, nullptr,
                                                  &height);
        box->SetMinSize(wxSize(room, height));
    }
    for (wxWindow* child : GetChildren()) {
        if (auto* text = dynamic_cast<wxTextCtrl*>(child); text != nullptr && text->IsSingleLine()) {
            mend_height(text);
        }
    }
}

void FlowPanel::relayout()
{
    wrap_all();
    Layout();  // what wraps learns its width here, and only then knows its height
    FitInside();
    Layout();
}

FlowPanel::Position FlowPanel::position() const
{
    Position position;
    GetViewStart(nullptr, &position.scrolled);
    const auto focused = std::ranges::find_if(
        GetChildren(), [](wxWindow* child) { return child->CanAcceptFocus() && has_focus(child); });
    if (focused != GetChildren().end()) {
        position.focused = name_of(*focused);
    }
    return position;
}

void FlowPanel::focus_first()
{
    for (wxWindow* child : GetChildren()) {
        if (child->CanAcceptFocus()) {
            child->SetFocus();
            return;
        }
    }
}

void FlowPanel::go_back_to(const Position& position)
{
    Scroll(0, position.scrolled);
    for (wxWindow* child : GetChildren()) {
        if (!position.focused.empty() && child->CanAcceptFocus() && name_of(child) == position.focused) {
            child->SetFocus();
            return;
        }
    }
}

}  // namespace foreday::windows
