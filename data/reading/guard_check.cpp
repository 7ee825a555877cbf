#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "data/reading/protocol_checks.h"

namespace foreday::data {
namespace {

/// A guard as canonical bytes: whole, and its parts where it is an `all`.
struct Guard {
    std::string whole;
    std::vector<std::string> parts;
    [[nodiscard]] bool exists() const { return !whole.empty(); }
};

Guard guard_of(const Located& fact)
{
    const Located* node = find(fact, "asked_when");
    if (node == nullptr || node->kind == Located::Kind::nothing) {
        return {};
    }
    Guard guard{canonical_bytes(*node), {}};
    if (const Located* all = find(*node, "all"); all != nullptr && node->keys.size() == 1) {
        for (const Located& part : all->items) {
            guard.parts.push_back(canonical_bytes(part));
        }
    }
    return guard;
}

/// Walks conditions as they are written and keeps what stands beside the place it is at.
class GuardWalk {
public:
    GuardWalk(ProtocolDraft& draft, const std::vector<bool>& on_circle) : draft_(draft), on_circle_(on_circle)
    {
        for (const Located* fact : draft.facts.by_place) {
            guards_.push_back(guard_of(*fact));
        }
    }

    void walk(const Located& node)
    {
        if (const Located* fact = find(node, "fact")) {
            if (const auto place = place_of(*fact)) {
                check(*place, *fact);
            }
            return;
        }
        if (const Located* calculated = find(node, "calculated")) {
            check_inputs(*calculated);
            return;
        }
        if (const Located* all = find(node, "all")) {
            walk_all(*all);
        }
        if (const Located* any = find(node, "any")) {
            walk_each(*any);
        }
        if (const Located* negated = find(node, "not")) {
            walk(*negated);
        }
        if (const Located* at_least = find(node, "at_least")) {
            if (const Located* of = find(*at_least, "of")) {
                walk_each(*of);
            }
        }
    }

    /// A readiness item: its check stands beside what its `when` says.
    void walk_readiness(const Located& entry)
    {
        const Located* when = find(entry, "when");
        const Located* check_node = find(entry, "check");
        if (when != nullptr) {
            walk(*when);
        }
        const auto before = beside_.size();
        if (when != nullptr) {
            beside_.push_back(canonical_bytes(*when));
            if (const Located* all = find(*when, "all")) {
                push_parts(*all);
            }
        }
        for (const std::string_view key : {"fact", "confirmed"}) {
            const Located* fact = check_node == nullptr ? nullptr : find(*check_node, key);
            if (const auto place = fact == nullptr ? std::nullopt : place_of(*fact)) {
                check(*place, *fact);
            }
        }
        beside_.resize(before);
    }

private:
    [[nodiscard]] std::optional<std::uint32_t> place_of(const Located& fact) const
    {
        return draft_.facts.table.find(fact.text);
    }

    void push_parts(const Located& all)
    {
        for (const Located& part : all.items) {
            beside_.push_back(canonical_bytes(part));
        }
    }

    void walk_all(const Located& all)
    {
        const auto before = beside_.size();
        push_parts(all);
        beside_.push_back(canonical_bytes(all));
        walk_each(all);
        beside_.resize(before);
    }

    void walk_each(const Located& list)
    {
        for (const Located& item : list.items) {
            walk(item);
        }
    }

    [[nodiscard]] bool stands_beside(const std::string& bytes) const
    {
        return std::ranges::find(beside_, bytes) != beside_.end();
    }

    [[nodiscard]] bool guarded(std::uint32_t place) const
    {
        const Guard& guard = guards_.at(place);
        const bool by_parts =
            !guard.parts.empty() &&
            std::ranges::all_of(guard.parts, [this](const std::string& part) { return stands_beside(part); });
        return !guard.exists() || by_parts || stands_beside(guard.whole);
    }

