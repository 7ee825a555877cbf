#include "gui/windows/dialogs.h"

#include <wx/wx.h>

#include <array>

#include "gui/windows/controls.h"
#include "gui/windows/flow_panel.h"
#include "gui/windows/sentence_list.h"
#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

using screening::Role;

/// Roles of people who work in the unit.
constexpr std::array unit_roles{Role::nurse,         Role::endoscopist, Role::anaesthesia,
                                Role::arrival_clerk, Role::scheduler,   Role::medical_director,
                                Role::manager,       Role::auditor};

/// A question above, something to answer with, and two buttons below.
class Question : public wxDialog {
public:
    Question(wxWindow* parent, const std::string& question)
        : wxDialog(parent, wxID_ANY, wxS("Foreday"), wxDefaultPosition, wxDefaultSize,
                   wxDEFAULT_DIALOG_STYLE | wxRESIZE_BORDER)
    {
        SetSizer(new wxBoxSizer(wxVERTICAL));
        auto* words = new wxStaticText(this, wxID_ANY, wxEmptyString);
        wrap_text(words, question, GetCharWidth() * letters_across);
        GetSizer()->Add(words, wxSizerFlags().Border(wxALL));
    }

    void finish(const wxString& yes)
    {
        auto* buttons = new wxStdDialogButtonSizer;
        auto* done = new wxButton(this, wxID_OK, yes);
        done->SetDefault();
        buttons->AddButton(done);
        buttons->AddButton(new wxButton(this, wxID_CANCEL, wxS("Give up")));
        buttons->Realize();
        GetSizer()->Add(buttons, wxSizerFlags().Right().Border(wxALL));
        GetSizer()->SetMinSize(GetCharWidth() * letters_across, -1);
        Fit();
        CentreOnParent();
    }

private:
    static constexpr int letters_across = 64;
};

}  // namespace

std::optional<std::size_t> DialogQuestioner::choose(const std::string& question,
                                                    const std::vector<std::string>& answers)
{
    constexpr int rows_shown = 9;
    Question dialog(window_, question);
    auto* list = new SentenceList(&dialog, question, {});
    list->SetMinSize(
        wxSize(-1, dialog.GetCharHeight() * 2 * std::min(rows_shown, static_cast<int>(answers.size()) + 1)));
    list->show(answers);
    if (!answers.empty()) {
        list->SetSelection(0);
    }
    list->Bind(wxEVT_LISTBOX_DCLICK, [&](wxCommandEvent&) { dialog.EndModal(wxID_OK); });
    dialog.GetSizer()->Add(list, wxSizerFlags(1).Expand().Border(wxLEFT | wxRIGHT));
    dialog.finish(wxS("Choose"));
    list->SetFocus();
    return dialog.ShowModal() == wxID_OK ? list->selected() : std::nullopt;
}

std::optional<std::string> DialogQuestioner::write(const std::string& question, const std::string& initial)
{
    Question dialog(window_, question);
    auto* words = new wxTextCtrl(&dialog, wxID_ANY, shown(initial));
    set_name(words, question);
    mend_height(words);
    dialog.GetSizer()->Add(words, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT));
    auto* missing = new wxStaticText(&dialog, wxID_ANY, wxS(" "));
    dialog.GetSizer()->Add(missing, wxSizerFlags().Border(wxLEFT | wxRIGHT));
    dialog.finish(wxS("Write it down"));
    dialog.Bind(
        wxEVT_BUTTON,
        [&](wxCommandEvent& event) {
            if (typed(words->GetValue()).empty()) {
                missing->SetLabel(wxS("A few words are needed."));
                words->SetFocus();
            } else {
                event.Skip();
            }
        },
        wxID_OK);
    words->SetFocus();
    words->SelectAll();
    return dialog.ShowModal() == wxID_OK ? std::optional(typed(words->GetValue())) : std::nullopt;
}

bool DialogQuestioner::agree(const std::string& question, const std::string& yes)
{
    Question dialog(window_, question);
    dialog.finish(label(yes));
    return dialog.ShowModal() == wxID_OK;
}

std::optional<WhoSignsIn> ask_who_signs_in(wxWindow* parent, const WhoSignsIn& last)
{
    Question dialog(parent, "Who is at work here? The name stands beside everything that is written.");
    auto* grid = new wxFlexGridSizer(2, dialog.FromDIP(wxSize(8, 8)));
    grid->AddGrowableCol(1);
    grid->Add(label_for(&dialog, wxS("&Name")), wxSizerFlags().CenterVertical());
    auto* name = new wxTextCtrl(&dialog, wxID_ANY, shown(last.name));
    set_name(name, "Name");
    mend_height(name);
    grid->Add(name, wxSizerFlags().Expand());
    grid->Add(label_for(&dialog, wxS("&Role")), wxSizerFlags().CenterVertical());
    std::vector<std::string> roles;
    int place = 0;
    for (std::size_t i = 0; i < unit_roles.size(); ++i) {
        roles.emplace_back(screening::name_of(unit_roles.at(i)));
        place = unit_roles.at(i) == last.role ? static_cast<int>(i) : place;
    }
    auto* role = choice(&dialog, "Role", roles);
    role->SetSelection(place);
    grid->Add(role, wxSizerFlags().Expand());
    dialog.GetSizer()->Add(grid, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT));
    auto* missing = new wxStaticText(&dialog, wxID_ANY, wxS(" "));
    dialog.GetSizer()->Add(missing, wxSizerFlags().Border(wxLEFT | wxRIGHT));
    dialog.finish(wxS("Sign in"));
    dialog.Bind(
        wxEVT_BUTTON,
        [&](wxCommandEvent& event) {
            if (typed(name->GetValue()).empty()) {
                missing->SetLabel(wxS("A name is needed."));
                name->SetFocus();
            } else {
                event.Skip();
            }
        },
        wxID_OK);
    name->SetFocus();
    if (dialog.ShowModal() != wxID_OK) {
        return std::nullopt;
    }
    return WhoSignsIn{typed(name->GetValue()), unit_roles.at(static_cast<std::size_t>(role->GetSelection()))};
}

}  // namespace foreday::windows
