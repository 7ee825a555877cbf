#include "gui/windows/arrival_panel.h"

#include <wx/wrapsizer.h>
#include <wx/wx.h>

#include <algorithm>

#include "gui/windows/split.h"
#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

using present::ChecklistView;

std::string joined(const std::vector<std::string>& sentences)
{
    std::string words;
    for (const std::string& sentence : sentences) {
        words += (words.empty() ? "" : " ") + sentence;
    }
    return words.empty() ? "Nothing is written down yet." : words;
}

}  // namespace

ArrivalPanel::ArrivalPanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed)
    : DeskPanel(parent, place, std::move(changed)), desk_(place)
{
    constexpr double first_share = 0.64;
    auto* split = new Split(this, first_share);
    list_ = new FlowPanel(split, "Checklist of the day");
    auto* side = new wxPanel(split, wxID_ANY, wxDefaultPosition, usual_size);
    auto* column = new wxBoxSizer(wxVERTICAL);
    reasons_ = new FlowPanel(side, "Verdict and reasons");
    column->Add(reasons_, wxSizerFlags(1).Expand());
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    const auto add = [&](const wxString& words, auto one_thing) {
        wxButton* made = button(side, words, doing(one_thing));
        line->Add(made, wxSizerFlags().Border(wxRIGHT | wxBOTTOM, FromDIP(6)));
        return made;
    };
    receive_ = add(wxS("&Receive the patient"), [this] { desk_.receive(); });
    add(wxS("&Goes in"), [this] { desk_.go_in(); });
    add(wxS("Not toda&y..."), [this] { desk_.not_today(); });
    add(wxS("Did not co&me..."), [this] { desk_.did_not_come(); });
    column->Add(line, wxSizerFlags().Expand().Border(wxALL, FromDIP(4)));
    side->SetSizer(column);
    split->split(list_, side);
    auto* all = new wxBoxSizer(wxVERTICAL);
    all->Add(split, wxSizerFlags(1).Expand());
    SetSizer(all);
}

void ArrivalPanel::show_case()
{
    show_verdict();
    const auto views = desk_.checklist();
    const auto same_item = [](const ChecklistView& a, const ChecklistView& b) {
        return a.id == b.id && a.title == b.title && a.question == b.question && a.met == b.met &&
               a.mine_to_let_pass == b.mine_to_let_pass;
    };
    const bool same = case_ == place().now()->id() && medicines_ == desk_.medicines() &&
                      std::ranges::equal(views, rows_, same_item, {}, &Row::view);
    if (!same) {
        const bool same_case = case_ == place().now()->id();
        const FlowPanel::Position before = same_case ? list_->position() : FlowPanel::Position{};
        case_ = place().now()->id();
        build();
        list_->go_back_to(before);
        return;
    }
    for (std::size_t i = 0; i < rows_.size(); ++i) {
        rows_[i].view = views[i];
        list_->set_text(rows_[i].state, views[i].state);
    }
    list_->set_text(taken_, joined(desk_.taken_so_far()));
    list_->relayout();
}

void ArrivalPanel::take_focus()
{
    const auto open =
        std::ranges::find_if(rows_, [](const Row& row) { return !row.view.met && row.first != nullptr; });
    wxWindow* first = desk_.here() && open != rows_.end() ? open->first : receive_;
    first->SetFocus();
}

void ArrivalPanel::show_verdict()
{
    const present::VerdictView verdict = desk_.verdict();
    reasons_->Freeze();
    reasons_->clear();
    reasons_->add_text(verdict.words, TextSize::larger);
    if (!verdict.earliest.empty()) {
        reasons_->add_text(verdict.earliest, TextSize::bold);
    }
    for (const std::string& reason : verdict.reasons) {
        reasons_->add_text(reason);
    }
    reasons_->relayout();
    reasons_->Thaw();
}

void ArrivalPanel::build()
{
    list_->Freeze();
    list_->clear();
    rows_.clear();
    for (const ChecklistView& view : desk_.checklist()) {
        add_row(view);
    }
    add_taken();
    list_->relayout();
    list_->Thaw();
}

wxTextCtrl* ArrivalPanel::typed_row(const std::string& name, int letters)
{
    wxTextCtrl* made = field(list_, name);
    made->SetMinSize(wxSize(list_->GetCharWidth() * letters, made->GetMinSize().y));
    return made;
}

