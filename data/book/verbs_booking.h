#pragma once
#include <string>

#include "data/book/book.h"

/// Verbs of whoever books: patients and bookings.
namespace foreday::book {

/// The id of the new patient: `id`, or the book's own next one where it is empty.
[[nodiscard]] Outcome<std::string> make_patient(Book& book, const Writer& writer, const PatientMade& patient,
                                                const std::string& id = "");
[[nodiscard]] std::optional<Refusal> change_patient(Book& book, const Writer& writer,
                                                    const std::string& patient_id,
                                                    const PatientChanged& change);
/// Every case of `away` becomes one of `into`.
[[nodiscard]] std::optional<Refusal> merge_patients(Book& book, const Writer& writer,
                                                    const PatientMerged& merging);
[[nodiscard]] std::optional<Refusal> split_patients(Book& book, const Writer& writer,
                                                    const PatientSplit& splitting);

/// A new case, under `id` or the book's own next number. What is known of the person from earlier cases comes
/// with it, unconfirmed.
[[nodiscard]] Outcome<CaseNow> make_booking(Book& book, const Writer& writer, const BookingMade& booking,
                                            const std::string& id = "");
[[nodiscard]] Outcome<CaseNow> link_patient(Book& book, const Writer& writer, const OnCase& on,
                                            const PatientLinked& link);
/// Refused once the patient has gone in.
[[nodiscard]] Outcome<CaseNow> reschedule(Book& book, const Writer& writer, const OnCase& on,
                                          const Rescheduled& change);
[[nodiscard]] Outcome<CaseNow> call_off(Book& book, const Writer& writer, const OnCase& on,
                                        const std::string& words);
[[nodiscard]] Outcome<CaseNow> note_did_not_come(Book& book, const Writer& writer, const OnCase& on,
                                                 const std::string& words);

}  // namespace foreday::book
