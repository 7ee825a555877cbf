#pragma once
#include "checklists/case_file.h"

namespace foreday::checklists {

/// The moment a case is judged at. What was known when the patient went in, or when the session ended without
/// them, is what restart and closing rest on: an answer that grows old afterwards takes nothing back.
[[nodiscard]] screening::Moment judged_at(const CaseFile& file, screening::Moment now);

}  // namespace foreday::checklists
