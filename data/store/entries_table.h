#pragma once
#include <string>
#include <vector>

#include "data/store/connection.h"
#include "data/store/entry.h"

/// The tables of both chains and of the documents. Each throws SQLite::Exception.
namespace foreday::store {

[[nodiscard]] Head head_in(const Connection& connection, Chain chain);
/// Puts the next entry of a chain. @throws std::invalid_argument as entry_after()
[[nodiscard]] Entry put_entry(const Connection& connection, Chain chain, const NewEntry& said);
[[nodiscard]] std::vector<Entry> entries_in(const Connection& connection, Chain chain, std::int64_t after,
                                            std::size_t at_most);
/// Of the journal.
[[nodiscard]] std::vector<Entry> entries_about(const Connection& connection, const std::string& subject);

/// @return the hash. @throws std::invalid_argument above longest_document
[[nodiscard]] std::string put_document(const Connection& connection, std::string_view bytes);
/// A document as it is kept; empty where it is not what its hash says.
struct KeptDocument {
    std::optional<std::string> bytes;
};
/// Empty: none of that hash.
[[nodiscard]] std::optional<KeptDocument> document_in(const Connection& connection, const std::string& hash);
[[nodiscard]] std::vector<std::string> document_hashes(const Connection& connection, const std::string& after,
                                                       std::size_t at_most);

}  // namespace foreday::store
