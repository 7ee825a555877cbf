#pragma once
#include <string>

#include "data/book/book.h"

/// Verbs of the phone desk. Answers to different facts merge; what two answers to one fact come to, the fold
/// says.
namespace foreday::book {

/// Refused outside the fact's plausible range. Once its question has ceased to apply an answer is kept, set
/// aside, and said in CaseNow::remarks.
[[nodiscard]] Outcome<CaseNow> answer(Book& book, const Writer& writer, const OnCase& on,
                                      const Answered& said);
[[nodiscard]] Outcome<CaseNow> set_aside(Book& book, const Writer& writer, const OnCase& on,
                                         const AnswerSetAside& said);
/// Hides an entry of this case, made in error. Never a strike, and a clinician's entries only by whoever
/// wrote them.
[[nodiscard]] Outcome<CaseNow> strike(Book& book, const Writer& writer, const OnCase& on,
                                      const EntryStruck& said);

/// Adds an entry to the list; its id is the book's to give. The same ingredient twice is pointed out in
/// CaseNow::remarks, never fused.
[[nodiscard]] Outcome<CaseNow> add_medicine(Book& book, const Writer& writer, const OnCase& on,
                                            const StatedMedicine& medicine);
[[nodiscard]] Outcome<CaseNow> change_medicine(Book& book, const Writer& writer, const OnCase& on,
                                               const MedicineChanged& said);
[[nodiscard]] Outcome<CaseNow> stop_medicine(Book& book, const Writer& writer, const OnCase& on,
                                             const MedicineStopped& said);
/// Refused when the list has changed since `on.seen`: who says that it is complete must have seen all of it.
[[nodiscard]] Outcome<CaseNow> close_list(Book& book, const Writer& writer, const OnCase& on,
                                          const ListClosed& said);
[[nodiscard]] Outcome<CaseNow> reopen_list(Book& book, const Writer& writer, const OnCase& on,
                                           const std::string& words);

[[nodiscard]] Outcome<CaseNow> note(Book& book, const Writer& writer, const OnCase& on,
                                    const std::string& words);
[[nodiscard]] Outcome<CaseNow> raise_concern(Book& book, const Writer& writer, const OnCase& on,
                                             const ConcernRaised& concern);
[[nodiscard]] Outcome<CaseNow> record_try(Book& book, const Writer& writer, const OnCase& on,
                                          const TryMade& said);
[[nodiscard]] Outcome<CaseNow> record_rang_in(Book& book, const Writer& writer, const OnCase& on,
                                              const PatientRangIn& said);
[[nodiscard]] Outcome<CaseNow> end_for_emergency(Book& book, const Writer& writer, const OnCase& on,
                                                 const CallEndedForEmergency& said);
[[nodiscard]] Outcome<CaseNow> ask_outside(Book& book, const Writer& writer, const OnCase& on,
                                           const OutsideAskSent& said);
[[nodiscard]] Outcome<CaseNow> record_outside_answer(Book& book, const Writer& writer, const OnCase& on,
                                                     const OutsideAskAnswered& said);
[[nodiscard]] Outcome<CaseNow> hand_over(Book& book, const Writer& writer, const OnCase& on,
                                         const HandedOver& said);

}  // namespace foreday::book
