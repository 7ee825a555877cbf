#pragma once
#include "checklists/readiness.h"
#include "screening/judge.h"

namespace foreday::checklists {

/// Everything one readiness item is checked against.
struct ReadinessSetting {
    const screening::Judge& judge;
    const screening::Assessment& assessment;
    const std::vector<Decided>& decided;
    screening::Moment start;  ///< the start readiness is computed for
};

/// Fills state, why and earliest of an item.
void check_confirmed(const screening::ConfirmedCheck& check, const ReadinessSetting& setting, ReadinessItem& item);
void check_measured(const screening::MeasuredCheck& check, const ReadinessSetting& setting, ReadinessItem& item);
/// Met at exactly so many elapsed hours after the last intake of the kind, and not a minute before.
void check_fasting(const screening::FastingCheck& check, const ReadinessSetting& setting, ReadinessItem& item);
/// Every medicine that was to be left out, as really taken.
void check_holds(const ReadinessSetting& setting, ReadinessItem& item);

}  // namespace foreday::checklists
