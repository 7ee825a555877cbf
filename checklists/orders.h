#pragma once
#include <compare>
#include <optional>
#include <string>
#include <vector>

#include "checklists/calls.h"
#include "checklists/decide_by.h"

namespace foreday::checklists {

/// A case's place in the review queue: decide_by of its most urgent undecided item (the earlier first), level
/// of that item (stop before ask), start of the procedure (the earlier first), case number (by its bytes).
/// Total: only equal rows are equal.
struct QueueRow {
    screening::Moment decide_by;
    screening::Level level = screening::Level::ask;
    screening::Moment start;
    std::string case_id;
    bool operator==(const QueueRow&) const = default;
    [[nodiscard]] std::strong_ordering operator<=>(const QueueRow& other) const;
};

/// A call's place in the list of calls: useful_until (the earlier first), tries already made (fewer first),
/// then case number and call id (by their bytes). Total: only equal rows are equal.
struct CallRow {
    screening::Moment useful_until;
    int tries = 0;
    std::string case_id;
    std::string call_id;
    [[nodiscard]] std::strong_ordering operator<=>(const CallRow&) const = default;
};

/// Empty: nothing is undecided.
[[nodiscard]] std::optional<QueueRow> queue_row(const screening::CaseRecord& record,
                                                const std::vector<ToDecide>& undecided);
[[nodiscard]] CallRow call_row(const screening::CaseRecord& record, const Call& call);

}  // namespace foreday::checklists
