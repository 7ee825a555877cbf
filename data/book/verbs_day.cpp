#include "data/book/verbs_day.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decisions.h"
#include "checklists/strands.h"
#include "data/book/meanwhile.h"
#include "data/book/refusals.h"

namespace foreday::book {
namespace {

std::optional<Refusal> must_be_here(const CaseNow& now)
{
    if (!now.record().arrival || !now.record().arrival->here_since) {
        return not_possible("the patient has not been received", "the arrival recorded first");
    }
    if (now.file().gone_in) {
        return not_possible("the patient has gone in", "nothing more before the procedure");
    }
    return now.file().ending
               ? std::optional(not_possible("the session was called off, or is not today", "a new start"))
               : std::nullopt;
}

constexpr auto is_intake = is_any_of<IntakeStated, NothingElseTaken>;

IsAbout measures(const std::string& fact)
{
    return [fact](const Content& content) {
        const auto* measured = std::get_if<Measured>(&content);
        const auto* confirmed = std::get_if<ItemConfirmed>(&content);
        return (measured != nullptr && measured->fact == fact) ||
               (confirmed != nullptr && confirmed->fact == fact);
    };
}

IsAbout about_doses_of(const std::string& id)
{
    return [id](const Content& content) {
        const auto* taken = std::get_if<DoseReallyTaken>(&content);
        const auto* changed = std::get_if<MedicineChanged>(&content);
        const auto* stopped = std::get_if<MedicineStopped>(&content);
        return (taken != nullptr && taken->medicine == id) || (changed != nullptr && changed->id == id) ||
               (stopped != nullptr && stopped->id == id);
    };
}

/// Somebody has brought the item before a clinician, or one has let it pass.
IsAbout settles(const std::string& item)
{
    return [item](const Content& content) {
        const auto* escalated = std::get_if<Escalated>(&content);
        const auto* passed = std::get_if<DecidedAtDesk>(&content);
        return (escalated != nullptr && escalated->item == item) ||
               (passed != nullptr && passed->item == item);
    };
}

IsAbout restarts(const std::vector<std::string>& items)
{
    return [items](const Content& content) {
        const auto is_one = [&](const std::string& item) { return std::ranges::count(items, item) > 0; };
        const auto* decided = std::get_if<RestartDecided>(&content);
        const auto* told = std::get_if<RestartTold>(&content);
        return std::holds_alternative<WorkDone>(content) || (decided != nullptr && is_one(decided->item)) ||
               (told != nullptr && std::ranges::any_of(told->items, is_one));
    };
}

std::optional<Refusal> must_be_done(const CaseNow& now)
{
    return now.record().done
               ? std::nullopt
               : std::optional(not_possible("nobody has said what was done", "what was done recorded first"));
}

const checklists::ReadinessItem* find_readiness(const CaseNow& now, const std::string& id)
{
    const auto& items = now.whole.readiness.items;
    const auto found = std::ranges::find(items, id, &checklists::ReadinessItem::id);
    return found == items.end() ? nullptr : &*found;
}

std::optional<Refusal> must_apply(const CaseNow& now, const std::string& item)
{
    return find_readiness(now, item) != nullptr
               ? std::nullopt
               : std::optional(not_there(fmt::format("\"{}\" is no item of this patient's day", item),
                                         "an item of the list"));
}

const screening::Hold* find_hold(const CaseNow& now, const std::string& item)
{
    const auto& holds = now.whole.assessment.holds;
    const auto found = std::ranges::find_if(holds, [&](const auto& hold) { return hold.item.id == item; });
    return found == holds.end() ? nullptr : &*found;
}

}  // namespace

Outcome<CaseNow> arrive(Book& book, const Writer& writer, const OnCase& on)
{
    return book.write_on(
        writer, Verb::arrive, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (before.record().arrival && before.record().arrival->here_since) {
                return not_possible("the patient has been received already", "nothing more to do");
            }
            if (before.file().ending || before.file().closed) {
                return not_possible("the session was called off, or the case is closed", "a new booking");
            }
            const auto today = screening::date_of(screening::local_of(before.rules().zone, before.at));
            const auto booked = screening::date_of(before.record().booking.start);
            if (today != booked) {
                return not_possible(
                    fmt::format("the session is on {}, not today", screening::iso_date(booked)),
                    "the booking moved first");
            }
            return booking_changed(book, before, on);
        },
        [](const CaseNow& before, store::Writing& /*writing*/) {
            return std::vector<Content>{Arrived{wall_time(before.rules().zone, before.at)}};
        });
}

