#pragma once
#include <optional>
#include <string>
#include <vector>

#include "data/book/contents_value.h"
#include "screening/vocabulary.h"

/// The day of the session, from the arrival desk to the end.
namespace foreday::book {

struct Arrived {
    WallTime here_since;
};

/// A value measured or seen here by the staff.
struct Measured {
    std::string fact;
    std::optional<StatedValue> value;  ///< empty: could not be measured
    std::string words;
    std::string who;  ///< who measured; empty: who wrote the entry
};

struct IntakeStated {
    std::string intake;  ///< kind, as screening::Intake has it
    WallTime at;
    std::string what;
};

/// The last dose really taken of one entry of the list.
struct DoseReallyTaken {
    std::string medicine;  ///< id of the list's entry
    screening::Dose dose;
};

/// Asked, and there was no other food or drink.
struct NothingElseTaken {};

/// Somebody confirmed, or denied, what a readiness item asks for.
struct ItemConfirmed {
    std::string item;  ///< id of the readiness item
    std::string fact;  ///< that it answers
    bool confirmed = false;
    std::string words;
};

struct Escalated {
    std::string item;  ///< id of the readiness item
    std::string to;
    std::string words;
};

/// A clinician lets a readiness item pass.
struct DecidedAtDesk {
    std::string item;
    std::string who;
    screening::Role role = screening::Role::endoscopist;
    std::string reason;
    std::string
        as_it_read;  ///< why it was not met, as the clinician saw it; empty: it passes however it reads
};

struct GoneIn {
    WallTime at;
};

struct NotToday {
    std::string words;
};

struct WorkDone {
    WallTime ended;
    std::vector<std::string> procedures;  ///< ids of what was really done
    std::string words;
};

struct QualityStated {
    std::string words;  ///< as the endoscopist saw it
};

struct CaseClosed {
    std::string words;
};

}  // namespace foreday::book
