#include "gui/windows/flow_panel.h"

#include <wx/sizer.h>

#include <algorithm>

#include "gui/windows/controls.h"
#include "gui/windows/text.h"

namespace foreday::windows {

void wrap_text(wxStaticText* control, std::string_view words, int width)
{
    control->SetLabel(label(words));
    control->Wrap(std::max(width, control->GetCharWidth()));
}

FlowPanel::FlowPanel(wxWindow* parent, const std::string& name)
    : wxScrolledWindow(parent, wxID_ANY, wxDefaultPosition, wxSize(400, 300), wxVSCROLL | wxTAB_TRAVERSAL)
{
    SetSizer(new wxBoxSizer(wxVERTICAL));
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
        text->SetFont(font);
    }
    texts_.push_back({text, std::string(words), indent});
    // As wide as the panel: a page not shown yet measures a larger font as the usual one, and would clip it.
    GetSizer()->Add(text, wxSizerFlags().Expand().Border(wxLEFT, indent_width(indent) + FromDIP(4)));
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
    GetSizer()->Add(control, wxSizerFlags().Border(wxLEFT, indent_width(indent) + FromDIP(4)));
}

void FlowPanel::add(wxSizer* row, int indent)
{
    auto* inset = new wxBoxSizer(wxHORIZONTAL);
    inset->AddSpacer(indent_width(indent) + FromDIP(4));
    inset->Add(row, wxSizerFlags(1).Expand());
    inset->AddSpacer(FromDIP(4));
    GetSizer()->Add(inset, wxSizerFlags().Expand());
}

void FlowPanel::add_gap()
{
    GetSizer()->AddSpacer(GetCharHeight() * 2 / 3);
}

void FlowPanel::clear()
{
    texts_.clear();
    GetSizer()->Clear(true);
    wrapped_to_ = 0;
}

void FlowPanel::wrap_all()
{
    const int width = GetClientSize().x;
    wrapped_to_ = width;
    for (const Text& text : texts_) {
        wrap_text(text.control, text.words, width - indent_width(text.indent + 1) - FromDIP(8));
    }
}

void FlowPanel::relayout()
{
    wrap_all();
    FitInside();
    Layout();
}

}  // namespace foreday::windows
