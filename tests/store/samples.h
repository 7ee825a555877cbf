#pragma once
#include <filesystem>
#include <string>
#include <vector>

#include "data/store/store.h"

namespace foreday::tests {

/// 2027-04-12T13:00:00Z and so many minutes.
[[nodiscard]] screening::Moment at_minute(int minutes);

/// An entry that says which it is.
[[nodiscard]] store::NewEntry entry_about(const std::string& subject, const std::string& payload,
                                          int minute = 0);

/// Appends one entry in a transaction of its own.
store::Entry append(store::Store& store, const std::string& subject, const std::string& payload,
                    store::Chain chain = store::Chain::journal);

/// A case with every field set to something that no other case has.
[[nodiscard]] store::CaseProjection projection_of(const std::string& case_id, int number);

void project(store::Store& store, const store::CaseProjection& projection);

[[nodiscard]] std::vector<std::string> ids_of(const std::vector<store::CaseProjection>& cases);

/// Payloads of a chain, in order.
[[nodiscard]] std::vector<std::string> payloads_of(const store::Store& store,
                                                   store::Chain chain = store::Chain::journal);

/// What verify() finds, a line each: empty for a sound book.
[[nodiscard]] std::string damages_in(const store::Store& store);

/// Runs SQL on the file with the triggers of append-only tables taken away first.
void spoil(const std::filesystem::path& book, const std::string& sql);

[[nodiscard]] std::vector<std::string> names_in(const std::filesystem::path& folder);

}  // namespace foreday::tests
