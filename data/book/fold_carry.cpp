#include <algorithm>

#include "data/book/fold.h"

namespace foreday::book {
namespace {

using screening::Answer;
using screening::CalculatorInput;
using screening::Strength;

bool is_the_bookings(const screening::Protocol& protocol, screening::FactIndex fact)
{
    const auto is = [&](CalculatorInput input) {
        return protocol.calculators.facts[static_cast<std::size_t>(input)] == fact;
    };
    return is(CalculatorInput::birth_date) || is(CalculatorInput::sex);
}

/// A measurement of an earlier case is a dated result of this one, and every value keeps the day it is from.
Answer carried(Answer answer, const screening::Zone& zone)
{
    answer.origin = screening::Origin::earlier_case;
    answer.dated = answer.dated.value_or(screening::date_of(screening::local_of(zone, answer.at)));
    answer.strength = std::min(answer.strength, Strength::dated_document);
    return answer;
}

}  // namespace

std::vector<CarriedAnswer> carry_over(const screening::Protocol& protocol, const screening::Zone& zone,
                                      const checklists::CaseFile& earlier, screening::Moment now)
{
    std::vector<CarriedAnswer> all;
    const auto& answers = earlier.record.answers;
    for (std::size_t fact = 0; fact < std::min(protocol.facts.size(), answers.size()); ++fact) {
        const auto index = static_cast<screening::FactIndex>(fact);
        if (protocol.facts[fact].scope != screening::FactScope::person || is_the_bookings(protocol, index)) {
            continue;
        }
        const auto reading = screening::read_answers(protocol.facts[fact], answers[fact], zone, now);
        for (const std::size_t place : reading.standing) {
            if (answers[fact][place].value) {
                all.push_back({index, carried(answers[fact][place], zone)});
                all.back().answer.unseen = place != reading.standing.front();
            }
        }
    }
    return all;
}

}  // namespace foreday::book
