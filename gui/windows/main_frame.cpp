#include "gui/windows/main_frame.h"

#include <fmt/format.h>
#include <gtk/gtk.h>
#include <wx/config.h>
#include <wx/notebook.h>
#include <wx/wx.h>

#include <algorithm>

#include "checklists/words.h"
#include "gui/present/follows.h"
#include "gui/windows/arrival_panel.h"
#include "gui/windows/phone_panel.h"
#include "gui/windows/review_panel.h"
#include "gui/windows/split.h"
#include "gui/windows/text.h"
#include "gui/windows/text_scale.h"

namespace foreday::windows {
namespace {

using present::Desk;

constexpr int look_every_ms = 5000;  // what others write comes into view within this

wxSize remembered_size(wxWindow* window)
{
    const wxSize least = window->FromDIP(wxSize(900, 600));
    const wxSize usual = window->FromDIP(wxSize(1280, 800));
    const wxConfigBase* config = wxConfigBase::Get();
    const wxSize screen = wxGetClientDisplayRect().GetSize();
    wxSize size(static_cast<int>(config->ReadLong(wxS("window/width"), usual.x)),
                static_cast<int>(config->ReadLong(wxS("window/height"), usual.y)));
    size.IncTo(least);
    size.DecTo(screen);
    return size;
}

}  // namespace

MainFrame::MainFrame(std::unique_ptr<present::Workplace> place, bool demo)
    : wxFrame(nullptr, wxID_ANY, wxS("Foreday")), place_(std::move(place)), demo_(demo), timer_(this)
{
    constexpr double first_share = 0.25;
    SetSize(remembered_size(this));
    make_menus();
    auto* all = new wxPanel(this, wxID_ANY, wxDefaultPosition, GetClientSize());
    auto* column = new wxBoxSizer(wxVERTICAL);
    who_ = new wxStaticText(all, wxID_ANY, wxS(" "));
    column->Add(who_, wxSizerFlags().Border(wxALL, FromDIP(6)));
    auto* split = new Split(all, first_share);
    wxWindow* side = make_side(split);
    split->split(side, make_work(split));
    column->Add(split, wxSizerFlags(1).Expand());
    notice_ = new wxStaticText(all, wxID_ANY, wxS(" "));
    wxFont bold = notice_->GetFont();
    notice_->SetFont(bold.MakeBold());
    column->Add(notice_, wxSizerFlags().Border(wxALL, FromDIP(6)));
    caution_ = new wxStaticText(all, wxID_ANY, wxS(" "));
    column->Add(caution_, wxSizerFlags().Border(wxLEFT | wxRIGHT | wxBOTTOM, FromDIP(6)));
    all->SetSizer(column);
    Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        wrap_lines();
    });
    Bind(wxEVT_TIMER, [this](wxTimerEvent&) {
        later(this, [this] {
            if (place_->let_time_pass()) {
                show_all();
            }
        });
    });
    Bind(wxEVT_NOTEBOOK_PAGE_CHANGED, [this](wxBookCtrlEvent& event) {
        event.Skip();
        seen_anew_ = true;
        measure_soon();
    });
    Bind(wxEVT_CLOSE_WINDOW, [this](wxCloseEvent& event) {
        wxConfigBase::Get()->Write(wxS("window/width"), static_cast<long>(GetSize().x));
        wxConfigBase::Get()->Write(wxS("window/height"), static_cast<long>(GetSize().y));
        event.Skip();
    });
    letter_ = wxSize(GetCharWidth(), GetCharHeight());
    const auto restyled = [](GtkWidget*, gpointer self) { static_cast<MainFrame*>(self)->measure_soon(); };
    g_signal_connect(GetHandle(), "style-updated", G_CALLBACK(+restyled), this);
    timer_.Start(look_every_ms);
}

wxWindow* MainFrame::make_side(wxWindow* parent)
{
    auto* side = new wxPanel(parent, wxID_ANY, wxDefaultPosition, usual_size);
    auto* column = new wxBoxSizer(wxVERTICAL);
    auto* line = new wxBoxSizer(wxHORIZONTAL);
    line->Add(label_for(side, wxS("&Find")), wxSizerFlags().CenterVertical().Border(wxRIGHT, FromDIP(4)));
    find_ = field(side, "Find: name, number, phone or birth date");
    find_->Bind(wxEVT_TEXT, [this](wxCommandEvent&) {
        later(this, [this] {
            place_->find(typed(find_->GetValue()));
            show_list();
        });
    });
    find_->Bind(wxEVT_TEXT_ENTER, [this](wxCommandEvent&) { later(this, [this] { take_found(); }); });
    line->Add(find_, wxSizerFlags(1).CenterVertical());
    column->Add(line, wxSizerFlags().Expand().Border(wxALL, FromDIP(6)));
    list_heading_ = new wxStaticText(side, wxID_ANY, wxS(" "));
    wxFont bold = list_heading_->GetFont();
    list_heading_->SetFont(bold.MakeBold());
    column->Add(list_heading_, wxSizerFlags().Border(wxLEFT | wxRIGHT, FromDIP(6)));
    list_ = new SentenceList(side, "Patients", [this](std::size_t row) { open(row); });
    column->Add(list_, wxSizerFlags(1).Expand().Border(wxALL, FromDIP(6)));
    side->SetSizer(column);
    return side;
}

