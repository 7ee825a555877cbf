#pragma once
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "checklists/case_file.h"
#include "data/store/entry.h"
#include "screening/protocol.h"

namespace foreday::book {

/// Something the fold kept but could not place as it was written: said to a person, never dropped in silence.
struct NotPlaced {
    std::int64_t entry = 0;
    std::string kind;
    std::string about;  ///< fact, medicine, item or id it speaks of; may be empty
    std::string why;    ///< one whole sentence
    bool operator==(const NotPlaced&) const = default;
};

/// An answer that counts no longer and is shown beside.
struct SetAside {
    std::int64_t entry = 0;
    std::string fact;
    std::string why;
    screening::Answer answer;
};

/// A medicine that was on the list.
struct StoppedMedicine {
    std::int64_t entry = 0;  ///< of the stopping
    std::string words;
    screening::MedicineItem item;
};

struct IssuedSheet {
    std::int64_t entry = 0;
    std::string sheet;
    std::string language;
    screening::Moment issued;
    std::string who;
    std::optional<screening::Moment> superseded;  ///< empty: the one in force
};

/// Something brought before a clinician at the arrival desk.
struct Escalation {
    std::int64_t entry = 0;
    std::string item;
    std::string to;
    std::string words;
    screening::Moment when;
    std::string who;
};

struct DeskDecision {
    std::int64_t entry = 0;
    std::string item;
    std::string by;
    screening::Role role = screening::Role::endoscopist;
    std::string reason;
    screening::Moment when;
    std::string recorded_by;
};

/// A case as its entries make it, with where each piece comes from.
struct FoldedCase {
    checklists::CaseFile file;
    std::string patient_id;      ///< after mergings; empty: the case is not booked
    std::string booked_for;      ///< before them
    std::int64_t up_to = 0;      ///< last entry that can change the record; the next writer's `seen`
    std::int64_t last_read = 0;  ///< last entry of any kind
    bool booked = false;         ///< false: there is no booking, and `file` is to be used for nothing
    bool patient_known = false;  ///< false: no entry says who the patient is

    /// Numbers of the entries, each list beside its own: record.answers, medicines.items, decisions,
    /// concerns, file.tellings, file.restarts.
    std::vector<std::vector<std::int64_t>> answer_entries;
    std::vector<std::int64_t> medicine_entries;  ///< that which added it or changed it last
    std::vector<std::int64_t> decision_entries;
    std::vector<std::int64_t> concern_entries;
    std::vector<std::int64_t> telling_entries;
    std::vector<std::int64_t> restart_entries;
    std::int64_t booking_entry = 0;
    std::int64_t clearance_entry = 0;  ///< 0: none stands

    std::vector<std::int64_t> struck;  ///< ascending
    std::vector<SetAside> set_aside;
    std::vector<StoppedMedicine> stopped;
    std::vector<IssuedSheet> sheets;
    std::vector<Escalation> escalations;
    std::vector<DeskDecision> desk_decisions;
    std::vector<NotPlaced> not_placed;
};

/// The fold of a case. Total: an entry it cannot read or place is named in `not_placed`.
///
/// An answer is `unseen` when an earlier answer that stood at that time has a number above what its writer
/// had in view. Struck entries leave no trace but their number. An entry of a kind that has no effect changes
/// nothing but `last_read`.
/// @param case_entries     those with the case as subject, in any order
/// @param patient_entries  as patient_entries_for() gives them; those of other patients are left out
[[nodiscard]] FoldedCase fold_case(const screening::Protocol& protocol, const screening::Zone& zone,
                                   std::string case_id, const std::vector<store::Entry>& case_entries,
                                   const std::vector<store::Entry>& patient_entries);

using EntriesOf = std::function<std::vector<store::Entry>(const std::string& subject)>;
/// Every entry about the patient of a case, and about those who were merged with that patient, in the order
/// of their numbers. Each patient is asked for once.
[[nodiscard]] std::vector<store::Entry> patient_entries_for(const std::vector<store::Entry>& case_entries,
                                                            const EntriesOf& entries_of);
/// Id of the patient a case is linked to, before mergings. Empty: not booked.
[[nodiscard]] std::string patient_of(const std::vector<store::Entry>& case_entries);

/// An answer of an earlier case of the same patient.
struct CarriedAnswer {
    screening::FactIndex fact = 0;
    screening::Answer answer;
};
/// What stood in an earlier case for facts of a person, known values only, oldest first within a fact, marked
/// as of an earlier case. Birth date and sex are the booking's to say and are left out.
[[nodiscard]] std::vector<CarriedAnswer> carry_over(const screening::Protocol& protocol,
                                                    const screening::Zone& zone,
                                                    const checklists::CaseFile& earlier,
                                                    screening::Moment now);

}  // namespace foreday::book
