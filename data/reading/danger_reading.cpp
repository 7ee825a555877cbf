#include "data/reading/danger_reading.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <array>

#include "data/reading/map_reader.h"
#include "data/reading/scalars.h"

namespace foreday::data {
namespace {

using screening::Danger;
using screening::FactDefinition;
using screening::FactType;
using Kind = screening::Danger::Kind;

std::vector<std::string_view> words_of(FactType type)
{
    switch (type) {
        case FactType::yes_no:
            return {"yes", "no"};
        case FactType::number:
            return {"higher", "lower"};
        case FactType::date:
        case FactType::time:
            return {"earlier", "later"};
        case FactType::choice:
        case FactType::text:
            break;
    }
    return {};
}

Kind kind_of(std::string_view word)
{
    constexpr std::array<std::pair<std::string_view, Kind>, 6> kinds{{{"yes", Kind::yes},
                                                                      {"no", Kind::no},
                                                                      {"higher", Kind::higher},
                                                                      {"lower", Kind::lower},
                                                                      {"earlier", Kind::earlier},
                                                                      {"later", Kind::later}}};
    const auto* const found = std::ranges::find(kinds, word, [](const auto& kind) { return kind.first; });
    return found == kinds.end() ? Kind::none : found->second;
}

/// What may be written for a fact of this type.
std::string right_for(FactType type)
{
    std::string right = fmt::format("{}", fmt::join(words_of(type), ", "));
    if (type == FactType::number) {
        right += ", {away from: [LOW, HIGH]}";
    }
    if (type == FactType::choice) {
        right += "{order: [least, ..., worst]}";
    }
    return right + (right.empty() ? "" : " or ") + "{none: reason}";
}

Danger read_order(const Located& node, const FactDefinition& fact, Faults& faults)
{
    Danger danger;
    danger.kind = Kind::order;
    const std::vector<std::string_view> names(fact.choices.begin(), fact.choices.end());
    const auto& items = list_items(node, "order", faults);
    const std::size_t before = faults.count();
    for (const Located& item : items) {
        if (const auto place = read_place(item, names, faults)) {
            danger.order.push_back(static_cast<std::uint32_t>(*place));
        }
    }
    std::vector<std::uint32_t> sorted = danger.order;
    std::ranges::sort(sorted);
    const bool twice = std::ranges::adjacent_find(sorted) != sorted.end();
    if (node.kind == Located::Kind::list && faults.count() == before &&
        (twice || sorted.size() != names.size())) {
        faults.add(node, "the order does not name each choice once",
                   fmt::format("all of: {}", fmt::join(names, ", ")));
    }
    return danger;
}

}  // namespace

std::optional<screening::NumberInterval> read_number_range(const Located& node, const FactDefinition& fact,
                                                           Faults& faults)
{
    const auto& ends = list_items(node, "a range", faults);
    if (node.kind != Located::Kind::list) {
        return std::nullopt;
    }
    if (ends.size() != 2) {
        faults.add(node, "a range has two ends", "[lowest, highest]");
        return std::nullopt;
    }
    const std::string what = fmt::format("\"{}\"", fact.id);
    const auto lowest = read_quantity_in(ends[0], fact.unit, what, faults);
    const auto highest = read_quantity_in(ends[1], fact.unit, what, faults);
    if (!lowest || !highest) {
        return std::nullopt;
    }
    if (*highest < *lowest) {
        faults.add(node, "the range ends below its beginning", "[lowest, highest]");
        return std::nullopt;
    }
    return screening::NumberInterval{*lowest, *highest};
}

Danger read_danger(const Located& node, const FactDefinition& fact, Faults& faults)
{
    Danger danger;
    if (node.kind != Located::Kind::map) {
        const auto words = words_of(fact.type);
        if (node.kind == Located::Kind::scalar && std::ranges::find(words, node.text) != words.end()) {
            danger.kind = kind_of(node.text);
        } else {
            faults.add(node, fmt::format("this is no danger that \"{}\" can have", fact.id),
                       right_for(fact.type));
        }
        return danger;
    }
    std::vector<std::string_view> forms{"none"};
    if (fact.type == FactType::number) {
        forms.emplace_back("away from");
    } else if (fact.type == FactType::choice) {
        forms.emplace_back("order");
    }
    const MapReader map(node, fmt::format("the danger of \"{}\"", fact.id), {{}, forms}, faults);
    const auto stands = [&](std::string_view form) { return map.wrote(form); };
    if (std::ranges::count_if(forms, stands) != 1) {
        if (node.keys.empty() || map.wrote("none")) {
            faults.add(node, "a danger has one direction", right_for(fact.type));
        }
        return danger;
    }
    if (map["none"] != nullptr) {
        danger.reason = read_text(*map["none"], faults).value_or("");
    } else if (map["order"] != nullptr) {
        danger = read_order(*map["order"], fact, faults);
    } else if (map["away from"] != nullptr) {
        danger.kind = Kind::away_from;
        danger.safe =
            read_number_range(*map["away from"], fact, faults).value_or(screening::NumberInterval{});
    }
    return danger;
}

}  // namespace foreday::data
