#pragma once
#include <optional>

#include "screening/record.h"

namespace foreday::data {

/// An answer and the fact it belongs to.
struct BookingAnswer {
    screening::FactIndex fact = 0;
    screening::Answer answer;
};

/// What a booking says of a patient, as an answer of the fact the protocol binds to the input. It stands in
/// the booking's papers, so it is as strong as a dated document. Empty: no fact is bound.
/// @param at  when it was booked
[[nodiscard]] std::optional<BookingAnswer> booking_answer(const screening::Protocol& protocol,
                                                          screening::CalculatorInput input,
                                                          screening::Value value, screening::Moment at);

}  // namespace foreday::data
