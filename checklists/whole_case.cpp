#include "checklists/whole_case.h"

namespace foreday::checklists {
WholeCase look_at(const screening::Rules& rules, const screening::CaseRecord& record, screening::Moment now,
                  const HashText& hash)
{
    WholeCase whole;
    whole.assessment = screening::assess(rules, record, now);
    whole.decided = bind_decisions(rules, record, whole.assessment, hash);
    const std::size_t findings = whole.assessment.findings.size();
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        const screening::Hold& hold = whole.assessment.holds[place];
        whole.stages.push_back(stage_of(rules, record, hold, whole.decided[findings + place], now));
        whole.restart_proposals.push_back(propose_restart(
            rules, record, whole.assessment, hold, whole.decided[findings + place], whole.stages.back()));
    }
    whole.preparation = plan_preparation(rules, record, whole.assessment);
    whole.clearance = check_clearance(rules, record, whole.assessment, whole.decided, whole.preparation, now);
    whole.readiness = check_readiness(rules, record, whole.assessment, whole.decided, whole.clearance, now);
    return whole;
}

}  // namespace foreday::checklists
