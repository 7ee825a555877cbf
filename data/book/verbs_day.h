#pragma once
#include <string>

#include "data/book/book.h"

/// Verbs of the day, from the arrival desk to the closing of the case.
namespace foreday::book {

/// Refused on another day than the booking's, and twice.
[[nodiscard]] Outcome<CaseNow> arrive(Book& book, const Writer& writer, const OnCase& on);
[[nodiscard]] Outcome<CaseNow> take_measure(Book& book, const Writer& writer, const OnCase& on,
                                            const Measured& said);
[[nodiscard]] Outcome<CaseNow> record_intake(Book& book, const Writer& writer, const OnCase& on,
                                             const IntakeStated& said);
[[nodiscard]] Outcome<CaseNow> record_nothing_else(Book& book, const Writer& writer, const OnCase& on);
[[nodiscard]] Outcome<CaseNow> record_dose_taken(Book& book, const Writer& writer, const OnCase& on,
                                                 const DoseReallyTaken& said);
[[nodiscard]] Outcome<CaseNow> confirm_item(Book& book, const Writer& writer, const OnCase& on,
                                            const ItemConfirmed& said);
[[nodiscard]] Outcome<CaseNow> escalate(Book& book, const Writer& writer, const OnCase& on,
                                        const Escalated& said);

/// A clinician lets one item of the day pass.
/// @param shown_why  ReadinessItem::why as shown; refused when it reads otherwise now
[[nodiscard]] Outcome<CaseNow> let_pass(Book& book, const Writer& writer, const OnCase& on,
                                        const std::string& item, const std::string& reason,
                                        const std::string& shown_why);
/// Refused unless the patient may go in, with every reason why not.
[[nodiscard]] Outcome<CaseNow> go_in(Book& book, const Writer& writer, const OnCase& on);
[[nodiscard]] Outcome<CaseNow> send_home(Book& book, const Writer& writer, const OnCase& on,
                                         const std::string& words);

[[nodiscard]] Outcome<CaseNow> record_what_was_done(Book& book, const Writer& writer, const OnCase& on,
                                                    const WorkDone& said);
[[nodiscard]] Outcome<CaseNow> record_preparation_quality(Book& book, const Writer& writer, const OnCase& on,
                                                          const QualityStated& said);
/// By an agreeing role, from what was really done; refused before that, and for a day before it.
[[nodiscard]] Outcome<CaseNow> decide_restart(Book& book, const Writer& writer, const OnCase& on,
                                              const RestartDecided& said);
[[nodiscard]] Outcome<CaseNow> tell_restart(Book& book, const Writer& writer, const OnCase& on,
                                            const RestartTold& said);
/// Refused while a medicine is left without its restart decided and told.
[[nodiscard]] Outcome<CaseNow> close(Book& book, const Writer& writer, const OnCase& on,
                                     const std::string& words);

}  // namespace foreday::book
