#pragma once
#include <optional>
#include <ostream>
#include <set>
#include <string>
#include <vector>

namespace foreday::tests {

/// What a clinician would expect of one medicine, worked out by hand from the protocol and the calendar.
struct HoldExpected {
    std::string id;
    std::string medicine;
    std::string level;
    std::string state;
    std::string action;
    std::optional<double> days;
    std::optional<std::string> last_dose;
    std::vector<std::string> dates_omitted;
    std::optional<std::string> day_of;
    std::optional<int> doses_missed;
};

/// What a clinician would expect of a whole case.
struct CaseExpected {
    std::string file;
    std::set<std::string> a_clinician_decides;  ///< every item of level ask or stop
    std::set<std::string> to_do;                ///< every item of level act
    bool clearance_possible;
    std::string verdict;
    std::vector<HoldExpected> holds;
};

/// How a failing test names the case.
inline void PrintTo(const CaseExpected& expected, std::ostream* out)
{
    *out << expected.file;
}

/// The sixteen demo cases, each as it should come out.
[[nodiscard]] const std::vector<CaseExpected>& expected_cases();

}  // namespace foreday::tests
