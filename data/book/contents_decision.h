#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "data/book/contents_value.h"
#include "screening/record.h"

/// What clinicians decided, and what the patient was told of it.
namespace foreday::book {

/// What was in front of the one who decided. Each is a SHA-256 in lower-case hexadecimal; empty: not kept.
struct Shown {
    std::string page;        ///< of the page's text, a document of the book
    std::string assessment;  ///< of the whole assessment, a document of the book
    std::string protocol;
    std::string policy;
    std::string zone;
};

struct DecidedItem {
    std::string item;
    screening::DecisionAnswer answer = screening::DecisionAnswer::agree;
    std::string words;
    std::string fingerprint;                   ///< as shown; empty: not bound
    std::optional<screening::Date> last_dose;  ///< with `change` of a hold
};

/// By the clinician who is signed in; the name is the entry's, the role the envelope's.
struct DecisionSigned {
    DecidedItem decided;
    Shown shown;
};

/// Recorded by a nurse.
struct DecisionSpoken {
    DecidedItem decided;
    Shown shown;
    std::string clinician;
    screening::Role role = screening::Role::endoscopist;  ///< the clinician's
    WallTime spoken;
    std::string how;  ///< "by phone"
    bool read_back = false;
};

/// From a prescriber, cardiologist and so on.
struct DecisionFromOutside {
    DecidedItem decided;
    Shown shown;
    std::string who;
    screening::Role role = screening::Role::prescriber;
    std::string practice;
    std::string how;
    WallTime given;
    std::string document;  ///< reference; empty: none
};

/// The clinician signs what was spoken.
struct Countersigned {
    std::int64_t entry = 0;  ///< of the spoken decision
    Shown shown;
};

/// One `act` item that clearance leaves open.
struct StillToDo {
    std::string item;
    std::string who;
    std::optional<WallTime> by;
};

struct ClearanceGiven {
    WallTime for_start;
    std::vector<StillToDo> still_to_do;
    Shown shown;
};

/// It does not come back: a new one is given.
struct ClearanceLapsed {
    std::string because;
};

struct ToldHold {
    std::string item;
    std::optional<screening::Date> last_dose;  ///< as told; empty: told without a date
};

/// The patient was told the instructions.
struct HoldsTold {
    std::vector<ToldHold> holds;
    std::string sheet;  ///< hash of the sheet's content; empty: no sheet
    std::string words;
};

struct SaidBack {
    std::int64_t entry = 0;  ///< of the telling
};

struct SheetIssued {
    std::string sheet;  ///< hash of the sheet's content, a document of the book
    std::string language;
    std::string how;  ///< "read out", "by post"
};

struct SheetSuperseded {
    std::string sheet;
    std::string words;
};

/// How one medicine is started again.
struct RestartDecided {
    std::string item;  ///< item id of the hold
    std::string words;
    std::optional<screening::Date> from;  ///< empty: in words only
};

struct RestartTold {
    std::vector<std::string> items;
    std::string words;
};

}  // namespace foreday::book
