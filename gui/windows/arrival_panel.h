#pragma once
#include <string>
#include <utility>
#include <vector>

#include "gui/present/arrival_desk.h"
#include "gui/windows/desk_panel.h"
#include "gui/windows/flow_panel.h"

namespace foreday::windows {

/// The arrival desk: the verdict with its reasons, the checklist item by item, food, drink and medicines
/// taken, and what follows the procedure.
class ArrivalPanel : public DeskPanel {
public:
    ArrivalPanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed);
    void show_case() override;
    /// The first item that is not met; while the patient is not here, the button that says so.
    void take_focus() override;
    [[nodiscard]] std::vector<Command> commands() override;

private:
    struct Row {
        present::ChecklistView view;
        wxStaticText* state = nullptr;
        wxWindow* first = nullptr;  ///< takes the focus; may be none
    };
    void build();
    void add_row(const present::ChecklistView& view);
    void add_taken();
    wxTextCtrl* typed_row(const std::string& name, int letters);
    void show_verdict();

    present::ArrivalDesk desk_;
    FlowPanel* reasons_ = nullptr;
    wxButton* receive_ = nullptr;
    FlowPanel* list_ = nullptr;
    std::vector<Row> rows_;
    wxStaticText* taken_ = nullptr;
    std::vector<std::pair<std::string, std::string>> medicines_;
    std::string case_;
};

}  // namespace foreday::windows
