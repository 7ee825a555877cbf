#pragma once
#include <string>
#include <vector>

#include "screening/canonical.h"
#include "screening/judge.h"

namespace foreday::screening {

/// What to say about a medicine that no rule covers, until somebody has decided.
[[nodiscard]] std::string no_rule_meanwhile();

/// The result of a plan, as it enters a fingerprint.
void add_plan(CanonicalBytes& bytes, const HoldPlan& plan);

/// The other options of policy questions, by whether they would come to something else. Those that come to
/// the same are told in one sentence, so that what differs is seen.
struct OtherPolicies {
    std::vector<HoldOption> different;
    std::vector<std::string> the_same;  ///< labels
};
[[nodiscard]] OtherPolicies sorted_by_result(const Hold& hold);

/// Whether the earliest last dose of any option comes before the unit works again, so that waiting for
/// the next working hours would decide by itself.
[[nodiscard]] bool last_dose_before_next_working_hours(const Hold& hold, const Judge& judge);

/// Opening of the next working day after the local time, or of the same day when it has not opened yet.
/// @param calendar  at least one working weekday; otherwise the next calendar day counts
[[nodiscard]] LocalMinute next_opening(const Calendar& calendar, LocalMinute after);

}  // namespace foreday::screening
