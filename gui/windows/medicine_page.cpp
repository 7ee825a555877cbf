#include "gui/windows/medicine_page.h"

#include <wx/wrapsizer.h>
#include <wx/wx.h>

#include "gui/windows/text.h"

namespace foreday::windows {

MedicinePage::MedicinePage(wxWindow* parent, present::PhoneDesk& desk, Handler changed)
    : FlowPanel(parent, "Medicines"), desk_(desk), changed_(std::move(changed))
{
    add_list();
    add_form();
}

void MedicinePage::add_list()
{
    constexpr int rows = 7;
    state_ = add_text(" ", TextSize::bold);
    list_ = new SentenceList(this, "Medicines on the list", {});
    list_->SetMinSize(wxSize(-1, GetCharHeight() * rows));
    add_wide(list_);
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    line->Add(button(this, wxS("Take off the list..."), [this] {
        if (const auto place = list_->selected()) {
            desk_.stop_medicine(shown_.at(*place).id);
            changed_();
        }
    }));
    line->Add(button(
                  this, wxS("It is the one picked below"), [this] { name_selected(); },
                  "Name the selected entry with the medicine picked below"),
              wxSizerFlags().Border(wxLEFT, FromDIP(6)));
    add(line);
    add_gap();
}

wxTextCtrl* MedicinePage::form_row(wxSizer* grid, const wxString& words, const std::string& name)
{
    grid->Add(label_for(this, words), wxSizerFlags().CenterVertical());
    wxTextCtrl* made = field(this, name);
    grid->Add(made, wxSizerFlags().Expand());
    return made;
}

void MedicinePage::add_form()
{
    constexpr int rows = 5;
    add_text("Add a medicine", TextSize::larger);
    auto* grid = new wxFlexGridSizer(2, FromDIP(wxSize(8, 4)));
    grid->AddGrowableCol(1);
    heard_ = form_row(grid, wxS("As the patient says it"), "Medicine, as the patient says it");
    heard_->Bind(wxEVT_TEXT, [this](wxCommandEvent&) { later(this, [this] { look_up(); }); });
    grid->Add(label_for(this, wxS("Which is meant?")), wxSizerFlags().CenterVertical());
    candidates_ = new SentenceList(this, "Which medicine is meant? Nothing is picked for you", {});
    candidates_->SetMinSize(wxSize(-1, GetCharHeight() * rows));
    grid->Add(candidates_, wxSizerFlags().Expand());
    dose_ = form_row(grid, wxS("Dose"), "Dose, with its unit");
    grid->Add(label_for(this, wxS("How it is taken")), wxSizerFlags().CenterVertical());
    std::vector<std::string> ways;
    for (const present::WayOfTaking& way : present::ways_of_taking()) {
        ways.push_back(way.days.empty() ? way.words : way.words + " (days: " + way.days + ")");
    }
    taken_ = choice(this, "How it is taken", ways);
    taken_->SetSelection(0);
    grid->Add(taken_, wxSizerFlags().Expand());
    days_ = form_row(grid, wxS("Days"), "Days, where it is not taken every day");
    times_ = form_row(grid, wxS("Times of day"), "Times of day, such as 08:00, 20:00; empty where not known");
    last_dose_ = form_row(grid, wxS("Last dose taken"),
                          "Last dose really taken, such as 2026-11-03 08:00; empty where not known");
    prescriber_ = form_row(grid, wxS("Prescribed by"), "Prescribed by");
    reason_ = form_row(grid, wxS("Taken for"), "Taken for");
    add(grid);
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    line->Add(button(this, wxS("&Add to the list"), [this] { add_medicine(); }));
    add(line);
    add_gap();
}

void MedicinePage::add_questions()
{
    add_text("Ask each of these by name, then the list can be complete", TextSize::larger);
    const auto questions = desk_.list_questions();
    for (std::size_t i = 0; i < questions.size(); ++i) {
        asked_.push_back(check_box(this, questions[i].words, [this, i] {
            desk_.mark_asked(i, asked_.at(i)->GetValue());
            changed_();
        }));
        add(asked_.back());
    }
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    line->Add(button(this, wxS("The list is com&plete"), [this] {
        desk_.close_list();
        changed_();
    }));
    line->Add(button(this, wxS("Something is new..."),
                     [this] {
                         desk_.reopen_list();
                         changed_();
                     }),
              wxSizerFlags().Border(wxLEFT, FromDIP(6)));
    add(line);
}

void MedicinePage::show()
{
    if (asked_.empty()) {
        add_questions();
    }
    shown_ = desk_.medicines();
    std::vector<std::string> sentences;
    for (const present::MedicineView& view : shown_) {
        sentences.push_back(view.words);
    }
    list_->show(sentences);
    set_text(state_, desk_.list_in_words());
    const auto questions = desk_.list_questions();
    for (std::size_t i = 0; i < asked_.size() && i < questions.size(); ++i) {
        asked_[i]->SetValue(questions[i].asked);
    }
    relayout();
}

void MedicinePage::look_up()
{
    meant_ = desk_.candidates(typed(heard_->GetValue()));
    std::vector<std::string> sentences;
    for (const present::MeantMedicine& one : meant_) {
        sentences.push_back(one.words);
    }
    if (!meant_.empty()) {
        sentences.emplace_back("None of these: write down what was heard");
    }
    candidates_->show(sentences);
}

std::string MedicinePage::picked() const
{
    const auto place = candidates_->selected();
    return place && *place < meant_.size() ? meant_[*place].id : std::string();
}

void MedicinePage::add_medicine()
{
    present::MedicineForm form;
    form.heard = typed(heard_->GetValue());
    form.medicine = picked();
    form.dose = typed(dose_->GetValue());
    form.taken = static_cast<std::size_t>(taken_->GetSelection());
    form.days = typed(days_->GetValue());
    form.times = typed(times_->GetValue());
    form.last_dose = typed(last_dose_->GetValue());
    form.prescriber = typed(prescriber_->GetValue());
    form.reason = typed(reason_->GetValue());
    const bool nothing_picked = !meant_.empty() && !candidates_->selected();
    if (desk_.add_medicine(form, nothing_picked)) {
        empty_form();
    }
    changed_();
}

void MedicinePage::empty_form()
{
    for (wxTextCtrl* one : {heard_, dose_, days_, times_, last_dose_, prescriber_, reason_}) {
        one->ChangeValue(wxEmptyString);
    }
    taken_->SetSelection(0);
    look_up();
    heard_->SetFocus();
}

void MedicinePage::name_selected()
{
    const auto place = list_->selected();
    if (place && !picked().empty()) {
        desk_.name_medicine(shown_.at(*place).id, picked());
    } else {
        desk_.say_what_to_pick();
    }
    changed_();
}

}  // namespace foreday::windows
