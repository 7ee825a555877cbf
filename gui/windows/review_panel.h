#pragma once
#include <string>
#include <vector>

#include "gui/present/review_desk.h"
#include "gui/windows/desk_panel.h"
#include "gui/windows/flow_panel.h"
#include "gui/windows/page_view.h"

namespace foreday::windows {

/// The review desk: the page of the case on one side, what is to be decided on the other, item by item.
class ReviewPanel : public DeskPanel {
public:
    ReviewPanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed);
    void show_case() override;
    void take_focus() override { items_->focus_first(); }
    [[nodiscard]] std::vector<Command> commands() override;

private:
    void build(const std::vector<present::DecisionView>& views);
    void add_item(const present::DecisionView& view);
    void add_waiting();

    present::ReviewDesk desk_;
    PageView* page_ = nullptr;
    FlowPanel* items_ = nullptr;
    wxStaticText* unsigned_ = nullptr;
    wxButton* sign_ = nullptr;
    std::vector<present::DecisionView> shown_;
    std::vector<present::WaitingView> countersign_;
    std::vector<present::WaitingView> restarts_;
    std::vector<std::string> changes_;
    std::string case_;
};

}  // namespace foreday::windows
