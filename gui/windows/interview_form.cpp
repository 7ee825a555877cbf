#include "gui/windows/interview_form.h"

#include <wx/wrapsizer.h>
#include <wx/wx.h>

#include <algorithm>

#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

using present::QuestionView;

bool same_questions(const QuestionView& a, const QuestionView& b)
{
    return a.fact == b.fact && a.words == b.words && a.choices == b.choices && a.beside == b.beside;
}

}  // namespace

InterviewForm::InterviewForm(wxWindow* parent, present::PhoneDesk& desk, Handler changed)
    : FlowPanel(parent, "Questions"), desk_(desk), changed_(std::move(changed))
{
    Bind(wxEVT_CHAR_HOOK, &InterviewForm::on_key, this);
}

void InterviewForm::show(const std::vector<QuestionView>& questions)
{
    const bool same = std::ranges::equal(questions, rows_, same_questions, {}, &Row::view);
    if (!same) {
        build(questions);
        return;
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i].view = questions[i];
        set_text(rows_[i].stands, questions[i].stands);
        show_chosen(rows_[i]);
    }
    relayout();
}

void InterviewForm::show_chosen(const Row& row)
{
    if (row.answers != nullptr) {
        row.answers->SetSelection(row.view.chosen ? static_cast<int>(*row.view.chosen) : wxNOT_FOUND);
    }
}

void InterviewForm::focus_first_to_ask()
{
    const auto open = std::ranges::find_if(rows_, [](const Row& row) { return row.view.to_ask; });
    const auto row = open == rows_.end() ? rows_.begin() : open;
    if (row != rows_.end()) {
        row->first->SetFocus();
    }
}

void InterviewForm::build(const std::vector<QuestionView>& questions)
{
    const auto focused = row_of_focus();
    const bool had_focus = focused != rows_.end();
    const screening::FactIndex fact = had_focus ? focused->view.fact : 0;
    int scrolled = 0;
    GetViewStart(nullptr, &scrolled);
    const bool same_section =
        !rows_.empty() && !questions.empty() && rows_.front().view.fact == questions.front().fact;
    Freeze();
    clear();
    rows_.clear();
    for (const QuestionView& view : questions) {
        add_row(view);
    }
    if (questions.empty()) {
        add_text("No question of this section applies to this patient.");
    }
    relayout();
    Scroll(0, same_section ? scrolled : 0);
    Thaw();
    const auto again = std::ranges::find(rows_, fact, [](const Row& row) { return row.view.fact; });
    if (had_focus && again != rows_.end()) {
        again->first->SetFocus();
    }
}

void InterviewForm::add_row(const QuestionView& view)
{
    constexpr int unfolded_indent = 4;
    const int indent = view.unfolded ? unfolded_indent : 0;
    Row row;
    row.view = view;
    add_text(view.words, TextSize::larger, indent);
    add_text("Why: " + view.why, TextSize::usual, indent);
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    add(line, indent);
    if (view.control == QuestionView::Control::yes_no) {
        add_buttons(row, line);
    } else {
        add_field(row, line);
    }
    const screening::FactIndex fact = view.fact;
    auto* not_known = button(
        this, wxS("Not known..."), [this, fact] { answered(fact, desk_.answer_not_known(fact)); },
        "Not known: " + view.words);
    row.controls.push_back(not_known);
    line->Add(not_known, wxSizerFlags().CenterVertical().Border(wxLEFT, FromDIP(6)));
    row.stands = add_text(view.stands, TextSize::bold, indent);
    for (const std::string& beside : view.beside) {
        add_text("Kept beside: " + beside, TextSize::usual, indent);
    }
    add_gap();
    rows_.push_back(std::move(row));
}

void InterviewForm::add_buttons(Row& row, wxSizer* line)
{
    const screening::FactIndex fact = row.view.fact;
    auto* yes = button(
        this, wxS("Yes"), [this, fact] { answered(fact, desk_.answer_yes_no(fact, true)); },
        "Yes: " + row.view.words);
    auto* no = button(
        this, wxS("No"), [this, fact] { answered(fact, desk_.answer_yes_no(fact, false)); },
        "No: " + row.view.words);
    row.first = yes;
    row.controls = {yes, no};
    line->Add(yes, wxSizerFlags().CenterVertical());
    line->Add(no, wxSizerFlags().CenterVertical().Border(wxLEFT, FromDIP(6)));
}

void InterviewForm::add_field(Row& row, wxSizer* line)
{
    const screening::FactIndex fact = row.view.fact;
    if (row.view.control == QuestionView::Control::choice) {
        auto* answers = choice(this, row.view.words, row.view.choices);
        answers->Bind(wxEVT_CHOICE, [this, answers, fact](wxCommandEvent&) {
            const int place = answers->GetSelection();
            later(this, [this, fact, place] {
                answered(fact, desk_.answer_choice(fact, static_cast<std::size_t>(place)));
            });
        });
        row.first = answers;
        row.answers = answers;
        show_chosen(row);
        row.controls = {answers};
        line->Add(answers, wxSizerFlags().CenterVertical());
        return;
    }
    constexpr int letters = 24;
    wxTextCtrl* typed_in = field(this, row.view.words + " " + row.view.expected);
    typed_in->SetMinSize(wxSize(GetCharWidth() * letters, typed_in->GetMinSize().y));
    const auto say = [this, typed_in, fact] {
        const std::string words = typed(typed_in->GetValue());
        if (!words.empty()) {
            later(this, [this, fact, words] { answered(fact, desk_.answer_typed(fact, words)); });
        }
    };
    typed_in->Bind(wxEVT_TEXT_ENTER, [say](wxCommandEvent&) { say(); });
    typed_in->Bind(wxEVT_KILL_FOCUS, [say](wxFocusEvent& event) {
        event.Skip();
        say();
    });
    row.first = typed_in;
    row.field = typed_in;
    row.controls = {typed_in};
    line->Add(typed_in, wxSizerFlags().CenterVertical());
    line->Add(new wxStaticText(this, wxID_ANY, label(row.view.expected)),
              wxSizerFlags().CenterVertical().Border(wxLEFT, FromDIP(6)));
}

void InterviewForm::answered(screening::FactIndex fact, bool stands)
{
    const auto row = std::ranges::find(rows_, fact, [](const Row& one) { return one.view.fact; });
    if (stands && row != rows_.end()) {
        if (row->field != nullptr) {
            row->field->ChangeValue(wxEmptyString);  // what was typed stands beneath now
        }
        if (row_of_focus() == row && std::next(row) != rows_.end()) {
            std::next(row)->first->SetFocus();
        }
    }
    changed_();
}

std::vector<InterviewForm::Row>::iterator InterviewForm::row_of_focus()
{
    return std::ranges::find_if(rows_,
                                [](const Row& row) { return std::ranges::any_of(row.controls, has_focus); });
}

void InterviewForm::on_key(wxKeyEvent& event)
{
    const auto row = row_of_focus();
    const bool answers_by_key =
        row != rows_.end() && row->view.control == QuestionView::Control::yes_no && !event.HasAnyModifiers();
    const int key = event.GetKeyCode();
    if (!answers_by_key || (key != 'Y' && key != 'N' && key != 'K')) {
        event.Skip();
        return;
    }
    const screening::FactIndex fact = row->view.fact;
    later(this, [this, fact, key] {
        answered(fact, key == 'K' ? desk_.answer_not_known(fact) : desk_.answer_yes_no(fact, key == 'Y'));
    });
}

}  // namespace foreday::windows
