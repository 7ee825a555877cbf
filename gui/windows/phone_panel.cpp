#include "gui/windows/phone_panel.h"

#include <fmt/format.h>
#include <wx/wrapsizer.h>
#include <wx/wx.h>

#include "gui/present/follows.h"
#include "gui/windows/split.h"
#include "gui/windows/text.h"

namespace foreday::windows {
namespace {

using checklists::TryOutcome;

std::string joined(const std::vector<std::string>& sentences)
{
    std::string words;
    for (const std::string& sentence : sentences) {
        words += (words.empty() ? "" : " ") + sentence;
    }
    return words;
}

}  // namespace

PhonePanel::PhonePanel(wxWindow* parent, present::Workplace& place, std::function<void()> changed)
    : DeskPanel(parent, place, std::move(changed)), desk_(place)
{
    constexpr double first_share = 0.6;
    auto* split = new Split(this, first_share);
    auto* book = new wxNotebook(split, wxID_ANY);
    book->AddPage(make_call_page(book), wxS("Call"));
    medicines_ = new MedicinePage(book, desk_, [this] { this->changed(); });
    book->AddPage(medicines_, wxS("Medicines"));
    book->AddPage(make_telling_page(book), wxS("Telling"));
    set_name(book, "Parts of the call");
    book->Bind(wxEVT_NOTEBOOK_PAGE_CHANGED, [book](wxBookCtrlEvent& event) {
        event.Skip();
        // The focus would stay on the page that is hidden by now, where no key is heard.
        later(book, [book] {
            wxWindow* page = book->GetCurrentPage();
            if (page != nullptr && !is_focused(book) && !has_focus(page)) {
                page->SetFocus();
            }
        });
    });
    // A text takes these keys for its own.
    Bind(wxEVT_CHAR_HOOK, [book](wxKeyEvent& event) {
        const bool on = event.GetKeyCode() == WXK_PAGEDOWN;
        if (event.GetModifiers() == wxMOD_CONTROL && (on || event.GetKeyCode() == WXK_PAGEUP)) {
            later(book, [book, on] { book->AdvanceSelection(on); });
        } else {
            event.Skip();
        }
    });
    follows_ = new PageView(split, "What follows from the answers so far");
    split->split(book, follows_);
    auto* column = new wxBoxSizer(wxVERTICAL);
    column->Add(split, wxSizerFlags(1).Expand());
    SetSizer(column);
}

wxWindow* PhonePanel::make_call_page(wxWindow* parent)
{
    auto* page = new wxPanel(parent, wxID_ANY, wxDefaultPosition, usual_size);
    auto* column = new wxBoxSizer(wxVERTICAL);
    add_sections(page, column);
    form_ = new InterviewForm(page, desk_, [this] { this->changed(); });
    // It scrolls with the questions: large text would leave them no room beneath it.
    calls_ = new wxStaticText(form_, wxID_ANY, wxS(" "));
    form_->head()->Add(calls_, wxSizerFlags().Expand().Border(wxALL, FromDIP(4)));
    form_->Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        show_calls();
    });
    add_tries(form_, form_->head());
    add_said_by(form_, form_->head());
    form_->head()->AddSpacer(form_->GetCharHeight());
    column->Add(form_, wxSizerFlags(1).Expand().Border(wxTOP, FromDIP(4)));
    page->SetSizer(column);
    return page;
}

void PhonePanel::show_calls()
{
    if (place().now() != nullptr) {
        wrap_text(calls_, joined(desk_.calls()), form_->GetClientSize().x - FromDIP(12));
    }
}

void PhonePanel::add_tries(wxWindow* page, wxSizer* column)
{
    struct Try {
        const char* label;
        TryOutcome outcome;
    };
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    for (const Try& one :
         {Try{"Reached", TryOutcome::reached}, Try{"No answer", TryOutcome::no_answer},
          Try{"Message left", TryOutcome::message_left}, Try{"Wrong number", TryOutcome::wrong_number}}) {
        const TryOutcome outcome = one.outcome;
        line->Add(button(page, shown(one.label), doing([this, outcome] { desk_.record_try(outcome); }),
                         fmt::format("Record this try: {}", one.label)),
                  wxSizerFlags().Border(wxRIGHT, FromDIP(6)));
    }
    column->Add(line, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT, FromDIP(4)));
}

void PhonePanel::add_said_by(wxWindow* page, wxSizer* column)
{
    constexpr int letters = 14;
    std::vector<std::string> who;
    for (const auto informant : present::informants_on_the_line()) {
        who.push_back(present::in_words(informant));
    }
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    const auto add = [&](const wxString& words, auto make) {
        auto* pair = new wxBoxSizer(wxHORIZONTAL);
        pair->Add(label_for(page, words), wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(4)));
        auto* made = make();
        pair->Add(made, wxSizerFlags().CenterVertical());
        line->Add(pair, wxSizerFlags().Border(wxRIGHT | wxTOP, FromDIP(6)));
        return made;
    };
    const auto narrow = [&](const std::string& name) {
        wxTextCtrl* made = field(page, name, [this] { take_said_by(); });
        made->SetMinSize(wxSize(page->GetCharWidth() * letters, made->GetMinSize().y));
        return made;
    };
    informant_ = add(wxS("Answers come from"),
                     [&] { return choice(page, "Answers come from", who, [this] { take_said_by(); }); });
    informant_->SetSelection(0);
    who_ = add(wxS("Name"), [&] { return narrow("Name of who answers, where that is not the patient"); });
    interpreter_ = add(wxS("Interpreter"), [&] { return narrow("Interpreter: name or number"); });
    column->Add(line, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT, FromDIP(4)));
}

