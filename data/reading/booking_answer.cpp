#include "data/reading/booking_answer.h"

#include <utility>

namespace foreday::data {

std::optional<BookingAnswer> booking_answer(const screening::Protocol& protocol,
                                            screening::CalculatorInput input, screening::Value value,
                                            screening::Moment at)
{
    const auto& fact = protocol.calculators.facts[static_cast<std::size_t>(input)];
    if (!fact) {
        return std::nullopt;
    }
    screening::Answer answer;
    answer.value = std::move(value);
    answer.informant = screening::Informant::booking;
    answer.strength = screening::Strength::dated_document;
    answer.at = at;
    return BookingAnswer{*fact, std::move(answer)};
}

}  // namespace foreday::data
