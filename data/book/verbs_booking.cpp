#include "data/book/verbs_booking.h"

#include <fmt/format.h>

#include "data/book/codec.h"
#include "data/book/fold_value.h"
#include "data/book/meanwhile.h"
#include "data/book/projecting.h"
#include "data/book/refusals.h"

namespace foreday::book {
namespace {

using screening::Date;
using store::Chain;

/// The next number of the journal makes an id nobody else can get: it is taken in the same transaction.
std::string next_id(const Book& book, char letter)
{
    return fmt::format("{}{:06}", letter, book.store().head(Chain::journal).number + 1);
}

std::optional<Refusal> bad_patient(const PatientMade& patient)
{
    if (patient.name.empty()) {
        return malformed("a patient without a name", "the name as booked");
    }
    return std::nullopt;
}

std::optional<Refusal> bad_start(const WallTime& start)
{
    constexpr Date first_refused = Date{date::local_days{date::year{2038} / date::January / 1}};
    if (start.local >= first_refused) {
        return malformed(fmt::format("a procedure at {} is too far ahead", screening::iso_local(start.local)),
                         "a day before 2038, as clocks are known no further");
    }
    return std::nullopt;
}

/// Cases that were booked for a patient, or for one merged with that patient.
std::vector<store::CaseProjection> cases_of(const Book& book, const std::string& patient)
{
    constexpr std::size_t more_than_anyone_has = 1000;
    return book.store().search(search_words_of(patient), std::nullopt, Date{}, more_than_anyone_has);
}

/// What earlier cases of the patient know of the person.
std::vector<Content> carried(const Book& book, const CaseNow& fresh)
{
    std::vector<Content> contents;
    const auto& protocol = fresh.rules().protocol;
    for (const auto& row : cases_of(book, fresh.folded.patient_id)) {
        if (row.patient_id != fresh.folded.patient_id || row.case_id == fresh.id()) {
            continue;
        }
        const auto earlier = book.open(row.case_id);
        if (!earlier) {
            continue;
        }
        for (const CarriedAnswer& answer :
             carry_over(protocol, fresh.rules().zone, earlier->file(), fresh.at)) {
            contents.emplace_back(answered(protocol.facts.at(answer.fact), answer.answer));
        }
    }
    return contents;
}

std::optional<Refusal> project_cases_of(const Book& book, const std::string& patient, store::Writing& writing)
{
    for (const auto& row : cases_of(book, patient)) {
        if (const auto again = book.project_again(row.case_id, writing); !again) {
            return again.error();
        }
    }
    return std::nullopt;
}

std::optional<Refusal> still_to_come(const CaseNow& now)
{
    if (now.file().gone_in || now.record().done || now.file().closed) {
        return not_possible("the patient has gone in, or the case is closed", "a new booking");
    }
    return std::nullopt;
}

/// Whether there is anything left to move or to call off, as whoever booked it saw it: another start, another
/// end, and a patient who is here by now.
std::optional<Refusal> as_booked(const Book& book, const CaseNow& before, const OnCase& on)
{
    auto refused = still_to_come(before);
    return refused ? refused : came_meanwhile(book, before, on, [](const Content& content) {
        return is_moved_or_ended(content) || is_any_of<PatientLinked, Arrived>(content);
    });
}

std::optional<Refusal> write_on_both(Book& book, const Writer& writer, Verb verb, const std::string& one,
                                     const std::string& other, const Content& content)
{
    if (one == other) {
        return malformed("a patient cannot be merged with, or split from, themselves", "two patients");
    }
    return book.write(writer, verb, [&](store::Writing& writing) -> std::optional<Refusal> {
        for (const std::string& id : {one, other}) {
            if (writing.entries_of(id).empty()) {
                return not_there(fmt::format("there is no patient {} in this book", id),
                                 "a patient of the book");
            }
        }
        writing.append(Chain::journal, book.entry(writer, one, 0, content));
        writing.append(Chain::journal, book.entry(writer, other, 0, content));
        if (auto refused = project_cases_of(book, one, writing)) {
            return refused;
        }
        return project_cases_of(book, other, writing);
    });
}

}  // namespace

Outcome<std::string> make_patient(Book& book, const Writer& writer, const PatientMade& patient,
                                  const std::string& id)
{
    std::string made = id;
    auto refused = bad_patient(patient);
    if (!refused) {
        refused =
            book.write(writer, Verb::make_patient, [&](store::Writing& writing) -> std::optional<Refusal> {
                made = id.empty() ? next_id(book, 'P') : id;
                if (!writing.entries_of(made).empty()) {
                    return not_possible(fmt::format("{} is in this book already", made),
                                        "another number, or none");
                }
                writing.append(Chain::journal, book.entry(writer, made, 0, patient));
                return std::nullopt;
            });
    }
    if (refused) {
        return tl::unexpected(std::move(*refused));
    }
    return made;
}

std::optional<Refusal> change_patient(Book& book, const Writer& writer, const std::string& patient_id,
                                      const PatientChanged& change)
{
    if (change.name && change.name->empty()) {
        return malformed("a patient without a name", "the name as booked");
    }
    return book.write(writer, Verb::change_patient, [&](store::Writing& writing) -> std::optional<Refusal> {
        const auto there = writing.entries_of(patient_id);
        if (there.empty()) {
            return not_there(fmt::format("there is no patient {} in this book", patient_id),
                             "a patient of the book");
        }
        writing.append(Chain::journal, book.entry(writer, patient_id, there.back().number, change));
        return project_cases_of(book, patient_id, writing);
    });
}

std::optional<Refusal> merge_patients(Book& book, const Writer& writer, const PatientMerged& merging)
{
    return write_on_both(book, writer, Verb::merge_patients, merging.away, merging.into, merging);
}

std::optional<Refusal> split_patients(Book& book, const Writer& writer, const PatientSplit& splitting)
{
    return write_on_both(book, writer, Verb::split_patients, splitting.away, splitting.from, splitting);
}

Outcome<CaseNow> make_booking(Book& book, const Writer& writer, const BookingMade& booking,
                              const std::string& id)
{
    if (auto refused = bad_start(booking.start)) {
        return tl::unexpected(std::move(*refused));
    }
    if (booking.procedures.empty()) {
        return tl::unexpected(
            malformed("a booking without a procedure", "at least one procedure of the protocol"));
    }
    Outcome<CaseNow> outcome;
    auto refused =
        book.write(writer, Verb::make_booking, [&](store::Writing& writing) -> std::optional<Refusal> {
            const std::string made = id.empty() ? next_id(book, 'C') : id;
            if (!writing.entries_of(made).empty()) {
                return not_possible(fmt::format("{} is in this book already", made),
                                    "another case number, or none");
            }
            if (writing.entries_of(booking.patient).empty()) {
                return not_there(fmt::format("there is no patient {} in this book", booking.patient),
                                 "a patient entered before");
            }
            writing.append(Chain::journal, book.entry(writer, made, 0, booking));
            const auto fresh =
                book.open_from(made, [&](const std::string& subject) { return writing.entries_of(subject); });
            if (!fresh) {
                return fresh.error();
            }
            if (!fresh->folded.not_placed.empty()) {
                return malformed(fresh->folded.not_placed.front().why, "what the protocol in force has");
            }
            for (const Content& content : carried(book, *fresh)) {
                writing.append(Chain::journal, book.entry(writer, made, fresh->folded.up_to, content));
            }
            outcome = book.project_again(made, writing);
            return outcome ? std::nullopt : std::optional(outcome.error());
        });
    if (refused) {
        return tl::unexpected(std::move(*refused));
    }
    return outcome;
}

Outcome<CaseNow> link_patient(Book& book, const Writer& writer, const OnCase& on, const PatientLinked& link)
{
    return book.write_on(
        writer, Verb::link_patient, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (book.store().entries_of(link.patient).empty()) {
                return not_there(fmt::format("there is no patient {} in this book", link.patient),
                                 "a patient entered before");
            }
            return came_meanwhile(book, before, on, is_any_of<PatientLinked>);
        },
        just(link));
}

Outcome<CaseNow> reschedule(Book& book, const Writer& writer, const OnCase& on, const Rescheduled& change)
{
    if (change.start) {
        if (auto refused = bad_start(*change.start)) {
            return tl::unexpected(std::move(*refused));
        }
    }
    return book.write_on(
        writer, Verb::reschedule, on, [&](const CaseNow& before) { return as_booked(book, before, on); },
        just(change));
}

Outcome<CaseNow> call_off(Book& book, const Writer& writer, const OnCase& on, const std::string& words)
{
    if (words.empty()) {
        return tl::unexpected(malformed("a case called off without a reason", "the reason in a few words"));
    }
    return book.write_on(
        writer, Verb::call_off, on, [&](const CaseNow& before) { return as_booked(book, before, on); },
        just(CalledOff{words}));
}

Outcome<CaseNow> note_did_not_come(Book& book, const Writer& writer, const OnCase& on,
                                   const std::string& words)
{
    return book.write_on(
        writer, Verb::note_did_not_come, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (before.record().arrival && before.record().arrival->here_since) {
                return not_possible("the patient was received", "the entry of the arrival struck first");
            }
            return as_booked(book, before, on);
        },
        just(DidNotCome{words}));
}

}  // namespace foreday::book