wxWindow* MainFrame::make_work(wxWindow* parent)
{
    constexpr double larger = 1.25;
    work_side_ = new wxPanel(parent, wxID_ANY, wxDefaultPosition, usual_size);
    auto* column = new wxBoxSizer(wxVERTICAL);
    patient_ = new wxStaticText(work_side_, wxID_ANY, wxS(" "));
    wxFont font = patient_->GetFont();
    font.SetFractionalPointSize(font.GetFractionalPointSize() * larger);
    patient_->SetFont(font);
    column->Add(patient_, wxSizerFlags().Border(wxALL, FromDIP(6)));
    strands_ = new wxStaticText(work_side_, wxID_ANY, wxS(" "));
    column->Add(strands_, wxSizerFlags().Border(wxLEFT | wxRIGHT | wxBOTTOM, FromDIP(6)));
    nobody_ = new wxStaticText(work_side_, wxID_ANY,
                               wxS("No patient is in hand. Choose one from the list and press Enter."));
    column->Add(nobody_, wxSizerFlags().Border(wxALL, FromDIP(12)));
    const auto changed = [this] { show_all(); };
    panels_ = {new PhonePanel(work_side_, *place_, changed), new ReviewPanel(work_side_, *place_, changed),
               new ArrivalPanel(work_side_, *place_, changed)};
    for (DeskPanel* panel : panels_) {
        panel->Hide();
        column->Add(panel, wxSizerFlags(1).Expand());
    }
    work_side_->SetSizer(column);
    work_side_->Bind(wxEVT_SIZE, [this](wxSizeEvent& event) {
        event.Skip();
        wrap_lines();
    });
    return work_side_;
}

void MainFrame::add_menu_item(wxMenu* menu, const wxString& words, Handler run)
{
    const wxMenuItem* item = menu->Append(wxID_ANY, words);
    Bind(
        wxEVT_MENU, [this, run = std::move(run)](wxCommandEvent&) { later(this, run); }, item->GetId());
}

void MainFrame::make_menus()
{
    auto* bar = new wxMenuBar;
    auto* desk = new wxMenu;
    add_menu_item(desk, wxS("&Phone desk\tCtrl+1"), [this] { go_to(Desk::phone); });
    add_menu_item(desk, wxS("&Review desk\tCtrl+2"), [this] { go_to(Desk::review); });
    add_menu_item(desk, wxS("&Arrival desk\tCtrl+3"), [this] { go_to(Desk::arrival); });
    desk->AppendSeparator();
    add_menu_item(desk, wxS("&Find\tCtrl+F"), [this] { find_->SetFocus(); });
    add_menu_item(desk, wxS("&List\tCtrl+T"), [this] { list_->SetFocus(); });
    add_menu_item(desk, wxS("&Somebody else signs in..."), [this] { ask_who(); });
    add_menu_item(desk, wxS("&Quit\tCtrl+Q"), [this] { Close(); });
    bar->Append(desk, wxS("&Desk"));
    bar->Append(new wxMenu, wxS("&Case"));
    auto* text = new wxMenu;
    add_menu_item(text, wxS("&Larger\tCtrl++"), [this] { resize_text(+1); });
    add_menu_item(text, wxS("&Smaller\tCtrl+-"), [this] { resize_text(-1); });
    add_menu_item(text, wxS("&Usual\tCtrl+0"), [this] { resize_text(0); });
    bar->Append(text, wxS("&Text"));
    auto* help = new wxMenu;
    add_menu_item(help, wxS("&What this program is..."), [this] { about(); });
    bar->Append(help, wxS("&Help"));
    SetMenuBar(bar);
}

/// The case menu is that of the desk.
void MainFrame::make_work_menu()
{
    auto* menu = new wxMenu;
    if (work_ != nullptr) {
        for (DeskPanel::Command& command : work_->commands()) {
            add_menu_item(menu, command.label, std::move(command.run));
        }
    }
    delete GetMenuBar()->Replace(1, menu, wxS("&Case"));
}

bool MainFrame::ask_who()
{
    const auto who = ask_who_signs_in(this, {place_->writer().who, place_->writer().role});
    if (!who || !place_->sign_in(who->name, who->role)) {
        return false;
    }
    go_to(place_->desk());
    return true;
}

