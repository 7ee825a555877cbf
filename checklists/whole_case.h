#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checklists/readiness.h"
#include "checklists/restart.h"

namespace foreday::checklists {

/// Everything that can be said about a case at one moment.
struct WholeCase {
    screening::Assessment assessment;
    std::vector<Decided> decided;                                   ///< for all_items(assessment)
    std::vector<HoldStage> stages;                                  ///< for assessment.holds
    std::vector<std::optional<RestartProposal>> restart_proposals;  ///< for assessment.holds
    PreparationPlan preparation;
    ClearanceCheck clearance;
    Readiness readiness;
};

/// Pure and total, as assess() is.
[[nodiscard]] WholeCase look_at(const screening::Rules& rules, const screening::CaseRecord& record,
                                screening::Moment now, const HashText& hash);

}  // namespace foreday::checklists
