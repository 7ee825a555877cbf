#pragma once
#include <optional>
#include <string>
#include <vector>

#include "screening/protocol.h"

namespace foreday::screening {

struct Patient {
    std::string name;
    std::string number;
    Date born;
};

struct Booking {
    Patient patient;
    std::vector<ProcedureIndex> procedures;  ///< never empty; interventions too
    LocalMinute start;                       ///< planned start of the procedure, the unit's wall clock
    Moment start_moment;                     ///< the same as a moment
    /// Ordered preparation. Empty: not known; see `ordered_words`.
    std::optional<PreparationIndex> ordered;
    std::string ordered_words;
};

enum class DecisionAnswer : std::uint8_t { agree, change, ask_outside, not_go_ahead };
enum class DecisionManner : std::uint8_t { is_signed, spoken, from_outside };

/// What a clinician decided on one item.
struct Decision {
    std::string item;  ///< item id, "finding:..." or "hold:..."
    DecisionAnswer answer = DecisionAnswer::agree;
    std::string words;  ///< the change or the reason, as said
    std::string who;
    Role role = Role::endoscopist;
    DecisionManner manner = DecisionManner::is_signed;
    Moment when;
    std::optional<std::string> fingerprint;  ///< lower-case hexadecimal; empty: not bound
    /// With `change` of a hold: the last dose the clinician stated.
    std::optional<Date> last_dose;
};

/// A hold that was told to the patient.
struct Told {
    std::string item;
    Moment when;
    std::optional<Date> last_dose;  ///< as told; empty: told without a date
};

/// Somebody's own worry, in own words.
struct OwnConcern {
    std::string words;
    Level level = Level::ask;  ///< ask or stop
    Topic topic = Topic::record;
    std::string who;
    Moment at;
};

/// Food or drink on the day or the evening before.
struct Intake {
    std::string kind;  ///< "clear liquid", "light meal", "fatty meal", "milk"
    LocalMinute at;
    std::string what;
};

/// A clinician has let a readiness item pass as it read at that moment.
struct ItemLetPass {
    std::string item;  ///< id of the readiness item
    /// Why it was not met. Reads it otherwise by now, it is not let pass any more. Empty: however it reads.
    std::string as_it_read;
    auto operator<=>(const ItemLetPass&) const = default;
};

struct Arrival {
    std::optional<LocalMinute> here_since;  ///< empty: not here yet
    std::vector<Intake> intake;
    bool nothing_else_taken = false;  ///< asked, and there was no other intake
    std::vector<std::pair<std::string, Dose>>
        doses_taken;                    ///< item id of the medicine, last dose really taken
    std::vector<ItemLetPass> let_pass;  ///< by item, one each: the last
};

struct Clearance {
    std::string by;
    Role role = Role::nurse;
    Moment when;
    LocalMinute for_start;  ///< the start it was given for
};

/// The fold of a case's entries.
struct CaseRecord {
    std::string id;
    Booking booking;
    std::vector<std::vector<Answer>> answers;  ///< by FactIndex, each in the order it was written
    MedicineList medicines;
    std::vector<Decision> decisions;
    std::vector<Told> told;
    std::vector<OwnConcern> concerns;
    std::optional<Clearance> clearance;
    std::optional<Arrival> arrival;
    std::optional<Moment> done;  ///< end of the procedure; empty: not done
    /// With `done`: everything that was really done, interventions too; ascending. Empty: nobody has said, so
    /// what was booked counts.
    std::vector<ProcedureIndex> done_procedures;
};

}  // namespace foreday::screening
