#include "gui/present/case_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "checklists/orders.h"
#include "checklists/words.h"
#include "data/book/projecting.h"
#include "gui/present/typed_value.h"
#include "screening/fact_words.h"

namespace foreday::present {
namespace {

using screening::Moment;
using screening::Zone;
using store::CaseProjection;

screening::Date today_of(const Zone& zone, Moment now)
{
    return screening::date_of(screening::local_of(zone, now));
}

/// "today at 09:30", "Friday 16 April 2027 at 09:30".
std::string when(const Zone& zone, Moment moment, Moment now)
{
    if (today_of(zone, moment) == today_of(zone, now)) {
        return "today at " + checklists::clock_in_words(zone, moment);
    }
    return checklists::moment_in_words(zone, moment);
}

std::string tries_in_words(int tries)
{
    if (tries == 0) {
        return "";
    }
    return tries == 1 ? " One try so far." : fmt::format(" {} tries so far.", tries);
}

/// A row with its place in the order.
template <class Place>
struct Placed {
    Place place;
    ListRow row;
};

template <class Place>
std::vector<ListRow> in_order(std::vector<Placed<Place>> placed)
{
    std::ranges::sort(placed, {}, &Placed<Place>::place);
    std::vector<ListRow> rows;
    rows.reserve(placed.size());
    for (Placed<Place>& one : placed) {
        rows.push_back(std::move(one.row));
    }
    return rows;
}

std::vector<ListRow> calls_due(const store::Store& store, const Zone& zone, Moment now)
{
    std::vector<Placed<checklists::CallRow>> placed;
    for (const CaseProjection& one : store.with_calls(now)) {
        const store::ProjectedCall* first = nullptr;
        checklists::CallRow place;
        for (const store::ProjectedCall& call : one.calls) {
            const checklists::CallRow here{call.useful_until, call.tries, one.case_id, call.id};
            if (call.due_from <= now && (first == nullptr || here < place)) {
                first = &call;
                place = here;
            }
        }
        if (first == nullptr) {
            continue;
        }
        const std::string sentence =
            fmt::format("{}: {} {} {}.{}", one.name, first->why,
                        first->useful_until < now ? "It was useful until" : "Useful until",
                        when(zone, first->useful_until, now), tries_in_words(first->tries));
        placed.push_back({place, {one.case_id, sentence}});
    }
    return in_order(std::move(placed));
}

std::string_view by_when(const store::ProjectedItem& item, Moment now)
{
    const bool late = item.decide_by < now;
    if (item.level == screening::Level::note) {  // a signature
        return late ? "Was to be signed by" : "Sign by";
    }
    return late ? "Was to be decided by" : "Decide by";
}

std::vector<ListRow> to_be_decided(const store::Store& store, const Zone& zone, Moment now)
{
    std::vector<Placed<checklists::QueueRow>> placed;
    for (const CaseProjection& one : store.undecided()) {
        const auto first = std::ranges::min_element(one.undecided, [](const auto& a, const auto& b) {
            return std::pair(a.decide_by, static_cast<int>(b.level)) <
                   std::pair(b.decide_by, static_cast<int>(a.level));
        });
        if (first == one.undecided.end()) {
            continue;
        }
        const std::size_t others = one.undecided.size() - 1;
        const std::string sentence =
            fmt::format("{}: {}{} {} {}. {}, {}.", one.name, first->title,
                        others == 0 ? "." : fmt::format(", and {} more.", others), by_when(*first, now),
                        when(zone, first->decide_by, now), one.procedures, when(zone, one.start, now));
        placed.push_back({{first->decide_by, first->level, one.start, one.case_id}, {one.case_id, sentence}});
    }
    return in_order(std::move(placed));
}

std::string where_now(const CaseProjection& one, const Zone& zone)
{
    if (one.ended) {
        return one.gone_in ? "done" : "does not take place as booked";
    }
    if (one.gone_in) {
        return "went in at " + checklists::clock_in_words(zone, *one.gone_in);
    }
    return one.here_since ? "here since " + checklists::clock_in_words(zone, *one.here_since)
                          : std::string("not here yet");
}

std::vector<ListRow> list_of_today(const store::Store& store, const Zone& zone, Moment now)
{
    std::vector<Placed<std::pair<Moment, std::string>>> placed;
    for (const CaseProjection& one : store.on_day(today_of(zone, now))) {
        placed.push_back(
            {{one.start, one.case_id},
             {one.case_id, fmt::format("{} {}, {}: {}.", checklists::clock_in_words(zone, one.start),
                                       one.name, one.procedures, where_now(one, zone))}});
    }
    return in_order(std::move(placed));
}

}  // namespace

std::vector<ListRow> rows_of(const book::Book& book, const Zone& zone, Desk desk)
{
    switch (desk) {
        case Desk::phone:
            return calls_due(book.store(), zone, book.now());
        case Desk::review:
            return to_be_decided(book.store(), zone, book.now());
        case Desk::arrival:
            return list_of_today(book.store(), zone, book.now());
    }
    return {};
}

std::vector<ListRow> rows_found(const book::Book& book, const Zone& zone, const std::string& typed)
{
    const Moment now = book.now();
    std::optional<screening::Date> born;
    std::vector<std::string> words;
    std::size_t from = 0;
    if (const auto day = typed_date(typed); day && day->exact()) {  // as the list itself writes it
        born = day->lowest;
        from = typed.size();
    }
    while (from < typed.size()) {
        const std::size_t end = std::min(typed.find(' ', from), typed.size());
        const std::string word = typed.substr(from, end - from);
        if (const auto day = screening::parse_date(word)) {
            born = *day;
        } else {
            std::ranges::move(book::search_words_of(word), std::back_inserter(words));
        }
        from = end + 1;
    }
    std::vector<ListRow> rows;
    if (words.empty() && !born) {
        return rows;
    }
    for (const CaseProjection& one : book.store().search(words, born, today_of(zone, now), most_found)) {
        rows.push_back(
            {one.case_id, fmt::format("{}, born {}{}: {}, {}.", one.name, screening::date_in_words(one.born),
                                      one.number.empty() ? "" : ", " + one.number, one.procedures,
                                      when(zone, one.start, now))});
    }
    return rows;
}

std::string heading_of(Desk desk, std::size_t rows)
{
    switch (desk) {
        case Desk::phone:
            return rows == 0 ? "No call is due now" : fmt::format("Calls due: {}", rows);
        case Desk::review:
            return rows == 0 ? "Nothing waits for a decision" : fmt::format("To be decided: {}", rows);
        case Desk::arrival:
            return rows == 0 ? "Nobody is booked today" : fmt::format("Booked today: {}", rows);
    }
    return "";
}

}  // namespace foreday::present
