#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/yaml_text.h"
#include "screening/calendar.h"
#include "screening/exact.h"
#include "screening/quantity.h"

/// Values of one scalar. Each gives empty after telling the fault; quotation marks around a value change
/// nothing.
namespace foreday::data {

/// A text that is not blank.
[[nodiscard]] std::optional<std::string> read_text(const Located& node, Faults& faults);
/// A lower-case word with underscores: letters a to z first, then letters, digits and single underscores.
[[nodiscard]] std::optional<std::string> read_id(const Located& node, Faults& faults);
/// The words `yes` and `no` and nothing else.
[[nodiscard]] std::optional<bool> read_yes_no(const Located& node, Faults& faults);
/// A whole number from `lowest` to `highest`, both included.
[[nodiscard]] std::optional<std::int64_t> read_whole(const Located& node, std::int64_t lowest,
                                                     std::int64_t highest, Faults& faults);
[[nodiscard]] std::optional<screening::Quantity> read_quantity(const Located& node, Faults& faults);
/// A quantity converted to `unit`; one that does not compare is a fault.
/// @param what  what it is measured against, for the fault: "weight", "this"
[[nodiscard]] std::optional<screening::Exact> read_quantity_in(const Located& node, screening::Unit unit,
                                                               std::string_view what, Faults& faults);
/// An elapsed time of whole minutes, at least `shortest`.
[[nodiscard]] std::optional<std::chrono::minutes> read_minutes(const Located& node,
                                                               std::chrono::minutes shortest, Faults& faults);
[[nodiscard]] std::optional<screening::Date> read_date(const Located& node, Faults& faults);
[[nodiscard]] std::optional<screening::TimeOfDay> read_time_of_day(const Located& node, Faults& faults);
[[nodiscard]] std::optional<screening::WrittenTime> read_written_time(const Located& node, Faults& faults);

/// A list of texts that are not blank.
[[nodiscard]] std::vector<std::string> read_texts(const Located& node, std::string_view what, Faults& faults);
/// "84.6 kg", "1.5": for faults.
[[nodiscard]] std::string quantity_text(const screening::Exact& value, screening::Unit unit);

/// The place of a word in a closed list; a word that is not in it is a fault that names the nearest.
[[nodiscard]] std::optional<std::size_t> read_place(const Located& node,
                                                    std::span<const std::string_view> names, Faults& faults);

/// A word of a closed list whose enumerators stand in the order of the names.
template <class Enum>
[[nodiscard]] std::optional<Enum> read_word(const Located& node, std::span<const std::string_view> names,
                                            Faults& faults)
{
    const auto place = read_place(node, names, faults);
    return place ? std::optional<Enum>{static_cast<Enum>(*place)} : std::nullopt;
}

/// The same for a list that `name_of` spells; `last` is its last enumerator.
template <class Enum>
[[nodiscard]] std::optional<Enum> read_named(const Located& node, Enum last, Faults& faults)
{
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i <= static_cast<std::size_t>(last); ++i) {
        names.push_back(name_of(static_cast<Enum>(i)));
    }
    return read_word<Enum>(node, names, faults);
}

}  // namespace foreday::data
