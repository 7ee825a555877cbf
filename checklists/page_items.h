#pragma once
#include <string>
#include <vector>

#include "checklists/ground_words.h"
#include "checklists/lines.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

/// One item with its ground, what would settle it, its sources and what was decided on it.
void add_item(std::vector<Line>& lines, const InView& view, const screening::Item& item,
              const Decided& decided);
/// One medicine: the plan, what else is possible, the item beneath it.
void add_hold(std::vector<Line>& lines, const InView& view, const screening::Hold& hold,
              const Decided& decided, HoldStage stage);
/// "Dr Example (endoscopist) agrees, signed, Thu 10 Jun 2027, 12 noon: the words"
[[nodiscard]] std::string decision_in_words(const screening::Decision& decision, const screening::Zone& zone);
/// Open only on what nobody has asked yet: counted, not listed one by one.
[[nodiscard]] bool waits_for_questions(const screening::Item& item);

}  // namespace foreday::checklists
