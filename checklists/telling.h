#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checklists/case_file.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// An instruction that is agreed, or that nurses give by themselves, and that nobody has told yet.
struct ToTell {
    std::string item;   ///< item id
    std::string words;  ///< name of the medicine, or title of the finding
    /// When it begins to change what the patient takes. Empty: it names no date.
    std::optional<screening::Moment> begins;
};

/// How what the patient was told stands to what holds now.
struct TellingState {
    std::vector<ToTell> to_tell;
    /// Medicines told otherwise than they stand now, by item id.
    std::vector<std::string> no_longer_right;
    bool moved_since = false;         ///< date or procedure changed after the last telling
    bool sheet_changed = false;       ///< the sheet says something else than the one that was told
    const Telling* last = nullptr;    ///< nullptr: nothing was ever told
    bool nothing_open = false;        ///< screening finished and nothing undecided: all can be told at once
    bool preparation_untold = false;  ///< a plan stands and was never told
    [[nodiscard]] bool wrong() const { return !no_longer_right.empty() || moved_since; }
};
/// Points into the file, which must outlive it.
[[nodiscard]] TellingState telling_state(const screening::Rules& rules, const CaseFile& file,
                                         const WholeCase& whole, const HashText& hash);

/// Somebody has been asked something, or a medicine was noted, in this case. What came with the booking does
/// not count.
[[nodiscard]] bool screening_begun(const CaseFile& file);
/// Questions that apply and nobody has asked, or whose answer is past its age; those of the day of the
/// procedure are not waited for.
[[nodiscard]] int questions_left(const screening::Rules& rules, const CaseFile& file, const WholeCase& whole);
/// Every question that applies was put to the patient, once if not lately; what the unit or a letter
/// answers apart.
[[nodiscard]] bool patient_was_asked_everything(const screening::Rules& rules, const CaseFile& file,
                                                const WholeCase& whole);
/// No question is left and the medicine list is closed.
[[nodiscard]] bool screening_finished(const screening::Rules& rules, const CaseFile& file,
                                      const WholeCase& whole);

/// When something was last said, decided or changed about the case: what an item came to since, it came to
/// then. The moment of booking when nothing was.
[[nodiscard]] screening::Moment last_word(const CaseFile& file);
/// When the patient was last told anything. Empty: never.
[[nodiscard]] std::optional<screening::Moment> last_told(const CaseFile& file);

}  // namespace foreday::checklists
