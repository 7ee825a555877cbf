#include "checklists/look_again.h"

#include <algorithm>

#include "checklists/decide_by.h"
#include "checklists/hold_moments.h"
#include "checklists/working_time.h"
#include "screening/hold_plan.h"

namespace foreday::checklists {
namespace {

using screening::Date;
using screening::LocalMinute;
using screening::Moment;
using screening::Rules;

constexpr std::chrono::seconds just_after{1};  // at exactly its age a thing still stands

/// The earliest moment after one, of those it is shown.
class Earliest {
public:
    Earliest(Moment now, Moment at_the_latest) : now_(now), found_(at_the_latest) {}
    void look_at(Moment moment)
    {
        if (moment > now_) {
            found_ = std::min(found_, moment);
        }
    }
    [[nodiscard]] Moment found() const { return found_; }

private:
    Moment now_;
    Moment found_;
};

/// Midnight may come twice, or lie behind while the date is the old one again.
Moment next_midnight(const screening::Zone& zone, Moment now)
{
    const Date tomorrow = screening::date_of(screening::local_of(zone, now)) + date::days{1};
    const screening::Moments midnight = screening::moments_of(zone, LocalMinute{tomorrow});
    if (midnight.earlier > now) {
        return midnight.earlier;
    }
    return midnight.later > now ? midnight.later : now + date::days{1};
}

/// Every dose still to come decides whether a hold nobody has told is too late.
void look_at_doses(Earliest& earliest, const Rules& rules, const CaseFile& file, const WholeCase& whole,
                   Moment now)
{
    const screening::CaseRecord& record = file.record;
    const Date from = screening::date_of(screening::local_of(rules.zone, now));
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        if (whole.stages.at(place) == HoldStage::told) {
            continue;
        }
        const screening::Hold& hold = whole.assessment.holds[place];
        for (const auto& moments : {earliest_moments(rules, record, hold),
                                    standing_moments(rules, record, hold, decided_on_hold(whole, place))}) {
            if (moments) {
                earliest.look_at(moments->last_dose);
                earliest.look_at(moments->first_left_out);
            }
        }
        const screening::Pattern& pattern = medicine_of(record, hold).pattern;
        const Date last = std::min(screening::date_of(record.booking.start), from + date::days{1});
        for (const screening::Dose& dose : screening::doses_between(pattern, from, last)) {
            earliest.look_at(
                screening::moment_of_dose(dose, rules.zone, screening::DoseWithoutTime::start_of_day));
            earliest.look_at(
                screening::moment_of_dose(dose, rules.zone, screening::DoseWithoutTime::end_of_day));
        }
    }
}

void look_at_ages(Earliest& earliest, const Rules& rules, const screening::CaseRecord& record)
{
    for (std::size_t fact = 0; fact < rules.protocol.facts.size(); ++fact) {
        const auto& limit = rules.protocol.facts[fact].age_limit;
        if (!limit || fact >= record.answers.size()) {
            continue;
        }
        for (const screening::Answer& answer : record.answers[fact]) {
            const Moment measured =
                answer.dated ? screening::moment_of(rules.zone, LocalMinute{*answer.dated}) : answer.at;
            earliest.look_at(measured + *limit + just_after);
        }
    }
    const auto runs_out = [&](Moment from, screening::ParameterIndex length) {
        earliest.look_at(from + screening::minutes_of(length, rules.protocol, rules.policy) + just_after);
    };
    if (record.medicines.closed) {
        runs_out(record.medicines.closed->at, rules.protocol.engine.list_closed_days);
    }
    if (record.clearance) {
        runs_out(record.clearance->when, rules.protocol.engine.clearance_days);
    }
}

}  // namespace

Moment look_again(const Rules& rules, const CaseFile& file, const WholeCase& whole, Moment now,
                  const HashText& hash)
{
    const screening::CaseRecord& record = file.record;
    Earliest earliest(now, next_midnight(rules.zone, now));
    earliest.look_at(record.booking.start_moment);
    look_at_doses(earliest, rules, file, whole, now);
    look_at_ages(earliest, rules, record);
    // With the next opening it may be too late to wait for the one after it.
    const WorkingTime time{rules.policy.calendar, rules.zone};
    const auto opening = next_working_moment(time, now);
    if (opening && *opening > now) {
        earliest.look_at(*opening);
    } else if (const auto closing = end_of_working_day(time, now)) {
        earliest.look_at(*closing);
    }
    for (const ToDecide& item : to_decide(rules, record, whole)) {
        earliest.look_at(item.decide_by);
        earliest.look_at(item.changes_at);
    }
    for (const Call& call : calls_of(rules, file, whole, hash)) {
        earliest.look_at(call.due_from);
        earliest.look_at(call.useful_until);
    }
    return earliest.found();
}

}  // namespace foreday::checklists
