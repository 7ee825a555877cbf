#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/reading/booking_answer.h"
#include "data/reading/case_draft.h"
#include "data/reading/nearest.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "data/reading/value_reading.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::CalculatorInput;
using screening::Date;
using screening::Value;

void answer_from_booking(CalculatorInput input, Value value, CaseDraft& draft)
{
    if (auto said = booking_answer(draft.rules.protocol, input, std::move(value), draft.now)) {
        draft.record.answers.at(said->fact).push_back(std::move(said->answer));
    }
}

void read_patient(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "the patient", {{"name", "born"}, {"number", "sex"}}, draft.faults);
    auto& patient = draft.record.booking.patient;
    patient.name = text_at(map, "name", draft.faults);
    patient.number = text_at(map, "number", draft.faults);
    if (map["born"] != nullptr) {
        if (const auto born = read_date(*map["born"], draft.faults)) {
            patient.born = *born;
            answer_from_booking(CalculatorInput::birth_date, screening::DateInterval{*born, *born}, draft);
        }
    }
    const auto& sex = draft.rules.protocol.calculators.facts[static_cast<std::size_t>(CalculatorInput::sex)];
    if (map["sex"] != nullptr && sex) {
        if (auto value = read_value(*map["sex"], draft.rules.protocol.facts.at(*sex), draft)) {
            answer_from_booking(CalculatorInput::sex, std::move(*value), draft);
        }
    }
}

void read_start(const Located& node, CaseDraft& draft)
{
    const Date last_day{date::local_days{date::year{2037} / 12 / 31}};
    const auto moment = read_moment(node, draft);
    if (!moment) {
        return;
    }
    auto& booking = draft.record.booking;
    booking.start_moment = *moment;
    booking.start = screening::local_of(draft.rules.zone, *moment);
    if (screening::date_of(booking.start) > last_day) {
        draft.faults.add(node, "a procedure after 2037-12-31",
                         "a day up to 2037-12-31; beyond it the zone data we read names no clock changes");
    }
    if (booking.patient.born > screening::date_of(booking.start)) {
        draft.faults.add(node, "the procedure lies before the patient was born",
                         "mend the date of birth or the start");
    }
}

/// An id of a preparation, or words that describe it.
void read_ordered_preparation(const Located& node, CaseDraft& draft)
{
    const auto text = read_text(node, draft.faults);
    if (!text) {
        return;
    }
    auto& booking = draft.record.booking;
    booking.ordered = draft.preparations.find(*text);
    if (booking.ordered) {
        return;
    }
    booking.ordered_words = *text;
    const auto& ids = draft.preparations.ids();
    if (text->find('_') != std::string::npos) {
        const std::vector<std::string_view> names(ids.begin(), ids.end());
        draft.warnings.add(
            node,
            fmt::format("{} is no preparation's id, so it is taken as words", screening::as_written(*text)),
            perhaps(*text, names));
    }
}

}  // namespace

std::vector<screening::ProcedureIndex> read_procedures(const Located& node, const ProcedureWords& words,
                                                       CaseDraft& draft)
{
    std::vector<screening::ProcedureIndex> procedures;
    for (const Located& item : list_items(node, "procedures", draft.faults)) {
        const auto place = draft.procedures.resolve(item, draft.faults);
        if (!place) {
            continue;
        }
        if (std::ranges::find(procedures, *place) != procedures.end()) {
            draft.faults.add(item,
                             fmt::format("{} is {} twice", screening::as_written(item.text), words.happened),
                             "once");
        } else {
            procedures.push_back(*place);
        }
    }
    std::ranges::sort(procedures);
    if (node.kind == Located::Kind::list && node.items.empty()) {
        draft.faults.add(node, std::string{words.none}, "at least one procedure");
    }
    return procedures;
}

void read_booking(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "the booking", {{"patient", "procedures", "start"}, {"ordered"}}, draft.faults);
    if (map["patient"] != nullptr) {
        read_patient(*map["patient"], draft);
    }
    if (map["procedures"] != nullptr) {
        draft.record.booking.procedures =
            read_procedures(*map["procedures"], {"booked", "a booking without a procedure"}, draft);
    }
    if (map["start"] != nullptr) {
        read_start(*map["start"], draft);
    }
    if (map["ordered"] != nullptr) {
        read_ordered_preparation(*map["ordered"], draft);
    }
}

}  // namespace foreday::data
