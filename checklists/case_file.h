#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "screening/record.h"

namespace foreday::checklists {

/// What came of one attempt to reach somebody.
enum class TryOutcome : std::uint8_t {
    reached,
    no_answer,
    message_left,
    wrong_number,
    rang_in,                 ///< the patient rang the unit
    ended_for_an_emergency,  ///< broken off so that the emergency number could be dialled
};
[[nodiscard]] std::string_view name_of(TryOutcome outcome);  ///< as files write it: "no answer"
[[nodiscard]] std::optional<TryOutcome> find_try_outcome(std::string_view name);

/// One attempt.
struct Try {
    std::string call;  ///< id of the call it was made for; empty: for none
    screening::Moment when;
    std::string who;
    TryOutcome outcome = TryOutcome::no_answer;
    std::string words;
};

/// Something wanted from a prescriber, cardiologist or laboratory.
struct OutsideAsk {
    std::string id;    ///< unique in the case
    std::string item;  ///< the item it is wanted for; empty: for none
    std::string what;
    std::string whom;
    screening::Moment sent;
    screening::Date reply_by;
    std::optional<screening::Moment> came;  ///< empty: no answer yet
    std::string answer;
};

/// One time the patient was told the instructions.
struct Telling {
    screening::Moment when;
    std::string who;
    std::string sheet;  ///< hash of SheetContent::bytes as told; empty: told without a sheet
    bool said_back = false;
};

/// Why the session does not take place as booked.
enum class EndingKind : std::uint8_t { called_off, did_not_come, not_today };
[[nodiscard]] std::string_view name_of(EndingKind kind);  ///< as files write it: "called off"
[[nodiscard]] std::optional<EndingKind> find_ending_kind(std::string_view name);
struct Ending {
    EndingKind kind = EndingKind::called_off;
    screening::Moment when;
    std::string who;
    std::string words;
};

/// How one medicine is started again, decided from what was really done.
struct Restart {
    std::string item;  ///< item id of the hold
    screening::Moment when;
    std::string who;
    screening::Role role = screening::Role::endoscopist;
    std::string words;
    std::optional<screening::Date> from;    ///< empty: in words only
    std::optional<screening::Moment> told;  ///< empty: not told yet
};

struct Note {
    screening::Moment when;
    std::string who;
    std::string words;
};

/// A clearance that was entered as lapsed.
struct LapsedClearance {
    screening::Moment when;  ///< it was entered
    std::string because;     ///< a clause
    screening::Clearance given;
};

/// Everything kept about a case: what the assessment is computed from, and the work done around it.
struct CaseFile {
    screening::CaseRecord record;
    std::vector<std::string> phones;
    screening::Moment booked_at;
    std::optional<screening::Moment> moved_at;  ///< last change of date or procedure; empty: never moved
    std::string who_has_it;                     ///< a person or a desk; empty: the phone desk
    std::vector<Try> tries;                     ///< in the order they were made, as everything below
    std::vector<OutsideAsk> outside_asks;
    std::vector<Telling> tellings;
    std::vector<Note> notes;
    /// A clearance was entered as lapsed, and none has been given since. Empty: none was.
    std::optional<LapsedClearance> clearance_lapsed;
    std::optional<Ending> ending;
    std::optional<screening::Moment> gone_in;
    std::string preparation_quality;  ///< as the endoscopist saw it; empty: not said
    std::vector<Restart> restarts;
    std::optional<screening::Moment> closed;
};

}  // namespace foreday::checklists
