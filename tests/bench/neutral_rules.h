#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

/// A neutral rule set and case set: 100 conjunctions of one to four tests over 30 fields, 1,000 cases.
/// A test on a missing value does not hold, so that any engine can be asked the same.
namespace foreday::bench {

enum class FieldKind : std::uint8_t { number, yes_no, choice };

struct NeutralTest {
    std::size_t field = 0;
    std::string op;                   ///< <, <=, >, >=, = or in
    std::vector<std::string> values;  ///< one, or several with `in`
};
using NeutralRule = std::vector<NeutralTest>;
/// A value as written; empty where it is missing.
using NeutralCase = std::vector<std::string>;

struct NeutralSet {
    std::vector<std::string> names;
    std::vector<FieldKind> kinds;
    std::vector<NeutralRule> rules;
    std::vector<NeutralCase> cases;
};

/// Reads tests/bench/neutral. @throws std::runtime_error when a file is missing or short
[[nodiscard]] NeutralSet read_neutral_set();

/// What all engines must agree on: FNV-1a over one byte a case and rule, 1 where the rule holds.
struct Agreement {
    std::uint32_t hash = 0;
    std::size_t hits = 0;
    bool operator==(const Agreement&) const = default;
};
[[nodiscard]] Agreement agreement_of(const std::vector<std::uint8_t>& matrix);
/// The committed answer, made once by the yardstick.
[[nodiscard]] Agreement expected_agreement();

/// The yardstick: a flat table of tests over doubles and small sets, nothing else.
class FlatYardstick {
public:
    explicit FlatYardstick(const NeutralSet& set);
    void run(std::vector<std::uint8_t>& matrix) const;

private:
    struct Test {
        std::size_t field = 0;
        int op = 0;
        double limit = 0;
        unsigned allowed = 0;
    };
    std::vector<Test> tests_;
    std::vector<std::size_t> ends_;  ///< of each rule in tests_
    std::vector<double> values_;     ///< case after case; NaN where missing
    std::size_t fields_ = 0;
};

}  // namespace foreday::bench
