#pragma once
#include <wx/listbox.h>

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace foreday::windows {

/// Sentences, one below the other, each broken into lines at the width of the list. Arrows move, Enter or a
/// click opens.
class SentenceList : public wxListBox {
public:
    SentenceList(wxWindow* parent, const std::string& name, std::function<void(std::size_t)> open);
    /// What is selected stays selected while it stands in the list.
    void show(const std::vector<std::string>& sentences);
    [[nodiscard]] std::optional<std::size_t> selected() const;

private:
    void wrap_rows();
    void fill();

    std::vector<std::string> sentences_;
    int wrapped_to_ = 0;
};

}  // namespace foreday::windows