Outcome<CaseNow> take_measure(Book& book, const Writer& writer, const OnCase& on, const Measured& said)
{
    return book.write_on(
        writer, Verb::take_measure, on,
        [&](const CaseNow& before) {
            auto refused = must_be_here(before);
            return refused ? refused : came_meanwhile(book, before, on, measures(said.fact));
        },
        just(said));
}

Outcome<CaseNow> record_intake(Book& book, const Writer& writer, const OnCase& on, const IntakeStated& said)
{
    return book.write_on(
        writer, Verb::record_intake, on,
        [&](const CaseNow& before) {
            auto refused = must_be_here(before);
            // What was taken is never turned away because somebody has just said that there was nothing.
            return refused ? refused : came_meanwhile(book, before, on, is_any_of<IntakeStated>);
        },
        just(said));
}

Outcome<CaseNow> record_nothing_else(Book& book, const Writer& writer, const OnCase& on)
{
    return book.write_on(
        writer, Verb::record_intake, on,
        [&](const CaseNow& before) {
            auto refused = must_be_here(before);
            return refused ? refused : came_meanwhile(book, before, on, is_intake);
        },
        just(NothingElseTaken{}));
}

Outcome<CaseNow> record_dose_taken(Book& book, const Writer& writer, const OnCase& on,
                                   const DoseReallyTaken& said)
{
    return book.write_on(
        writer, Verb::record_dose_taken, on,
        [&](const CaseNow& before) {
            auto refused = must_be_here(before);
            return refused ? refused : came_meanwhile(book, before, on, about_doses_of(said.medicine));
        },
        just(said));
}

Outcome<CaseNow> confirm_item(Book& book, const Writer& writer, const OnCase& on, const ItemConfirmed& said)
{
    return book.write_on(
        writer, Verb::confirm_item, on,
        [&](const CaseNow& before) {
            auto refused = must_be_here(before);
            refused = refused ? refused : must_apply(before, said.item);
            if (refused || !said.confirmed) {
                return refused;  // A "no" is never turned away because somebody has just said yes.
            }
            refused = day_changed(book, before, on, said.item);
            return refused ? refused : came_meanwhile(book, before, on, measures(said.fact));
        },
        just(said));
}

Outcome<CaseNow> escalate(Book& book, const Writer& writer, const OnCase& on, const Escalated& said)
{
    return book.write_on(
        writer, Verb::escalate, on,
        [&](const CaseNow& before) {
            auto refused = must_be_here(before);
            refused = refused ? refused : must_apply(before, said.item);
            refused = refused ? refused : day_changed(book, before, on, said.item);
            return refused ? refused : came_meanwhile(book, before, on, settles(said.item));
        },
        just(said));
}

Outcome<CaseNow> let_pass(Book& book, const Writer& writer, const OnCase& on, const std::string& item,
                          const std::string& reason, const std::string& shown_why)
{
    return book.write_on(
        writer, Verb::let_pass, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (auto refused = must_be_here(before)) {
                return refused;
            }
            const auto* found = find_readiness(before, item);
            if (found == nullptr) {
                return must_apply(before, item);
            }
            if (std::ranges::find(found->who, writer.role) == found->who.end()) {
                return Refusal{
                    Refusal::Why::role_may_not,
                    fmt::format("{} may not let \"{}\" pass", screening::name_of(writer.role), found->title),
                    "one of the roles the item names",
                    {}};
            }
            if (found->why != shown_why) {
                return Refusal{Refusal::Why::changed_meanwhile,
                               fmt::format("\"{}\" has changed since it was shown", found->title),
                               "the item looked at once more",
                               {found->why}};
            }
            if (reason.find_first_not_of(" \t\n") == std::string::npos) {
                return malformed("an item let pass without a reason", "the reason in words");
            }
            return came_meanwhile(book, before, on, [&](const Content& content) {
                return is_any_of<DecidedAtDesk>(content) && settles(item)(content);
            });
        },
        just(DecidedAtDesk{item, writer.who, writer.role, reason, shown_why}));
}

