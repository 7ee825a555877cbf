#include <fmt/format.h>

#include "data/book/fold_value.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

using namespace screening;

std::string moment(const std::optional<Moment>& when)
{
    return when ? iso_with_offset(demo_rules().zone, *when) : "-";
}

std::string whole(int value)
{
    return std::to_string(value);
}

class Lines {
public:
    template <class... Parts>
    void add(const Parts&... parts)
    {
        ((text += std::string(parts) + " | "), ...);
        text += '\n';
    }
    std::string text;
};

void add_booking(const CaseRecord& record, Lines& lines)
{
    const auto& booking = record.booking;
    lines.add("case", record.id, booking.patient.name, booking.patient.number,
              iso_date(booking.patient.born));
    lines.add("start", iso_local(booking.start), moment(booking.start_moment), booking.ordered_words,
              booking.ordered ? demo_rules().protocol.preparations.at(*booking.ordered).id : "-");
    for (const auto procedure : booking.procedures) {
        lines.add("procedure", demo_rules().protocol.procedures.at(procedure).id);
    }
}

void add_answers(const CaseRecord& record, Lines& lines)
{
    for (std::size_t place = 0; place < record.answers.size(); ++place) {
        for (const Answer& answer : record.answers[place]) {
            lines.add("answer",
                      book::to_payload({}, book::answered(demo_rules().protocol.facts.at(place), answer)),
                      moment(answer.at), answer.desk, answer.unseen ? "unseen" : "");
        }
    }
}

void add_medicines(const CaseRecord& record, Lines& lines)
{
    for (const MedicineItem& item : record.medicines.items) {
        lines.add(
            "medicine",
            book::to_payload({}, book::MedicineAdded{item.id, book::stated(demo_rules().protocol, item)}),
            moment(item.at));
    }
    if (const auto& closed = record.medicines.closed) {
        lines.add("list closed", closed->by, moment(closed->at));
    }
}

void add_decided(const CaseRecord& record, Lines& lines)
{
    for (const Decision& decision : record.decisions) {
        lines.add("decision", decision.item, whole(static_cast<int>(decision.answer)), decision.words,
                  decision.who, name_of(decision.role), whole(static_cast<int>(decision.manner)),
                  moment(decision.when), decision.fingerprint.value_or("-"),
                  decision.last_dose ? iso_date(*decision.last_dose) : "-");
    }
    for (const Told& told : record.told) {
        lines.add("told", told.item, moment(told.when), told.last_dose ? iso_date(*told.last_dose) : "-");
    }
    for (const OwnConcern& concern : record.concerns) {
        lines.add("concern", concern.words, name_of(concern.level), name_of(concern.topic), concern.who,
                  moment(concern.at));
    }
    if (record.clearance) {
        lines.add("cleared", record.clearance->by, name_of(record.clearance->role),
                  moment(record.clearance->when), iso_local(record.clearance->for_start));
    }
}

void add_day(const CaseRecord& record, Lines& lines)
{
    if (record.arrival) {
        const Arrival& arrival = *record.arrival;
        lines.add("arrival", arrival.here_since ? iso_local(*arrival.here_since) : "-",
                  arrival.nothing_else_taken ? "nothing else" : "");
        for (const Intake& intake : arrival.intake) {
            lines.add("intake", intake.kind, iso_local(intake.at), intake.what);
        }
        for (const auto& [id, dose] : arrival.doses_taken) {
            lines.add("dose", id, iso_date(dose.day), dose.time ? iso_time_of_day(*dose.time) : "-");
        }
        for (const auto& [item, as_it_read] : arrival.let_pass) {
            lines.add("let pass", item, as_it_read);
        }
    }
    lines.add("done", moment(record.done));
}

void add_work(const checklists::CaseFile& file, Lines& lines)
{
    lines.add("booked", moment(file.booked_at), moment(file.moved_at), file.who_has_it);
    for (const auto& phone : file.phones) {
        lines.add("phone", phone);
    }
    for (const auto& one : file.tries) {
        lines.add("try", one.call, moment(one.when), one.who, whole(static_cast<int>(one.outcome)),
                  one.words);
    }
    for (const auto& ask : file.outside_asks) {
        lines.add("outside", ask.id, ask.item, ask.what, ask.whom, moment(ask.sent), iso_date(ask.reply_by),
                  moment(ask.came), ask.answer);
    }
    for (const auto& telling : file.tellings) {
        lines.add("telling", moment(telling.when), telling.who, telling.sheet,
                  telling.said_back ? "said back" : "");
    }
    for (const auto& note : file.notes) {
        lines.add("note", moment(note.when), note.who, note.words);
    }
    if (file.ending) {
        lines.add("ending", whole(static_cast<int>(file.ending->kind)), moment(file.ending->when),
                  file.ending->who, file.ending->words);
    }
    for (const auto& restart : file.restarts) {
        lines.add("restart", restart.item, moment(restart.when), restart.who, name_of(restart.role),
                  restart.words, restart.from ? iso_date(*restart.from) : "-", moment(restart.told));
    }
    lines.add("end", moment(file.gone_in), file.preparation_quality, moment(file.closed));
}

}  // namespace

std::string lines_of(const CaseRecord& record)
{
    Lines lines;
    add_booking(record, lines);
    add_answers(record, lines);
    add_medicines(record, lines);
    add_decided(record, lines);
    add_day(record, lines);
    return lines.text;
}

std::string lines_of(const checklists::CaseFile& file)
{
    Lines lines;
    lines.text = lines_of(file.record);
    add_work(file, lines);
    return lines.text;
}

}  // namespace foreday::tests
