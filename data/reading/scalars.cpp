#include "data/reading/scalars.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "data/reading/map_reader.h"
#include "data/reading/nearest.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::as_written;
using screening::Exact;
using screening::Unit;

/// The text of a scalar; a fault and nullptr where the node is none.
const std::string* scalar(const Located& node, std::string_view right, Faults& faults)
{
    if (node.kind == Located::Kind::scalar) {
        return &node.text;
    }
    faults.add(node, fmt::format("{} where a single value is needed", kind_name(node)), std::string(right));
    return nullptr;
}

template <class T>
std::optional<T> told(const screening::Result<T>& result, const Located& node, Faults& faults)
{
    if (result) {
        return *result;
    }
    faults.add(node, result.error());
    return std::nullopt;
}

bool is_lower(char letter)
{
    return letter >= 'a' && letter <= 'z';
}
bool is_digit(char letter)
{
    return letter >= '0' && letter <= '9';
}

bool is_id(std::string_view text)
{
    if (text.empty() || !is_lower(text.front()) || text.back() == '_' ||
        text.find("__") != std::string_view::npos) {
        return false;
    }
    return std::ranges::all_of(text, [](char c) { return is_lower(c) || is_digit(c) || c == '_'; });
}

}  // namespace

std::optional<std::string> read_text(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "a text", faults);
    if (text == nullptr) {
        return std::nullopt;
    }
    if (text->find_first_not_of(" \t\r\n") == std::string::npos) {
        faults.add(node, "an empty text", "some words");
        return std::nullopt;
    }
    return *text;
}

std::optional<std::string> read_id(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "an id such as heart_failure", faults);
    if (text == nullptr) {
        return std::nullopt;
    }
    if (!is_id(*text)) {
        faults.add(node, fmt::format("{} is no id", as_written(*text)),
                   "a lower-case word with underscores, such as heart_failure");
        return std::nullopt;
    }
    return *text;
}

std::optional<bool> read_yes_no(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "yes or no", faults);
    if (text == nullptr) {
        return std::nullopt;
    }
    if (*text != "yes" && *text != "no") {
        faults.add(node, fmt::format("{} is neither yes nor no", as_written(*text)),
                   "yes or no, in these letters");
        return std::nullopt;
    }
    return *text == "yes";
}

std::optional<std::int64_t> read_whole(const Located& node, std::int64_t lowest, std::int64_t highest,
                                       Faults& faults)
{
    const std::string* text = scalar(node, "a whole number", faults);
    if (text == nullptr) {
        return std::nullopt;
    }
    const auto number = told(Exact::parse(*text), node, faults);
    if (!number) {
        return std::nullopt;
    }
    if (!number->is_whole() || *number < Exact{lowest} || *number > Exact{highest}) {
        faults.add(node,
                   fmt::format("{} is not a whole number from {} to {}", as_written(*text), lowest, highest),
                   fmt::format("a whole number from {} to {}", lowest, highest));
        return std::nullopt;
    }
    return number->floor();
}

std::optional<screening::Quantity> read_quantity(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "a number and its unit, such as 84.6 kg", faults);
    return text == nullptr ? std::nullopt : told(screening::parse_quantity(*text), node, faults);
}

std::string quantity_text(const Exact& value, Unit unit)
{
    return unit == Unit::none ? value.text() : fmt::format("{} {}", value.text(), screening::unit_text(unit));
}

std::optional<Exact> read_quantity_in(const Located& node, Unit unit, std::string_view what, Faults& faults)
{
    const auto quantity = read_quantity(node, faults);
    if (!quantity) {
        return std::nullopt;
    }
    if (!screening::comparable(quantity->unit, unit)) {
        const std::string right = unit == Unit::none
                                      ? "a number without a unit"
                                      : fmt::format("a number in {}", screening::unit_text(unit));
        faults.add(node,
                   quantity->unit == Unit::none
                       ? fmt::format("{} needs a unit", as_written(node.text))
                       : fmt::format("{} cannot be compared with {}", as_written(node.text), what),
                   right);
        return std::nullopt;
    }
    return screening::convert(quantity->value, quantity->unit, unit);
}

std::optional<std::chrono::minutes> read_minutes(const Located& node, std::chrono::minutes shortest,
                                                 Faults& faults)
{
    const auto minutes = read_quantity_in(node, Unit::minute, "a length of time", faults);
    if (!minutes) {
        return std::nullopt;
    }
    constexpr std::int64_t longest =
        std::int64_t{366} * 24 * 60 * 100;  // a century: nothing of ours is longer
    if (!minutes->is_whole() || *minutes < Exact{shortest.count()} || *minutes > Exact{longest}) {
        faults.add(node, fmt::format("{} is no length of time we can use", as_written(node.text)),
                   fmt::format("whole minutes, at least {}", shortest.count()));
        return std::nullopt;
    }
    return std::chrono::minutes{minutes->floor()};
}

std::optional<screening::Date> read_date(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "a date such as 2027-04-12", faults);
    return text == nullptr ? std::nullopt : told(screening::parse_date(*text), node, faults);
}

std::optional<screening::TimeOfDay> read_time_of_day(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "a time of day such as \"18:00\"", faults);
    return text == nullptr ? std::nullopt : told(screening::parse_time_of_day(*text), node, faults);
}

std::optional<screening::WrittenTime> read_written_time(const Located& node, Faults& faults)
{
    const std::string* text = scalar(node, "a date and time such as 2027-04-12T09:00", faults);
    return text == nullptr ? std::nullopt : told(screening::parse_written_time(*text), node, faults);
}

std::vector<std::string> read_texts(const Located& node, std::string_view what, Faults& faults)
{
    std::vector<std::string> texts;
    for (const Located& item : list_items(node, what, faults)) {
        if (auto text = read_text(item, faults)) {
            texts.push_back(std::move(*text));
        }
    }
    return texts;
}

std::optional<std::size_t> read_place(const Located& node, std::span<const std::string_view> names,
                                      Faults& faults)
{
    const std::string* text = scalar(node, "one word of a closed list", faults);
    if (text == nullptr) {
        return std::nullopt;
    }
    const auto found = std::ranges::find(names, std::string_view{*text});
    if (found == names.end()) {
        faults.add(node, fmt::format("{} is not one of the words that may stand here", as_written(*text)),
                   perhaps(*text, names));
        return std::nullopt;
    }
    return static_cast<std::size_t>(found - names.begin());
}

}  // namespace foreday::data
