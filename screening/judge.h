#pragma once
#include <array>
#include <vector>

#include "screening/assessment.h"

namespace foreday::screening {

/// What became of a condition, and why.
struct Judged {
    Truth truth = Truth::open;
    bool on_unconfirmed = false;     ///< yes, but only on values nobody has confirmed in this case
    std::vector<Truth> comparisons;  ///< outcome of every comparison of the condition, in its order
    std::vector<Ground> because;     ///< what made it yes or no; sorted
    std::vector<OpenOn> open_on;     ///< what would settle or confirm it; sorted
};

/// Judges conditions about one case at one moment. A condition is judged as a whole twice: with
/// unconfirmed values as given (a fact in conflict at each of its values, every combination), and with
/// all of these open. It is yes when the first is yes for any combination, no when the second is no,
/// and open otherwise. Holds references: rules and record must outlive it.
class Judge {
public:
    Judge(const Rules& rules, const CaseRecord& record, Moment now);

    [[nodiscard]] Judged judge(const Condition& condition) const;
    /// The same answer without the words for it.
    [[nodiscard]] Truth truth(const Condition& condition) const;

    [[nodiscard]] const Rules& rules() const { return rules_; }
    [[nodiscard]] const CaseRecord& record() const { return record_; }
    [[nodiscard]] Moment now() const { return now_; }
    /// The planned day of the procedure.
    [[nodiscard]] Date day() const { return date_of(record_.booking.start); }
    [[nodiscard]] const std::vector<FactReading>& readings() const { return readings_; }
    /// Whether the question of a fact applies.
    [[nodiscard]] Truth applies(FactIndex fact) const { return applies_[fact]; }
    [[nodiscard]] ListState list() const { return list_; }
    [[nodiscard]] BleedingRisk bleeding_risk() const { return risk_; }
    /// Adults and procedures this protocol has plans for.
    [[nodiscard]] bool in_scope() const { return in_scope_; }
    /// Set once the holds are known; the rule about it is judged after them.
    void note_told_no_longer_right(bool value) { told_no_longer_right_ = value; }

    /// The value of a fact as words, with who said so.
    [[nodiscard]] Ground ground_of(FactIndex fact, const Value& value) const;

private:
    friend class ConditionWalk;
    /// One way to read the record.
    struct Scenario {
        bool confirmed_only = false;
        /// For facts in conflict: which of their values, by place in `conflicting`.
        const std::vector<FactIndex>* conflicting = nullptr;
        const std::vector<std::size_t>* picks = nullptr;
    };

    /// Both passes over one condition. `first_yes` is the combination that made it yes.
    struct Passes {
        Truth truth = Truth::open;
        bool on_unconfirmed = false;
        std::vector<FactIndex> conflicting;
        std::vector<std::size_t> first_yes;
    };
    [[nodiscard]] Passes two_passes(const Condition& condition, std::vector<Truth>* outcomes) const;
    void find_differences();
    void settle(FactIndex fact, std::vector<char>& settled);
    [[nodiscard]] const Value* value_of(FactIndex fact, const Scenario& scenario) const;
    [[nodiscard]] Calculated calculated(Calculator calculator, const Scenario& scenario) const;
    [[nodiscard]] OpenWhy why_open(FactIndex fact, const Scenario& scenario) const;

    const Rules& rules_;
    const CaseRecord& record_;
    Moment now_;
    std::vector<FactReading> readings_;
    std::vector<Truth> applies_;
    ListState list_ = ListState::never_closed;
    BleedingRisk risk_ = BleedingRisk::high;
    bool in_scope_ = true;
    bool told_no_longer_right_ = false;
    bool any_conflict_ = false;
    bool any_unconfirmed_ = false;  ///< without one, and without a conflict, both passes are the same
};

/// How a value reads: "yes", "type_1", "84.6 kg", "2026-11-01 to 2026-11-30".
[[nodiscard]] std::string value_text(const FactDefinition& fact, const Value& value);

}  // namespace foreday::screening