    void check(std::uint32_t place, const Located& at)
    {
        if (on_circle_.at(place) || guarded(place)) {
            return;
        }
        draft_.faults.add(
            at, fmt::format("\"{}\" is looked at outside its guard", draft_.facts.table.ids().at(place)),
            fmt::format("an `all` with its asked_when of line {}, written exactly so",
                        find(*draft_.facts.by_place.at(place), "asked_when")->line));
    }

    void check_inputs(const Located& calculated)
    {
        const auto calculator = screening::find_calculator(calculated.text);
        if (!calculator) {
            return;
        }
        for (const screening::CalculatorInput input : inputs_of(*calculator)) {
            if (const auto& fact = draft_.protocol.calculators.facts[static_cast<std::size_t>(input)]) {
                check(*fact, calculated);
            }
        }
    }

    ProtocolDraft& draft_;
    const std::vector<bool>& on_circle_;
    std::vector<Guard> guards_;
    std::vector<std::string> beside_;
};

void walk_entries(const Entries& entries, std::string_view key, GuardWalk& walk)
{
    for (const Located* entry : entries.by_place) {
        if (const Located* condition = find(*entry, key)) {
            walk.walk(*condition);
        }
    }
}

}  // namespace

void check_guards(const std::vector<bool>& on_circle, ProtocolDraft& draft)
{
    GuardWalk walk(draft, on_circle);
    for (std::size_t i = 0; i < draft.facts.by_place.size(); ++i) {
        const Located* condition = find(*draft.facts.by_place[i], "asked_when");
        if (condition != nullptr && !on_circle[i]) {
            walk.walk(*condition);
        }
    }
    walk_entries(draft.findings, "when", walk);
    walk_entries(draft.holds, "when", walk);
    for (const Located* preparation : draft.preparations.by_place) {
        if (const Located* limits = find(*preparation, "limits")) {
            for (const Located& limit : limits->items) {
                if (const Located* condition = find(limit, "when")) {
                    walk.walk(*condition);
                }
            }
        }
    }
    for (const Located* entry : draft.readiness.by_place) {
        walk.walk_readiness(*entry);
    }
}

namespace {

/// Facts that can be reached from a fact through `asked_when`, in any number of steps.
std::set<std::uint32_t> reached_from(std::uint32_t start, const std::vector<std::vector<std::uint32_t>>& next)
{
    std::set<std::uint32_t> reached;
    std::vector<std::uint32_t> open = next.at(start);
    while (!open.empty()) {
        const std::uint32_t place = open.back();
        open.pop_back();
        if (reached.insert(place).second) {
            open.insert(open.end(), next.at(place).begin(), next.at(place).end());
        }
    }
    return reached;
}

}  // namespace

std::vector<bool> check_circles(ProtocolDraft& draft)
{
    const auto& facts = draft.protocol.facts;
    std::vector<std::vector<std::uint32_t>> next(facts.size());
    for (std::size_t i = 0; i < facts.size(); ++i) {
        if (facts[i].asked_when) {
            next[i] = facts_in(*facts[i].asked_when, draft.protocol.calculators);
        }
    }
    std::vector<std::set<std::uint32_t>> reached;
    for (std::uint32_t i = 0; i < facts.size(); ++i) {
        reached.push_back(reached_from(i, next));
    }
    std::vector<bool> on_circle(facts.size(), false);
    for (std::uint32_t i = 0; i < facts.size(); ++i) {
        if (!reached[i].contains(i) || on_circle[i]) {
            continue;
        }
        std::string others;
        for (std::uint32_t j = i; j < facts.size(); ++j) {
            if (reached[i].contains(j) && reached[j].contains(i)) {
                on_circle[j] = true;
                others += (others.empty() ? "" : ", ") + facts[j].id;
            }
        }
        draft.faults.add(*find(*draft.facts.by_place[i], "asked_when"),
                         fmt::format("asked_when goes round in a circle: {}", others),
                         "a first question that is always asked");
    }
    return on_circle;
}

}  // namespace foreday::data
