#pragma once
#include <wx/window.h>

#include "gui/present/questioner.h"
#include "screening/vocabulary.h"

namespace foreday::windows {

/// Asks in dialogs over the main window.
class DialogQuestioner : public present::Questioner {
public:
    void ask_over(wxWindow* window) { window_ = window; }
    [[nodiscard]] std::optional<std::size_t> choose(const std::string& question,
                                                    const std::vector<std::string>& answers) override;
    [[nodiscard]] std::optional<std::string> write(const std::string& question,
                                                   const std::string& initial) override;
    [[nodiscard]] bool agree(const std::string& question, const std::string& yes) override;

private:
    wxWindow* window_ = nullptr;
};

/// A name and a role, as signed in.
struct WhoSignsIn {
    std::string name;
    screening::Role role = screening::Role::nurse;
};
/// Empty: given up.
[[nodiscard]] std::optional<WhoSignsIn> ask_who_signs_in(wxWindow* parent, const WhoSignsIn& last);

}  // namespace foreday::windows
