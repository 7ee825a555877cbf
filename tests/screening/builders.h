#pragma once
#include <initializer_list>
#include <ostream>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "screening/assessment.h"
#include "screening/judge.h"

/// What tests are written with: a tiny protocol and a tiny case, made in code, and short words to fill them.
/// Everything here throws std::invalid_argument on a slip of the test's own hand.
namespace foreday::screening::build {

[[nodiscard]] Date day(std::string_view iso);          ///< "2027-06-17"
[[nodiscard]] LocalMinute wall(std::string_view iso);  ///< "2027-06-17T09:00", wall clock
[[nodiscard]] Moment utc(std::string_view iso);        ///< "2027-06-17T09:00", UTC
[[nodiscard]] TimeOfDay clock(std::string_view hour);  ///< "09:00"
[[nodiscard]] Exact num(std::string_view text);        ///< "84.6"

/// Clocks that never change.
[[nodiscard]] Zone fixed_zone(std::chrono::minutes offset = std::chrono::minutes{0});
/// New York in 2027, written by hand: forward on 14 March at 07:00 UTC, back on 7 November at 06:00 UTC.
[[nodiscard]] Zone new_york_2027();

[[nodiscard]] Value yes();
[[nodiscard]] Value no();
[[nodiscard]] Value number(std::string_view text);
[[nodiscard]] Value between(std::string_view lowest, std::string_view highest);
[[nodiscard]] Value on(std::string_view date);
[[nodiscard]] Value from_to(std::string_view earliest, std::string_view latest);

/// An answer, written as a sentence: said(yes()).unseen().at("2027-05-30T10:00").
struct Saying {
    Answer answer;

    [[nodiscard]] Saying unseen() const;
    [[nodiscard]] Saying measured() const;
    [[nodiscard]] Saying in_a_letter() const;  ///< of the day it was entered
    [[nodiscard]] Saying in_a_letter(std::string_view dated) const;
    [[nodiscard]] Saying imported() const;
    [[nodiscard]] Saying in_an_earlier_case() const;
    [[nodiscard]] Saying at(std::string_view moment) const;  ///< UTC
};
/// By the patient, in this case, on 1 June 2027 at 12:00 UTC, the later ones having seen the earlier.
[[nodiscard]] Saying said(Value value);
[[nodiscard]] Saying does_not_know();

[[nodiscard]] Condition all(std::vector<Condition> children);
[[nodiscard]] Condition any(std::vector<Condition> children);
[[nodiscard]] Condition negated(Condition child);
[[nodiscard]] Condition at_least(Limit count, std::vector<Condition> children);
[[nodiscard]] Condition leaf(Comparison comparison);

[[nodiscard]] Daily daily(std::initializer_list<std::string_view> times);

/// One patient, one colonoscopy on Thursday 17 June 2027 at 09:00, clocks that stand on UTC, seen on
/// 1 June 2027 at 12:00. Nothing has been asked yet. What a test needs otherwise it changes in place.
///
/// Facts: yes/no a, b, c, d and e; allergy (compare), birth_date, sex (female, male, other), weight (90
/// days), height, creatinine, laboratory_egfr, glucose (60 minutes), the five parts of the scores, stent,
/// stent_date (compare within 7 days, asked when stent is yes), last_visit, journey_minutes, diagnostic_only.
/// Medicines: apixaban, aspirin and warfarin (marked); dulaglutide and ibuprofen; pen (dulaglutide with
/// insulin).
class TinyCase {
public:
    TinyCase();

    Rules rules;
    CaseRecord record;
    Moment now;

    [[nodiscard]] FactDefinition& definition(std::string_view id);
    [[nodiscard]] FactIndex fact(std::string_view id) const;
    [[nodiscard]] Value choice(std::string_view id, std::string_view name) const;

    TinyCase& answer(std::string_view id, const Saying& saying);
    TinyCase& answer(std::string_view id, const Value& value) { return answer(id, said(value)); }
    TinyCase& forget(std::string_view id);  ///< as if never asked
    /// Added by the patient on 1 June 2027 at 12:00 UTC. @param medicine  empty: unrecognised
    MedicineItem& take(std::string id, std::string_view medicine, Pattern pattern = PatternNotKnown{});
    TinyCase& close_list(std::string_view moment = "2027-06-01T12:00");
    /// Moves the procedure to this wall-clock time of the zone in force.
    TinyCase& start(std::string_view iso);
    TinyCase& procedures(std::initializer_list<std::string_view> ids);

    [[nodiscard]] Condition is(std::string_view id, bool value = true) const;
    [[nodiscard]] Condition chosen(std::string_view id, std::initializer_list<std::string_view> names) const;
    [[nodiscard]] Condition compares(std::string_view id, Operator op, Limit limit) const;
    [[nodiscard]] Condition within(std::string_view id, Limit length, Unit unit) const;
    [[nodiscard]] Condition takes(
        std::initializer_list<std::string_view> ids) const;  ///< classes and medicines
    [[nodiscard]] Condition includes(std::string_view procedure) const;
    [[nodiscard]] Condition ordered(std::initializer_list<std::string_view> ids) const;
    [[nodiscard]] ParameterIndex parameter(std::string_view id) const;
    void set_parameter(std::string_view id, const ParameterValue& value);

    /// Rules are kept sorted by id, as the reader does. The reference holds until the next rule is added.
    FindingRule& finding(std::string id, Level level, Condition when);
    HoldRule& hold_rule(std::string id, std::initializer_list<std::string_view> ids, HoldAction action,
                        Limit number = Exact{0});

    [[nodiscard]] Judged judge(const Condition& condition) const;
    [[nodiscard]] Truth truth(const Condition& condition) const { return judge(condition).truth; }
    [[nodiscard]] FactReading reading(std::string_view id) const;
    [[nodiscard]] Assessment assess() const;
    /// The hold of one item of the list.
    [[nodiscard]] Hold hold(std::string_view item = "m1") const;
    /// The finding with this id, or nothing.
    [[nodiscard]] std::optional<Item> found(std::string_view id) const;

private:
    void add_facts();
    void add_medicines();
    void add_engine();
    void bind_calculators();
};

/// What keeps something open, as "weight: past its age".
[[nodiscard]] std::vector<std::string> names_of(const std::vector<OpenOn>& open_on);
/// "2027-06-14 20:00", "2027-06-14", or "none".
[[nodiscard]] std::string text_of(const std::optional<Dose>& dose);
[[nodiscard]] std::vector<std::string> texts_of(const std::vector<Date>& days);
/// Everything an assessment says, for comparing two of them to the byte.
[[nodiscard]] std::string whole_text(const Assessment& assessment);

}  // namespace foreday::screening::build

namespace foreday::screening {

// So that a failing test says what it saw.
void PrintTo(Truth truth, std::ostream* out);                       // NOLINT(readability-identifier-naming)
void PrintTo(FactState state, std::ostream* out);                   // NOLINT(readability-identifier-naming)
void PrintTo(Level level, std::ostream* out);                       // NOLINT(readability-identifier-naming)
void PrintTo(HoldAction action, std::ostream* out);                 // NOLINT(readability-identifier-naming)
void PrintTo(HoldWarning warning, std::ostream* out);               // NOLINT(readability-identifier-naming)
void PrintTo(const std::optional<DayOf>& what, std::ostream* out);  // NOLINT(readability-identifier-naming)
void PrintTo(const Exact& number, std::ostream* out);               // NOLINT(readability-identifier-naming)
void PrintTo(const Dose& dose, std::ostream* out);                  // NOLINT(readability-identifier-naming)

}  // namespace foreday::screening
