#pragma once
#include <optional>

#include "data/reading/entries.h"
#include "data/reading/map_reader.h"
#include "screening/record.h"

namespace foreday::data {

/// A case while it is read.
struct CaseDraft {
    CaseDraft(const screening::Rules& rules_read, screening::Moment otherwise);

    const screening::Rules& rules;
    screening::Moment now;  ///< as_of, or what stands in its place
    Faults faults;
    Faults warnings;
    screening::CaseRecord record;

    IdTable facts;
    IdTable medicines;
    IdTable preparations;
    IdTable procedures;
    IdTable findings;
    IdTable readiness;
};

/// A written time as a moment of the unit's zone.
[[nodiscard]] std::optional<screening::Moment> read_moment(const Located& node, CaseDraft& draft);
/// The same as the unit's wall clock shows it.
[[nodiscard]] std::optional<screening::LocalMinute> read_local(const Located& node, CaseDraft& draft);
/// The moment under a key, or as_of without it.
[[nodiscard]] screening::Moment moment_at(const MapReader& map, std::string_view key, CaseDraft& draft);
/// A day, or a day with its time.
[[nodiscard]] std::optional<screening::Dose> read_dose(const Located& node, CaseDraft& draft);

/// How the faults of a list of procedures are worded.
struct ProcedureWords {
    std::string_view happened;  ///< "booked": what happened to each of them
    std::string_view none;      ///< the whole fault of an empty list
};
/// Places of the procedures named, ascending. One that stands twice and an empty list are faults.
[[nodiscard]] std::vector<screening::ProcedureIndex> read_procedures(const Located& node,
                                                                     const ProcedureWords& words,
                                                                     CaseDraft& draft);
void read_booking(const Located& node, CaseDraft& draft);
/// `facts:` of a case.
void read_case_facts(const Located& node, CaseDraft& draft);
void read_medicine_list(const Located& node, CaseDraft& draft);
void read_decisions(const Located& node, CaseDraft& draft);
void read_told(const Located& node, CaseDraft& draft);
void read_concerns(const Located& node, CaseDraft& draft);
void read_cleared(const Located& node, CaseDraft& draft);
void read_arrival(const Located& node, CaseDraft& draft);
void read_done(const Located& node, CaseDraft& draft);

/// Who gave an answer and how, where the answer itself does not say.
enum class AnswerSetting {
    phone_call,      ///< said by the patient
    measured_today,  ///< measured by the staff
};
/// One answer or a list of them, appended to those of a fact in the order written.
void read_answers_of(const Located& key, const Located& node, AnswerSetting setting, CaseDraft& draft);

}  // namespace foreday::data
