#pragma once
#include <string>
#include <vector>

#include "data/book/book.h"
#include "data/store/projection.h"

namespace foreday::book {

/// What lists and search read of a case.
/// @param rules_hash  of the rules in force in the book; a case whose patient has arrived keeps older rules
///                    and is not looked at again for newer ones
[[nodiscard]] store::CaseProjection projection_of(const CaseNow& now, const std::string& rules_hash);

/// A name or number as lists are searched for it: its folded words.
[[nodiscard]] std::vector<std::string> search_words_of(const std::string& text);

/// Looks again at up to `at_most` cases for which time has passed or other rules came in force, if no other
/// program is doing so, and enters a clearance that it finds lapsed. Returns how many it looked at; 0:
/// nothing to do, or another program does it.
int look_again(Book& book, const std::string& program, std::size_t at_most);

/// Drops every projection and makes all of them again from the journal. Returns the number of cases.
int rebuild(Book& book);

}  // namespace foreday::book
