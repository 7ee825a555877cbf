#include "data/book/roles.h"

#include <algorithm>
#include <array>
#include <initializer_list>

namespace foreday::book {
namespace {

using screening::Role;

/// Sets of roles the table below is written with.
enum class Who : std::uint8_t {
    staff,       ///< who works on cases: scheduler, arrival clerk, nurse, clinicians of the unit
    office,      ///< who books: scheduler, arrival clerk, nurse
    arrival,     ///< who receives a patient: arrival clerk, nurse, clinicians of the unit
    care,        ///< who takes a history or a measure: nurse, clinicians of the unit
    clinicians,  ///< who decides and signs: clinicians of the unit
    nurse,       ///< who records what a clinician said
    clearing,    ///< nurse where nothing asks, else a clinician; which of the two is for the case to say
    leading,     ///< who answers for content and people: medical director, manager
    records,     ///< who mends patients' identities: scheduler, manager
};

bool belongs(Role role, Who who)
{
    const auto one_of = [role](std::initializer_list<Role> roles) {
        return std::ranges::find(roles, role) != roles.end();
    };
    const bool of_the_unit = one_of({Role::endoscopist, Role::anaesthesia, Role::medical_director});
    switch (who) {
        case Who::staff:
            return of_the_unit || one_of({Role::scheduler, Role::arrival_clerk, Role::nurse});
        case Who::office:
            return one_of({Role::scheduler, Role::arrival_clerk, Role::nurse});
        case Who::arrival:
            return of_the_unit || one_of({Role::arrival_clerk, Role::nurse});
        case Who::care:
            return of_the_unit || role == Role::nurse;
        case Who::clinicians:
            return of_the_unit;
        case Who::nurse:
            return role == Role::nurse;
        case Who::clearing:
            return of_the_unit || role == Role::nurse;
        case Who::leading:
            return one_of({Role::medical_director, Role::manager});
        case Who::records:
            return one_of({Role::scheduler, Role::manager});
    }
    return false;
}

struct Row {
    Verb verb;
    std::string_view name;
    Who who;
};

constexpr std::array table{
    Row{Verb::make_patient, "enter a patient", Who::office},
    Row{Verb::change_patient, "change a patient's name, birth date or phone", Who::office},
    Row{Verb::make_booking, "make a booking", Who::office},
    Row{Verb::link_patient, "link a case to a patient", Who::records},
    Row{Verb::merge_patients, "merge two patients", Who::records},
    Row{Verb::split_patients, "split two patients", Who::records},
    Row{Verb::reschedule, "move a booking", Who::office},
    Row{Verb::call_off, "call off a case", Who::staff},
    Row{Verb::note_did_not_come, "record that a patient did not come", Who::arrival},
    Row{Verb::answer, "record an answer", Who::care},
    Row{Verb::set_aside, "set an answer aside", Who::care},
    Row{Verb::strike, "strike an entry", Who::staff},
    Row{Verb::add_medicine, "add a medicine", Who::care},
    Row{Verb::change_medicine, "change a medicine", Who::care},
    Row{Verb::stop_medicine, "take a medicine off the list", Who::care},
    Row{Verb::close_list, "close the medicine list", Who::care},
    Row{Verb::reopen_list, "reopen the medicine list", Who::care},
    Row{Verb::note, "write a note", Who::staff},
    Row{Verb::raise_concern, "raise a concern", Who::staff},
    Row{Verb::record_try, "record an attempt to reach somebody", Who::staff},
    Row{Verb::record_rang_in, "record that the patient rang", Who::staff},
    Row{Verb::end_for_emergency, "end a call for an emergency", Who::staff},
    Row{Verb::ask_outside, "send an outside ask", Who::care},
    Row{Verb::record_outside_answer, "record an outside answer", Who::care},
    Row{Verb::decide, "sign a decision", Who::clinicians},
    Row{Verb::record_spoken_decision, "record a spoken decision", Who::nurse},
    Row{Verb::countersign, "countersign", Who::clinicians},
    Row{Verb::clear, "clear a case", Who::clearing},
    Row{Verb::tell, "tell a patient the instructions", Who::care},
    Row{Verb::record_said_back, "record that the patient said them back", Who::care},
    Row{Verb::issue_sheet, "issue a sheet", Who::care},
    Row{Verb::arrive, "receive a patient", Who::arrival},
    Row{Verb::take_measure, "enter a measure", Who::care},
    Row{Verb::record_intake, "record food and drink", Who::care},
    Row{Verb::record_dose_taken, "record the last dose really taken", Who::care},
    Row{Verb::confirm_item, "confirm an item of the day", Who::arrival},
    Row{Verb::escalate, "call a clinician to the arrival desk", Who::arrival},
    Row{Verb::let_pass, "let an item of the day pass", Who::clinicians},
    Row{Verb::go_in, "record that the patient went in", Who::care},
    Row{Verb::send_home, "record that it is not today", Who::clinicians},
    Row{Verb::record_what_was_done, "record what was done", Who::care},
    Row{Verb::record_preparation_quality, "record how well the bowel was prepared", Who::care},
    Row{Verb::decide_restart, "decide when a medicine is started again", Who::clinicians},
    Row{Verb::tell_restart, "tell a patient when a medicine is started again", Who::care},
    Row{Verb::close, "close a case", Who::care},
    Row{Verb::put_in_force, "put a protocol or policy in force", Who::leading},
    Row{Verb::set_roster, "set the roster", Who::leading},
    Row{Verb::hand_over, "hand a case over", Who::staff},
};

const Row& row_of(Verb verb)
{
    return *std::ranges::find(table, verb, &Row::verb);
}

}  // namespace

std::string_view name_of(Verb verb)
{
    return row_of(verb).name;
}

const std::vector<Verb>& all_verbs()
{
    static const std::vector<Verb> verbs = [] {
        std::vector<Verb> all;
        for (const Row& row : table) {
            all.push_back(row.verb);
        }
        return all;
    }();
    return verbs;
}

bool may(Role role, Verb verb)
{
    return belongs(role, row_of(verb).who);
}

std::vector<Role> roles_that_may(Verb verb)
{
    std::vector<Role> roles;
    for (auto role = static_cast<unsigned>(Role::scheduler); role <= static_cast<unsigned>(Role::obstetrics);
         ++role) {
        if (may(static_cast<Role>(role), verb)) {
            roles.push_back(static_cast<Role>(role));
        }
    }
    return roles;
}

}  // namespace foreday::book
