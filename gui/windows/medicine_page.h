#pragma once
#include <wx/panel.h>

#include "gui/present/phone_desk.h"
#include "gui/windows/controls.h"
#include "gui/windows/flow_panel.h"
#include "gui/windows/sentence_list.h"

namespace foreday::windows {

/// The medicine list: what stands on it, what is added, and whether it is complete.
class MedicinePage : public FlowPanel {
public:
    MedicinePage(wxWindow* parent, present::PhoneDesk& desk, Handler changed);
    void show();

private:
    void add_list();
    void add_form();
    void add_questions();
    void look_up();
    void add_medicine();
    void name_selected();
    [[nodiscard]] std::string picked() const;
    void empty_form();
    wxTextCtrl* form_row(wxSizer* grid, const wxString& words, const std::string& name);

    present::PhoneDesk& desk_;
    Handler changed_;
    wxStaticText* state_ = nullptr;
    SentenceList* list_ = nullptr;
    wxTextCtrl* heard_ = nullptr;
    SentenceList* candidates_ = nullptr;
    std::vector<present::MeantMedicine> meant_;
    wxTextCtrl* dose_ = nullptr;
    wxChoice* taken_ = nullptr;
    wxTextCtrl* days_ = nullptr;
    wxTextCtrl* times_ = nullptr;
    wxTextCtrl* last_dose_ = nullptr;
    wxTextCtrl* prescriber_ = nullptr;
    wxTextCtrl* reason_ = nullptr;
    std::vector<wxCheckBox*> asked_;
    std::vector<present::MedicineView> shown_;
};

}  // namespace foreday::windows
