#pragma once
#include <map>
#include <string>
#include <vector>

#include "checklists/changes.h"
#include "data/book/book.h"

/// What a clinician had in view, and how it is kept.
namespace foreday::book {

/// Fingerprints of the items as shown, by item id.
using ShownItems = std::map<std::string, std::string>;
[[nodiscard]] ShownItems shown_items(const CaseNow& now);

/// What was shown is not what stands: the refusal names each difference. Empty: it is the same.
/// @param only  the items that count; empty: all of them, so that one that came meanwhile counts too
[[nodiscard]] std::optional<Refusal> changed_meanwhile(const CaseNow& now, const ShownItems& shown,
                                                       const std::vector<std::string>& only = {});

/// Keeps page and assessment as documents of the book.
[[nodiscard]] Shown keep_what_was_shown(const CaseNow& now, store::Writing& writing);

/// The items as they were when `shown.assessment` was kept. Empty: the document is not there.
[[nodiscard]] std::optional<std::vector<checklists::ItemSeen>> items_of_document(const std::string& document);

/// What has changed since the last signature of a case, item by item; empty: nothing, or nobody has signed.
[[nodiscard]] std::vector<checklists::Change> changes_since_signed(const Book& book, const CaseNow& now);

}  // namespace foreday::book
