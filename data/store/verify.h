#pragma once
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "data/store/store.h"

namespace foreday::store {

/// Where a chain was seen to end, written down somewhere outside the book.
struct NotedHead {
    Chain chain = Chain::journal;
    Head head;
};

/// One thing that is not as it was written.
struct Damage {
    std::string where;        ///< "journal", "looks", "documents", "pages"
    std::int64_t number = 0;  ///< of the entry; 0 for documents and pages
    std::string what;         ///< a clause: "its bytes are not those its hash was taken over"
    bool operator==(const Damage&) const = default;
};
/// "journal 12: ..."
[[nodiscard]] std::string in_words(const Damage& damage);

struct Verification {
    Head journal;  ///< as far as the chain could be followed
    Head looks;
    std::int64_t documents = 0;   ///< looked at
    std::vector<Damage> damages;  ///< in the order found; empty: sound. Ends after 1000.
};

/// Walks both chains and all documents, looks each subject's entries up by its name, and at last at every
/// page of the file. What was written meanwhile by others is no damage. A chain cut off at its end is a valid
/// shorter chain, so its end is compared with the heads kept in the book and with those noted elsewhere,
/// which may be older than the book's.
/// @param documents_named  hashes of the documents an entry speaks of, which must be there; empty: not looked
/// at
/// @throws StoreFault only for what says nothing of the contents (gone, busy)
[[nodiscard]] Verification verify(
    const Store& store, const std::vector<NotedHead>& noted = {},
    const std::function<std::vector<std::string>(const Entry&)>& documents_named = {});

}  // namespace foreday::store
