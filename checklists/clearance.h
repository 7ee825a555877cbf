#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "checklists/decisions.h"
#include "checklists/timetable.h"

namespace foreday::checklists {

/// One thing clearance lacks.
struct Lack {
    std::string item;  ///< item id, "medicine list" or "preparation"
    std::string what;  ///< for a person
};

/// Whether the case may be cleared, and what became of a clearance already given.
struct ClearanceCheck {
    bool possible = false;
    std::vector<Lack> lacks;               ///< in the order of the items, then list and preparation
    std::vector<std::string> still_to_do;  ///< `act` items: named, they do not block
    enum class Given : std::uint8_t { no, stands, lapsed } given = Given::no;
    std::string lapsed_because;  ///< with `lapsed`
};

/// Clearance needs every item of level ask and stop decided (an open one blocks as a fired one does),
/// no decision against going ahead, the medicine list closed with every entry recognised or decided, and
/// a preparation plan, fitted or stated by a clinician.
///
/// It is one act after the last of these: a clearance given before an item of level ask or stop was decided
/// does not count for it. Where anything asks, a clinician gives it; where nothing does, a nurse may. A given
/// clearance lapses with anything missing, with a moved start, and after the unit's days (at exactly so many
/// days it still stands).
[[nodiscard]] ClearanceCheck check_clearance(const screening::Rules& rules,
                                             const screening::CaseRecord& record,
                                             const screening::Assessment& assessment,
                                             const std::vector<Decided>& decided,
                                             const PreparationPlan& preparation, screening::Moment now);

}  // namespace foreday::checklists
