#pragma once
#include <wx/frame.h>
#include <wx/timer.h>

#include <array>
#include <memory>

#include "gui/present/workplace.h"
#include "gui/windows/desk_panel.h"
#include "gui/windows/dialogs.h"
#include "gui/windows/flow_panel.h"
#include "gui/windows/sentence_list.h"

namespace foreday::windows {

/// The one window: who is at work, the list of the desk, the case in hand, and what just happened.
class MainFrame : public wxFrame {
public:
    /// @param demo  the book is a demo, and the window says so
    MainFrame(std::unique_ptr<present::Workplace> place, bool demo);

    /// Asks who is at work; false when the person gave up.
    bool ask_who();
    /// Shows the desk of whoever has signed in.
    void begin() { go_to(place_->desk()); }
    /// Everything as it is now.
    void show_all();
    [[nodiscard]] present::Workplace& place() const { return *place_; }
    [[nodiscard]] DeskPanel* work() const { return work_; }
    [[nodiscard]] SentenceList* list() const { return list_; }
    [[nodiscard]] wxTextCtrl* find_field() const { return find_; }
    [[nodiscard]] std::string notice_shown() const;

private:
    void make_menus();
    void make_work_menu();
    wxWindow* make_side(wxWindow* parent);
    wxWindow* make_work(wxWindow* parent);
    void go_to(present::Desk desk);
    void open(std::size_t row);
    /// Enter in the field Find: the only one found is taken in hand, of several one is to be chosen.
    void take_found();
    void show_list();
    void show_notice();
    void wrap_lines();
    void resize_text(int step);
    /// Measures everything again after a few frames: what was hidden while the size of the letters changed
    /// has not heard of it, and what is seen hears of it when the next frame is drawn.
    void measure_soon();
    void measure_letters();
    void about();
    void add_menu_item(wxMenu* menu, const wxString& words, Handler run);

    std::unique_ptr<present::Workplace> place_;
    bool demo_;
    wxTimer timer_;
    int frames_to_wait_ = 0;  ///< until everything is measured; 0: it is
    bool seen_anew_ = true;   ///< something is shown that was hidden when all was measured last
    wxSize letter_;           ///< the size of one, when all was measured last
    wxStaticText* who_ = nullptr;
    wxTextCtrl* find_ = nullptr;
    wxStaticText* list_heading_ = nullptr;
    SentenceList* list_ = nullptr;
    wxStaticText* patient_ = nullptr;
    wxStaticText* strands_ = nullptr;
    wxStaticText* nobody_ = nullptr;
    wxPanel* work_side_ = nullptr;
    std::array<DeskPanel*, 3> panels_{};
    DeskPanel* work_ = nullptr;
    wxStaticText* notice_ = nullptr;
    wxStaticText* caution_ = nullptr;
    std::string strands_words_;
    std::string patient_words_;
};

}  // namespace foreday::windows