void ArrivalPanel::add_row(const ChecklistView& view)
{
    constexpr int letters = 12;
    const std::string id = view.id;
    list_->add_text(view.enters_verdict ? view.title : view.title + " (to be noted)", TextSize::larger);
    if (!view.question.empty()) {
        list_->add_text(view.question);
    }
    Row row{view, list_->add_text(view.state, TextSize::bold)};
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    const auto put = [&](wxWindow* control) {
        if (row.first == nullptr && control->AcceptsFocus()) {
            row.first = control;
        }
        line->Add(control, wxSizerFlags().CenterVertical().Border(wxRIGHT | wxBOTTOM, FromDIP(6)));
    };
    if (view.control == ChecklistView::Control::confirm) {
        put(button(list_, wxS("Yes"), doing([this, id] { desk_.confirm(id, true); }), "Yes: " + view.title));
        put(button(list_, wxS("No"), doing([this, id] { desk_.confirm(id, false); }), "No: " + view.title));
    } else if (view.control == ChecklistView::Control::measure) {
        wxTextCtrl* value = typed_row(view.title + ", " + view.expected, letters);
        const Handler say = doing([this, id, value] {
            if (desk_.measure(id, typed(value->GetValue()))) {
                value->ChangeValue(wxEmptyString);
            }
        });
        value->Bind(wxEVT_TEXT_ENTER, [this, say](wxCommandEvent&) { later(this, say); });
        put(value);
        put(label_for(list_, label(view.expected)));
        put(button(list_, wxS("Enter"), say, "Enter: " + view.title));
    }
    if (!view.met) {
        put(button(list_, wxS("Call a clinician..."), doing([this, id] { desk_.escalate(id); }),
                   "Call a clinician about: " + view.title));
    }
    if (view.mine_to_let_pass) {
        put(button(list_, wxS("Let pass..."), doing([this, id] { desk_.let_pass(id); }),
                   "Let pass, as a clinician: " + view.title));
    }
    list_->add(line);
    list_->add_gap();
    rows_.push_back(std::move(row));
}

void ArrivalPanel::add_taken()
{
    constexpr int time_letters = 18;
    constexpr int what_letters = 20;
    list_->add_text("Food, drink and medicines really taken", TextSize::larger);
    taken_ = list_->add_text(joined(desk_.taken_so_far()), TextSize::bold);
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    const auto put = [&](wxSizer* where, wxWindow* control) {
        where->Add(control, wxSizerFlags().CenterVertical().Border(wxRIGHT | wxBOTTOM, FromDIP(6)));
    };
    put(line, label_for(list_, wxS("Last")));
    auto* kind = choice(list_, "Kind of food or drink", present::kinds_of_intake());
    kind->SetSelection(0);
    put(line, kind);
    put(line, label_for(list_, wxS("at")));
    wxTextCtrl* at =
        typed_row("Time of the last food or drink, such as 06:30 or 2026-11-03 22:00", time_letters);
    put(line, at);
    put(line, label_for(list_, wxS("what")));
    wxTextCtrl* what = typed_row("What it was", what_letters);
    put(line, what);
    put(line, button(list_, wxS("Write it down"), doing([this, kind, at, what] {
                         if (desk_.record_intake({static_cast<std::size_t>(kind->GetSelection()),
                                                  typed(at->GetValue()), typed(what->GetValue())})) {
                             at->ChangeValue(wxEmptyString);
                             what->ChangeValue(wxEmptyString);
                         }
                     }),
                     "Write down this food or drink"));
    put(line, button(list_, wxS("No other food or drink"), doing([this] { desk_.record_nothing_else(); })));
    list_->add(line);

    medicines_ = desk_.medicines();
    if (medicines_.empty()) {
        return;
    }
    std::vector<std::string> names;
    for (const auto& [id, name] : medicines_) {
        names.push_back(name);
    }
    auto* doses = new wxWrapSizer(wxHORIZONTAL);
    put(doses, label_for(list_, wxS("Last dose of")));
    auto* medicine = choice(list_, "Medicine", names);
    medicine->SetSelection(0);
    put(doses, medicine);
    put(doses, label_for(list_, wxS("taken")));
    wxTextCtrl* taken =
        typed_row("When the last dose was really taken, such as 2026-11-03 08:00", time_letters);
    put(doses, taken);
    put(doses, button(list_, wxS("Write it down"), doing([this, medicine, taken] {
                          const auto place = static_cast<std::size_t>(medicine->GetSelection());
                          if (desk_.record_dose_taken(medicines_.at(place).first, typed(taken->GetValue()))) {
                              taken->ChangeValue(wxEmptyString);
                          }
                      }),
                      "Write down this last dose"));
    list_->add(doses);
}

std::vector<DeskPanel::Command> ArrivalPanel::commands()
{
    return {
        {wxS("&Receive the patient\tCtrl+R"), doing([this] { desk_.receive(); })},
        {wxS("&Goes in\tCtrl+G"), doing([this] { desk_.go_in(); })},
        {wxS("Not &today..."), doing([this] { desk_.not_today(); })},
        {wxS("&Did not come..."), doing([this] { desk_.did_not_come(); })},
        {wxS("&What was done..."), doing([this] { desk_.record_what_was_done(); })},
        {wxS("How &clean the bowel was..."), doing([this] { desk_.record_preparation_quality(); })},
        {wxS("Told what to &start again"), doing([this] { desk_.tell_restart(); })},
        {wxS("C&lose the case..."), doing([this] { desk_.close(); })},
    };
}

}  // namespace foreday::windows
