#pragma once
#include <vector>

#include "checklists/lines.h"
#include "data/book/book.h"

namespace foreday::present {

/// What follows from what is known so far, in the nurse's sentences: what is to be done now, what clinicians
/// decide, what is to do, every medicine, the preparation, what is open, what clearance lacks.
[[nodiscard]] std::vector<checklists::Line> follows(const book::CaseNow& now);

/// Where the case stands: the five strands, a sentence each.
[[nodiscard]] std::vector<std::string> where_it_stands(const book::CaseNow& now);

/// Who is in hand, for the head of the work: "Maud Ferrier, born 1957-03-02, LK-2204. Colonoscopy, Friday
/// ...".
[[nodiscard]] std::string patient_in_words(const book::CaseNow& now);

}  // namespace foreday::present
