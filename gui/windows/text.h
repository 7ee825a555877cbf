#pragma once
#include <wx/string.h>

#include <string>
#include <string_view>

namespace foreday::windows {

/// Our UTF-8 as wx shows it. Bytes that are not UTF-8 are shown as question marks, never dropped with the
/// rest.
[[nodiscard]] wxString shown(std::string_view utf8);

/// What a person typed, as UTF-8, without blanks at either end.
[[nodiscard]] std::string typed(const wxString& text);

/// The same with the `&` of a label doubled, so that it is shown and marks no key.
[[nodiscard]] wxString label(std::string_view utf8);

/// A broken assumption of the toolkit in one line, for whoever mends the program.
/// @param message  null: none
[[nodiscard]] std::string assertion_in_words(const wxChar* file, int line, const wxChar* function,
                                             const wxChar* condition, const wxChar* message);

}  // namespace foreday::windows
