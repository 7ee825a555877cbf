#include "checklists/changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "checklists/ground_words.h"
#include "checklists/words.h"

namespace foreday::checklists {
namespace {

using screening::Item;

std::string result_of(const screening::Assessment& assessment, const Item& item)
{
    std::string text{screening::shown_as(item.level)};
    if (item.state == screening::ItemState::open) {
        text += " (open)";
    }
    for (const screening::Hold& hold : assessment.holds) {
        if (&hold.item == &item) {
            text += ": " + plan_in_words(hold.plan);
        }
    }
    return text;
}

const ItemSeen* find(const std::vector<ItemSeen>& items, const std::string& id)
{
    const auto found = std::ranges::find(items, id, &ItemSeen::id);
    return found == items.end() ? nullptr : &*found;
}

std::vector<std::string> values_of(const ItemSeen& item, const std::string& what)
{
    std::vector<std::string> values;
    for (const GroundSeen& ground : item.grounds) {
        if (ground.what == what) {
            values.push_back(ground.value);
        }
    }
    return values;
}

std::vector<std::string> grounds_named(const ItemSeen& before, const ItemSeen& after)
{
    std::vector<std::string> names;
    for (const auto* grounds : {&before.grounds, &after.grounds}) {
        for (const GroundSeen& ground : *grounds) {
            names.push_back(ground.what);
        }
    }
    std::ranges::sort(names);
    names.erase(std::ranges::unique(names).begin(), names.end());
    return names;
}

/// "weight was 84 kg and is 84.6 kg", one for each value that moved.
std::vector<std::string> moved_values(const screening::Protocol& protocol, const ItemSeen& before,
                                      const ItemSeen& after)
{
    std::vector<std::string> moved;
    for (const std::string& what : grounds_named(before, after)) {
        const auto was = values_of(before, what);
        const auto is = values_of(after, what);
        if (was == is) {
            continue;
        }
        const std::string name = ground_name(protocol, what);
        if (was.empty()) {
            moved.push_back(fmt::format("{} is {} and played no part before", name, listed(is)));
        } else if (is.empty()) {
            moved.push_back(fmt::format("{} was {} and plays no part any more", name, listed(was)));
        } else {
            moved.push_back(fmt::format("{} was {} and is {}", name, listed(was), listed(is)));
        }
    }
    return moved;
}

std::string result_change(const screening::Protocol& protocol, const ItemSeen& before, const ItemSeen& after)
{
    const auto moved = moved_values(protocol, before, after);
    std::string text = after.title + ": ";
    if (before.title != after.title) {
        text = fmt::format("{} (was: {}): ", after.title, before.title);
    }
    text += before.result == after.result
                ? fmt::format("still \"{}\", on other grounds", after.result)
                : fmt::format("was \"{}\" and is \"{}\"", before.result, after.result);
    return moved.empty() ? text + "." : fmt::format("{}; {}.", text, fmt::join(moved, "; "));
}

}  // namespace

std::string_view name_of(Change::Kind kind)
{
    constexpr std::array<std::string_view, 4> names{"came", "went", "changed result", "value moved"};
    return names.at(static_cast<std::size_t>(kind));
}

std::vector<ItemSeen> seen_in(const screening::Assessment& assessment, const HashText& hash)
{
    std::vector<ItemSeen> items;
    for (const Item* item : all_items(assessment)) {
        ItemSeen seen{item->id, hash(item->fingerprint_bytes), item->title, result_of(assessment, *item), {}};
        for (const screening::Ground& ground : item->because) {
            seen.grounds.push_back({ground.what, ground.value});
        }
        std::ranges::sort(seen.grounds);
        seen.grounds.erase(std::ranges::unique(seen.grounds).begin(), seen.grounds.end());
        items.push_back(std::move(seen));
    }
    return items;
}

std::vector<Change> changes_between(const screening::Protocol& protocol, const std::vector<ItemSeen>& before,
                                    const std::vector<ItemSeen>& after)
{
    std::vector<Change> changes;
    for (const ItemSeen& now : after) {
        const ItemSeen* was = find(before, now.id);
        if (was == nullptr) {
            changes.push_back(
                {Change::Kind::came, now.id, fmt::format("New: {}: {}.", now.title, now.result)});
        } else if (was->fingerprint != now.fingerprint) {
            changes.push_back({Change::Kind::changed_result, now.id, result_change(protocol, *was, now)});
        } else if (was->grounds != now.grounds) {
            changes.push_back({Change::Kind::value_moved, now.id,
                               fmt::format("{}: the result is the same; {}.", now.title,
                                           fmt::join(moved_values(protocol, *was, now), "; "))});
        }
    }
    for (const ItemSeen& was : before) {
        if (find(after, was.id) == nullptr) {
            changes.push_back(
                {Change::Kind::went, was.id, fmt::format("No longer there: {}: {}.", was.title, was.result)});
        }
    }
    return changes;
}

}  // namespace foreday::checklists
