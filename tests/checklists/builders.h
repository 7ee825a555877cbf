#pragma once
#include <initializer_list>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "checklists/whole_case.h"

/// What tests of this folder are written with: a small unit with one booked patient, made in code.
/// Everything here throws std::invalid_argument on a slip of the test's own hand.
namespace foreday::checklists::build {

[[nodiscard]] screening::Date day(std::string_view iso);          ///< "2027-06-17"
[[nodiscard]] screening::LocalMinute wall(std::string_view iso);  ///< "2027-06-17T09:00", wall clock
[[nodiscard]] screening::Moment at(std::string_view iso);         ///< "2027-06-17T09:00-04:00"
[[nodiscard]] screening::TimeOfDay clock(std::string_view hour);  ///< "09:00"
[[nodiscard]] screening::Exact num(std::string_view text);        ///< "1.5"

/// New York in 2027, written by hand: forward on 14 March at 07:00 UTC, back on 7 November at 06:00 UTC.
[[nodiscard]] screening::Zone new_york_2027();

[[nodiscard]] screening::Condition always();
[[nodiscard]] screening::Condition leaf(screening::Comparison comparison);
[[nodiscard]] screening::Daily daily(std::initializer_list<std::string_view> times);

/// A portion of so many glasses, each taking so long.
[[nodiscard]] screening::Portion glasses(int times, std::chrono::minutes every);
[[nodiscard]] screening::StartWindow window(std::chrono::minutes earliest, std::chrono::minutes latest,
                                            std::string source);

/// Stands in for the hash of data/: as good as equality of the bytes, which is what is tested here.
[[nodiscard]] std::string hash(std::string_view bytes);

/// Larkmoor Endoscopy and one patient: a colonoscopy on Thursday 17 June 2027 at 10:00 in New York, seen on
/// Thursday 10 June at 09:00. Nothing asks, the list is empty and closed, the journey is 30 minutes, and
/// "peg" is ordered. What a test needs otherwise it changes in place.
///
/// Facts: yes/no diagnostic_only, heart_failure, slow_stomach, trouble, worry (not asked); identity_confirmed
/// and alone_at_home (of the day); numbers journey_minutes, inr_today (a day old at most), glucose_today (60
/// minutes). Medicines: apixaban and warfarin (marked), ibuprofen, iron.
/// Preparations: "peg" (8 glasses at 15 minutes and 80 mL in 5, window 6 to 4 hours) and "sulfate" (an hour
/// and two cups of 30 minutes, window 6 to 4 hours and not later than 3.5, 10 to 12 hours between starts).
class SmallUnit {
public:
    SmallUnit();

    screening::Rules rules;
    screening::CaseRecord record;
    screening::Moment now;

    SmallUnit& start(std::string_view iso);  ///< wall clock of New York
    SmallUnit& procedures(std::initializer_list<std::string_view> ids);
    SmallUnit& order(std::string_view id);
    SmallUnit& look(std::string_view iso);  ///< moves `now`

    [[nodiscard]] screening::FactIndex fact(std::string_view id) const;
    [[nodiscard]] screening::ParameterIndex place_of(std::string_view id) const;
    [[nodiscard]] screening::Parameter& parameter(std::string_view id);
    [[nodiscard]] screening::PreparationIndex preparation_place(std::string_view id) const;
    [[nodiscard]] screening::Preparation& preparation(std::string_view id);
    /// Default and the unit's own value at once, so that the rank stays that of the protocol.
    SmallUnit& set(std::string_view id, screening::ParameterValue value);
    SmallUnit& confirm(std::string_view item);

    SmallUnit& answer(std::string_view id, screening::Value value);   ///< by the patient, at `now`
    SmallUnit& number(std::string_view id, std::string_view figure);  ///< the same, in the unit of the fact
    /// The answer just given, to make it older, imported or not known.
    [[nodiscard]] screening::Answer& last_answer(std::string_view id);
    SmallUnit& forget(std::string_view id);
    [[nodiscard]] screening::Condition is(std::string_view id, bool value = true) const;

    /// Rules are kept sorted by id, as the reader does. The reference holds until the next rule is added.
    screening::FindingRule& finding(std::string id, screening::Level level, screening::Condition when);
    screening::HoldRule& hold_rule(std::string id, std::string_view medicine, screening::HoldAction action,
                                   screening::Limit number = screening::Exact{0});
    screening::FindingRule& speaks_against(std::string_view id, std::string rule_id, std::string_view fact_id,
                                           screening::Level level = screening::Level::ask);
    screening::ReadinessRule& readiness(std::string id, screening::ReadinessKind kind);

    /// @param medicine  empty: nobody could name it
    screening::MedicineItem& take(std::string id, std::string_view medicine, screening::Pattern pattern);
    SmallUnit& close_list(std::string_view iso);
    screening::Decision& decide(std::string item, screening::Role role = screening::Role::endoscopist);
    SmallUnit& clear(std::string_view iso, screening::Role role = screening::Role::endoscopist);

    [[nodiscard]] WholeCase look() const { return look_at(rules, record, now, hash); }
    [[nodiscard]] PreparationPlan plan() const { return look().preparation; }
    /// What was decided on one item of the case as it is.
    [[nodiscard]] Decided decided(std::string_view id) const;

private:
    void add_parameters();
    void add_facts();
    void add_medicines();
    void add_procedures();
    void add_preparations();
};

/// The fitted plan, or a failure of the test that says why it was refused.
[[nodiscard]] Fitted fitted(const std::variant<Fitted, Refused>& plan);
/// The refusal, or a failure of the test.
[[nodiscard]] Refused refused(const std::variant<Fitted, Refused>& plan);
/// "2027-06-17T05:00-04:00"; "none" where there is none.
[[nodiscard]] std::string text(std::optional<screening::Moment> moment);
[[nodiscard]] std::vector<std::string> items_of(const std::vector<Lack>& lacks);

}  // namespace foreday::checklists::build

namespace foreday::checklists {

// So that a failing test says what it saw.
void PrintTo(DecisionState state, std::ostream* out);          // NOLINT(readability-identifier-naming)
void PrintTo(HoldStage stage, std::ostream* out);              // NOLINT(readability-identifier-naming)
void PrintTo(ReadinessState state, std::ostream* out);         // NOLINT(readability-identifier-naming)
void PrintTo(Verdict verdict, std::ostream* out);              // NOLINT(readability-identifier-naming)
void PrintTo(ClearanceCheck::Given given, std::ostream* out);  // NOLINT(readability-identifier-naming)

}  // namespace foreday::checklists
