#include "data/book/contents_of.h"

#include <algorithm>
#include <optional>
#include <utility>

#include "data/book/fold_value.h"

namespace foreday::book {
namespace {

using screening::Answer;
using screening::CalculatorInput;
using screening::CaseRecord;
using screening::FactIndex;
using screening::Role;

class Recording {
public:
    Recording(const screening::Rules& rules, const CaseRecord& record, const std::string& patient_id)
        : rules_(rules), protocol_(rules.protocol), record_(record), patient_id_(patient_id)
    {
    }

    std::vector<RecordedContent> all()
    {
        add_booking();
        for (std::size_t fact = 0; fact < record_.answers.size(); ++fact) {
            add_answers(static_cast<FactIndex>(fact));
        }
        add_medicines();
        add_decided();
        add_told();
        if (record_.arrival) {
            add_arrival(*record_.arrival);
        }
        if (record_.done) {
            add(*record_.done, "", WorkDone{wall_time(rules_.zone, *record_.done), {}, ""});
        }
        return std::move(all_);
    }

private:
    RecordedContent& add(screening::Moment at, std::string who, Content content, Role role = Role::nurse)
    {
        all_.push_back({record_.id, at, std::move(who), "", role, false, std::move(content)});
        return all_.back();
    }

    /// The first answer of a bound fact, where the booking gave it.
    const Answer* from_booking(CalculatorInput input) const
    {
        const auto& fact = protocol_.calculators.facts[static_cast<std::size_t>(input)];
        if (!fact || record_.answers.at(*fact).empty()) {
            return nullptr;
        }
        const Answer& first = record_.answers[*fact].front();
        return first.informant == screening::Informant::booking && first.value ? &first : nullptr;
    }

    void add_booking()
    {
        const auto& booking = record_.booking;
        const Answer* born = from_booking(CalculatorInput::birth_date);
        const Answer* sex = from_booking(CalculatorInput::sex);
        const screening::Moment at = born != nullptr ? born->at : booking.start_moment;
        PatientMade patient{booking.patient.name, booking.patient.number, booking.patient.born, "", {}};
        if (sex != nullptr) {
            const auto fact = *protocol_.calculators.facts[static_cast<std::size_t>(CalculatorInput::sex)];
            const auto place = std::get<screening::Choice>(sex->value.value()).place;
            patient.sex = protocol_.facts[fact].choices.at(place);
        }
        add(at, "", std::move(patient), Role::scheduler).subject = patient_id_;

        BookingMade made{patient_id_, {}, {}, {}};
        for (const auto procedure : booking.procedures) {
            made.procedures.push_back(protocol_.procedures.at(procedure).id);
        }
        made.start = wall_time(rules_.zone, booking.start_moment);
        made.ordered = {booking.ordered ? protocol_.preparations.at(*booking.ordered).id : "",
                        booking.ordered_words};
        add(at, "", std::move(made), Role::scheduler);
    }

    void add_answers(FactIndex fact)
    {
        for (const Answer& answer : record_.answers[fact]) {
            if (&answer != from_booking(CalculatorInput::birth_date) &&
                &answer != from_booking(CalculatorInput::sex)) {
                auto& written = add(answer.at, "", content_of(fact, answer));
                written.desk = answer.desk;
                written.unseen = answer.unseen;
            }
        }
    }

    /// What the staff measured or confirmed here, where an answer says no more than that.
    Content content_of(FactIndex fact, const Answer& answer) const
    {
        const auto& definition = protocol_.facts.at(fact);
        const bool plain = answer.strength == screening::Strength::measured &&
                           answer.informant == screening::Informant::staff && answer.value &&
                           answer.origin == screening::Origin::this_case && !answer.dated &&
                           answer.interpreter.empty();
        if (!plain) {
            return answered(definition, answer);
        }
        const auto item = std::ranges::find_if(protocol_.readiness, [&](const auto& rule) {
            const auto* check = std::get_if<screening::ConfirmedCheck>(&rule.check);
            return check != nullptr && check->fact == fact;
        });
        if (item != protocol_.readiness.end() && answer.who.empty()) {
            return ItemConfirmed{item->head.id, definition.id, std::get<bool>(*answer.value), answer.words};
        }
        return Measured{definition.id, stated(definition, *answer.value), answer.words, answer.who};
    }

    void add_medicines()
    {
        for (const auto& item : record_.medicines.items) {
            add(item.at, "", MedicineAdded{item.id, stated(protocol_, item)});
        }
        if (const auto& closed = record_.medicines.closed) {
            // Who closes a case file's list has asked all there is to ask.
            ListClosed whole;
            for (const screening::ListQuestion& question : protocol_.list_questions) {
                whole.gone_through.push_back(question.id);
            }
            add(closed->at, closed->by, std::move(whole));
        }
        for (const auto& concern : record_.concerns) {
            add(concern.at, concern.who, ConcernRaised{concern.words, concern.level, concern.topic});
        }
    }

    void add_decided()
    {
        for (const screening::Decision& decision : record_.decisions) {
            const DecidedItem decided{decision.item, decision.answer, decision.words,
                                      decision.fingerprint.value_or(""), decision.last_dose};
            const WallTime when = wall_time(rules_.zone, decision.when);
            switch (decision.manner) {
                case screening::DecisionManner::is_signed:
                    add(decision.when, decision.who, DecisionSigned{decided, {}}, decision.role);
                    break;
                case screening::DecisionManner::spoken:
                    add(decision.when, "",
                        DecisionSpoken{decided, {}, decision.who, decision.role, when, "", false});
                    break;
                case screening::DecisionManner::from_outside:
                    add(decision.when, "",
                        DecisionFromOutside{decided, {}, decision.who, decision.role, "", "", when, ""});
                    break;
            }
        }
    }

    void add_told()
    {
        for (const screening::Told& told : record_.told) {
            add(told.when, "", HoldsTold{{{told.item, told.last_dose}}, "", ""});
        }
        if (const auto& clearance = record_.clearance) {
            add(clearance->when, clearance->by,
                ClearanceGiven{wall_time(rules_.zone, clearance->for_start), {}, {}}, clearance->role);
        }
    }

    void add_arrival(const screening::Arrival& arrival)
    {
        const screening::Moment here = arrival.here_since
                                           ? screening::moment_of(rules_.zone, *arrival.here_since)
                                           : record_.booking.start_moment;
        if (arrival.here_since) {
            add(here, "", Arrived{wall_time(rules_.zone, *arrival.here_since)}, Role::arrival_clerk);
        }
        for (const auto& intake : arrival.intake) {
            add(here, "", IntakeStated{intake.kind, wall_time(rules_.zone, intake.at), intake.what});
        }
        if (arrival.nothing_else_taken) {
            add(here, "", NothingElseTaken{});
        }
        for (const auto& [medicine, dose] : arrival.doses_taken) {
            add(here, "", DoseReallyTaken{medicine, dose});
        }
        for (const auto& [item, as_it_read] : arrival.let_pass) {
            add(here, "", DecidedAtDesk{item, "", Role::endoscopist, "", as_it_read});
        }
    }

    const screening::Rules& rules_;
    const screening::Protocol& protocol_;
    const CaseRecord& record_;
    const std::string& patient_id_;
    std::vector<RecordedContent> all_;
};

}  // namespace

std::vector<RecordedContent> contents_of(const screening::Rules& rules, const CaseRecord& record,
                                         const std::string& patient_id)
{
    return Recording(rules, record, patient_id).all();
}

}  // namespace foreday::book
