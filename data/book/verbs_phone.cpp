#include "data/book/verbs_phone.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <iterator>

#include "data/book/codec.h"
#include "data/book/fold_value.h"
#include "data/book/meanwhile.h"
#include "data/book/refusals.h"

namespace foreday::book {
namespace {

using screening::MedicineItem;

std::optional<Refusal> without_words(const std::string& words, std::string_view of_what)
{
    if (words.find_first_not_of(" \t\n") == std::string::npos) {
        return malformed(fmt::format("{} without words", of_what), "a few words of what it is about");
    }
    return std::nullopt;
}

std::optional<Refusal> check_value(const CaseNow& before, const std::string& fact_id,
                                   const std::optional<StatedValue>& stated_value)
{
    const auto& protocol = before.rules().protocol;
    const auto place = screening::find_fact(protocol, fact_id);
    if (!place) {
        return not_there(fmt::format("the protocol in force has no fact \"{}\"", fact_id),
                         "a fact of the protocol");
    }
    if (!stated_value) {
        return std::nullopt;
    }
    const auto& fact = protocol.facts[*place];
    const auto value = value_of(fact, *stated_value);
    if (!value) {
        return malformed(value.error().what, value.error().would_be_right);
    }
    const auto* number = std::get_if<screening::NumberInterval>(&*value);
    if (number != nullptr &&
        (number->lowest < fact.plausible.lowest || fact.plausible.highest < number->highest)) {
        return malformed(fmt::format("{}: the number cannot be right", fact.question),
                         fmt::format("{} to {} {}", fact.plausible.lowest.text(),
                                     fact.plausible.highest.text(), screening::unit_text(fact.unit)));
    }
    return std::nullopt;
}

std::optional<Refusal> check_medicine(const CaseNow& before, const StatedMedicine& medicine)
{
    if (medicine.medicine.empty()) {
        return without_words(medicine.heard, "a medicine that nobody could name");
    }
    if (!screening::find_medicine(before.rules().protocol, medicine.medicine)) {
        return not_there(fmt::format("the protocol in force has no medicine \"{}\"", medicine.medicine),
                         "a medicine of the protocol, or the words as heard");
    }
    return std::nullopt;
}

std::optional<Refusal> on_the_list(const CaseNow& before, const std::string& id)
{
    if (std::ranges::find(before.record().medicines.items, id, &MedicineItem::id) ==
        before.record().medicines.items.end()) {
        return not_there(fmt::format("there is no entry {} on the medicine list", id),
                         "an entry that stands on it");
    }
    return std::nullopt;
}

/// The number the new entry of the journal gets makes the list's id unique in the case.
std::string next_medicine_id(const CaseNow& before)
{
    std::int64_t highest = static_cast<std::int64_t>(before.record().medicines.items.size());
    const auto consider = [&](const std::string& id) {
        std::int64_t number = 0;
        const auto [end, error] =
            std::from_chars(id.data() + std::min<std::size_t>(1, id.size()), id.data() + id.size(), number);
        if (error == std::errc{} && end == id.data() + id.size()) {
            highest = std::max(highest, number);
        }
    };
    for (const MedicineItem& item : before.record().medicines.items) {
        consider(item.id);
    }
    for (const StoppedMedicine& stopped : before.folded.stopped) {
        consider(stopped.item.id);
    }
    return fmt::format("m{}", highest + 1);
}

/// Other entries of the list with an ingredient of this one.
std::vector<std::string> twice_on_the_list(const CaseNow& now, const std::string& id)
{
    std::vector<std::string> remarks;
    const auto& medicines = now.rules().protocol.medicines;
    const auto& items = now.record().medicines.items;
    const auto added = std::ranges::find(items, id, &MedicineItem::id);
    if (added == items.end() || !added->medicine) {
        return remarks;
    }
    for (const std::string& ingredient : medicines[*added->medicine].ingredients) {
        for (const MedicineItem& other : items) {
            if (other.id != id && other.medicine &&
                std::ranges::count(medicines[*other.medicine].ingredients, ingredient) > 0) {
                remarks.push_back(fmt::format("{} is on the list twice: {} and {}", ingredient,
                                              medicines[*other.medicine].generic,
                                              medicines[*added->medicine].generic));
            }
        }
    }
    return remarks;
}

bool about_the_list(const Content& content)
{
    return is_any_of<MedicineAdded, MedicineChanged, MedicineStopped, ListClosed, ListReopened>(content);
}

/// Changes or stops this entry of the list.
IsAbout about_medicine(const std::string& id)
{
    return [id](const Content& content) {
        const auto* changed = std::get_if<MedicineChanged>(&content);
        const auto* stopped = std::get_if<MedicineStopped>(&content);
        return (changed != nullptr && changed->id == id) || (stopped != nullptr && stopped->id == id);
    };
}

std::optional<Refusal> strikable(const Book& book, const Writer& writer, const OnCase& on,
                                 std::int64_t number)
{
    const auto entries = book.store().entries_of(on.id);
    const auto entry = std::ranges::find(entries, number, &store::Entry::number);
    if (entry == entries.end()) {
        return not_there(fmt::format("entry {} is not one of this case", number), "an entry of this case");
    }
    const auto read = read_entry(*entry);
    if (!read || std::holds_alternative<EntryStruck>(read->content) ||
        std::holds_alternative<BookingMade>(read->content)) {
        return not_possible("a booking and a strike stay as they are",
                            "the answer written anew, or the case called off");
    }
    if (screening::is_clinician(read->envelope.role) && entry->said.who != writer.who) {
        return Refusal{
            Refusal::Why::role_may_not,
            fmt::format("{} wrote that as {}", entry->said.who, screening::name_of(read->envelope.role)),
            "to be struck by the same person, or decided anew",
            {}};
    }
    return std::nullopt;
}

/// "Nothing of this kind" becomes false only through an answer, so every kind is asked by name.
std::optional<Refusal> not_gone_through(const std::vector<screening::ListQuestion>& questions,
                                        const ListClosed& said)
{
    const auto asked = [&](const screening::ListQuestion& question) {
        return std::ranges::find(said.gone_through, question.id) != said.gone_through.end();
    };
    const auto missing = std::ranges::find_if_not(questions, asked);
    if (missing != questions.end()) {
        return not_possible(fmt::format("the list is not complete yet: \"{}\" was not asked", missing->words),
                            "each of the list's questions asked by name");
    }
    for (const std::string& id : said.gone_through) {
        if (std::ranges::find(questions, id, &screening::ListQuestion::id) == questions.end()) {
            return not_there(fmt::format("the protocol in force has no list question \"{}\"", id),
                             "the questions the protocol has now");
        }
    }
    return std::nullopt;
}

}  // namespace

Outcome<CaseNow> answer(Book& book, const Writer& writer, const OnCase& on, const Answered& said)
{
    return book.write_on(
        writer, Verb::answer, on,
        [&](const CaseNow& before) { return check_value(before, said.fact, said.value); }, just(said));
}

Outcome<CaseNow> set_aside(Book& book, const Writer& writer, const OnCase& on, const AnswerSetAside& said)
{
    return book.write_on(
        writer, Verb::set_aside, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            const auto has = [&](const auto& entries) {
                return std::ranges::find(entries, said.entry) != entries.end();
            };
            if (std::ranges::none_of(before.folded.answer_entries, has)) {
                return not_there(fmt::format("entry {} is no answer that stands in this case", said.entry),
                                 "an answer of this case");
            }
            return without_words(said.words, "an answer set aside");
        },
        just(said));
}

