#pragma once
#include <string>
#include <vector>

#include "data/book/book.h"
#include "data/book/seen_page.h"

/// Decisions, clearance and telling. They never merge: each carries what was shown, and is refused with what
/// changed when that is not what stands.
namespace foreday::book {

/// What a clinician signs at once.
struct SignedPage {
    std::vector<DecidedItem> decided;  ///< each with the fingerprint shown
    ShownItems shown;                  ///< every item of the page
    bool clears = false;               ///< clear the case with the same signature
};
/// Signs decisions after a look at the whole page. Refused when any item has come, gone or changed its result
/// since; when the role may not decide an item; when a "do not go ahead" is passed without a reason; and,
/// with `clears`, when clearance lacks something after them. All of it stands or none.
[[nodiscard]] Outcome<CaseNow> sign(Book& book, const Writer& writer, const OnCase& on,
                                    const SignedPage& page);

/// A decision by voice, written down by a nurse: in effect at once, and waits for that clinician's signature.
/// Refused unless it was read back.
[[nodiscard]] Outcome<CaseNow> record_spoken_decision(Book& book, const Writer& writer, const OnCase& on,
                                                      const DecisionSpoken& spoken);
/// Recorded from a prescriber, cardiologist and so on.
[[nodiscard]] Outcome<CaseNow> record_outside_decision(Book& book, const Writer& writer, const OnCase& on,
                                                       const DecisionFromOutside& decision);
/// By the clinician who spoke, and nobody else.
[[nodiscard]] Outcome<CaseNow> countersign(Book& book, const Writer& writer, const OnCase& on,
                                           std::int64_t spoken_entry);

/// Clears the case as shown. A nurse only where nothing asks.
[[nodiscard]] Outcome<CaseNow> clear(Book& book, const Writer& writer, const OnCase& on,
                                     const ShownItems& shown, const std::vector<StillToDo>& still_to_do = {});

/// The patient was told everything that can be told now, by the sheet shown.
/// @param sheet  hash of the sheet's content as shown; refused when it says something else now
[[nodiscard]] Outcome<CaseNow> tell(Book& book, const Writer& writer, const OnCase& on,
                                    const std::string& sheet, const std::string& words);
[[nodiscard]] Outcome<CaseNow> record_said_back(Book& book, const Writer& writer, const OnCase& on,
                                                std::int64_t telling_entry);
[[nodiscard]] Outcome<CaseNow> issue_sheet(Book& book, const Writer& writer, const OnCase& on,
                                           const SheetIssued& said);
/// Hash of the sheet's content now.
[[nodiscard]] std::string sheet_hash(const CaseNow& now);

/// Enters that a clearance has lapsed, once for each. From then on only a new one helps, also where what
/// ended it is taken back; until then a slip of the pen that is mended leaves it standing. Part of
/// look_again().
/// @return whether an entry was made, and the case is to be read again
bool note_lapsed_clearance(const Book& book, const CaseNow& now, store::Writing& writing);

}  // namespace foreday::book
