#include "data/book/fold_value.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <type_traits>
#include <utility>

namespace foreday::book {
namespace {

using screening::FactDefinition;
using screening::FactType;
using screening::Fault;
using screening::Value;

tl::unexpected<Fault> not_placed(std::string what)
{
    return tl::unexpected(Fault{std::move(what), "ask again"});
}

screening::Result<Value> place_choice(const FactDefinition& fact, const NamedChoice& choice)
{
    const auto place = std::ranges::find(fact.choices, choice.id);
    if (place == fact.choices.end()) {
        return not_placed(fmt::format("\"{}\" has no choice \"{}\" any more", fact.id, choice.id));
    }
    return screening::Choice{static_cast<std::uint32_t>(place - fact.choices.begin())};
}

screening::Result<Value> place_number(const FactDefinition& fact, const StatedNumber& number)
{
    if (number.unit != screening::unit_text(fact.unit)) {
        return not_placed(fmt::format("\"{}\" was written in \"{}\" and is in \"{}\" now", fact.id,
                                      number.unit, screening::unit_text(fact.unit)));
    }
    return screening::NumberInterval{number.lowest, number.highest};
}

/// The type of fact each alternative of StatedValue fits, in their order.
FactType type_of(const StatedValue& stated)
{
    constexpr std::array types{FactType::yes_no, FactType::choice, FactType::number,
                               FactType::date,   FactType::time,   FactType::text};
    static_assert(types.size() == std::variant_size_v<StatedValue>);
    return types.at(stated.index());
}

}  // namespace

StatedValue stated(const FactDefinition& fact, const Value& value)
{
    return std::visit(
        [&](const auto& known) -> StatedValue {
            using Known = std::remove_cvref_t<decltype(known)>;
            if constexpr (std::is_same_v<Known, screening::Choice>) {
                return NamedChoice{fact.choices.at(known.place)};
            } else if constexpr (std::is_same_v<Known, screening::NumberInterval>) {
                return StatedNumber{known.lowest, known.highest,
                                    std::string(screening::unit_text(fact.unit))};
            } else {
                return known;
            }
        },
        value);
}

screening::Result<Value> value_of(const FactDefinition& fact, const StatedValue& stated)
{
    if (type_of(stated) != fact.type) {
        return not_placed(fmt::format("\"{}\" was answered as {} and is {} now", fact.id,
                                      screening::name_of(type_of(stated)), screening::name_of(fact.type)));
    }
    return std::visit(
        [&](const auto& said) -> screening::Result<Value> {
            using Said = std::remove_cvref_t<decltype(said)>;
            if constexpr (std::is_same_v<Said, NamedChoice>) {
                return place_choice(fact, said);
            } else if constexpr (std::is_same_v<Said, StatedNumber>) {
                return place_number(fact, said);
            } else {
                return Value{said};
            }
        },
        stated);
}

Answered answered(const FactDefinition& fact, const screening::Answer& answer)
{
    Answered said;
    said.fact = fact.id;
    if (answer.value) {
        said.value = stated(fact, *answer.value);
    } else {
        said.why_not_known = answer.why_not_known;
    }
    said.words = answer.words;
    said.informant = answer.informant;
    said.who = answer.who;
    said.interpreter = answer.interpreter;
    said.strength = answer.strength;
    said.origin = answer.origin;
    said.dated = answer.dated;
    return said;
}

StatedMedicine stated(const screening::Protocol& protocol, const screening::MedicineItem& item)
{
    return {item.medicine ? protocol.medicines.at(*item.medicine).id : "",
            item.heard,
            item.dose,
            item.pattern,
            item.prescriber,
            item.reason,
            item.last_dose,
            item.origin,
            item.informant,
            item.who};
}

}  // namespace foreday::book
