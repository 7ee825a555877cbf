#include "gui/present/arrival_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/words.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_day.h"
#include "gui/present/interview.h"
#include "gui/present/typed_value.h"

namespace foreday::present {
namespace {

using checklists::ReadinessItem;
using checklists::ReadinessState;

std::string with_capital(std::string_view words)
{
    std::string text{words};
    if (!text.empty() && text.front() >= 'a' && text.front() <= 'z') {
        text.front() = static_cast<char>(text.front() - 'a' + 'A');
    }
    return text;
}

std::string state_in_words(const ReadinessItem& item)
{
    std::string words;
    switch (item.state) {
        case ReadinessState::met:
            words = "Shown";
            break;
        case ReadinessState::not_met:
            words = "Not as it should be";
            break;
        case ReadinessState::blank:
            words = "Not done yet";
            break;
        case ReadinessState::let_pass:
            words = "Let pass by a clinician";
            break;
        case ReadinessState::open:
            words = "Open";
            break;
    }
    if (!item.why.empty() && checklists::capitalised(item.why) != words) {
        words += ": " + item.why;
    }
    words += '.';
    const bool lacking = item.state == ReadinessState::not_met || item.state == ReadinessState::open;
    if (lacking && !item.would_make_it_ready.empty()) {
        words += " Needed: " + item.would_make_it_ready + ".";
    }
    return words;
}

tl::expected<book::WallTime, std::string> typed_wall_time(const std::string& typed, screening::Date today,
                                                          const screening::Zone& zone)
{
    if (const auto alone = typed_time(typed)) {  // "0630" too, which elsewhere may be a year
        return book::wall_time(zone, screening::LocalMinute{today} + *alone);
    }
    screening::FactDefinition time;
    time.type = screening::FactType::time;
    const auto value = typed_value(time, typed, today);
    const auto* interval = value ? std::get_if<screening::TimeInterval>(&*value) : nullptr;
    if (interval == nullptr || !interval->exact()) {
        return tl::unexpected(value ? std::string("Not written: the time of day is missing; such as 06:30.")
                                    : fmt::format("Not written: {}; right would be such as 06:30, or "
                                                  "2026-11-03 22:00 for the evening before.",
                                                  value.error().what));
    }
    return book::wall_time(zone, interval->lowest);
}

}  // namespace

const std::vector<std::string>& kinds_of_intake()
{
    static const std::vector<std::string> kinds{"clear liquid", "light meal", "fatty meal", "milk"};
    return kinds;
}

screening::Date ArrivalDesk::today() const
{
    return screening::date_of(screening::local_of(now().rules().zone, place_.book().now()));
}

const screening::ReadinessRule* ArrivalDesk::rule_of(const std::string& item) const
{
    const auto& rules = now().rules().protocol.readiness;
    const auto rule = std::ranges::find_if(rules, [&](const auto& one) { return one.head.id == item; });
    return rule == rules.end() ? nullptr : &*rule;
}

VerdictView ArrivalDesk::verdict() const
{
    const auto& readiness = now().whole.readiness;
    VerdictView view;
    const auto& zone = now().rules().zone;
    if (now().file().closed) {
        view.words = "The case is closed";
        return view;
    }
    if (now().record().done) {
        view.words = "Done at " + checklists::clock_in_words(zone, *now().record().done);
        return view;
    }
    if (now().file().ending) {
        view.words = with_capital(checklists::name_of(now().file().ending->kind));
        view.reasons.push_back(now().file().ending->words);
        return view;
    }
    if (now().file().gone_in) {
        view.words = "Went in at " + checklists::clock_in_words(zone, *now().file().gone_in);
        return view;
    }
    view.words = with_capital(checklists::name_of(readiness.verdict));
    view.reasons = readiness.reasons;
    if (readiness.earliest) {
        view.earliest =
            "Waiting alone will do: at " + checklists::moment_in_words(zone, *readiness.earliest) + ".";
    }
    return view;
}

bool ArrivalDesk::here() const
{
    return now().record().arrival && now().record().arrival->here_since && !now().file().gone_in &&
           !now().file().ending;
}

std::vector<ChecklistView> ArrivalDesk::checklist() const
{
    std::vector<ChecklistView> views;
    const auto& facts = now().rules().protocol.facts;
    std::vector<ReadinessItem> items = now().whole.readiness.items;
    std::ranges::stable_sort(items, {}, [&](const ReadinessItem& item) {
        const auto* rule = rule_of(item.id);
        return rule == nullptr ? 0 : rule->order;
    });
    for (const ReadinessItem& item : items) {
        ChecklistView view;
        view.id = item.id;
        view.title = item.title;
        view.state = state_in_words(item);
        view.enters_verdict = item.kind != screening::ReadinessKind::to_be_noted;
        view.met = item.state == ReadinessState::met || item.state == ReadinessState::let_pass;
        view.mine_to_let_pass = !view.met && book::may(place_.writer().role, book::Verb::let_pass) &&
                                std::ranges::find(item.who, place_.writer().role) != item.who.end();
        if (const auto* rule = rule_of(item.id)) {
            if (const auto* confirmed = std::get_if<screening::ConfirmedCheck>(&rule->check)) {
                view.control = ChecklistView::Control::confirm;
                view.question = facts.at(confirmed->fact).question;
            } else if (const auto* measured = std::get_if<screening::MeasuredCheck>(&rule->check)) {
                view.control = ChecklistView::Control::measure;
                view.question = facts.at(measured->fact).question;
                view.expected = expected_in_words(facts.at(measured->fact));
            }
        }
        views.push_back(std::move(view));
    }
    return views;
}

std::vector<std::string> ArrivalDesk::taken_so_far() const
{
    std::vector<std::string> words;
    if (!now().record().arrival) {
        return words;
    }
    const auto& arrival = *now().record().arrival;
    for (const screening::Intake& intake : arrival.intake) {
        words.push_back(fmt::format("{} at {} on {}{}", with_capital(intake.kind),
                                    checklists::time_in_words(screening::time_of_day(intake.at)),
                                    checklists::day_in_words(screening::date_of(intake.at)),
                                    intake.what.empty() ? "." : fmt::format(": {}.", intake.what)));
    }
    if (arrival.nothing_else_taken) {
        words.emplace_back("Asked: no other food or drink.");
    }
    for (const auto& [id, dose] : arrival.doses_taken) {
        const auto& items = now().record().medicines.items;
        const auto item = std::ranges::find(items, id, &screening::MedicineItem::id);
        const std::string name = item == items.end() ? id
                                 : item->medicine
                                     ? now().rules().protocol.medicines.at(*item->medicine).generic
                                     : item->heard;
        words.push_back(
            fmt::format("{}: last really taken {}.", with_capital(name), checklists::dose_in_words(dose)));
    }
    return words;
}

bool ArrivalDesk::receive()
{
    return place_.act("the patient is here.",
                      [&] { return book::arrive(place_.book(), place_.writer(), place_.on()); });
}

bool ArrivalDesk::confirm(const std::string& item, bool yes)
{
    const auto* rule = rule_of(item);
    const auto* check = rule == nullptr ? nullptr : std::get_if<screening::ConfirmedCheck>(&rule->check);
    if (check == nullptr) {
        place_.say(Notice::Kind::refused, "That item is not confirmed with yes or no.");
        return false;
    }
    const std::string fact = now().rules().protocol.facts.at(check->fact).id;
    return place_.act(fmt::format("{}: {}.", rule->head.title, yes ? "yes" : "no"), [&] {
        return book::confirm_item(place_.book(), place_.writer(), place_.on(), {item, fact, yes, ""});
    });
}

bool ArrivalDesk::measure(const std::string& item, const std::string& typed)
{
    const auto* rule = rule_of(item);
    const auto* check = rule == nullptr ? nullptr : std::get_if<screening::MeasuredCheck>(&rule->check);
    if (check == nullptr) {
        place_.say(Notice::Kind::refused, "That item is not measured.");
        return false;
    }
    const auto& fact = now().rules().protocol.facts.at(check->fact);
    auto value = typed_value(fact, typed, today());
    if (!value) {
        place_.say(Notice::Kind::refused, fmt::format("{} Not written: {}; right would be {}.", fact.question,
                                                      value.error().what, value.error().would_be_right));
        return false;
    }
    return place_.act(fmt::format("{}: measured.", rule->head.title), [&] {
        return book::take_measure(place_.book(), place_.writer(), place_.on(),
                                  {fact.id, std::move(*value), typed, ""});
    });
}

bool ArrivalDesk::record_intake(const IntakeForm& form)
{
    const auto time = typed_wall_time(form.at, today(), now().rules().zone);
    if (!time) {
        place_.say(Notice::Kind::refused, time.error());
        return false;
    }
    if (book::moment_of(*time) > place_.book().now()) {
        place_.say(Notice::Kind::refused,
                   "Not written: that time is still to come; right would be the last time it was taken.");
        return false;
    }
    return place_.act("food and drink are in the book.", [&] {
        return book::record_intake(place_.book(), place_.writer(), place_.on(),
                                   {kinds_of_intake().at(form.kind), *time, form.what});
    });
}

bool ArrivalDesk::record_nothing_else()
{
    return place_.act("no other food or drink.",
                      [&] { return book::record_nothing_else(place_.book(), place_.writer(), place_.on()); });
}

std::vector<std::pair<std::string, std::string>> ArrivalDesk::medicines() const
{
    std::vector<std::pair<std::string, std::string>> names;
    for (const screening::MedicineItem& item : now().record().medicines.items) {
        names.emplace_back(item.id, item.medicine
                                        ? now().rules().protocol.medicines.at(*item.medicine).generic
                                        : "\"" + item.heard + "\"");
    }
    return names;
}

bool ArrivalDesk::record_dose_taken(const std::string& medicine, const std::string& typed)
{
    screening::Dose dose{today(), std::nullopt};
    if (typed.find(':') != std::string::npos) {
        const auto time = typed_wall_time(typed, today(), now().rules().zone);
        if (!time) {
            place_.say(Notice::Kind::refused, time.error());
            return false;
        }
        if (book::moment_of(*time) > place_.book().now()) {
            place_.say(Notice::Kind::refused,
                       "Not written: that time is still to come; right would be the last dose really taken.");
            return false;
        }
        dose = {screening::date_of(time->local), screening::time_of_day(time->local)};
    } else {
        const auto day = typed_date(typed);
        if (!day || !day->exact()) {
            place_.say(
                Notice::Kind::refused,
                "Not written: the day is not clear; right would be such as 2026-11-03 or 2026-11-03 08:00.");
            return false;
        }
        dose.day = day->lowest;
    }
    if (dose.day > today()) {
        place_.say(Notice::Kind::refused,
                   "Not written: that day is still to come; right would be the last dose really taken.");
        return false;
    }
    return place_.act("the last dose really taken is in the book.", [&] {
        return book::record_dose_taken(place_.book(), place_.writer(), place_.on(), {medicine, dose});
    });
}

bool ArrivalDesk::escalate(const std::string& item)
{
    const auto& items = now().whole.readiness.items;
    const auto found = std::ranges::find(items, item, &ReadinessItem::id);
    if (found == items.end()) {
        place_.say(Notice::Kind::refused, "That item is no longer on the list.");
        return false;
    }
    std::vector<std::string> to;
    for (const data::RosterEntry& entry : now().unit->roster) {
        to.push_back(entry.role ? fmt::format("{} ({})", entry.name, screening::name_of(*entry.role))
                                : entry.name);
    }
    const auto picked =
        to.empty() ? place_.questioner().write("Who is called?", "") : [&]() -> std::optional<std::string> {
        const auto place = place_.questioner().choose(fmt::format("{}. Who is called?", found->title), to);
        return place ? std::optional(now().unit->roster.at(*place).name) : std::nullopt;
    }();
    const auto words = picked ? place_.questioner().write("What is said to them?", found->why) : std::nullopt;
    return words && place_.act(fmt::format("{} is called.", *picked), [&] {
        return book::escalate(place_.book(), place_.writer(), place_.on(), {item, *picked, *words});
    });
}

bool ArrivalDesk::let_pass(const std::string& item)
{
    const auto& items = now().whole.readiness.items;
    const auto found = std::ranges::find(items, item, &ReadinessItem::id);
    if (found == items.end()) {
        place_.say(Notice::Kind::refused, "That item is no longer on the list.");
        return false;
    }
    const std::string shown = found->why;
    const auto reason = place_.questioner().write(fmt::format("{}. Why may it pass?", found->title), "");
    return reason && place_.act("the item is let pass.", [&] {
        return book::let_pass(place_.book(), place_.writer(), place_.on(), item, *reason, shown);
    });
}

bool ArrivalDesk::go_in()
{
    return place_.act("the patient has gone in.",
                      [&] { return book::go_in(place_.book(), place_.writer(), place_.on()); });
}

bool ArrivalDesk::not_today()
{
    const auto words = place_.questioner().write("Why not today?", "");
    return words && place_.act("not today.", [&] {
        return book::send_home(place_.book(), place_.writer(), place_.on(), *words);
    });
}

bool ArrivalDesk::did_not_come()
{
    const auto words = place_.questioner().write("The patient did not come. What is known of why?", "");
    return words && place_.act("the patient did not come.", [&] {
        return book::note_did_not_come(place_.book(), place_.writer(), place_.on(), *words);
    });
}

bool ArrivalDesk::record_what_was_done()
{
    const auto& zone = now().rules().zone;
    const auto at = place_.questioner().write("When did the procedure end?",
                                              checklists::clock_in_words(zone, place_.book().now()));
    if (!at) {
        return false;
    }
    const auto time = typed_wall_time(*at, today(), zone);
    if (!time) {
        place_.say(Notice::Kind::refused, time.error());
        return false;
    }
    const auto& protocol = now().rules().protocol;
    std::vector<std::string> done;
    for (const auto place : now().record().booking.procedures) {
        done.push_back(protocol.procedures.at(place).id);
    }
    std::vector<std::string> more{"nothing else"};
    std::vector<std::string> ids;
    for (const screening::Procedure& procedure : protocol.procedures) {
        if (procedure.is_intervention && std::ranges::find(done, procedure.id) == done.end()) {
            more.push_back(procedure.title);
            ids.push_back(procedure.id);
        }
    }
    // One question after another, until nothing else was done.
    for (;;) {
        const auto picked = place_.questioner().choose("What was done beside what was booked?", more);
        if (!picked) {
            return false;
        }
        if (*picked == 0) {
            break;
        }
        done.push_back(ids.at(*picked - 1));
        more.erase(more.begin() + static_cast<std::ptrdiff_t>(*picked));
        ids.erase(ids.begin() + static_cast<std::ptrdiff_t>(*picked) - 1);
    }
    return place_.act("what was done is in the book.", [&] {
        return book::record_what_was_done(place_.book(), place_.writer(), place_.on(), {*time, done, ""});
    });
}

bool ArrivalDesk::record_preparation_quality()
{
    const auto words = place_.questioner().write("How clean was the bowel, in the endoscopist's words?", "");
    return words && place_.act("how clean the bowel was is in the book.", [&] {
        return book::record_preparation_quality(place_.book(), place_.writer(), place_.on(), {*words});
    });
}

bool ArrivalDesk::tell_restart()
{
    std::vector<std::string> items;
    for (const checklists::Restart& restart : now().file().restarts) {
        if (!restart.told) {
            items.push_back(restart.item);
        }
    }
    if (items.empty()) {
        place_.say(Notice::Kind::refused, "Nothing decided waits to be told.");
        return false;
    }
    return place_.act("the patient was told what to start again, and when.", [&] {
        return book::tell_restart(place_.book(), place_.writer(), place_.on(), {items, "on leaving"});
    });
}

bool ArrivalDesk::close()
{
    const auto words = place_.questioner().write("How did the patient leave?", "gone home with the escort");
    return words && place_.act("the case is closed.", [&] {
        return book::close(place_.book(), place_.writer(), place_.on(), *words);
    });
}

}  // namespace foreday::present
