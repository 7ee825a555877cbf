#include "data/book/meanwhile.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "data/book/codec.h"

namespace foreday::book {
namespace {

using store::Entry;

Refusal it_has_changed()
{
    return {Refusal::Why::changed_meanwhile,
            "the case has changed since it was shown",
            "the case looked at once more",
            {}};
}

}  // namespace

std::optional<Refusal> came_meanwhile(const Book& book, const CaseNow& before, const OnCase& on,
                                      const IsAbout& is_about)
{
    Refusal refusal = it_has_changed();
    std::map<std::int64_t, std::string> in_view;  // kinds of what it is about, by number
    for (const Entry& entry : book.store().entries_of(on.id)) {
        const auto read = read_entry(entry);
        if (!read) {
            continue;  // the fold says so
        }
        const auto* strike = std::get_if<EntryStruck>(&read->content);
        if (strike != nullptr && entry.number > on.seen && in_view.contains(strike->entry)) {
            refusal.changes.push_back(
                fmt::format("{}, struck by {}", in_view.at(strike->entry), entry.said.who));
        } else if (is_about(read->content)) {
            const auto& struck = before.folded.struck;
            if (entry.number <= on.seen) {
                in_view.emplace(entry.number, entry.said.kind);
            } else if (std::ranges::find(struck, entry.number) == struck.end()) {
                refusal.changes.push_back(fmt::format("{} by {}", entry.said.kind, entry.said.who));
            }
        }
    }
    return refusal.changes.empty() ? std::nullopt : std::optional(std::move(refusal));
}

Outcome<CaseNow> as_it_was_shown(const Book& book, const CaseNow& before, const OnCase& on)
{
    auto shown = book.open_at(
        on.id,
        [&](const std::string& subject) {
            auto entries = book.store().entries_of(subject);
            std::erase_if(entries, [&](const Entry& entry) { return entry.number > on.seen; });
            return entries;
        },
        before.at);
    if (!shown) {
        return tl::unexpected(it_has_changed());
    }
    return shown;
}

std::optional<Refusal> day_changed(const Book& book, const CaseNow& before, const OnCase& on,
                                   const std::string& item)
{
    if (!record_has_changed(before, on)) {
        return std::nullopt;
    }
    const auto shown = as_it_was_shown(book, before, on);
    if (!shown) {
        return shown.error();
    }
    Refusal refusal{Refusal::Why::changed_meanwhile,
                    "the day's list has changed since it was shown",
                    "the list looked at once more",
                    {}};
    std::vector<checklists::ReadinessItem> left = shown->whole.readiness.items;
    for (const checklists::ReadinessItem& now : before.whole.readiness.items) {
        const auto then = std::ranges::find(left, now.id, &checklists::ReadinessItem::id);
        const bool same = then != left.end() && then->state == now.state && then->why == now.why;
        if (!same && (item.empty() || item == now.id)) {
            refusal.changes.push_back(
                fmt::format("{}: {} ({})", now.title, now.why, checklists::name_of(now.state)));
        }
        if (then != left.end()) {
            left.erase(then);
        }
    }
    for (const checklists::ReadinessItem& gone : left) {
        if (item.empty() || item == gone.id) {
            refusal.changes.push_back(fmt::format("gone: {}", gone.title));
        }
    }
    return refusal.changes.empty() ? std::nullopt : std::optional(std::move(refusal));
}

std::optional<Refusal> booking_changed(const Book& book, const CaseNow& before, const OnCase& on)
{
    if (!record_has_changed(before, on)) {
        return std::nullopt;
    }
    const auto shown = as_it_was_shown(book, before, on);
    if (!shown) {
        return shown.error();
    }
    const auto& then = shown->record().booking;
    const auto& now = before.record().booking;
    Refusal refusal{Refusal::Why::changed_meanwhile,
                    "the booking has changed since it was shown",
                    "the booking looked at once more",
                    {}};
    if (then.start_moment != now.start_moment) {
        refusal.changes.push_back(fmt::format("the session starts at {}", screening::iso_local(now.start)));
    }
    if (then.procedures != now.procedures) {
        refusal.changes.emplace_back("other procedures");
    }
    if (then.patient.name != now.patient.name || then.patient.number != now.patient.number ||
        then.patient.born != now.patient.born) {
        refusal.changes.push_back(fmt::format("the patient is {}, born {}, number {}", now.patient.name,
                                              screening::iso_date(now.patient.born), now.patient.number));
    }
    return refusal.changes.empty() ? std::nullopt : std::optional(std::move(refusal));
}

}  // namespace foreday::book
