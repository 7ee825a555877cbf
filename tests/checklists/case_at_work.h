#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "checklists/calls.h"
#include "checklists/strands.h"
#include "tests/checklists/builders.h"

/// The small unit with the work done around its case: tries, tellings, an ending.
namespace foreday::checklists::build {

/// Booked on Monday 3 May 2027 at 09:00. The first thing the patient does differently is the last meal on
/// Wednesday 16 June at 13:00.
class CaseAtWork : public SmallUnit {
public:
    CaseFile work;  ///< its record stays empty: the unit's own takes its place

    CaseAtWork();
    [[nodiscard]] CaseFile file() const;
    [[nodiscard]] std::vector<Call> calls() const;
    [[nodiscard]] std::optional<Call> call(CallKind kind) const;  ///< the first of its kind
    [[nodiscard]] Strands strands() const;

    void tell(std::string_view iso, std::string sheet = "");
    /// One medicine of the list told, with the rest of the instructions.
    void tell_hold(std::string_view item, std::string_view iso, std::string_view last_dose);
    void end(EndingKind kind, std::string_view iso);
    OutsideAsk& ask_outside(std::string item, std::string_view reply_by);
    Restart& restart(std::string item, std::string_view iso);
};

/// "due .. useful", so that a test compares both at once; "none" without a call.
[[nodiscard]] std::string span(const std::optional<Call>& call);

/// Warfarin at 18:00, left out for five days: the last dose is on Friday 11 June at 18:00.
[[nodiscard]] CaseAtWork with_warfarin();
/// The same, agreed on Thursday 10 June at 10:00 and told at 11:00.
[[nodiscard]] CaseAtWork with_warfarin_told();

}  // namespace foreday::checklists::build