void PhonePanel::add_sections(wxWindow* page, wxSizer* column)
{
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    auto* words = label_for(page, wxS("Section"));
    line->Add(words, wxSizerFlags().CenterVertical().Border(wxRIGHT | wxTOP, FromDIP(6)));
    section_ = choice(page, "Section of the call", {}, [this] { show_section(); });
    line->Add(section_, wxSizerFlags().CenterVertical().Border(wxRIGHT | wxTOP, FromDIP(6)));
    line->Add(button(page, wxS("Ne&xt section"), [this] { next_section(); }),
              wxSizerFlags().Border(wxTOP, FromDIP(6)));
    column->Add(line, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT, FromDIP(4)));
}

wxWindow* PhonePanel::make_telling_page(wxWindow* parent)
{
    auto* page = new wxPanel(parent, wxID_ANY, wxDefaultPosition, usual_size);
    auto* column = new wxBoxSizer(wxVERTICAL);
    draft_ = new wxStaticText(page, wxID_ANY, wxS(" "));
    column->Add(draft_, wxSizerFlags().Border(wxALL, FromDIP(4)));
    sheet_ = new PageView(page, "The patient's sheet");
    column->Add(sheet_, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(4)));
    auto* line = new wxWrapSizer(wxHORIZONTAL);
    const auto add = [&](const wxString& words, auto one_thing) {
        line->Add(button(page, words, doing(one_thing)),
                  wxSizerFlags().Border(wxRIGHT | wxBOTTOM, FromDIP(6)));
    };
    add(wxS("C&lear the case"), [this] { desk_.clear(); });
    add(wxS("Told: the sheet was &read out"), [this] { desk_.tell(); });
    add(wxS("The patient said it &back"), [this] { desk_.record_said_back(); });
    add(wxS("Hand &over..."), [this] { desk_.hand_to_review(); });
    add(wxS("&Spoken decision..."), [this] { desk_.record_spoken_decision(); });
    column->Add(line, wxSizerFlags().Expand().Border(wxLEFT | wxRIGHT, FromDIP(4)));
    page->SetSizer(column);
    return page;
}

void PhonePanel::take_said_by()
{
    const auto& informants = present::informants_on_the_line();
    desk_.set_said_by({informants.at(static_cast<std::size_t>(informant_->GetSelection())),
                       typed(who_->GetValue()), typed(interpreter_->GetValue())});
}

void PhonePanel::show_case()
{
    if (place().now()->id() != case_) {
        case_ = place().now()->id();
        informant_->SetSelection(0);
        who_->ChangeValue(wxEmptyString);
        interpreter_->ChangeValue(wxEmptyString);
        section_names_.clear();
    }
    show_calls();
    const auto sections = desk_.sections();
    const int selected = section_->GetSelection();
    const std::string kept = selected == wxNOT_FOUND || section_names_.empty()
                                 ? std::string()
                                 : section_names_.at(static_cast<std::size_t>(selected));
    section_->Clear();
    section_names_.clear();
    int place_of_kept = wxNOT_FOUND;
    for (const present::SectionView& one : sections) {
        if (one.name == kept) {
            place_of_kept = static_cast<int>(section_names_.size());
        }
        section_names_.push_back(one.name);
        section_->Append(shown(one.left == 0 ? one.name + ": all asked"
                                             : fmt::format("{}: {} to ask", one.name, one.left)));
    }
    if (place_of_kept == wxNOT_FOUND) {
        const auto first = std::ranges::find_if(sections, [](const auto& one) { return one.left > 0; });
        place_of_kept = first == sections.end() ? 0 : static_cast<int>(first - sections.begin());
    }
    section_->SetSelection(place_of_kept);
    show_section();
    medicines_->show();
    sheet_->show(desk_.sheet());
    draft_->SetLabel(desk_.sheet_is_draft() ? wxS("Draft: something on it is still open.")
                                            : wxS("Nothing on it is open."));
    follows_->show(present::follows(*place().now()));
    section_->GetParent()->Layout();
}

void PhonePanel::show_section()
{
    const int selected = section_->GetSelection();
    if (selected != wxNOT_FOUND && place().now() != nullptr) {
        form_->show(desk_.questions(section_names_.at(static_cast<std::size_t>(selected))));
    }
}

void PhonePanel::next_section()
{
    const int count = static_cast<int>(section_->GetCount());
    if (count > 0) {
        section_->SetSelection((section_->GetSelection() + 1) % count);
        show_section();
        form_->focus_first_to_ask();
    }
}

std::vector<DeskPanel::Command> PhonePanel::commands()
{
    return {
        {wxS("The patient &rang..."), doing([this] { desk_.record_rang_in(); })},
        {wxS("&Emergency: end the call...\tCtrl+E"), doing([this] { desk_.end_for_emergency(); })},
        {wxS("&Note...\tCtrl+N"), doing([this] { desk_.note(); })},
        {wxS("Raise a &concern..."), doing([this] { desk_.raise_concern(); })},
        {wxS("Ask &outside..."), doing([this] { desk_.ask_outside(); })},
        {wxS("&Answer from outside..."), doing([this] { desk_.record_outside_answer(); })},
        {wxS("&Spoken decision..."), doing([this] { desk_.record_spoken_decision(); })},
        {wxS("&Hand over..."), doing([this] { desk_.hand_to_review(); })},
    };
}

}  // namespace foreday::windows
