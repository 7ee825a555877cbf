#pragma once
#include <optional>

#include "checklists/whole_case.h"

namespace foreday::checklists {

/// When one plan begins to change what the patient takes.
struct HoldMoments {
    /// The last dose before the doses left out; where there is none, the same as `first_left_out`. A dose
    /// without a time of day counts at the start of its day.
    screening::Moment last_dose;
    /// The first dose left out is due; for what is taken without a schedule, the time to leave it out begins.
    screening::Moment first_left_out;
    bool operator==(const HoldMoments&) const = default;
};

/// One action on the patient's own dosing times. Empty: it leaves no dose out.
[[nodiscard]] std::optional<HoldMoments> moments_of(const screening::Rules& rules,
                                                    const screening::CaseRecord& record,
                                                    const screening::MedicineItem& medicine,
                                                    screening::HoldAction action,
                                                    const screening::Exact& number);

/// A last dose that somebody stated: the first dose left out is the next one scheduled after that day;
/// without a schedule, the midnight that ends it. Empty: no dose is due between it and the start.
[[nodiscard]] std::optional<HoldMoments> moments_after(const screening::Rules& rules,
                                                       const screening::CaseRecord& record,
                                                       const screening::MedicineItem& medicine,
                                                       screening::Date last_dose);

/// The earliest of everything that may still be told about the medicine: the plan, what is possible while it
/// is open, what other policies would give, and the rules that fired beneath it or pull apart. Also a plan
/// that may give no date yet counts: it only moves the unit's own work. Empty: none of them leaves out a
/// dose.
[[nodiscard]] std::optional<HoldMoments> earliest_moments(const screening::Rules& rules,
                                                          const screening::CaseRecord& record,
                                                          const screening::Hold& hold);

/// What stands: the last dose a clinician stated, else the plan. Empty: it leaves no dose out, or has no
/// date.
[[nodiscard]] std::optional<HoldMoments> standing_moments(const screening::Rules& rules,
                                                          const screening::CaseRecord& record,
                                                          const screening::Hold& hold,
                                                          const Decided& decided);

/// The medicine of a hold on the list.
[[nodiscard]] const screening::MedicineItem& medicine_of(const screening::CaseRecord& record,
                                                         const screening::Hold& hold);
/// What was decided about the hold at this place of assessment.holds.
[[nodiscard]] const Decided& decided_on_hold(const WholeCase& whole, std::size_t place);

}  // namespace foreday::checklists