Outcome<CaseNow> strike(Book& book, const Writer& writer, const OnCase& on, const EntryStruck& said)
{
    return book.write_on(
        writer, Verb::strike, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (std::ranges::find(before.folded.struck, said.entry) != before.folded.struck.end()) {
                return not_possible(fmt::format("entry {} is struck already", said.entry),
                                    "nothing more to do");
            }
            if (auto refused = without_words(said.words, "a strike")) {
                return refused;
            }
            return strikable(book, writer, on, said.entry);
        },
        just(said));
}

Outcome<CaseNow> add_medicine(Book& book, const Writer& writer, const OnCase& on,
                              const StatedMedicine& medicine)
{
    std::string id;
    auto outcome = book.write_on(
        writer, Verb::add_medicine, on,
        [&](const CaseNow& before) { return check_medicine(before, medicine); },
        [&](const CaseNow& before, store::Writing& /*writing*/) {
            id = next_medicine_id(before);
            return std::vector<Content>{MedicineAdded{id, medicine}};
        });
    if (outcome) {
        std::ranges::move(twice_on_the_list(*outcome, id), std::back_inserter(outcome->remarks));
    }
    return outcome;
}

Outcome<CaseNow> change_medicine(Book& book, const Writer& writer, const OnCase& on,
                                 const MedicineChanged& said)
{
    return book.write_on(
        writer, Verb::change_medicine, on,
        [&](const CaseNow& before) {
            auto refused = came_meanwhile(book, before, on, about_medicine(said.id));
            refused = refused ? refused : on_the_list(before, said.id);
            return refused ? refused : check_medicine(before, said.medicine);
        },
        just(said));
}

