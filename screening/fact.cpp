#include "screening/fact.h"

#include <algorithm>

namespace foreday::screening {
namespace {

template <class T, class Gap>
bool apart(const Interval<T>& a, const Interval<T>& b, const Gap& tolerance)
{
    if (a.highest < b.lowest) {
        return b.lowest - a.highest > tolerance;
    }
    if (b.highest < a.lowest) {
        return a.lowest - b.highest > tolerance;
    }
    return false;
}

/// When an answer's value was true: the start of the date of a dated result, else when it was said.
Moment measured_at(const Answer& answer, const Zone& zone)
{
    return answer.dated ? moment_of(zone, LocalMinute{*answer.dated}) : answer.at;
}

bool within_age(const FactDefinition& fact, const Answer& answer, const Zone& zone, Moment now)
{
    return !fact.age_limit || now - measured_at(answer, zone) <= *fact.age_limit;
}

bool said_here(const Answer& answer)
{
    return answer.origin == Origin::this_case;
}

/// The answers of a fact while they are read one after the other.
class Standing {
public:
    Standing(const FactDefinition& fact, const std::vector<Answer>& answers) : fact_(fact), answers_(answers)
    {
    }

    void read(std::size_t place)
    {
        if (standing.empty()) {
            standing.push_back(place);
            return;
        }
        const Answer& answer = answers_[place];
        const Strength strongest = strongest_standing();
        const bool in_view = !answer.unseen && answer.strength >= strongest;
        if (!in_view && conflicts(answer, strongest)) {
            standing.push_back(place);
        } else if (in_view || answer.strength > strongest) {
            replace_by(place);
        } else {
            beside.push_back(place);
        }
    }

    std::vector<std::size_t> standing;
    std::vector<std::size_t> beside;

private:
    [[nodiscard]] Strength strongest_standing() const
    {
        Strength strongest = Strength::said;
        for (const std::size_t place : standing) {
            strongest = std::max(strongest, answers_[place].strength);
        }
        return strongest;
    }

    void replace_by(std::size_t place)
    {
        beside.insert(beside.end(), standing.begin(), standing.end());
        standing = {place};
    }

    /// Two answers of equal strength, neither written in view of the other; or sources of a fact
    /// that compares them.
    [[nodiscard]] bool conflicts(const Answer& answer, Strength strongest) const
    {
        const bool unseen_equal = answer.unseen && answer.strength == strongest;
        if (!unseen_equal && !fact_.compare) {
            return false;
        }
        return std::ranges::any_of(standing, [&](std::size_t place) {
            const Answer& other = answers_[place];
            if (answer.value && other.value) {
                return differ(*answer.value, *other.value, fact_.compare ? fact_.tolerance : Exact{0});
            }
            // Somebody knows and somebody does not: only between equals is that a difference.
            return unseen_equal && answer.value.has_value() != other.value.has_value();
        });
    }

    const FactDefinition& fact_;
    const std::vector<Answer>& answers_;
};

void describe(FactReading& reading, const FactDefinition& fact, const std::vector<Answer>& answers)
{
    bool somebody_does_not_know = false;
    for (const std::size_t place : reading.standing) {
        const auto& value = answers[place].value;
        if (!value) {
            somebody_does_not_know = true;
        } else if (std::ranges::none_of(reading.values, [&](const Value& known) {
                       return !differ(known, *value, fact.compare ? fact.tolerance : Exact{0});
                   })) {
            reading.values.push_back(*value);
        }
    }
    if (reading.values.empty()) {
        reading.state = FactState::not_known;
    } else if (reading.values.size() == 1 && !somebody_does_not_know) {
        reading.state = FactState::known;
    } else {
        reading.state = FactState::in_conflict;
    }
}

}  // namespace

std::string_view name_of(FactType type)
{
    switch (type) {
        case FactType::yes_no:
            return "yes/no";
        case FactType::number:
            return "number";
        case FactType::date:
            return "date";
        case FactType::time:
            return "time";
        case FactType::choice:
            return "choice";
        case FactType::text:
            return "text";
    }
    return "";
}

bool differ(const Value& a, const Value& b, const Exact& tolerance)
{
    if (a.index() != b.index()) {
        return true;
    }
    if (const auto* number = std::get_if<NumberInterval>(&a)) {
        return apart(*number, std::get<NumberInterval>(b), tolerance);
    }
    const date::days in_days{static_cast<int>(tolerance.floor())};
    if (const auto* dates = std::get_if<DateInterval>(&a)) {
        return apart(*dates, std::get<DateInterval>(b), in_days);
    }
    if (const auto* times = std::get_if<TimeInterval>(&a)) {
        return apart(*times, std::get<TimeInterval>(b), in_days);
    }
    return a != b;
}

FactReading read_answers(const FactDefinition& fact, const std::vector<Answer>& answers, const Zone& zone,
                         Moment now)
{
    FactReading reading;
    if (answers.empty()) {
        return reading;
    }
    Standing standing(fact, answers);
    for (std::size_t place = 0; place < answers.size(); ++place) {
        standing.read(place);
    }
    reading.standing = std::move(standing.standing);
    reading.beside = std::move(standing.beside);
    describe(reading, fact, answers);
    if (reading.state != FactState::known) {
        return reading;
    }

    // A value stays confirmed while somebody in this case has said it and it is within its age.
    const auto confirms = [&](std::size_t place) {
        const Answer& answer = answers[place];
        return said_here(answer) && answer.value && within_age(fact, answer, zone, now) &&
               !differ(*answer.value, reading.values.front(), fact.compare ? fact.tolerance : Exact{0});
    };
    reading.confirmed =
        std::ranges::any_of(reading.standing, confirms) || std::ranges::any_of(reading.beside, confirms);
    reading.past_its_age =
        !reading.confirmed && std::ranges::none_of(reading.standing, [&](std::size_t place) {
            return within_age(fact, answers[place], zone, now);
        });
    return reading;
}

}  // namespace foreday::screening
