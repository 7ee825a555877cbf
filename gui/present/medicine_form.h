#pragma once
#include <string>
#include <vector>

#include "data/book/contents_call.h"
#include "screening/medicine_lookup.h"
#include "screening/protocol.h"
#include "screening/result.h"

namespace foreday::present {

/// What is typed of one medicine.
struct MedicineForm {
    std::string heard;     ///< as the patient says it
    std::string medicine;  ///< id picked by the nurse; empty: nobody could name it
    std::string dose;
    std::size_t taken = 0;  ///< place in ways_of_taking()
    std::string days;       ///< "Mon, Thu"; "14 from 2026-11-03"; "15" of each month
    std::string times;      ///< "08:00, 20:00"; empty: not known
    std::string last_dose;  ///< "2026-11-03 08:00", "2026-11-03"; empty: not known
    std::string prescriber;
    std::string reason;
    bool operator==(const MedicineForm&) const = default;
};

/// How a medicine may be taken, in words, and what `days` is then for; empty: for nothing.
struct WayOfTaking {
    std::string words;
    std::string days;
};
[[nodiscard]] const std::vector<WayOfTaking>& ways_of_taking();

/// The medicine as the book takes it. A fault says which field and what would be right.
/// @param now  a last dose "08:00" lies on its day; one after it is refused
[[nodiscard]] screening::Result<book::StatedMedicine> stated_medicine(const MedicineForm& form,
                                                                      screening::LocalMinute now);

/// A medicine that may have been meant, as it is shown to the nurse, who picks.
struct MeantMedicine {
    std::string id;
    std::string words;  ///< generic name, the name it was found by, what it is easily confused with
};

/// Names of the protocol, made ready once.
class MedicineNames {
public:
    explicit MedicineNames(const screening::Protocol& protocol);
    /// Candidates for what was heard, nearest first; nothing is picked.
    [[nodiscard]] std::vector<MeantMedicine> candidates(const std::string& heard) const;

private:
    const screening::Protocol& protocol_;
    screening::LookupIndex index_;
};

/// One entry of the list as a sentence: "warfarin, 4 mg, every day at 18:00, last dose ...".
[[nodiscard]] std::string medicine_in_words(const screening::Protocol& protocol,
                                            const screening::MedicineItem& item);
[[nodiscard]] std::string pattern_in_words(const screening::Pattern& pattern);

}  // namespace foreday::present
