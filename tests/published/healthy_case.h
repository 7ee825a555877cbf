#pragma once
#include <set>
#include <string>
#include <vector>

#include "screening/assessment.h"
#include "screening/judge.h"

namespace foreday::tests {

/// The protocol of data/protocol under its defaults, in New York.
/// @throws std::runtime_error when the protocol has a fault
[[nodiscard]] screening::Rules real_rules();

/// The same with another option of one policy question.
[[nodiscard]] screening::Rules with_option(screening::Rules rules, const std::string& question,
                                           const std::string& option);

/// What a case differs in from a healthy man of 40 who weighs 72 kg, takes what is listed, and comes for a
/// colonoscopy at 08:00 on Thursday 17 June 2027. Doses are due at 07:00, and at 20:00 where there are two a
/// day.
struct CaseWish {
    screening::BleedingRisk risk = screening::BleedingRisk::high;
    /// Cockcroft-Gault, mL/min, > 0; met exactly.
    screening::Exact clearance{100};
    std::vector<std::string> medicines;                          ///< ids of the protocol, first to last
    std::set<std::string> yes;                                   ///< yes/no facts that are yes here
    std::vector<std::pair<std::string, screening::Date>> dates;  ///< date facts
    std::vector<std::pair<std::string, screening::Exact>>
        measures;  ///< number facts in the fact's unit, at 07:30 of the day
    std::vector<screening::Intake> intake;
};
[[nodiscard]] screening::CaseRecord healthy_case(const screening::Rules& rules, const CaseWish& wish);

[[nodiscard]] screening::Date procedure_day();
/// Twenty days before the procedure, when the call is made.
[[nodiscard]] screening::Moment call_moment(const screening::Rules& rules);

/// The hold of the first medicine of the wish.
[[nodiscard]] screening::Hold hold_of(const screening::Rules& rules, const CaseWish& wish);

}  // namespace foreday::tests
