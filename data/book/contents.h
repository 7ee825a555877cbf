#pragma once
#include <cstdint>
#include <variant>

#include "data/book/contents_booking.h"
#include "data/book/contents_call.h"
#include "data/book/contents_day.h"
#include "data/book/contents_decision.h"
#include "data/book/contents_unit.h"

namespace foreday::book {

/// What every entry says besides its content.
struct Envelope {
    screening::Role role = screening::Role::nurse;  ///< in which the writer wrote
    /// Number of the last entry that could change the fold which the writer had in view: `up_to` of the case
    /// as shown. 0: nothing.
    std::int64_t seen = 0;
    bool operator==(const Envelope&) const = default;
};

/// One alternative for each kind of entry. The codec's table names them in the same order.
using AnyContent =
    std::variant<PatientMade, PatientChanged, PatientMerged, PatientSplit, BookingMade, PatientLinked,
                 Rescheduled, CalledOff, DidNotCome,                                                  //
                 Answered, AnswerSetAside, EntryStruck, MedicineAdded, MedicineChanged,               //
                 MedicineStopped, ListClosed, ListReopened, NoteMade, ConcernRaised, TryMade,         //
                 PatientRangIn, CallEndedForEmergency, OutsideAskSent, OutsideAskAnswered,            //
                 DecisionSigned, DecisionSpoken, DecisionFromOutside, Countersigned, ClearanceGiven,  //
                 ClearanceLapsed, HoldsTold, SaidBack, SheetIssued, SheetSuperseded,                  //
                 Arrived, Measured, IntakeStated, DoseReallyTaken, NothingElseTaken, ItemConfirmed,   //
                 Escalated, DecidedAtDesk, GoneIn, NotToday,                                          //
                 WorkDone, QualityStated, RestartDecided, RestartTold, CaseClosed,                    //
                 ProtocolInForce, PolicyInForce, RosterSet, HandedOver,                               //
                 Looked, Printed, SignedIn>;

/// Copied, moved and destroyed in contents.cpp alone: done inline, each file that writes entries takes half
/// as long again to compile.
struct Content : AnyContent {
    using AnyContent::AnyContent;
    Content(const Content& other);
    Content(Content&& other) noexcept;
    Content& operator=(const Content& other);
    Content& operator=(Content&& other) noexcept;
    ~Content();
};

}  // namespace foreday::book
