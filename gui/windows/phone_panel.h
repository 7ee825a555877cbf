#pragma once
#include <wx/notebook.h>

#include <memory>

#include "gui/present/phone_desk.h"
#include "gui/windows/desk_panel.h"
#include "gui/windows/interview_form.h"
#include "gui/windows/medicine_page.h"
#include "gui/windows/page_view.h"

namespace foreday::windows {

/// The phone desk: the call with its questions, the medicines, what is told; beside them what follows so far.
class PhonePanel : public DeskPanel {
public:
    PhonePanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed);
    void show_case() override;
    void take_focus() override { form_->focus_first_to_ask(); }
    [[nodiscard]] std::vector<Command> commands() override;

private:
    wxWindow* make_call_page(wxWindow* parent);
    wxWindow* make_telling_page(wxWindow* parent);
    void add_tries(wxWindow* page, wxSizer* column);
    void add_said_by(wxWindow* page, wxSizer* column);
    void add_sections(wxWindow* page, wxSizer* column);
    void show_calls();
    void take_said_by();
    void next_section();
    void show_section();

    present::PhoneDesk desk_;
    std::string case_;
    wxStaticText* calls_ = nullptr;
    wxChoice* informant_ = nullptr;
    wxTextCtrl* who_ = nullptr;
    wxTextCtrl* interpreter_ = nullptr;
    wxChoice* section_ = nullptr;
    std::vector<std::string> section_names_;
    InterviewForm* form_ = nullptr;
    MedicinePage* medicines_ = nullptr;
    PageView* sheet_ = nullptr;
    wxStaticText* draft_ = nullptr;
    PageView* follows_ = nullptr;
};

}  // namespace foreday::windows
