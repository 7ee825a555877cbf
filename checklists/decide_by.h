#pragma once
#include <string>
#include <vector>

#include "checklists/whole_case.h"

namespace foreday::checklists {

/// Something a clinician still has to decide, with the moment by which.
struct ToDecide {
    std::string id;  ///< item id, or "preparation" where no plan could be made and nobody has stated one
    screening::Level level = screening::Level::ask;  ///< ask or stop
    screening::Moment decide_by;
    std::string title;
    std::vector<screening::Role> who;  ///< clinicians who may decide on it
    bool opened_again = false;
    screening::Moment changes_at;  ///< before it the decision must have reached the patient
    bool operator==(const ToDecide&) const = default;
};

/// The first thing the patient does differently because of the session: the first step of the preparation,
/// or the earliest moment of any hold, whichever comes first. Where no preparation could be planned, the day
/// before the session begins it. Never after the start.
[[nodiscard]] screening::Moment first_step(const screening::Rules& rules, const screening::CaseRecord& record,
                                           const WholeCase& whole);

/// Before this moment a decision on the item must have reached the patient: for a hold the earliest last dose
/// of anything that may still be told about the medicine; for what moves no date the first_step().
[[nodiscard]] screening::Moment changes_at(const screening::Rules& rules, const screening::CaseRecord& record,
                                           const WholeCase& whole, const screening::Item& item);

/// changes_at() less the working time the unit needs to phone it, never later than the last working hour
/// before the start. It does not depend on the time of asking, and may lie in the past. A unit whose calendar
/// has no working time needs the same hours by the clock.
[[nodiscard]] screening::Moment decide_by(const screening::Rules& rules, const screening::CaseRecord& record,
                                          const WholeCase& whole, const screening::Item& item);

/// Open on nothing but what nobody has asked yet, or has to ask again: the nurse asks first, and nobody is to
/// decide on it meanwhile.
[[nodiscard]] bool only_needs_asking(const screening::Item& item);

/// Every undecided item that is for a clinician, most urgent first (decide_by, then stop before ask, then
/// id). A hold whose standing order has run out is asked about like any other.
[[nodiscard]] std::vector<ToDecide> to_decide(const screening::Rules& rules,
                                              const screening::CaseRecord& record, const WholeCase& whole);

/// Names of the clinicians who have still to sign what they said, in the order of the items.
[[nodiscard]] std::vector<std::string> to_sign(const WholeCase& whole);

}  // namespace foreday::checklists
