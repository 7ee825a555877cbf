#include "checklists/running_holds.h"

#include <algorithm>

#include "checklists/hold_moments.h"
#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

using screening::CaseRecord;
using screening::Hold;
using screening::Moment;
using screening::Rules;
using screening::Told;

const Told* last_told_by(const CaseRecord& record, const std::string& item, Moment moment)
{
    const auto& all = record.told;
    const auto last = std::find_if(all.rbegin(), all.rend(),
                                   [&](const Told& one) { return one.item == item && one.when <= moment; });
    return last == all.rend() ? nullptr : &*last;
}

/// What the patient was told to leave out. Empty: nothing.
std::optional<HoldMoments> as_told(const Rules& rules, const CaseRecord& record, const Hold& hold,
                                   const Told& told, const Decided& decided)
{
    if (told.last_dose) {
        return moments_after(rules, record, medicine_of(record, hold), *told.last_dose);
    }
    return screening::leaves_out(hold.plan.action) ? standing_moments(rules, record, hold, decided)
                                                   : std::nullopt;
}

std::string who_agreed(const Decided& decided)
{
    return decided.by != nullptr && !decided.role_may_not ? decided.by->who : "";
}

}  // namespace

std::vector<RunningHold> running_holds(const Rules& rules, const CaseFile& file, const WholeCase& whole,
                                       Moment moment, bool told_only)
{
    std::vector<RunningHold> running;
    const CaseRecord& record = file.record;
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        const Hold& hold = whole.assessment.holds[place];
        const Decided& decided = decided_on_hold(whole, place);
        const Told* told = last_told_by(record, hold.item.id, moment);
        std::optional<HoldMoments> moments;
        if (told != nullptr) {
            moments = as_told(rules, record, hold, *told, decided);
        } else if (!told_only && whole.stages.at(place) == HoldStage::agreed) {
            moments = standing_moments(rules, record, hold, decided);
        }
        if (!moments) {
            continue;
        }
        const bool begun = moments->last_dose <= moment;
        if (begun || (told != nullptr && !told_only)) {
            running.push_back({hold.item.id, hold.medicine, who_agreed(decided), begun});
        }
    }
    return running;
}

}  // namespace foreday::checklists
