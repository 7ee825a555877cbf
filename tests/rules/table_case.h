#pragma once
#include <string>
#include <vector>

#include "tests/published/healthy_case.h"
#include "tests/support/rows.h"

namespace foreday::tests {

/// One thing a cell of a table says: "stent_date" and "2027-01-05".
struct Said {
    std::string what;
    std::string value;
};
/// "fact=value; fact=value", or "-" for nothing.
[[nodiscard]] std::vector<Said> said_in(const std::string& cell);

/// A case of a table, built up from the healthy one by what its row says: facts in their own words, and
/// `clearance` (mL/min), `medicine` (the first of the list), `medicines`, `procedures`, `ordered` (a
/// preparation) and `option` (question/option of policy).
class TableCase {
public:
    /// Medicines, policy and base of a row.
    explicit TableCase(const Row& row);

    void say(const Said& one);
    [[nodiscard]] const screening::Rules& rules() const { return rules_; }
    [[nodiscard]] const std::string& medicine() const { return wish_.medicines.front(); }
    /// @throws std::runtime_error for a fact, choice or procedure the protocol does not know
    [[nodiscard]] screening::CaseRecord record() const;

private:
    screening::Rules rules_;
    CaseWish wish_;
    std::vector<std::string> procedures_;
    std::string ordered_;
    std::vector<Said> facts_;
};

/// The two cases of a row, and a failure of the test where they differ in more than one thing.
struct Pair {
    explicit Pair(const Row& row);
    TableCase fires;
    TableCase does_not;
};

/// The rows of a table in tests/rules/.
[[nodiscard]] std::vector<Row> rows_of_rules(const std::string& name);

}  // namespace foreday::tests
