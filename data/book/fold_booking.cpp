#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/book/fold_state.h"
#include "data/book/fold_value.h"
#include "data/reading/booking_answer.h"

/// Who is booked for what, and when.
namespace foreday::book {

using screening::CalculatorInput;

void Folding::apply(const PatientMade& said)
{
    if (event_->of_another_patient) {
        phones_of_others_.insert(phones_of_others_.end(), said.phones.begin(), said.phones.end());
    } else {
        folded_.patient_known = true;
        record_.booking.patient = {said.name, said.number, said.born};
        file_.phones = said.phones;
    }
    answer_birth(said.born);
    answer_sex(said.sex);
}

void Folding::apply(const PatientChanged& said)
{
    auto& patient = record_.booking.patient;
    if (!event_->of_another_patient) {
        patient.name = said.name.value_or(patient.name);
        patient.number = said.number.value_or(patient.number);
        patient.born = said.born.value_or(patient.born);
        file_.phones = said.phones.value_or(file_.phones);
    } else if (said.phones) {
        phones_of_others_.insert(phones_of_others_.end(), said.phones->begin(), said.phones->end());
    }
    if (said.born) {
        answer_birth(*said.born);
    }
    answer_sex(said.sex.value_or(""));
}

void Folding::answer_birth(screening::Date born)
{
    if (auto answer = data::booking_answer(protocol_, CalculatorInput::birth_date,
                                           screening::DateInterval{born, born}, at())) {
        place(answer->fact, std::move(answer->answer));
    }
}

void Folding::answer_sex(const std::string& sex)
{
    const auto& fact = protocol_.calculators.facts[static_cast<std::size_t>(CalculatorInput::sex)];
    if (sex.empty() || !fact) {
        return;
    }
    auto value = value_of(protocol_.facts.at(*fact), NamedChoice{sex});
    if (!value) {
        return not_placed(protocol_.facts.at(*fact).id, value.error().what);
    }
    if (auto answer = data::booking_answer(protocol_, CalculatorInput::sex, *std::move(value), at())) {
        place(answer->fact, std::move(answer->answer));
    }
}

void Folding::apply(const BookingMade& said)
{
    if (folded_.booked) {
        return not_placed("booking", "the case is booked already");
    }
    folded_.booked = true;
    folded_.booking_entry = event_->number();
    file_.booked_at = at();
    set_procedures(said.procedures);
    set_start(said.start);
    set_ordered(said.ordered);
}

void Folding::apply(const Rescheduled& said)
{
    if (!folded_.booked) {
        return not_placed("booking", "the case is moved before it is booked");
    }
    if (said.procedures) {
        set_procedures(*said.procedures);
        file_.moved_at = at();
    }
    if (said.start) {
        const auto day_before = screening::date_of(record_.booking.start);
        set_start(*said.start);
        file_.moved_at = at();
        file_.ending.reset();
        if (screening::date_of(record_.booking.start) != day_before) {
            begin_another_day();
        }
    }
    if (said.ordered) {
        set_ordered(*said.ordered);
    }
}

/// The start is kept as the wall clock of the day shows it: where the zone's rules have changed since, the
/// appointment stays at its hour.
void Folding::set_start(const WallTime& start)
{
    auto& booking = record_.booking;
    booking.start = start.local;
    const auto moments = screening::moments_of(zone_, start.local);
    const screening::Moment meant = moment_of(start);
    const bool is_later = moments.count == screening::Moments::Count::two && meant == moments.later;
    booking.start_moment = is_later ? moments.later : screening::moment_of(zone_, start.local);
    if (booking.start_moment != meant) {
        not_placed("booking", fmt::format("{} was another moment when it was booked: the clocks of {} have "
                                          "changed, and the hour on the wall is kept",
                                          screening::iso_local(start.local), zone_.name));
    }
}

/// What the protocol does not know is booked as another procedure, so that somebody is always asked.
void Folding::set_procedures(const std::vector<std::string>& ids)
{
    auto& procedures = record_.booking.procedures;
    procedures.clear();
    for (const std::string& id : ids) {
        auto place = screening::find_procedure(protocol_, id);
        if (!place) {
            not_placed(id, fmt::format("the protocol has no procedure \"{}\"", id));
            const auto other = std::ranges::find(protocol_.procedures, screening::Procedure::Plan::other,
                                                 &screening::Procedure::plan);
            if (other == protocol_.procedures.end()) {
                continue;
            }
            place = static_cast<screening::ProcedureIndex>(other - protocol_.procedures.begin());
        }
        procedures.push_back(*place);
    }
    std::ranges::sort(procedures);
    const auto twice = std::ranges::unique(procedures);
    procedures.erase(twice.begin(), twice.end());
}

void Folding::set_ordered(const OrderedPreparation& ordered)
{
    auto& booking = record_.booking;
    booking.ordered = ordered.id.empty() ? std::nullopt : screening::find_preparation(protocol_, ordered.id);
    booking.ordered_words = ordered.words;
    if (!ordered.id.empty() && !booking.ordered) {
        not_placed(ordered.id, fmt::format("the protocol has no preparation \"{}\"", ordered.id));
        booking.ordered_words = ordered.words.empty() ? ordered.id : ordered.words;
    }
}

/// Nobody is here yet on the new day, and nothing has been confirmed or measured for it.
void Folding::begin_another_day()
{
    record_.arrival.reset();
    file_.gone_in.reset();
    for (std::size_t fact = 0; fact < protocol_.facts.size(); ++fact) {
        if (protocol_.facts[fact].scope != screening::FactScope::day) {
            continue;
        }
        auto& answers = record_.answers[fact];
        auto& entries = folded_.answer_entries[fact];
        for (std::size_t place = 0; place < answers.size(); ++place) {
            folded_.set_aside.push_back({entries[place], protocol_.facts[fact].id,
                                         "it was said for another day", std::move(answers[place])});
        }
        answers.clear();
        entries.clear();
        answered_by_[fact].clear();
    }
}

void Folding::end(checklists::EndingKind kind, const std::string& words)
{
    file_.ending = checklists::Ending{kind, at(), who(), words};
}

}  // namespace foreday::book
