#pragma once
#include <string>
#include <vector>

#include "tests/published/healthy_case.h"
#include "tests/published/rows.h"

namespace foreday::tests {

/// One case in which a row of holds.tsv must show. Its medicine is the first of the wish.
struct RowSetting {
    CaseWish wish;
    std::string words;  ///< "high, clearance 49.99"
};

/// The cases a row speaks about: both bleeding risks where it says "any", each end of its band of clearance.
/// Empty where its medicine is not in the protocol.
/// @param rows  the whole table: whether 50 belongs to "30-50" is told by the row above it in the same text
/// @throws std::runtime_error for a medicine or a condition nobody has taught this table
[[nodiscard]] std::vector<RowSetting> settings_of(const Row& row, const std::vector<Row>& rows);

/// Whether a plan keeps what the row prints, by its wording:
/// - omit_days: so many whole dates without a dose (a range: within it; "at least" in the note: as many or
///   more), the last dose the day before them, and none on the day. With a weekly medicine one interval: the
///   dose seven days before is the last;
/// - last_dose_hours: the start is at least so many elapsed hours (a range: its lower end) after the last
/// dose;
/// - omit_on_the_day: no date left out, and no dose on the day;
/// - take: taken as usual or with a sip.
[[nodiscard]] bool agrees(const Row& row, const screening::HoldPlan& plan, const screening::Rules& rules);

/// The plan as words, for a message.
[[nodiscard]] std::string plan_words(const screening::HoldPlan& plan);

}  // namespace foreday::tests
