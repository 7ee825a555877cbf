#pragma once
#include <vector>

#include "screening/judge.h"

namespace foreday::screening {

/// Walks one condition under one reading of the record. Part of Judge; nothing else uses it.
class ConditionWalk {
public:
    ConditionWalk(const Judge& judge, const Judge::Scenario& scenario) : judge_(judge), scenario_(scenario) {}

    /// Every comparison is evaluated, whatever its neighbours say, so that neither the answer nor the
    /// facts named hang on an order.
    [[nodiscard]] Truth truth(const Condition& condition, std::vector<Truth>* outcomes = nullptr) const;

    /// What makes a condition yes, or no.
    void ground(const Condition& condition, std::vector<Ground>& because) const;
    /// What keeps a condition open.
    void open(const Condition& condition, std::vector<OpenOn>& open_on) const;

private:
    [[nodiscard]] Truth compare(const Comparison& comparison) const;
    [[nodiscard]] Truth compare_number(const NumberInterval& value, Operator op, const Limit& limit) const;
    [[nodiscard]] Truth on_list(const TakesMedicine& asked) const;

    [[nodiscard]] Truth of(const FactIs& c) const;
    [[nodiscard]] Truth of(const FactIsOneOf& c) const;
    [[nodiscard]] Truth of(const FactCompares& c) const;
    [[nodiscard]] Truth of(const FactWithin& c) const;
    [[nodiscard]] Truth of(const CalculatedCompares& c) const;
    [[nodiscard]] Truth of(const TakesMedicine& c) const { return on_list(c); }
    [[nodiscard]] Truth of(const ProcedureIncludes& c) const;
    [[nodiscard]] Truth of(const BleedingRiskIs& c) const
    {
        return from_bool(judge_.bleeding_risk() == c.risk);
    }
    [[nodiscard]] Truth of(const PreparationOrdered& c) const;
    [[nodiscard]] Truth of(const RecordHas& c) const;

    void ground_of(const Comparison& comparison, std::vector<Ground>& because) const;
    void add_fact_ground(FactIndex fact, std::vector<Ground>& because) const;
    void add_list_ground(const TakesMedicine& asked, std::vector<Ground>& because) const;
    void open_of(const Comparison& comparison, std::vector<OpenOn>& open_on) const;
    void add_open_fact(FactIndex fact, std::vector<OpenOn>& open_on) const;
    void add_open_list(const TakesMedicine& asked, std::vector<OpenOn>& open_on) const;

    const Judge& judge_;
    const Judge::Scenario& scenario_;
};

}  // namespace foreday::screening
