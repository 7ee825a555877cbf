#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "checklists/case_file.h"
#include "data/book/contents_value.h"

/// What is said and done on the phone, and what mends it.
namespace foreday::book {

/// Something somebody said or wrote about one fact. When and at which desk stands in the entry.
struct Answered {
    std::string fact;
    std::optional<StatedValue> value;  ///< empty: asked and not known
    /// With no value only.
    std::optional<screening::WhyNotKnown> why_not_known;
    std::string words;  ///< as spoken
    screening::Informant informant = screening::Informant::patient;
    std::string who;          ///< name of the informant or of the document
    std::string interpreter;  ///< name or number; empty: none
    screening::Strength strength = screening::Strength::said;
    screening::Origin origin = screening::Origin::this_case;
    std::optional<screening::Date> dated;  ///< of the result or letter
};

/// An answer counts no longer and is shown beside, with the reason.
struct AnswerSetAside {
    std::int64_t entry = 0;  ///< number of the answer's entry
    std::string words;
};

/// An entry made in error: hidden from the desks, kept for the auditor.
struct EntryStruck {
    std::int64_t entry = 0;
    std::string words;
};

/// One medicine as it stands on the list.
struct StatedMedicine {
    std::string medicine;  ///< id; empty: nobody could name it, see `heard`
    std::string heard;     ///< as said
    std::string dose;
    screening::Pattern pattern;
    std::string prescriber;
    std::string reason;
    std::optional<screening::Dose> last_dose;  ///< really taken; empty: not known
    screening::Origin origin = screening::Origin::this_case;
    screening::Informant informant = screening::Informant::patient;
    std::string who;  ///< name of the informant or of the document
};

struct MedicineAdded {
    std::string id;  ///< of the list's entry, unique in the case
    StatedMedicine medicine;
};

/// The whole entry of the list as it stands now.
struct MedicineChanged {
    std::string id;
    StatedMedicine medicine;
};

/// The patient does not take it, and no dose of it can still count. One that is only paused, or was left out
/// for the procedure, stays on the list with its last dose.
struct MedicineStopped {
    std::string id;
    std::string words;
};

/// The list is complete, and the must-ask classes were gone through by name.
struct ListClosed {
    std::vector<std::string> gone_through;  ///< ids of the protocol's list questions, asked by name
    screening::Informant informant = screening::Informant::patient;
    std::string who;  ///< who said that it is complete; empty: the patient, or not kept
};

struct ListReopened {
    std::string words;
};

struct NoteMade {
    std::string words;
};

/// Somebody's own worry; whose is in the entry.
struct ConcernRaised {
    std::string words;
    screening::Level level = screening::Level::ask;  ///< ask or stop
    screening::Topic topic = screening::Topic::record;
};

/// One attempt to reach somebody.
struct TryMade {
    std::string call;  ///< id of the call; empty: none
    checklists::TryOutcome outcome = checklists::TryOutcome::no_answer;
    std::string words;
};

struct PatientRangIn {
    std::string call;
    std::string words;
};

/// Broken off so that the emergency number could be dialled.
struct CallEndedForEmergency {
    std::string call;
    std::string words;
};

struct OutsideAskSent {
    std::string id;    ///< unique in the case
    std::string item;  ///< item id it is wanted for; empty: none
    std::string what;
    std::string whom;
    screening::Date reply_by;
};

struct OutsideAskAnswered {
    std::string id;
    std::string answer;
    std::string document;  ///< reference of a letter; empty: none
};

/// Who has the case from now on.
struct HandedOver {
    std::string to;  ///< a person or a desk
    std::string words;
};

}  // namespace foreday::book
