#pragma once
#include <string>
#include <vector>

#include "data/book/book.h"

/// Verbs about the whole book.
namespace foreday::book {

/// Puts protocol and policy in force together. Both are read first; faults refuse them, and the book keeps
/// them for ever. The same texts once more change nothing and write nothing. Cases are looked at again by
/// look_again().
[[nodiscard]] std::optional<Refusal> put_in_force(Book& book, const Writer& writer, const UnitTexts& texts);

[[nodiscard]] std::optional<Refusal> set_roster(Book& book, const Writer& writer, const RosterSet& roster);

/// Notes on the second chain. They are no act on a case and no role is asked.
void note_sign_in(Book& book, const Writer& writer);
void note_look(Book& book, const Writer& writer, const std::string& case_id, const std::string& page);
void note_print(Book& book, const Writer& writer, const std::string& case_id, const Printed& printed);

/// Hashes of the documents an entry speaks of, for store::verify(). Empty for what cannot be read.
[[nodiscard]] std::vector<std::string> documents_named(const store::Entry& entry);

}  // namespace foreday::book
