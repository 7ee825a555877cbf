#pragma once
#include <compare>
#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "screening/calendar.h"
#include "screening/exact.h"
#include "screening/quantity.h"
#include "screening/vocabulary.h"

namespace foreday::screening {

struct Condition;

/// Place of a fact in Protocol::facts.
using FactIndex = std::uint32_t;

enum class FactType : std::uint8_t { yes_no, number, date, time, choice, text };
[[nodiscard]] std::string_view name_of(FactType type);  ///< as files write it: "yes/no", "number"
/// Who answers a question: the patient (or who speaks for the patient), somebody of the unit (what will be
/// done, and with what), or a letter or result.
enum class AskedOf : std::uint8_t { patient, staff, letter };
enum class FactScope : std::uint8_t { person, booked_case, day };

/// One of the choices a fact declares, by its place in FactDefinition::choices.
struct Choice {
    std::uint32_t place = 0;
    auto operator<=>(const Choice&) const = default;
};

/// A closed interval [lowest, highest]; exact when equal. Numbers are in the unit the fact declares.
template <class T>
struct Interval {
    T lowest{};
    T highest{};
    [[nodiscard]] bool exact() const { return lowest == highest; }
    bool operator==(const Interval&) const = default;
};
using NumberInterval = Interval<Exact>;
using DateInterval = Interval<Date>;
using TimeInterval = Interval<LocalMinute>;

/// bool for yes/no, std::string for text. The alternative always fits FactDefinition::type.
using Value = std::variant<bool, Choice, NumberInterval, DateInterval, TimeInterval, std::string>;

/// Which way a fact moves towards more harm, so that a test can move it.
struct Danger {
    enum class Kind : std::uint8_t {
        none,
        yes,
        no,
        higher,
        lower,
        earlier,
        later,
        away_from,
        order
    } kind = Kind::none;
    NumberInterval safe;               ///< with `away_from`: LOW..HIGH, closed, in the fact's unit
    std::vector<std::uint32_t> order;  ///< with `order`: places of choices, least harm first
    std::string reason;                ///< with `none`: why no direction is the harmful one
};

/// Where a figure or a rule was read.
struct SourceUse {
    std::string source;   ///< id in sources.yaml
    std::string locator;  ///< table, section, page
    bool operator==(const SourceUse&) const = default;
};

/// A fact and the question that learns it.
struct FactDefinition {
    std::string id;
    std::string label;  ///< what pages call it, no full sentence; empty: see label_of() in fact_words.h
    FactType type = FactType::yes_no;
    Unit unit = Unit::none;            ///< numbers only
    std::vector<std::string> choices;  ///< choice only, in the order of the file
    NumberInterval plausible;          ///< numbers only, closed; outside it an answer is refused
    std::string section;               ///< of the phone call
    int order = 0;                     ///< the questions of a section are asked in ascending order of it
    Topic topic = Topic::record;
    FactScope scope = FactScope::booked_case;
    std::string question;  ///< the words to say
    std::string why;       ///< one line for the nurse
    AskedOf asked_of = AskedOf::patient;
    /// The question applies only where this is true. Empty: it always applies.
    std::shared_ptr<const Condition> asked_when;
    /// A value older than this is unconfirmed. Empty: it does not age within a case.
    std::optional<std::chrono::minutes> age_limit;
    /// Sources that differ are a conflict although one is stronger. Empty: they are not.
    bool compare = false;
    Exact tolerance;  ///< with `compare`: numbers in the fact's unit, dates and times in days
    Danger danger;
};

enum class WhyNotKnown : std::uint8_t { does_not_know, would_not_say, could_not_be_measured };
enum class Informant : std::uint8_t { patient, relative, care_home, letter, booking, staff };
/// Strength of a source, weakest first.
enum class Strength : std::uint8_t { said, dated_document, measured };
enum class Origin : std::uint8_t { this_case, earlier_case, import };

/// One thing somebody said, wrote or measured. Never changed once it stands in the record.
struct Answer {
    std::optional<Value> value;  ///< empty: asked and not known
    WhyNotKnown why_not_known = WhyNotKnown::does_not_know;
    std::string words;  ///< as spoken ("last March"); empty when nothing was kept
    Informant informant = Informant::patient;
    std::string who;          ///< name of the informant or of the document; may be empty
    std::string interpreter;  ///< name or number; empty: none
    std::string desk;
    Strength strength = Strength::said;
    Origin origin = Origin::this_case;
    Moment at;                  ///< when it was said or entered
    std::optional<Date> dated;  ///< date of the result or letter where that is not the day of `at`
    bool unseen = false;        ///< its writer did not have the earlier answers in view
};

enum class FactState : std::uint8_t { not_asked, not_applicable, known, not_known, in_conflict };

/// What stands for one fact, after "what replaces what".
struct FactReading {
    FactState state = FactState::not_asked;
    /// known: one value. in_conflict: each value that stands (one only, when somebody else does not
    /// know). Otherwise empty.
    std::vector<Value> values;
    /// Everything that stands was said in this case (or by its booking) and is within its age limit.
    bool confirmed = false;
    bool past_its_age = false;
    std::vector<std::size_t> standing;   ///< places in the answers of the fact
    std::vector<std::size_t> beside;     ///< kept and shown; replaced nothing
    std::vector<std::size_t> set_aside;  ///< the question has ceased to apply
};

/// Applies "what replaces what" to the answers of one fact, in the order given. Never gives
/// not_applicable: that follows from other facts.
/// @param now  age limits are measured to this moment; a dated result counts from the start of its date
[[nodiscard]] FactReading read_answers(const FactDefinition& fact, const std::vector<Answer>& answers,
                                       const Zone& zone, Moment now);

/// Whether two values of one fact differ by more than the tolerance (dates and times in whole days).
/// Intervals that touch do not differ.
[[nodiscard]] bool differ(const Value& a, const Value& b, const Exact& tolerance);

}  // namespace foreday::screening
