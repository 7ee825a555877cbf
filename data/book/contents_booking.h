#pragma once
#include <optional>
#include <string>
#include <vector>

#include "data/book/contents_value.h"

/// Who is booked for what, and when. Entries about a patient have the patient's id for a subject, all others
/// the case's.
namespace foreday::book {

/// Subject: the patient.
struct PatientMade {
    std::string name;
    std::string number;  ///< in the unit's own system; empty: none
    screening::Date born;
    std::string sex;  ///< choice of the protocol's fact; empty: not said
    std::vector<std::string> phones;
};

/// Mends what was written of a patient. Empty: stays as it is. Subject: the patient.
struct PatientChanged {
    std::optional<std::string> name;
    std::optional<std::string> number;
    std::optional<screening::Date> born;
    std::optional<std::string> sex;
    std::optional<std::vector<std::string>> phones;  ///< all of them anew
    std::string words;                               ///< why
};

/// Two patients of the book are one person. It is appended twice, under each of the two, so that either
/// leads to the other; it counts once.
struct PatientMerged {
    std::string away;  ///< the id that is given up
    std::string into;
    std::string words;
};

/// They are two after all: every merging of the two is undone. Appended under each, as the merging was.
struct PatientSplit {
    std::string away;
    std::string from;
    std::string words;
};

/// An id of the protocol, or words where the protocol has none.
struct OrderedPreparation {
    std::string id;     ///< empty: not known
    std::string words;  ///< as ordered, where `id` is empty
};

struct BookingMade {
    std::string patient;                  ///< id of the patient
    std::vector<std::string> procedures;  ///< ids, interventions too; never empty
    WallTime start;                       ///< of the procedure
    OrderedPreparation ordered;
};

/// The case belongs to another patient than its booking said.
struct PatientLinked {
    std::string patient;
    std::string words;
};

/// What is empty stays as it was. Another day: nobody is here yet, and what was confirmed or measured for
/// the former day is set aside.
struct Rescheduled {
    std::optional<WallTime> start;
    std::optional<std::vector<std::string>> procedures;
    std::optional<OrderedPreparation> ordered;
    std::string words;  ///< why
};

struct CalledOff {
    std::string words;
};

struct DidNotCome {
    std::string words;
};

}  // namespace foreday::book
