#pragma once
#include <cstdint>
#include <string_view>
#include <vector>

#include "screening/vocabulary.h"

namespace foreday::book {

/// What can be done in a book, one for each verb of the trade.
enum class Verb : std::uint8_t {
    make_patient,
    change_patient,
    make_booking,
    link_patient,
    merge_patients,
    split_patients,
    reschedule,
    call_off,
    note_did_not_come,
    answer,
    set_aside,
    strike,
    add_medicine,
    change_medicine,
    stop_medicine,
    close_list,
    reopen_list,
    note,
    raise_concern,
    record_try,
    record_rang_in,
    end_for_emergency,
    ask_outside,
    record_outside_answer,
    decide,
    record_spoken_decision,
    countersign,
    clear,
    tell,
    record_said_back,
    issue_sheet,
    arrive,
    take_measure,
    record_intake,
    record_dose_taken,
    confirm_item,
    escalate,
    let_pass,
    go_in,
    send_home,
    record_what_was_done,
    record_preparation_quality,
    decide_restart,
    tell_restart,
    close,
    put_in_force,
    set_roster,
    hand_over,
};

/// "add a medicine", "sign a decision": what the person wanted, for a sentence.
[[nodiscard]] std::string_view name_of(Verb verb);

/// Every verb, in the order above.
[[nodiscard]] const std::vector<Verb>& all_verbs();

/// The table of role × verb. Who may decide on one item, or agree to one hold, is narrower still: that
/// hangs on topic and finding. Where DESIGN is silent the table is ours (common practice, no source).
[[nodiscard]] bool may(screening::Role role, Verb verb);

/// The roles that may, in the order of the closed list.
[[nodiscard]] std::vector<screening::Role> roles_that_may(Verb verb);

}  // namespace foreday::book
