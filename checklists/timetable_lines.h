#pragma once
#include <string>
#include <vector>

#include "checklists/lines.h"
#include "checklists/timetable.h"

namespace foreday::checklists {

/// The steps of a plan, day by day: a line of text names each day, a step each time.
void add_timetable(std::vector<Line>& lines, const Fitted& plan, const screening::Zone& zone);

/// The same for whoever decides: a step a line, a portion with its first and last drink.
void add_short_timetable(std::vector<Line>& lines, const Fitted& plan, const screening::Zone& zone);

/// "Colonoscopy and upper endoscopy"; interventions too.
[[nodiscard]] std::string procedures_in_words(const screening::Rules& rules,
                                              const screening::CaseRecord& record);

}  // namespace foreday::checklists
