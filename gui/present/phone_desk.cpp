#include "gui/present/phone_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decide_by.h"
#include "checklists/sheet_content.h"
#include "checklists/words.h"
#include "data/book/fold_value.h"
#include "data/book/verbs_decision.h"
#include "data/book/verbs_phone.h"
#include "gui/present/typed_value.h"

namespace foreday::present {
namespace {

using checklists::TryOutcome;
using screening::FactIndex;

std::string sentence(std::string words)
{
    if (!words.empty() && words.back() != '.' && words.back() != '?') {
        words += '.';
    }
    return words;
}

/// Items a clinician has to decide, as answers to "which one?".
std::vector<std::string> titles_of(const std::vector<checklists::ToDecide>& items)
{
    std::vector<std::string> titles;
    std::ranges::transform(items, std::back_inserter(titles), [](const auto& item) { return item.title; });
    return titles;
}

}  // namespace

const screening::FactDefinition& PhoneDesk::fact(FactIndex place) const
{
    return now().rules().protocol.facts.at(place);
}

screening::Date PhoneDesk::today() const
{
    return screening::date_of(screening::local_of(now().rules().zone, place_.book().now()));
}

/// Who is on the line, and what was asked, is forgotten with the call.
void PhoneDesk::begin_if_new()
{
    if (case_ != now().id()) {
        case_ = now().id();
        said_by_ = {};
        asked_.clear();
    }
}

void PhoneDesk::set_said_by(SaidBy said_by)
{
    begin_if_new();  // or the first answer would take it for that of the case before
    said_by_ = std::move(said_by);
}

std::vector<std::string> PhoneDesk::calls() const
{
    std::vector<std::string> words;
    const auto& zone = now().rules().zone;
    for (const checklists::Call& call :
         checklists::calls_of(now().rules(), now().file(), now().whole, book::book_hash())) {
        if (call.due_from <= now().at) {
            words.push_back(fmt::format("{} {} {}.{}", sentence(call.why),
                                        call.useful_until < now().at ? "It was useful until" : "Useful until",
                                        checklists::moment_in_words(zone, call.useful_until),
                                        call.tries == 0 ? "" : fmt::format(" Tries: {}.", call.tries)));
        }
    }
    return words;
}

std::string PhoneDesk::due_call() const
{
    for (const checklists::Call& call :
         checklists::calls_of(now().rules(), now().file(), now().whole, book::book_hash())) {
        if (call.due_from <= now().at) {
            return call.id;
        }
    }
    return "";
}

bool PhoneDesk::record_try(TryOutcome outcome)
{
    begin_if_new();
    return place_.act(fmt::format("the try is in the book: {}.", checklists::name_of(outcome)), [&] {
        return book::record_try(place_.book(), place_.writer(), place_.on(), {due_call(), outcome, ""});
    });
}

bool PhoneDesk::record_rang_in()
{
    const auto words = place_.questioner().write("What did the patient ring about?", "");
    return words && place_.act("that the patient rang is in the book.", [&] {
        return book::record_rang_in(place_.book(), place_.writer(), place_.on(), {due_call(), *words});
    });
}

bool PhoneDesk::end_for_emergency()
{
    const auto words = place_.questioner().write(
        "Say first: hang up and dial the emergency number. Then write what was said.", "");
    return words && place_.act("the call was ended for an emergency.", [&] {
        return book::end_for_emergency(place_.book(), place_.writer(), place_.on(), {due_call(), *words});
    });
}

std::vector<SectionView> PhoneDesk::sections() const
{
    return sections_of(now());
}

std::vector<QuestionView> PhoneDesk::questions(const std::string& section) const
{
    return questions_of(now(), section);
}

bool PhoneDesk::answer(FactIndex place, std::optional<book::StatedValue> value,
                       std::optional<screening::WhyNotKnown> why, const std::string& words)
{
    begin_if_new();
    book::Answered said;
    said.fact = fact(place).id;
    said.value = std::move(value);
    said.why_not_known = why;
    said.words = words;
    const screening::AskedOf of = fact(place).asked_of;
    if (of == screening::AskedOf::staff) {
        said.informant = screening::Informant::staff;
    } else if (of == screening::AskedOf::letter && said_by_.informant != screening::Informant::letter) {
        said.informant = screening::Informant::letter;
    } else {
        said.informant = said_by_.informant;
        said.who = said_by_.who;
        said.interpreter = said_by_.interpreter;
    }
    if (said.informant == screening::Informant::letter) {
        said.strength = screening::Strength::dated_document;
    }
    return place_.act(fmt::format("the answer is in the book. {}", fact(place).question),
                      [&] { return book::answer(place_.book(), place_.writer(), place_.on(), said); });
}

bool PhoneDesk::answer_yes_no(FactIndex place, bool yes)
{
    return answer(place, yes, std::nullopt, "");
}

bool PhoneDesk::answer_choice(FactIndex place, std::size_t choice)
{
    return answer(place, book::NamedChoice{fact(place).choices.at(choice)}, std::nullopt, "");
}

bool PhoneDesk::answer_typed(FactIndex place, const std::string& typed)
{
    auto value = typed_value(fact(place), typed, today());
    if (!value) {
        place_.say(Notice::Kind::refused,
                   fmt::format("{} Not written: {}; right would be {}.", fact(place).question,
                               value.error().what, value.error().would_be_right));
        return false;
    }
    return answer(place, std::move(*value), std::nullopt, typed);
}

bool PhoneDesk::answer_not_known(FactIndex place)
{
    using screening::WhyNotKnown;
    const auto why = place_.questioner().choose(fmt::format("{} Why is it not known?", fact(place).question),
                                                {"does not know", "would not say", "could not be measured"});
    return why && answer(place, std::nullopt, static_cast<WhyNotKnown>(*why), "");
}

std::vector<MedicineView> PhoneDesk::medicines() const
{
    std::vector<MedicineView> views;
    for (const screening::MedicineItem& item : now().record().medicines.items) {
        views.push_back({item.id, medicine_in_words(now().rules().protocol, item)});
    }
    return views;
}

std::string PhoneDesk::list_in_words() const
{
    const auto& rules = now().rules();
    const auto& list = now().record().medicines;
    const auto days = std::chrono::duration_cast<date::days>(
        screening::minutes_of(rules.protocol.engine.list_closed_days, rules.protocol, rules.policy));
    switch (screening::list_state(list, now().at, days)) {
        case screening::ListState::closed:
            return fmt::format("The list is complete: said to {} on {}.", list.closed->by,
                               checklists::moment_in_words(rules.zone, list.closed->at));
        case screening::ListState::never_closed:
            return "Nobody has said yet that this list is complete.";
        case screening::ListState::reopened_by_import:
            return "Something was added to the list from outside: go through it again.";
        case screening::ListState::older_than_allowed:
            return fmt::format("Said to be complete on {}, too long ago: anything new since?",
                               checklists::moment_in_words(rules.zone, list.closed->at));
    }
    return "";
}

std::vector<MeantMedicine> PhoneDesk::candidates(const std::string& heard) const
{
    return MedicineNames(now().rules().protocol).candidates(heard);
}

void PhoneDesk::say_what_to_pick()
{
    place_.say(Notice::Kind::refused, "Pick the entry on the list, and below it the medicine that it is.");
}

bool PhoneDesk::add_medicine(const MedicineForm& form, bool unsure)
{
    begin_if_new();
    if (unsure) {
        place_.say(Notice::Kind::refused,
                   "Not written: pick which medicine is meant, or that it is none of these.");
        return false;
    }
    auto stated = stated_medicine(form, screening::local_of(now().rules().zone, place_.book().now()));
    if (!stated) {
        place_.say(Notice::Kind::refused, fmt::format("Not written: {}; right would be {}.",
                                                      stated.error().what, stated.error().would_be_right));
        return false;
    }
    stated->informant = said_by_.informant;
    stated->who = said_by_.who;
    return place_.act("the medicine is on the list.", [&] {
        return book::add_medicine(place_.book(), place_.writer(), place_.on(), *stated);
    });
}

bool PhoneDesk::name_medicine(const std::string& id, const std::string& medicine)
{
    const auto& items = now().record().medicines.items;
    const auto item = std::ranges::find(items, id, &screening::MedicineItem::id);
    if (item == items.end()) {
        place_.say(Notice::Kind::refused, "That entry is no longer on the list.");
        return false;
    }
    book::StatedMedicine stated = book::stated(now().rules().protocol, *item);
    stated.medicine = medicine;
    stated.origin = screening::Origin::this_case;
    return place_.act("the medicine is named.", [&] {
        return book::change_medicine(place_.book(), place_.writer(), place_.on(), {id, stated});
    });
}

bool PhoneDesk::stop_medicine(const std::string& id)
{
    const auto words = place_.questioner().write(
        "Why does it not belong on the list? (One that is paused, or left out for the procedure, stays on "
        "it.)",
        "");
    return words && place_.act("it is off the list.", [&] {
        return book::stop_medicine(place_.book(), place_.writer(), place_.on(), {id, *words});
    });
}

std::vector<ListQuestionView> PhoneDesk::list_questions() const
{
    std::vector<ListQuestionView> views;
    for (const screening::ListQuestion& question : now().rules().protocol.list_questions) {
        const bool asked = case_ == now().id() && std::ranges::find(asked_, question.id) != asked_.end();
        views.push_back({question.words, asked});
    }
    return views;
}

void PhoneDesk::mark_asked(std::size_t question, bool asked)
{
    begin_if_new();
    const std::string& id = now().rules().protocol.list_questions.at(question).id;
    std::erase(asked_, id);
    if (asked) {
        asked_.push_back(id);
    }
}

bool PhoneDesk::close_list()
{
    begin_if_new();
    for (const screening::ListQuestion& question : now().rules().protocol.list_questions) {
        if (std::ranges::find(asked_, question.id) == asked_.end()) {
            place_.say(
                Notice::Kind::refused,
                fmt::format("The list is not complete yet: this was not asked by name. {}", question.words));
            return false;
        }
    }
    return place_.act("the list is complete.", [&] {
        return book::close_list(place_.book(), place_.writer(), place_.on(),
                                {asked_, said_by_.informant, said_by_.who});
    });
}

bool PhoneDesk::reopen_list()
{
    const auto words = place_.questioner().write("What is new since the list was closed?", "");
    return words && place_.act("the list is open again.", [&] {
        return book::reopen_list(place_.book(), place_.writer(), place_.on(), *words);
    });
}

std::vector<checklists::Line> PhoneDesk::sheet() const
{
    return checklists::sheet_content(now().rules(), now().file(), now().whole).lines;
}

bool PhoneDesk::sheet_is_draft() const
{
    return checklists::sheet_content(now().rules(), now().file(), now().whole).draft;
}

bool PhoneDesk::clear()
{
    return place_.act("the case is cleared.", [&] {
        return book::clear(place_.book(), place_.writer(), place_.on(), book::shown_items(now()));
    });
}

bool PhoneDesk::tell()
{
    return place_.act("the patient was told what stands on the sheet.", [&] {
        return book::tell(place_.book(), place_.writer(), place_.on(), book::sheet_hash(now()),
                          "read out by phone");
    });
}

bool PhoneDesk::record_said_back()
{
    const auto& tellings = now().folded.telling_entries;
    if (tellings.empty()) {
        place_.say(Notice::Kind::refused, "The patient has not been told anything yet.");
        return false;
    }
    return place_.act("the patient said it back.", [&] {
        return book::record_said_back(place_.book(), place_.writer(), place_.on(), tellings.back());
    });
}

bool PhoneDesk::hand_to_review()
{
    const auto& roster = now().unit->roster;
    std::vector<std::string> to{std::string(name_of(Desk::review))};
    std::ranges::transform(roster, std::back_inserter(to), [](const auto& entry) { return entry.name; });
    const auto picked = place_.questioner().choose("Who takes the case?", to);
    return picked && place_.act(fmt::format("the case is with: {}.", to.at(*picked)), [&] {
        return book::hand_over(place_.book(), place_.writer(), place_.on(), {to.at(*picked), ""});
    });
}

bool PhoneDesk::note()
{
    const auto words = place_.questioner().write("The note", "");
    return words && place_.act("the note is in the book.", [&] {
        return book::note(place_.book(), place_.writer(), place_.on(), *words);
    });
}

bool PhoneDesk::raise_concern()
{
    const auto words = place_.questioner().write("What worries you, in your own words?", "");
    if (!words) {
        return false;
    }
    using screening::Level;
    const auto level = place_.questioner().choose(
        "What is asked of the clinician?",
        {std::string(screening::shown_as(Level::ask)), std::string(screening::shown_as(Level::stop))});
    return level && place_.act("the concern waits for a clinician.", [&] {
        return book::raise_concern(
            place_.book(), place_.writer(), place_.on(),
            {*words, *level == 0 ? Level::ask : Level::stop, screening::Topic::record});
    });
}

bool PhoneDesk::ask_outside()
{
    auto& ask = place_.questioner();
    const auto items = checklists::to_decide(now().rules(), now().record(), now().whole);
    std::vector<std::string> choices = titles_of(items);
    choices.emplace_back("something else");
    const auto picked = ask.choose("What is it wanted for?", choices);
    const auto what = picked ? ask.write("What is asked?", "") : std::nullopt;
    const auto whom = what ? ask.write("Whom: name, practice, how", "") : std::nullopt;
    const auto reply_by =
        whom ? ask.write("Reply by (a date)", screening::iso_date(today() + date::days{3})) : std::nullopt;
    if (!reply_by) {
        return false;
    }
    const auto day = typed_date(*reply_by);
    if (!day || !day->exact()) {
        place_.say(Notice::Kind::refused,
                   "Not written: the day of the reply is not clear; right would be such as 2026-11-03.");
        return false;
    }
    if (day->lowest < today()) {
        place_.say(Notice::Kind::refused,
                   "Not written: the day of the reply is over; right would be today or a later day.");
        return false;
    }
    const std::string id = fmt::format("o{}", now().file().outside_asks.size() + 1);
    const std::string item = *picked < items.size() ? items[*picked].id : std::string();
    return place_.act("the ask is on its way.", [&] {
        return book::ask_outside(place_.book(), place_.writer(), place_.on(),
                                 {id, item, *what, *whom, day->lowest});
    });
}

bool PhoneDesk::record_outside_answer()
{
    std::vector<std::string> open;
    std::vector<std::string> ids;
    for (const checklists::OutsideAsk& one : now().file().outside_asks) {
        if (!one.came) {
            open.push_back(fmt::format("{}, of {}", one.what, one.whom));
            ids.push_back(one.id);
        }
    }
    if (open.empty()) {
        place_.say(Notice::Kind::refused, "No ask is out without an answer.");
        return false;
    }
    const auto picked = place_.questioner().choose("Which ask was answered?", open);
    const auto answer = picked ? place_.questioner().write("The answer, as given", "") : std::nullopt;
    return answer && place_.act("the answer from outside is in the book.", [&] {
        return book::record_outside_answer(place_.book(), place_.writer(), place_.on(),
                                           {ids.at(*picked), *answer, ""});
    });
}

bool PhoneDesk::record_spoken_decision()
{
    auto& ask = place_.questioner();
    const auto items = checklists::to_decide(now().rules(), now().record(), now().whole);
    if (items.empty()) {
        place_.say(Notice::Kind::refused, "Nothing waits for a decision.");
        return false;
    }
    const auto item = ask.choose("What was decided on?", titles_of(items));
    if (!item) {
        return false;
    }
    const auto& chosen = items.at(*item);
    std::vector<std::string> roles;
    std::ranges::transform(chosen.who, std::back_inserter(roles),
                           [](auto role) { return std::string(screening::name_of(role)); });
    const auto who = ask.write("Which clinician? The name as in the book", "");
    const auto role = who ? ask.choose("In which role?", roles) : std::nullopt;
    const auto answer =
        role ? ask.choose("What was decided?", {"agree", "change", "ask outside", "not go ahead"})
             : std::nullopt;
    const auto words = answer ? ask.write("The words, as spoken", "") : std::nullopt;
    const auto how = words ? ask.write("How was it spoken?", "by phone") : std::nullopt;
    if (!how ||
        !ask.agree(fmt::format("Read it back: \"{}\". Did {} confirm it?", *words, *who), "Confirmed")) {
        return false;
    }
    const auto shown = book::shown_items(now());
    const auto fingerprint = shown.find(chosen.id);
    book::DecisionSpoken spoken;
    spoken.decided = {chosen.id, static_cast<screening::DecisionAnswer>(*answer), *words,
                      fingerprint == shown.end() ? std::string() : fingerprint->second, std::nullopt};
    spoken.clinician = *who;
    spoken.role = chosen.who.at(*role);
    spoken.spoken = book::wall_time(now().rules().zone, place_.book().now());
    spoken.how = *how;
    spoken.read_back = true;
    return place_.act("the spoken decision is in effect, and waits for the signature.", [&] {
        return book::record_spoken_decision(place_.book(), place_.writer(), place_.on(), spoken);
    });
}

}  // namespace foreday::present
