#pragma once
#include <string>
#include <vector>

#include "data/book/book.h"
#include "gui/present/desk.h"

namespace foreday::present {

/// One patient in the list of a desk, as sentences.
struct ListRow {
    std::string case_id;
    std::string sentence;
    bool operator==(const ListRow&) const = default;
};

/// What lies before a desk, in the orders of the trade: the calls that are due, what is undecided, the list
/// of today by the planned start. One row a case. Read from the projections alone; nothing is folded.
[[nodiscard]] std::vector<ListRow> rows_of(const book::Book& book, const screening::Zone& zone, Desk desk);

/// Cases whose name, number or phone has words that begin with what was typed, or whose patient was born on a
/// typed day ("1957-03-02", also beside words; "2 Mar 1957" alone); the sessions nearest to today first. At
/// most `most_found`.
[[nodiscard]] std::vector<ListRow> rows_found(const book::Book& book, const screening::Zone& zone,
                                              const std::string& typed);
inline constexpr std::size_t most_found = 50;  ///< more than anybody reads; a longer word finds fewer

/// What the list is, and that it is empty where it is: "Calls due: 4", "No call is due now".
[[nodiscard]] std::string heading_of(Desk desk, std::size_t rows);

}  // namespace foreday::present
