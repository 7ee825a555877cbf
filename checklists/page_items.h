#pragma once
#include <string>
#include <vector>

#include "checklists/lines.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// One item with its ground, what would settle it, its sources and what was decided on it.
void add_item(std::vector<Line>& lines, const screening::Rules& rules, const screening::Item& item,
              const Decided& decided);
/// One medicine: the plan, what else is possible, the item beneath it.
void add_hold(std::vector<Line>& lines, const screening::Rules& rules, const screening::Hold& hold,
              const Decided& decided, HoldStage stage);
/// "Dr Example (endoscopist) agrees, by signature, on Thursday 10 June 2027 at 12 noon: the words"
[[nodiscard]] std::string decision_in_words(const screening::Decision& decision, const screening::Zone& zone);

}  // namespace foreday::checklists
