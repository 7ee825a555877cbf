#pragma once
#include <concepts>
#include <type_traits>

#include "data/book/contents_value.h"

/// The keys of each content, once for writing and for reading. A key stands in books for ever.
namespace foreday::book {

/// A `Said`, const or not.
template <class T, class Said>
concept Is = std::same_as<std::remove_const_t<T>, Said>;

template <class Visitor, Is<screening::DateInterval> T>
void fields(Visitor& visit, T& said)
{
    visit("from", said.lowest)("to", said.highest);
}
template <class Visitor, Is<screening::TimeInterval> T>
void fields(Visitor& visit, T& said)
{
    visit("from", said.lowest)("to", said.highest);
}
template <class Visitor, Is<StatedNumber> T>
void fields(Visitor& visit, T& said)
{
    visit("from", said.lowest)("to", said.highest)("unit", said.unit);
}
template <class Visitor, Is<screening::Dose> T>
void fields(Visitor& visit, T& said)
{
    visit("day", said.day)("time", said.time);
}
template <class Visitor, Is<screening::PatternNotKnown> T>
void fields(Visitor& /*visit*/, T& /*said*/)
{
}
template <class Visitor, Is<screening::Daily> T>
void fields(Visitor& visit, T& said)
{
    visit("times", said.times);
}
template <class Visitor, Is<screening::OnWeekdays> T>
void fields(Visitor& visit, T& said)
{
    visit("weekdays", said.weekdays)("times", said.times);
}
template <class Visitor, Is<screening::EveryNDays> T>
void fields(Visitor& visit, T& said)
{
    visit("days", said.days)("from", said.from)("times", said.times);
}
template <class Visitor, Is<screening::Monthly> T>
void fields(Visitor& visit, T& said)
{
    visit("day", said.day)("times", said.times);
}
template <class Visitor, Is<screening::AsNeeded> T>
void fields(Visitor& /*visit*/, T& /*said*/)
{
}
template <class Visitor, Is<screening::Continuous> T>
void fields(Visitor& /*visit*/, T& /*said*/)
{
}

}  // namespace foreday::book
