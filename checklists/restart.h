#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checklists/decisions.h"

namespace foreday::checklists {

/// When a medicine that was left out may be taken again. Never told as it stands where the endoscopist
/// decides.
struct RestartProposal {
    screening::Date earliest;               ///< not before this day
    std::optional<screening::Date> latest;  ///< by this day as a rule; empty: the source gives one day
    screening::BleedingRisk after = screening::BleedingRisk::high;  ///< bleeding risk of what was done
    bool as_booked = true;  ///< nobody has said what was really done; `after` is that of the booking
    bool endoscopist_decides = true;            ///< the medicine is marked
    std::string rule;                           ///< id of the hold rule that has the figure
    std::vector<screening::SourceUse> sources;  ///< of the figure
    /// Rank of the figure under this unit's policy. Empty: an unmarked medicine whose rule has no figure;
    /// left out until after the procedure, it may go on on the same day.
    std::optional<screening::HowSure> sure;
};

/// Bleeding risk of what was really done: an examination in which nothing else was done counts as one that
/// was only looked at, an intervention at its own risk. Where nobody has said, the risk of the booking.
[[nodiscard]] screening::BleedingRisk risk_as_done(const screening::Rules& rules,
                                                   const screening::CaseRecord& record,
                                                   const screening::Assessment& assessment);

/// The day of restart of one medicine, counted in civil days of the unit from the day on which the procedure
/// ended. Empty
/// - before the case is done, out of scope, or where nothing was left out;
/// - for a marked medicine without a figure for the risk of what was done, and for any medicine whose figure
///   is common practice or from memory until the unit has confirmed its rule;
/// - for a marked medicine whose pause nobody agreed to and nobody told;
/// - where a clinician was asked first, until one who may has stated a last dose. Then the latest of the
///   figures that fired rules have is taken.
/// @param decided  of the hold
[[nodiscard]] std::optional<RestartProposal> propose_restart(const screening::Rules& rules,
                                                             const screening::CaseRecord& record,
                                                             const screening::Assessment& assessment,
                                                             const screening::Hold& hold,
                                                             const Decided& decided, HoldStage stage);

}  // namespace foreday::checklists
