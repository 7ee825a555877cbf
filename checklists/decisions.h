#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "screening/assessment.h"

namespace foreday::checklists {

/// Hashes canonical bytes to lower-case hexadecimal; given from outside, so that this floor knows no hash.
using HashText = std::function<std::string(std::string_view)>;

enum class DecisionState : std::uint8_t { none, standing, opened_again };
[[nodiscard]] std::string_view name_of(DecisionState state);

/// What has been decided about one item. Points into the case record, which must outlive it.
struct Decided {
    DecisionState state = DecisionState::none;
    std::string fingerprint;                  ///< of the item as it is now
    const screening::Decision* by = nullptr;  ///< the decision looked at; nullptr: none
    bool bound = true;                        ///< false: the decision names no fingerprint
    bool role_may_not = false;                ///< only somebody who may not has decided; it does not count
    /// A later decision that does not count: the role may not, a stop is passed without a
    /// reason, or it agrees to a hold that names nothing to do.
    const screening::Decision* not_counted = nullptr;
    bool lacks_reason = false;         ///< `not_counted` passes a stop without a reason
    bool lacks_instruction = false;    ///< `not_counted` agrees to a hold that names nothing to do
    bool waits_for_signature = false;  ///< spoken: in effect, to be signed by that clinician
    bool asked_outside = false;        ///< the decision is to ask outside; the item stays undecided
    bool not_go_ahead = false;         ///< the decision is not to go ahead
    bool order_expired = false;        ///< a standing order on this hold has run out: somebody is asked again
};

/// How far a hold has come.
enum class HoldStage : std::uint8_t { proposed, agreed, told };
[[nodiscard]] std::string_view name_of(HoldStage stage);

/// Findings first (limits of the ordered preparation among them), then holds, in the order of the assessment.
[[nodiscard]] std::vector<const screening::Item*> all_items(const screening::Assessment& assessment);

/// What was decided about each of all_items(). The last decision that counts is the one looked at; one that
/// names a fingerprint stands only while the item has it; one that names none is taken for the item as it is
/// and reported as not bound. A decision by a role that may not decide does not count, nor does one that
/// passes a stop without saying why.
[[nodiscard]] std::vector<Decided> bind_decisions(const screening::Rules& rules,
                                                  const screening::CaseRecord& record,
                                                  const screening::Assessment& assessment,
                                                  const HashText& hash);

/// Whether a role decides on a finding: a clinician, and among those the finding names.
[[nodiscard]] bool may_decide(const screening::Item& finding, screening::Role role);

/// Whether the action says what to do. One that does not is decided by saying it, never by agreeing.
[[nodiscard]] bool has_instruction(screening::HoldAction action);

/// Whether a role agrees to a hold: a clinician the unit lets agree by topic. For an unmarked medicine those
/// the rule names may as well.
[[nodiscard]] bool may_agree(const screening::Rules& rules, const screening::Hold& hold,
                             screening::Role role);

/// A nurse may tell the hold by a standing order in force on the day of `now`, its last day included. Never
/// for a marked medicine, and never where a clinician is asked.
[[nodiscard]] bool standing_order_covers(const screening::Rules& rules, const screening::Hold& hold,
                                         screening::Moment now);

/// `told` only while what was told is what stands: told otherwise is not told.
[[nodiscard]] HoldStage stage_of(const screening::Rules& rules, const screening::CaseRecord& record,
                                 const screening::Hold& hold, const Decided& decided, screening::Moment now);

/// An undecided item of level ask or stop, or a hold whose standing order has run out: what keeps clearance
/// away.
[[nodiscard]] bool is_undecided(const screening::Item& item, const Decided& decided);

}  // namespace foreday::checklists
