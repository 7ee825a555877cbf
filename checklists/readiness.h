#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "checklists/clearance.h"

namespace foreday::checklists {

enum class ReadinessState : std::uint8_t {
    met,
    not_met,
    blank,     ///< nobody has asked, measured or confirmed it, or the measure is past its age
    let_pass,  ///< not met, blank or open, and a clinician has let it pass as it reads now
    open,      ///< kept only by a limit that the unit has not confirmed
};
[[nodiscard]] std::string_view name_of(ReadinessState state);

/// One line of the day's checklist.
struct ReadinessItem {
    std::string id;
    std::string title;
    screening::ReadinessKind kind = screening::ReadinessKind::holds_the_patient;
    ReadinessState state = ReadinessState::blank;
    std::string why;  ///< what was found, or what is missing
    std::string would_make_it_ready;
    std::optional<screening::Moment> earliest;  ///< when waiting alone will do; otherwise empty
    std::vector<screening::SourceUse> sources;
    screening::HowSure sure = screening::HowSure::from_memory;
    std::vector<screening::Role> who;
    /// What would settle whether the item applies at all; empty: it does.
    std::vector<screening::OpenOn> open_on;
};

enum class Verdict : std::uint8_t { may_go_in, waiting_for_a_clinician, not_ready, not_here_yet };
[[nodiscard]] std::string_view name_of(Verdict verdict);

/// Whether the patient may go in, computed for the planned start and never stored.
struct Readiness {
    Verdict verdict = Verdict::not_here_yet;
    std::vector<std::string> reasons;  ///< every one, not-ready reasons first
    /// The latest of the items that only need time; empty when something else is missing too.
    std::optional<screening::Moment> earliest;
    std::vector<ReadinessItem> items;  ///< by their order in the protocol
};

/// Items apply when their condition is yes or open. Everything is computed for the planned start, or for
/// `now` where that is later (nobody goes in before now): gaps are measured to it, and a measure that is past
/// its age by then is blank.
///
/// Not ready: an item that holds the patient is not met, or any item of the first two kinds is blank, so that
/// somebody has to ask or measure. Waiting for a clinician: one that needs a clinician is not met, or no
/// clearance stands. Not here yet: nobody has received the patient by `now`.
/// @param decided    as bind_decisions() gives it
/// @param clearance  as check_clearance() gives it
[[nodiscard]] Readiness check_readiness(const screening::Rules& rules, const screening::CaseRecord& record,
                                        const screening::Assessment& assessment,
                                        const std::vector<Decided>& decided, const ClearanceCheck& clearance,
                                        screening::Moment now);

}  // namespace foreday::checklists
