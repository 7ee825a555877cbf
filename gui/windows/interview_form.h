#pragma once
#include <vector>

#include "gui/present/phone_desk.h"
#include "gui/windows/controls.h"
#include "gui/windows/flow_panel.h"

namespace foreday::windows {

/// The questions of one section, one below the other: the words to say large, the answers beneath, what
/// stands.
///
/// On a question with yes and no the keys Y and N answer it and K says that it is not known; the next
/// question takes the focus.
class InterviewForm : public FlowPanel {
public:
    InterviewForm(wxWindow* parent, present::PhoneDesk& desk, Handler changed);
    /// Keeps its controls, and the focus, while the questions are the same.
    void show(const std::vector<present::QuestionView>& questions);
    /// The first question still to ask takes the focus; the first of all where none is.
    void focus_first_to_ask();

private:
    struct Row {
        present::QuestionView view;
        wxStaticText* stands = nullptr;
        wxWindow* first = nullptr;  ///< takes the focus
        wxTextCtrl* field = nullptr;
        wxChoice* answers = nullptr;
        std::vector<wxWindow*> controls;
    };

    void build(const std::vector<present::QuestionView>& questions);
    void add_row(const present::QuestionView& view);
    void add_buttons(Row& row, wxSizer* line);
    void add_field(Row& row, wxSizer* line);
    static void show_chosen(const Row& row);
    void answered(screening::FactIndex fact, bool stands);
    void on_key(wxKeyEvent& event);
    [[nodiscard]] std::vector<Row>::iterator row_of_focus();

    present::PhoneDesk& desk_;
    Handler changed_;
    std::vector<Row> rows_;
};

}  // namespace foreday::windows
