#include "gui/windows/text.h"

#include <wx/control.h>

namespace foreday::windows {

wxString shown(std::string_view utf8)
{
    const wxString text = wxString::FromUTF8(utf8.data(), utf8.size());
    if (!text.empty() || utf8.empty()) {
        return text;
    }
    std::string plain{utf8};
    for (char& c : plain) {
        if ((static_cast<unsigned char>(c) & 0x80U) != 0) {
            c = '?';
        }
    }
    return wxString::FromAscii(plain.data(), plain.size());
}

std::string typed(const wxString& text)
{
    wxString trimmed = text;
    trimmed.Trim(true).Trim(false);
    return trimmed.utf8_string();
}

wxString label(std::string_view utf8)
{
    return wxControl::EscapeMnemonics(shown(utf8));
}

std::string assertion_in_words(const wxChar* file, int line, const wxChar* function, const wxChar* condition,
                               const wxChar* message)
{
    return typed(wxString::Format(wxS("%s:%d %s: %s %s"), file, line, function, condition,
                                  message == nullptr ? wxS("") : message));
}

}  // namespace foreday::windows
