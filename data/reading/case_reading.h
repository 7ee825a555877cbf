#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "data/reading/faults.h"
#include "screening/record.h"

namespace foreday::data {

/// Whether the unit's policy is named on the command line, so that the case need not name one.
enum class PolicyNamed { by_the_case, elsewhere };

/// What a case says of the place it belongs to: read first, because rules and clock hang on it.
struct CaseStart {
    std::optional<std::filesystem::path> policy;  ///< the file of `unit:`, seen from the case's folder
    std::optional<std::string> zone;              ///< `zone:`, where no unit is named
    std::optional<screening::WrittenTime> as_of;  ///< empty: not said, or not readable
    std::optional<screening::WrittenTime> start;  ///< of the procedure; empty: not readable
    /// Only what keeps anyone from going on: no such file, no YAML, neither unit nor zone, an unknown zone.
    /// Everything else is told by read_case.
    std::vector<LocatedFault> faults;
};
[[nodiscard]] CaseStart peek_case(const std::filesystem::path& file, PolicyNamed named);

struct ReadCase {
    std::optional<screening::CaseRecord> record;  ///< empty when there is any fault
    std::optional<screening::Moment> as_of;       ///< empty: the case does not say
    std::vector<LocatedFault> faults;
    std::vector<LocatedFault> warnings;
};

/// Reads a case against the rules it is to be judged by.
///
/// The booking's date of birth and sex become answers of the facts bound to them. An answer without `when`
/// was given at `as_of`. Times without offset are read on the zone's wall clock; one that does not exist or
/// exists twice is a fault that names the offsets. A procedure after 2037-12-31 is refused.
/// @param otherwise  stands for `as_of` where the case does not say it
[[nodiscard]] ReadCase read_case(const std::filesystem::path& file, const screening::Rules& rules,
                                 screening::Moment otherwise);

}  // namespace foreday::data
