#include "tests/book/acts.h"

#include <algorithm>
#include <stdexcept>

#include "data/book/verbs_booking.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_phone.h"
#include "data/book/verbs_unit.h"
#include "data/reading/yaml_text.h"

namespace foreday::tests {
namespace {

using book::Book;
using book::CaseNow;
using book::OnCase;

Done done_by(const book::Outcome<CaseNow>& outcome)
{
    if (!outcome) {
        return tl::unexpected(outcome.error());
    }
    return outcome->remarks;
}

Done done_by(const std::optional<book::Refusal>& refused)
{
    if (refused) {
        return tl::unexpected(*refused);
    }
    return std::vector<std::string>{};
}

/// A thing done in view of the case as a whole.
template <class Verb>
Act act(std::string name, const Verb& verb)
{
    return {std::move(name),
            [verb](Desk& desk, const std::string& id) {
                return [verb, &desk, on = desk.on(id)] { return done_by(verb(desk.book(), on)); };
            },
            {}};
}

/// A thing that hangs on something of the page: it is taken from the case as shown.
template <class Shown, class Verb>
Act act_as_shown(std::string name, const Shown& shown, const Verb& verb)
{
    return {std::move(name),
            [shown, verb](Desk& desk, const std::string& id) {
                return [verb, &desk, on = desk.on(id), seen = shown(desk, desk.now(id))] {
                    return done_by(verb(desk.book(), on, seen));
                };
            },
            {}};
}

Act answers(std::string name, const book::Answered& said)
{
    Act made = act(std::move(name), [said](Book& book, const OnCase& on) {
        return book::answer(book, second_nurse, on, said);
    });
    made.fact = said.fact;
    return made;
}

book::Answered by_letter(book::Answered said)
{
    said.informant = screening::Informant::letter;
    said.strength = screening::Strength::dated_document;
    said.who = "letter of the family doctor";
    said.dated = day("2027-03-29");
    return said;
}

Act moves_to(std::string name, const char* start)
{
    return act(std::move(name), [start](Book& book, const OnCase& on) {
        return book::reschedule(book, scheduler, on, {wall(start), {}, {}, "asked"});
    });
}

Act adds(std::string name, const char* medicine)
{
    return act(std::move(name), [medicine](Book& book, const OnCase& on) {
        return book::add_medicine(book, nurse, on, on_list(medicine));
    });
}

Act changes_warfarin()
{
    return act("changes the dose of warfarin", [](Book& book, const OnCase& on) {
        book::StatedMedicine said = on_list("warfarin");
        said.dose = "5 mg";
        return book::change_medicine(book, nurse, on, {"m1", said});
    });
}

Act calls_off()
{
    return act("calls off",
               [](Book& book, const OnCase& on) { return book::call_off(book, scheduler, on, "asked"); });
}

Act worries()
{
    return act("raises a concern", [](Book& book, const OnCase& on) {
        return book::raise_concern(book, second_nurse, on,
                                   {"short of breath", screening::Level::ask, screening::Topic::heart});
    });
}

Act hands_over()
{
    return act("hands over", [](Book& book, const OnCase& on) {
        return book::hand_over(book, nurse, on, {"Nurse Ansgar Leith", ""});
    });
}

Act notes()
{
    return act("writes a note", [](Book& book, const OnCase& on) {
        return book::note(book, second_nurse, on, "prefers mornings");
    });
}

/// Five whole days without warfarin become four: the hold has another result.
Act answers_a_policy_question()
{
    return act("puts a policy in force", [](Book& book, const OnCase& /*on*/) {
        return book::put_in_force(
            book, director,
            demo_texts_with("answers: {}",
                            "answers: {warfarin_polypectomy: {option: omit_four_days, reason: "
                            "the laboratory's own figures, by: Dr Imke Sandvoort, role: medical "
                            "director, on: 2027-03-01}}"));
    });
}

Act signs_and_clears()
{
    return act_as_shown(
        "signs and clears", [](Desk& desk, const CaseNow& now) { return desk.page_of(now.id()); },
        [](Book& book, const OnCase& on, const book::SignedPage& page) {
            return book::sign(book, physician, on, page);
        });
}

Act speaks_a_decision()
{
    return act_as_shown(
        "notes a spoken decision",
        [](Desk& /*desk*/, const CaseNow& now) {
            return book::DecisionSpoken{{"hold:m1", screening::DecisionAnswer::agree, "five days",
                                         book::shown_items(now).at("hold:m1"), std::nullopt},
                                        {},
                                        "Dr Ruben Castell",
                                        screening::Role::endoscopist,
                                        book::wall_time(now.rules().zone, now.at),
                                        "by phone",
                                        true};
        },
        [](Book& book, const OnCase& on, const book::DecisionSpoken& spoken) {
            return book::record_spoken_decision(book, second_nurse, on, spoken);
        });
}

Act countersigns()
{
    return act_as_shown(
        "countersigns",
        [](Desk& /*desk*/, const CaseNow& now) { return now.folded.decision_entries.front(); },
        [](Book& book, const OnCase& on, std::int64_t entry) {
            return book::countersign(book, physician, on, entry);
        });
}

Act clears()
{
    return act_as_shown(
        "clears", [](Desk& /*desk*/, const CaseNow& now) { return book::shown_items(now); },
        [](Book& book, const OnCase& on, const book::ShownItems& shown) {
            return book::clear(book, physician, on, shown);
        });
}

Act tells()
{
    return act_as_shown(
        "tells", [](Desk& /*desk*/, const CaseNow& now) { return book::sheet_hash(now); },
        [](Book& book, const OnCase& on, const std::string& sheet) {
            return book::tell(book, nurse, on, sheet, "by phone");
        });
}

Act hears_it_said_back()
{
    return act_as_shown(
        "hears it said back",
        [](Desk& /*desk*/, const CaseNow& now) { return now.folded.telling_entries.front(); },
        [](Book& book, const OnCase& on, std::int64_t entry) {
            return book::record_said_back(book, nurse, on, entry);
        });
}

Act issues_the_sheet()
{
    return act_as_shown(
        "issues the sheet", [](Desk& /*desk*/, const CaseNow& now) { return book::sheet_hash(now); },
        [](Book& book, const OnCase& on, const std::string& sheet) {
            return book::issue_sheet(book, nurse, on, {sheet, "en", "by post"});
        });
}

Act confirms(std::string name, bool confirmed)
{
    return act(std::move(name), [confirmed](Book& book, const OnCase& on) {
        return book::confirm_item(book, second_nurse, on,
                                  {"identity_two_ways", "identity_confirmed", confirmed, ""});
    });
}

Act measures(std::string name, const book::Answered& value)
{
    return act(std::move(name), [value](Book& book, const OnCase& on) {
        return book::take_measure(book, nurse, on, {value.fact, value.value, "", ""});
    });
}

Act changes_patient(std::string name, const book::PatientChanged& change)
{
    return {std::move(name),
            [change](Desk& desk, const std::string& id) {
                return [change, &desk, patient = desk.now(id).folded.patient_id] {
                    return done_by(book::change_patient(desk.book(), scheduler, patient, change));
                };
            },
            {}};
}

}  // namespace

std::vector<Act> acts_before_the_day()
{
    return {
        answers("weight 84, said", weight("84")),
        answers("weight 90, said", weight("90")),
        answers("weight 95, by letter", by_letter(weight("95"))),
        answers("pacemaker, said", said("heart_device", book::NamedChoice{"pacemaker"})),
        answers("defibrillator, by letter",
                by_letter(said("heart_device", book::NamedChoice{"defibrillator"}))),
        answers("heart attack: yes", said("heart_attack", true)),
        act_as_shown(
            "strikes the weight",
            [](Desk& /*desk*/, const CaseNow& now) {
                return now.folded.answer_entries.at(fact("weight")).back();
            },
            [](Book& book, const OnCase& on, std::int64_t entry) {
                return book::strike(book, nurse, on, {entry, "a slip"});
            }),
        adds("adds clopidogrel", "clopidogrel"),
        changes_warfarin(),
        act("stops warfarin",
            [](Book& book, const OnCase& on) {
                return book::stop_medicine(book, second_nurse, on, {"m1", "since March"});
            }),
        act("closes the list",
            [](Book& book, const OnCase& on) {
                return book::close_list(book, second_nurse, on, whole_list());
            }),
        act("reopens the list",
            [](Book& book, const OnCase& on) { return book::reopen_list(book, nurse, on, "another one"); }),
        worries(),
        signs_and_clears(),
        speaks_a_decision(),
        countersigns(),
        clears(),
        tells(),
        hears_it_said_back(),
        issues_the_sheet(),
        moves_to("moves the session", "2027-04-29T09:00"),
        calls_off(),
        act("asks outside",
            [](Book& book, const OnCase& on) {
                return book::ask_outside(book, nurse, on,
                                         {"o2", "", "the last creatinine", "laboratory", day("2027-04-12")});
            }),
        act("answers from outside",
            [](Book& book, const OnCase& on) {
                return book::record_outside_answer(book, second_nurse, on, {"o1", "yes, it may pause", ""});
            }),
        hands_over(),
        notes(),
        answers_a_policy_question(),
    };
}

std::vector<Act> acts_of_the_morning()
{
    return {
        act("receives the patient",
            [](Book& book, const OnCase& on) { return book::arrive(book, clerk, on); }),
        act("did not come",
            [](Book& book, const OnCase& on) {
                return book::note_did_not_come(book, nurse, on, "not here by ten");
            }),
        calls_off(),
        moves_to("moves it by an hour", "2027-06-15T10:30"),
        moves_to("moves it by a week", "2027-06-22T09:30"),
        changes_patient(
            "mends the birth date",
            {.name = {}, .number = {}, .born = day("1964-09-18"), .sex = {}, .phones = {}, .words = ""}),
        changes_patient(
            "mends the phone number",
            {.name = {}, .number = {}, .born = {}, .sex = {}, .phones = {{"555-0123"}}, .words = ""}),
        answers("weight 84, said", weight("84")),
        tells(),
        hands_over(),
    };
}

std::vector<Act> acts_of_the_day()
{
    return {
        measures("measures INR 1.2", said_number("inr_today", "1.2", "")),
        measures("measures the pulse", said_number("pulse_today", "74", "/min")),
        answers("weight 84, said", weight("84")),
        confirms("confirms the identity", true),
        confirms("denies the identity", false),
        answers("identity, said", said("identity_confirmed", false)),
        act("records coffee",
            [](Book& book, const OnCase& on) {
                return book::record_intake(book, nurse, on,
                                           {"clear liquid", wall("2027-06-15T07:50"), "black coffee"});
            }),
        act("nothing else was taken",
            [](Book& book, const OnCase& on) { return book::record_nothing_else(book, second_nurse, on); }),
        act("warfarin really taken",
            [](Book& book, const OnCase& on) {
                return book::record_dose_taken(book, nurse, on,
                                               {"m1", {day("2027-06-10"), screening::TimeOfDay{18 * 60}}});
            }),
        changes_warfarin(),
        adds("adds clopidogrel", "clopidogrel"),
        act("brings the INR before a clinician",
            [](Book& book, const OnCase& on) {
                return book::escalate(book, nurse, on, {"inr_below_limit", physician.who, "please look"});
            }),
        act_as_shown(
            "lets the INR pass",
            [](Desk& /*desk*/, const CaseNow& now) {
                const auto& items = now.whole.readiness.items;
                return std::ranges::find(items, "inr_below_limit", &checklists::ReadinessItem::id)->why;
            },
            [](Book& book, const OnCase& on, const std::string& why) {
                return book::let_pass(book, physician, on, "inr_below_limit", "no biopsies", why);
            }),
        act("goes in", [](Book& book, const OnCase& on) { return book::go_in(book, nurse, on); }),
        act("not today",
            [](Book& book, const OnCase& on) { return book::send_home(book, physician, on, "unwell"); }),
        calls_off(),
        moves_to("moves it by an hour", "2027-06-15T10:30"),
        moves_to("moves it by a week", "2027-06-22T09:30"),
        worries(),
        signs_and_clears(),
        tells(),
        answers_a_policy_question(),
        hands_over(),
    };
}

std::vector<Act> acts_afterwards()
{
    return {
        act("what was done, mended",
            [](Book& book, const OnCase& on) {
                return book::record_what_was_done(
                    book, physician, on, {wall("2027-06-15T10:10"), {"colonoscopy"}, "two polyps removed"});
            }),
        act("says how clean it was",
            [](Book& book, const OnCase& on) {
                return book::record_preparation_quality(book, physician, on, {"clean"});
            }),
        act("decides the restart",
            [](Book& book, const OnCase& on) {
                return book::decide_restart(book, physician, on, {"hold:m1", "", day("2027-06-18")});
            }),
        act("tells the restart",
            [](Book& book, const OnCase& on) {
                return book::tell_restart(book, nurse, on, {{"hold:m1"}, ""});
            }),
        act("closes the case",
            [](Book& book, const OnCase& on) { return book::close(book, nurse, on, "gone home"); }),
        answers("weight 84, said", weight("84")),
        notes(),
        hands_over(),
        answers_a_policy_question(),
    };
}

}  // namespace foreday::tests
