#pragma once
#include "checklists/readiness.h"
#include "screening/judge.h"

namespace foreday::checklists {

/// Everything one readiness item is checked against.
struct ReadinessSetting {
    const screening::Judge& judge;  ///< at `start`, so that ages are those of the start
    const screening::Assessment& assessment;
    const std::vector<Decided>& decided;
    screening::Moment start;  ///< the start readiness is computed for
};

// Each fills state, why and, where waiting alone will do, earliest of an item.

/// Blank unless the answer is of the day, confirmed in this case and within its age at the start.
void check_confirmed(const screening::ConfirmedCheck& check, const ReadinessSetting& setting,
                     ReadinessItem& item);
/// As above. Within limits of which one is not confirmed by the unit: open.
void check_measured(const screening::MeasuredCheck& check, const ReadinessSetting& setting,
                    ReadinessItem& item);
/// Met at exactly so many elapsed hours after the last intake of the kind, and not a minute before.
void check_fasting(const screening::FastingCheck& check, const ReadinessSetting& setting,
                   ReadinessItem& item);
/// Every medicine of the list, as really taken.
void check_holds(const ReadinessSetting& setting, ReadinessItem& item);

}  // namespace foreday::checklists
