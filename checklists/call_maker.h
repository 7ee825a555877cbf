#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checklists/calls.h"
#include "checklists/decide_by.h"
#include "checklists/telling.h"
#include "checklists/working_time.h"

namespace foreday::checklists {

/// Everything the calls of one case are made from, and the calls made so far.
struct CallSetting {
    const screening::Rules& rules;
    const CaseFile& file;
    const WholeCase& whole;
    WorkingTime time;
    TellingState telling;
    std::vector<ToDecide> undecided;
    screening::Moment first_step;
};

/// One call before it is laid on the unit's working time.
struct CallDraft {
    CallKind kind = CallKind::first_call;
    screening::Moment due_from;
    screening::Moment useful_until;
    std::string why;
    std::string about;                       ///< stands in the id too; empty: one call a case
    std::optional<screening::Moment> since;  ///< earlier tries were made for another reason; empty: all count
};

/// Useful until the last working moment before it no longer is; due from the next working moment, and never
/// after it is useful.
[[nodiscard]] Call placed(const CallSetting& setting, CallDraft draft);

// Each adds its call, or none.

void add_first_call(const CallSetting& setting, std::vector<Call>& calls);
void add_outside_asks(const CallSetting& setting, std::vector<Call>& calls);
void add_undecided(const CallSetting& setting, std::vector<Call>& calls);
void add_to_tell(const CallSetting& setting, std::vector<Call>& calls);
void add_after_a_change(const CallSetting& setting, std::vector<Call>& calls);
void add_clearance_lapsed(const CallSetting& setting, std::vector<Call>& calls);
void add_what_to_start_again(const CallSetting& setting, std::vector<Call>& calls);

}  // namespace foreday::checklists