Outcome<CaseNow> stop_medicine(Book& book, const Writer& writer, const OnCase& on,
                               const MedicineStopped& said)
{
    return book.write_on(
        writer, Verb::stop_medicine, on,
        [&](const CaseNow& before) {
            auto refused = came_meanwhile(book, before, on, about_medicine(said.id));
            return refused ? refused : on_the_list(before, said.id);
        },
        just(said));
}

Outcome<CaseNow> close_list(Book& book, const Writer& writer, const OnCase& on, const ListClosed& said)
{
    return book.write_on(
        writer, Verb::close_list, on,
        [&](const CaseNow& before) {
            auto refused = came_meanwhile(book, before, on, about_the_list);
            return refused ? refused : not_gone_through(before.rules().protocol.list_questions, said);
        },
        just(said));
}

Outcome<CaseNow> reopen_list(Book& book, const Writer& writer, const OnCase& on, const std::string& words)
{
    return book.write_on(writer, Verb::reopen_list, on, always, just(ListReopened{words}));
}

Outcome<CaseNow> note(Book& book, const Writer& writer, const OnCase& on, const std::string& words)
{
    return book.write_on(
        writer, Verb::note, on, [&](const CaseNow& /*before*/) { return without_words(words, "a note"); },
        just(NoteMade{words}));
}

Outcome<CaseNow> raise_concern(Book& book, const Writer& writer, const OnCase& on,
                               const ConcernRaised& concern)
{
    return book.write_on(
        writer, Verb::raise_concern, on,
        [&](const CaseNow& /*before*/) -> std::optional<Refusal> {
            if (concern.level != screening::Level::ask && concern.level != screening::Level::stop) {
                return malformed("a concern asks a clinician, or says not to go ahead", "one of these two");
            }
            return without_words(concern.words, "a concern");
        },
        just(concern));
}

Outcome<CaseNow> record_try(Book& book, const Writer& writer, const OnCase& on, const TryMade& said)
{
    return book.write_on(writer, Verb::record_try, on, always, just(said));
}

Outcome<CaseNow> record_rang_in(Book& book, const Writer& writer, const OnCase& on, const PatientRangIn& said)
{
    return book.write_on(writer, Verb::record_rang_in, on, always, just(said));
}

Outcome<CaseNow> end_for_emergency(Book& book, const Writer& writer, const OnCase& on,
                                   const CallEndedForEmergency& said)
{
    return book.write_on(writer, Verb::end_for_emergency, on, always, just(said));
}

Outcome<CaseNow> ask_outside(Book& book, const Writer& writer, const OnCase& on, const OutsideAskSent& said)
{
    return book.write_on(
        writer, Verb::ask_outside, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (std::ranges::find(before.file().outside_asks, said.id, &checklists::OutsideAsk::id) !=
                    before.file().outside_asks.end() ||
                said.id.empty()) {
                return not_possible(
                    fmt::format("an outside ask \"{}\" is there already, or has no name", said.id),
                    "another name");
            }
            return without_words(said.what + said.whom, "an outside ask");
        },
        just(said));
}

Outcome<CaseNow> record_outside_answer(Book& book, const Writer& writer, const OnCase& on,
                                       const OutsideAskAnswered& said)
{
    return book.write_on(
        writer, Verb::record_outside_answer, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            const auto& asks = before.file().outside_asks;
            const auto ask = std::ranges::find(asks, said.id, &checklists::OutsideAsk::id);
            if (ask == asks.end()) {
                return not_there(fmt::format("nothing was asked outside under \"{}\"", said.id),
                                 "an ask that was sent");
            }
            if (ask->came) {
                return not_possible(fmt::format("\"{}\" was answered already: {}", ask->what, ask->answer),
                                    "a note, or the entry of that answer struck first");
            }
            return without_words(said.answer, "an answer from outside");
        },
        just(said));
}

Outcome<CaseNow> hand_over(Book& book, const Writer& writer, const OnCase& on, const HandedOver& said)
{
    return book.write_on(
        writer, Verb::hand_over, on,
        [&](const CaseNow& before) {
            auto refused = without_words(said.to, "a hand-over");
            return refused ? refused : came_meanwhile(book, before, on, is_any_of<HandedOver>);
        },
        just(said));
}

}  // namespace foreday::book