void MainFrame::go_to(Desk desk)
{
    place_->go_to(desk);
    if (!find_->IsEmpty()) {
        find_->ChangeValue(wxEmptyString);
    }
    work_ = panels_.at(static_cast<std::size_t>(desk));
    make_work_menu();
    show_all();
}

void MainFrame::open(std::size_t row)
{
    if (row < place_->rows().size()) {
        place_->open(place_->rows()[row].case_id);
        show_all();
        if (work_ != nullptr && place_->now() != nullptr) {
            work_->take_focus();
        }
    }
}

void MainFrame::take_found()
{
    place_->find(typed(find_->GetValue()));
    show_list();
    if (place_->rows().size() == 1 && !find_->IsEmpty()) {
        open(0);
    } else if (!place_->rows().empty()) {
        list_->SetFocus();  // two like names: somebody looks before one of them is taken
    }
}

void MainFrame::show_list()
{
    std::vector<std::string> sentences;
    for (const present::ListRow& row : place_->rows()) {
        sentences.push_back(row.sentence);
    }
    list_->show(sentences);
    list_heading_->SetLabel(label(place_->list_heading()));
}

void MainFrame::show_notice()
{
    const present::Notice& notice = place_->notice();
    std::string words = notice.words;
    if (notice.kind == present::Notice::Kind::refused) {
        words = "Not done. " + checklists::capitalised(std::move(words));
    } else if (notice.kind == present::Notice::Kind::none) {
        words = "Everything that was said is in the book.";
    }
    wrap_text(notice_, words, GetClientSize().x - FromDIP(20));
}

std::string MainFrame::notice_shown() const
{
    return place_->notice().words;
}

void MainFrame::wrap_lines()
{
    if (caution_ == nullptr || work_side_ == nullptr) {
        return;
    }
    const int whole = GetClientSize().x - FromDIP(20);
    wrap_text(who_,
              (demo_ ? "Demo book: an invented unit with invented patients. " : "") + place_->who_in_words(),
              whole);
    wrap_text(caution_, checklists::caution_for_staff(), whole);
    show_notice();
    const int beside = work_side_->GetClientSize().x - FromDIP(20);
    wrap_text(patient_, patient_words_, beside);
    wrap_text(strands_, strands_words_, beside);
    caution_->GetParent()->Layout();
    work_side_->Layout();
}

void MainFrame::show_all()
{
    const book::CaseNow* now = place_->now();
    patient_words_ = now == nullptr ? "" : present::patient_in_words(*now);
    strands_words_.clear();
    if (now != nullptr) {
        for (const std::string& sentence : present::where_it_stands(*now)) {
            strands_words_ += (strands_words_.empty() ? "" : " ") + sentence;
        }
    }
    nobody_->Show(now == nullptr);
    patient_->Show(now != nullptr);
    strands_->Show(now != nullptr);
    for (DeskPanel* panel : panels_) {
        if (panel->Show(panel == work_ && now != nullptr)) {
            seen_anew_ = true;
            measure_soon();
        }
    }
    show_list();
    wrap_lines();
    if (work_ != nullptr && now != nullptr) {
        work_->show_case();
        show_notice();
        caution_->GetParent()->Layout();
    }
}

void MainFrame::resize_text(int step)
{
    // What comes of it is seen when GTK has taken it in: measure_letters().
    set_text_scale(step == 0 ? usual_text : text_scale() + step * text_step);
}

void MainFrame::measure_soon()
{
    constexpr int frames = 3;
    const bool waiting = frames_to_wait_ > 0;
    frames_to_wait_ = frames;
    if (waiting) {
        return;
    }
    const auto frame_passes = [](GtkWidget*, GdkFrameClock*, gpointer self) -> gboolean {
        auto* frame = static_cast<MainFrame*>(self);
        if (--frame->frames_to_wait_ > 0) {
            return G_SOURCE_CONTINUE;
        }
        later(frame, [frame] { frame->measure_letters(); });
        return G_SOURCE_REMOVE;
    };
    gtk_widget_add_tick_callback(GetHandle(), frame_passes, this, nullptr);
}

void MainFrame::measure_letters()
{
    const wxSize letter(GetCharWidth(), GetCharHeight());
    if (letter == letter_ && !seen_anew_) {
        return;  // GTK says that all looks otherwise each time the window comes to the front, too
    }
    seen_anew_ = false;
    measure_again(this, static_cast<double>(letter.x) / letter_.x);
    if (letter != letter_) {
        letter_ = letter;
        show_all();
    }
    lay_out_again(this);
    SendSizeEvent();
}

void MainFrame::about()
{
    wxMessageBox(shown(fmt::format("Foreday: what a planned endoscopy needs before the scope.\n\n{}\n\n"
                                   "Text size {} per cent.",
                                   checklists::caution_for_staff(), text_scale())),
                 wxS("Foreday"), wxOK | wxICON_INFORMATION, this);
}

}  // namespace foreday::windows