Outcome<CaseNow> go_in(Book& book, const Writer& writer, const OnCase& on)
{
    return book.write_on(
        writer, Verb::go_in, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (auto refused = must_be_here(before)) {
                return refused;
            }
            if (before.whole.readiness.verdict == checklists::Verdict::may_go_in) {
                // Who has just called a clinician waits for an answer, whatever the list says.
                auto called = came_meanwhile(book, before, on, is_any_of<Escalated>);
                return called ? called : day_changed(book, before, on);
            }
            Refusal refusal = not_possible(fmt::format("the patient may not go in: {}",
                                                       checklists::name_of(before.whole.readiness.verdict)),
                                           "each of these settled");
            refusal.changes = before.whole.readiness.reasons;
            return refusal;
        },
        [](const CaseNow& before, store::Writing& /*writing*/) {
            return std::vector<Content>{GoneIn{wall_time(before.rules().zone, before.at)}};
        });
}

Outcome<CaseNow> send_home(Book& book, const Writer& writer, const OnCase& on, const std::string& words)
{
    return book.write_on(
        writer, Verb::send_home, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (words.find_first_not_of(" \t\n") == std::string::npos) {
                return malformed("\"not today\" without a reason", "the reason in words");
            }
            auto refused = must_be_here(before);
            return refused ? refused : day_changed(book, before, on);
        },
        just(NotToday{words}));
}

Outcome<CaseNow> record_what_was_done(Book& book, const Writer& writer, const OnCase& on,
                                      const WorkDone& said)
{
    return book.write_on(
        writer, Verb::record_what_was_done, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (!before.file().gone_in) {
                return not_possible("the patient has not gone in", "the patient sent in first");
            }
            const auto ended = moment_of(said.ended);
            if (ended < *before.file().gone_in || ended > before.at) {
                return malformed("the procedure ended before the patient went in, or has not ended yet",
                                 "a time between going in and now");
            }
            return came_meanwhile(book, before, on, is_any_of<WorkDone>);
        },
        just(said));
}

Outcome<CaseNow> record_preparation_quality(Book& book, const Writer& writer, const OnCase& on,
                                            const QualityStated& said)
{
    return book.write_on(
        writer, Verb::record_preparation_quality, on,
        [&](const CaseNow& before) {
            auto refused = must_be_done(before);
            return refused ? refused : came_meanwhile(book, before, on, is_any_of<QualityStated>);
        },
        just(said));
}

Outcome<CaseNow> decide_restart(Book& book, const Writer& writer, const OnCase& on,
                                const RestartDecided& said)
{
    return book.write_on(
        writer, Verb::decide_restart, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            const bool ended = before.record().done || before.file().ending;
            if (!ended) {
                return must_be_done(before);
            }
            const screening::Hold* hold = find_hold(before, said.item);
            if (hold == nullptr) {
                return not_there(fmt::format("{} is no medicine of this case", said.item),
                                 "a medicine of the list");
            }
            if (!checklists::may_agree(before.rules(), *hold, writer.role)) {
                return Refusal{
                    Refusal::Why::role_may_not,
                    fmt::format("{} may not decide on {}", screening::name_of(writer.role), hold->medicine),
                    "a role that may agree to it",
                    {}};
            }
            const auto today = screening::date_of(screening::local_of(before.rules().zone, before.at));
            if (said.from && *said.from < today) {
                return malformed(fmt::format("{} has passed", screening::iso_date(*said.from)),
                                 "today or a later day");
            }
            if (!said.from && said.words.empty()) {
                return malformed("a restart without day or words", "one of the two");
            }
            return came_meanwhile(book, before, on, restarts({said.item}));
        },
        just(said));
}

Outcome<CaseNow> tell_restart(Book& book, const Writer& writer, const OnCase& on, const RestartTold& said)
{
    return book.write_on(
        writer, Verb::tell_restart, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            for (const std::string& item : said.items) {
                if (std::ranges::find(before.file().restarts, item, &checklists::Restart::item) ==
                    before.file().restarts.end()) {
                    return not_possible(fmt::format("nobody has decided when {} is started again", item),
                                        "the decision first");
                }
            }
            return came_meanwhile(book, before, on, restarts(said.items));
        },
        just(said));
}

Outcome<CaseNow> close(Book& book, const Writer& writer, const OnCase& on, const std::string& words)
{
    return book.write_on(
        writer, Verb::close, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            const auto strands =
                checklists::strands_of(before.rules(), before.file(), before.whole, before.at, book_hash());
            using checklists::ClosingStrand;
            if (strands.closing == ClosingStrand::restart_told ||
                strands.closing == ClosingStrand::nothing_to_start_again) {
                return came_meanwhile(book, before, on, is_any_of<WorkDone, RestartDecided>);
            }
            return not_possible("the case cannot be closed: " + strands.closing_words, "that settled first");
        },
        just(CaseClosed{words}));
}

}  // namespace foreday::book
