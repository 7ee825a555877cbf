#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "checklists/case_file.h"
#include "checklists/whole_case.h"

namespace foreday::checklists {

enum class CallKind : std::uint8_t {
    first_call,      ///< to screen, until the screening is finished, the case cleared or the patient here
    to_tell,         ///< what is agreed, before the earliest hold begins
    outside_ask,     ///< past its reply-by date without an answer
    undecided,       ///< past its decide_by: the next on the roster
    after_a_change,  ///< told something that is no longer right, or moved after telling
    what_to_start_again,  ///< did not come, called off or moved while an agreed hold runs
    clearance_lapsed,     ///< after the patient was told
};
[[nodiscard]] std::string_view name_of(CallKind kind);

/// A dated piece of phone work. It holds moments; whether it is due is for the reader to say from the clock.
struct Call {
    std::string id;  ///< unique in the case: "first call", "outside ask:o1", "undecided:hold:m1"
    CallKind kind = CallKind::first_call;
    screening::Moment due_from;      ///< never after `useful_until`
    screening::Moment useful_until;  ///< a working moment wherever the unit has any
    std::string why;                 ///< one sentence
    int tries = 0;                   ///< made for this call since it came up
    std::string about;               ///< item id, or id of the outside ask; empty: the case
    bool operator==(const Call&) const = default;
};

/// Every call of a case, most urgent first (useful_until, tries, id), whether or not it is due yet. They fall
/// on working days and are never later than useful: where no working time is left before that, a call is due
/// at the last there was.
///
/// Nothing is called about once the patient has gone in, the procedure is done or the case is closed. Of a
/// session that ended otherwise only what to start again is left. An undecided item past its decide_by is
/// useful until its decide_by, so that it stands first until somebody answers.
[[nodiscard]] std::vector<Call> calls_of(const screening::Rules& rules, const CaseFile& file,
                                         const WholeCase& whole, const HashText& hash);

}  // namespace foreday::checklists
