#pragma once
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

/// What has been decided about one item.
struct Decided {
    DecisionState state = DecisionState::none;
    std::string fingerprint;                      ///< of the item as it is now
    const screening::Decision* by = nullptr;      ///< the decision looked at; nullptr: none
    bool bound = true;                            ///< false: the decision names no fingerprint
    bool role_may_not = false;                    ///< somebody decided who may not; it does not count
    bool waits_for_signature = false;             ///< spoken: in effect, to be signed by that clinician
    bool asked_outside = false;                   ///< the decision is to ask outside; the item stays undecided
    bool not_go_ahead = false;                    ///< the decision is not to go ahead
};

/// How far a hold has come.
enum class HoldStage : std::uint8_t { proposed, agreed, told };
[[nodiscard]] std::string_view name_of(HoldStage stage);

/// Findings first, then holds, in the order of the assessment.
[[nodiscard]] std::vector<const screening::Item*> all_items(const screening::Assessment& assessment);

/// What was decided about each of all_items(). The last decision on an item counts; a decision that names
/// a fingerprint stands only while the item has it; one that names none is taken for the item as it is
/// and reported as not bound. A decision by a role that may not decide on the item does not count.
[[nodiscard]] std::vector<Decided> bind_decisions(const screening::Rules& rules, const screening::CaseRecord& record,
                                                  const screening::Assessment& assessment, const HashText& hash);

/// Whether the unit lets a role decide on an item: it is among those the item names, or may agree by
/// topic; a medical director always may.
[[nodiscard]] bool may_decide(const screening::Rules& rules, const screening::Item& item, screening::Role role);

/// A nurse may tell the hold by a standing order in force on the day of `now`. Never for a marked medicine.
[[nodiscard]] bool standing_order_covers(const screening::Rules& rules, const screening::Hold& hold,
                                         screening::Moment now);

[[nodiscard]] HoldStage stage_of(const screening::Rules& rules, const screening::CaseRecord& record,
                                 const screening::Hold& hold, const Decided& decided, screening::Moment now);

/// An undecided item of level ask or stop: what keeps clearance away.
[[nodiscard]] bool is_undecided(const screening::Item& item, const Decided& decided);

}  // namespace foreday::checklists
