#pragma once
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "data/book/codec.h"
#include "data/book/fold.h"

/// The fold while it goes on: shared by the files that make it.
namespace foreday::book {

/// One entry that was understood and stands.
struct Event {
    /// Where it comes in: its own number; for an entry of a patient who was merged away, not before the
    /// merging, as nobody had it in view of this patient before.
    std::int64_t comes_in = 0;
    const store::Entry* entry = nullptr;
    Envelope envelope;
    Content content;
    bool of_another_patient = false;  ///< of one who was merged with the case's patient

    [[nodiscard]] std::int64_t number() const { return entry->number; }
    [[nodiscard]] const store::NewEntry& said() const { return entry->said; }
};

/// A worry and whether it was struck later.
struct RaisedConcern {
    std::int64_t entry = 0;
    std::int64_t struck_by = 0;  ///< 0: it stands
};

/// What is known before the first event is applied.
struct Gathered {
    std::vector<Event> events;                      ///< in the order in which they come in
    std::map<std::int64_t, std::string> set_aside;  ///< why, by the number of the answer's entry
    std::vector<RaisedConcern> concerns;
    std::set<std::string> patients;  ///< ids that are this patient
};
/// Reads all entries, follows links and mergings, leaves out what was struck. Fills the patient, the numbers
/// and `struck` of the case, and says what could not be understood.
[[nodiscard]] Gathered gather(const std::vector<store::Entry>& case_entries,
                              const std::vector<store::Entry>& patient_entries, FoldedCase& folded);

/// Who is who after mergings and splits.
class SamePatients {
public:
    /// False: it would make a ring, or the one who is given up goes on as another already. The same merging
    /// once more is none of these.
    bool merge(const std::string& away, const std::string& into, std::int64_t number);
    void split(const std::string& one, const std::string& other);
    /// The id under which a patient goes on.
    [[nodiscard]] std::string stands_as(const std::string& id) const;
    /// Number of the last merging on the way to that id. 0: there is none.
    [[nodiscard]] std::int64_t since(const std::string& id) const;

private:
    struct Into {
        std::string id;
        std::int64_t number = 0;
    };
    std::map<std::string, Into> merged_;
};

/// Applies events to a case, one overload for each content.
class Folding {
public:
    Folding(const screening::Protocol& protocol, const screening::Zone& zone, Gathered gathered,
            FoldedCase& folded);
    void run();

private:
    // fold_booking.cpp
    void apply(const PatientMade& said);
    void apply(const PatientChanged& said);
    void apply(const BookingMade& said);
    void apply(const Rescheduled& said);
    void apply(const CalledOff& said) { end(checklists::EndingKind::called_off, said.words); }
    void apply(const DidNotCome& said) { end(checklists::EndingKind::did_not_come, said.words); }
    void apply(const NotToday& said) { end(checklists::EndingKind::not_today, said.words); }
    void set_start(const WallTime& start);
    void set_procedures(const std::vector<std::string>& ids);
    void set_ordered(const OrderedPreparation& ordered);
    void set_phones(const std::vector<std::string>& phones);
    void begin_another_day();
    void end(checklists::EndingKind kind, const std::string& words);
    void answer_birth(screening::Date born);
    void answer_sex(const std::string& sex);

    // fold_call.cpp
    void apply(const Answered& said);
    void apply(const Measured& said);
    void apply(const ItemConfirmed& said);
    void apply(const MedicineAdded& said);
    void apply(const MedicineChanged& said);
    void apply(const MedicineStopped& said);
    void apply(const ListClosed& said);
    void apply(const ListReopened& said);
    void apply(const ConcernRaised& said);
    void place_named(const std::string& fact, const std::optional<StatedValue>& value,
                     screening::Answer answer);
    void place(screening::FactIndex fact, screening::Answer answer);
    [[nodiscard]] bool is_unseen(screening::FactIndex fact) const;
    [[nodiscard]] std::optional<std::size_t> medicine_place(const std::string& id) const;
    [[nodiscard]] screening::MedicineItem item_of(const std::string& id, const StatedMedicine& said);

    // fold_work.cpp
    void apply(const NoteMade& said);
    void apply(const TryMade& said);
    void apply(const PatientRangIn& said);
    void apply(const CallEndedForEmergency& said);
    void apply(const OutsideAskSent& said);
    void apply(const OutsideAskAnswered& said);
    void apply(const HandedOver& said);
    void apply(const SheetIssued& said);
    void apply(const SheetSuperseded& said);
    void apply(const QualityStated& said);
    void apply(const RestartDecided& said);
    void apply(const RestartTold& said);
    void apply(const CaseClosed& said);
    void add_try(const std::string& call, checklists::TryOutcome outcome, const std::string& words);

    // fold_decision.cpp
    void apply(const DecisionSigned& said);
    void apply(const DecisionSpoken& said);
    void apply(const DecisionFromOutside& said);
    void apply(const Countersigned& said);
    void apply(const ClearanceGiven& said);
    void apply(const ClearanceLapsed& said);
    void apply(const HoldsTold& said);
    void apply(const SaidBack& said);
    void decide(const DecidedItem& decided, screening::Decision decision);
    [[nodiscard]] std::optional<std::string> item_today(const std::string& item);

    // fold_day.cpp
    void apply(const Arrived& said);
    void apply(const IntakeStated& said);
    void apply(const DoseReallyTaken& said);
    void apply(const NothingElseTaken& said);
    void apply(const Escalated& said);
    void apply(const DecidedAtDesk& said);
    void apply(const GoneIn& said);
    void apply(const WorkDone& said);
    screening::Arrival& arrival();

    // Done before the events, or of no effect on a case.
    void apply(const PatientMerged& /*said*/) {}
    void apply(const PatientSplit& /*said*/) {}
    void apply(const PatientLinked& /*said*/) {}
    void apply(const AnswerSetAside& said);
    void apply(const EntryStruck& /*said*/) {}
    void apply(const ProtocolInForce& /*said*/) {}
    void apply(const PolicyInForce& /*said*/) {}
    void apply(const RosterSet& /*said*/) {}
    void apply(const Looked& /*said*/) {}
    void apply(const Printed& /*said*/) {}
    void apply(const SignedIn& /*said*/) {}

    void not_placed(std::string about, std::string why);
    [[nodiscard]] screening::Moment at() const { return event_->said().at; }
    [[nodiscard]] const std::string& who() const { return event_->said().who; }

    const screening::Protocol& protocol_;
    const screening::Zone& zone_;
    Gathered gathered_;
    FoldedCase& folded_;
    checklists::CaseFile& file_;
    screening::CaseRecord& record_;
    const Event* event_ = nullptr;
    std::vector<std::string> phones_of_others_;
    std::vector<std::vector<const Event*>> answered_by_;  ///< beside record_.answers
};

}  // namespace foreday::book
