#pragma once
#include <optional>
#include <string>
#include <vector>

#include "data/reading/faults.h"
#include "gui/console/commands.h"
#include "gui/console/report_words.h"
#include "screening/record.h"

namespace foreday::console {

/// A case with everything it is judged by.
struct LoadedCase {
    screening::Rules rules;
    screening::CaseRecord record;
    screening::Moment at;  ///< the moment the case is looked at
    ReportHead head;
};

/// Either a case or every fault that was found on the way, each located.
struct Loading {
    std::optional<LoadedCase> loaded;
    std::vector<data::LocatedFault> faults;
    std::vector<data::LocatedFault> warnings;
};

/// Reads protocol, policy, zone and case. The moment is `options.at`, else the case's `as_of`, else `clock`.
[[nodiscard]] Loading load_case(const AssessOptions& options, screening::Moment clock);

}  // namespace foreday::console
