#include "checklists/whole_case.h"

#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

/// An unmarked medicine left out "until after the procedure" may go on the same day. For a marked one the
/// protocol has no day of restart yet: the endoscopist states it.
std::optional<screening::Date> earliest_resume(const screening::Rules& rules,
                                               const screening::CaseRecord& record,
                                               const screening::Hold& hold)
{
    if (!record.done || hold.marked || !screening::leaves_out(hold.plan.action)) {
        return std::nullopt;
    }
    return screening::date_of(screening::local_of(rules.zone, *record.done));
}

}  // namespace

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
        whole.earliest_resume.push_back(earliest_resume(rules, record, hold));
    }
    whole.preparation = plan_preparation(rules, record, whole.assessment);
    whole.clearance = check_clearance(rules, record, whole.assessment, whole.decided, whole.preparation, now);
    whole.readiness = check_readiness(rules, record, whole.assessment, whole.decided, whole.clearance, now);
    return whole;
}

}  // namespace foreday::checklists
