#include "data/book/shifted.h"

#include "data/book/contents_value.h"

namespace foreday::book {
namespace {

using screening::Moment;

/// Moves every date of a record.
class Shift {
public:
    Shift(const screening::Rules& rules, date::days by) : rules_(rules), by_(by) {}

    void all(screening::CaseRecord& record) const
    {
        move(record.booking.start);
        record.booking.start_moment = screening::moment_of(rules_.zone, record.booking.start);
        const auto birth = rules_.protocol.calculators
                               .facts[static_cast<std::size_t>(screening::CalculatorInput::birth_date)];
        for (std::size_t fact = 0; fact < record.answers.size(); ++fact) {
            for (screening::Answer& answer : record.answers[fact]) {
                move(answer.at);
                move(answer.dated);
                if (fact != birth) {
                    move(answer.value);
                }
            }
        }
        list(record.medicines);
        decided(record);
        if (record.arrival) {
            day(*record.arrival);
        }
        move(record.done);
    }

private:
    void move(screening::Date& date) const { date += by_; }
    void move(screening::LocalMinute& local) const { local += by_; }
    void move(Moment& moment) const
    {
        const auto seconds = moment - date::floor<std::chrono::minutes>(moment);
        moment = screening::moment_of(rules_.zone, screening::local_of(rules_.zone, moment) + by_) + seconds;
    }
    void move(screening::Dose& dose) const { move(dose.day); }
    template <class T>
    void move(std::optional<T>& value) const
    {
        if (value) {
            move(*value);
        }
    }
    void move(screening::Value& value) const
    {
        if (auto* dates = std::get_if<screening::DateInterval>(&value)) {
            move(dates->lowest);
            move(dates->highest);
        } else if (auto* times = std::get_if<screening::TimeInterval>(&value)) {
            move(times->lowest);
            move(times->highest);
        }
    }

    void list(screening::MedicineList& list) const
    {
        for (screening::MedicineItem& item : list.items) {
            move(item.at);
            move(item.last_dose);
            if (auto* every = std::get_if<screening::EveryNDays>(&item.pattern)) {
                move(every->from);
            }
        }
        if (list.closed) {
            move(list.closed->at);
        }
    }

    void decided(screening::CaseRecord& record) const
    {
        for (screening::Decision& decision : record.decisions) {
            move(decision.when);
            move(decision.last_dose);
        }
        for (screening::Told& told : record.told) {
            move(told.when);
            move(told.last_dose);
        }
        for (screening::OwnConcern& concern : record.concerns) {
            move(concern.at);
        }
        if (record.clearance) {
            move(record.clearance->when);
            move(record.clearance->for_start);
        }
    }

    void day(screening::Arrival& arrival) const
    {
        move(arrival.here_since);
        for (screening::Intake& intake : arrival.intake) {
            move(intake.at);
        }
        for (auto& [medicine, dose] : arrival.doses_taken) {
            move(dose);
        }
    }

    const screening::Rules& rules_;
    date::days by_;
};

}  // namespace

screening::CaseRecord shifted(const screening::Rules& rules, screening::CaseRecord record, date::days by)
{
    Shift(rules, by).all(record);
    return record;
}

}  // namespace foreday::book
