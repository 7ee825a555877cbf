#include "checklists/sheet_content.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decide_by.h"
#include "checklists/patient_words.h"
#include "checklists/telling.h"
#include "checklists/timetable_lines.h"
#include "checklists/words.h"
#include "checklists/working_time.h"
#include "screening/fact_words.h"

namespace foreday::checklists {
namespace {

using screening::CaseRecord;
using screening::Hold;
using screening::Item;
using screening::MedicineItem;
using screening::Moment;
using screening::Rules;

/// What a sheet is written from.
struct Sheet {
    const Rules& rules;
    const CaseFile& file;
    const WholeCase& whole;
    std::vector<ToDecide> undecided;
    bool all_asked;  ///< once, if not lately: what has aged since does not unsay a sheet
    std::vector<Line> lines;

    void heading(std::string text) { lines.push_back({LineKind::heading, std::move(text), {}}); }
    void text(std::string words) { lines.push_back({LineKind::text, std::move(words), {}}); }
    [[nodiscard]] const CaseRecord& record() const { return file.record; }
};

bool not_to_go_ahead(const WholeCase& whole)
{
    return std::ranges::any_of(whole.decided, &Decided::not_go_ahead);
}

bool plan_is_missing(const WholeCase& whole)
{
    return std::holds_alternative<Refused>(whole.preparation.plan) && whole.preparation.stated.empty();
}

void add_session(Sheet& sheet)
{
    const screening::Booking& booking = sheet.record().booking;
    sheet.heading(fmt::format("{} at {}", capitalised(procedures_in_words(sheet.rules, sheet.record())),
                              sheet.rules.policy.unit));
    sheet.text(
        fmt::format("{}, born {}.", booking.patient.name, screening::date_in_words(booking.patient.born)));
    sheet.text(
        fmt::format("The session starts on {}.", moment_in_words(sheet.rules.zone, booking.start_moment)));
}

const Hold* hold_of(const WholeCase& whole, const std::string& medicine)
{
    const auto& holds = whole.assessment.holds;
    const auto found = std::ranges::find(holds, medicine, &Hold::medicine_item);
    return found == holds.end() ? nullptr : &*found;
}

std::optional<std::string> instruction_for(const Sheet& sheet, const Hold& hold)
{
    const auto place = static_cast<std::size_t>(&hold - sheet.whole.assessment.holds.data());
    const Decided& decided = sheet.whole.decided.at(sheet.whole.assessment.findings.size() + place);
    return instruction_in_patient_words(sheet.record(), hold, decided, sheet.whole.stages.at(place));
}

void add_medicines(Sheet& sheet)
{
    sheet.heading("Your medicines");
    const screening::MedicineList& list = sheet.record().medicines;
    if (!list.closed) {
        sheet.text("We have not gone through all your medicines with you yet.");
    } else if (list.items.empty()) {
        sheet.text("You have told us that you take no medicines. If you do take any, ring us.");
    }
    for (const MedicineItem& medicine : list.items) {
        const Hold* hold = hold_of(sheet.whole, medicine.id);
        if (hold == nullptr) {
            sheet.text(fmt::format(
                "{}: we still have to find out what this is. {}", medicine_in_patient_words(medicine, ""),
                "Go on taking it as you do now and change nothing yourself. We ring you."));
            continue;
        }
        const auto instruction = instruction_for(sheet, *hold);
        sheet.text(fmt::format("{}: {}", capitalised(medicine_in_patient_words(medicine, hold->medicine)),
                               instruction.value_or(meanwhile_in_patient_words(hold->item))));
    }
}

void add_preparation(Sheet& sheet, bool draft)
{
    sheet.heading("Food, drink and preparation");
    const PreparationPlan& preparation = sheet.whole.preparation;
    if (const auto* plan = std::get_if<Fitted>(&preparation.plan)) {
        if (draft) {
            sheet.text(
                "These times are a draft too. Start no preparation before we have told you that everything "
                "is decided.");
        }
        if (!plan->open_on.empty()) {
            sheet.text(
                "We do not know for sure how long your way to us is. If these times do not fit, ring us.");
        }
        add_timetable(sheet.lines, *plan, sheet.rules.zone);
        for (const std::string& note : plan->notes) {
            if (fit_for_patients(note)) {
                sheet.text(sentence(note));
            }
        }
        return;
    }
    if (preparation.stated.empty()) {
        sheet.text("Do not start a preparation before we have rung you.");
    } else {
        sheet.text(fit_for_patients(preparation.stated)
                       ? "Your doctor has decided on your preparation. " + sentence(preparation.stated)
                       : "Your doctor has decided on your preparation. We tell you how it goes.");
    }
}

/// By when the patient is rung about something open. Once that lies behind, no time is promised any more.
std::string promise(const Sheet& sheet, Moment changes_at)
{
    const WorkingTime time{sheet.rules.policy.calendar, sheet.rules.zone};
    const Moment ring_by = last_working_moment(time, changes_at).value_or(changes_at);
    return ring_by > sheet.whole.assessment.at
               ? fmt::format("You hear from us by {}.", moment_in_words(sheet.rules.zone, ring_by))
               : "You hear from us.";
}

/// A hold of the nurse's own whose standing order has run out is agreed by a clinician too.
std::string still_open_in_words(const Hold& hold)
{
    return hold.item.level >= screening::Level::ask
               ? "a doctor still decides on it. What to do until then stands below."
               : "we still have to agree what to do. What to do until then stands below.";
}

void add_open(Sheet& sheet)
{
    std::vector<std::string> words;
    const auto items = all_items(sheet.whole.assessment);
    for (const ToDecide& open : sheet.undecided) {
        const auto item = std::ranges::find(items, open.id, &Item::id);
        std::string text;
        if (item == items.end()) {
            text = "Your preparation: a doctor still decides on it.";
        } else if (open.id.starts_with("hold:")) {
            const auto& holds = sheet.whole.assessment.holds;
            const auto hold =
                std::ranges::find_if(holds, [&](const Hold& one) { return one.item.id == open.id; });
            if (instruction_for(sheet, *hold)) {
                continue;  // told as it still stands; it stands above
            }
            text = fmt::format("{}: {}", capitalised(hold->medicine), still_open_in_words(*hold));
        } else {
            text = sentence(meanwhile_in_patient_words(**item));
        }
        text += " " + promise(sheet, open.changes_at);
        if (std::ranges::find(words, text) == words.end()) {
            words.push_back(text);
        }
    }
    if (words.empty()) {
        return;
    }
    sheet.heading("Still open");
    for (std::string& text : words) {
        sheet.text(std::move(text));
    }
}

std::string weekdays_in_words(const std::vector<unsigned>& days)
{
    std::vector<std::string> names;
    for (const unsigned day : days) {
        // 3 January 2000 was a Monday, weekday 1.
        names.push_back(screening::weekday_name(screening::Date{date::year{2000} / 1 / 2} +
                                                date::days{static_cast<int>(day)}));
    }
    const bool in_a_row = days.size() > 2 && days.back() - days.front() + 1 == days.size();
    return in_a_row ? fmt::format("{} to {}", names.front(), names.back()) : listed(names);
}

void add_who_to_ring(Sheet& sheet)
{
    sheet.heading("Who to ring");
    const screening::Calendar& calendar = sheet.rules.policy.calendar;
    const std::string hours =
        calendar.working_weekdays.empty()
            ? ""
            : fmt::format(", {} from {} to {}, not on holidays", weekdays_in_words(calendar.working_weekdays),
                          time_in_words(calendar.opens), time_in_words(calendar.closes));
    sheet.text(fmt::format("{}{}.", sheet.rules.policy.unit, hours));
    sheet.text(
        "Ring us if anything about your health changes, if a medicine is new, or if you have taken one that "
        "you were to leave out.");
    sheet.text("In an emergency, dial the emergency number first.");
}

void write(Sheet& sheet, bool draft)
{
    add_session(sheet);
    if (sheet.file.ending) {
        sheet.text(
            "This session does not take place as planned. We tell you what to do with your medicines. If you "
            "have left one out for it and have not heard from us by the next working day, ring us.");
    } else if (not_to_go_ahead(sheet.whole)) {
        sheet.text(
            "Your doctor has decided that this session does not go ahead as planned. Do not start a "
            "preparation, and change no medicine yourself. We ring you.");
    } else {
        if (draft) {
            sheet.text("This is a draft: some of it is still open.");
        }
        if (!sheet.all_asked) {
            sheet.text("We have not gone through all our questions with you yet.");
        }
        add_open(sheet);
        add_medicines(sheet);
        add_preparation(sheet, draft);
    }
    add_who_to_ring(sheet);
    sheet.heading("Who decides");
    sheet.text(caution_for_patients());
}

}  // namespace

SheetContent sheet_content(const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    Sheet sheet{rules,
                file,
                whole,
                to_decide(rules, file.record, whole),
                patient_was_asked_everything(rules, file, whole),
                {}};
    SheetContent content;
    content.draft = !sheet.undecided.empty() || !sheet.all_asked || plan_is_missing(whole) ||
                    !file.record.medicines.closed;
    write(sheet, content.draft);
    content.lines = std::move(sheet.lines);
    content.bytes = bytes_of("sheet", content.lines, rules.zone);
    return content;
}

}  // namespace foreday::checklists
