#pragma once
#include <functional>
#include <optional>
#include <string>
#include <variant>

#include "data/book/book.h"

/// What came to a case after what its writer had in view. Two who do the same thing at once, neither in view
/// of the other, are never fused: the second is refused with what came, looks, and does it again or leaves
/// it.
namespace foreday::book {

using IsAbout = std::function<bool(const Content&)>;

/// Content of any of these kinds.
template <class... Kinds>
inline constexpr auto is_any_of =
    [](const Content& content) { return (std::holds_alternative<Kinds>(content) || ...); };

/// The session was moved, or ended without the patient.
[[nodiscard]] inline bool is_moved_or_ended(const Content& content)
{
    return is_any_of<Rescheduled, CalledOff, DidNotCome, NotToday>(content);
}

/// Refuses when an entry of the case that `is_about` names came after `on.seen`, or was struck after it, with
/// each of them by its kind and writer. To be called inside the transaction that writes.
[[nodiscard]] std::optional<Refusal> came_meanwhile(const Book& book, const CaseNow& before, const OnCase& on,
                                                    const IsAbout& is_about);

/// The case as the writer had it in view, judged at the moment `before` is, under the rules of today. Refused
/// when nothing of it was.
[[nodiscard]] Outcome<CaseNow> as_it_was_shown(const Book& book, const CaseNow& before, const OnCase& on);

/// Whether anything that the assessment is computed from came after `on.seen`.
[[nodiscard]] inline bool record_has_changed(const CaseNow& before, const OnCase& on)
{
    return before.folded.up_to > on.seen;
}

/// Refuses when an item of the day reads otherwise than it did in view of the writer.
/// @param item  the one that counts; empty: all of them
[[nodiscard]] std::optional<Refusal> day_changed(const Book& book, const CaseNow& before, const OnCase& on,
                                                 const std::string& item = "");
/// Refuses when the session has another start, other procedures or another person than the writer had in
/// view.
[[nodiscard]] std::optional<Refusal> booking_changed(const Book& book, const CaseNow& before,
                                                     const OnCase& on);

}  // namespace foreday::book
