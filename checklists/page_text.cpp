#include "checklists/page_text.h"

#include <fmt/format.h>

#include "checklists/page_items.h"
#include "checklists/timetable_lines.h"
#include "checklists/words.h"

namespace foreday::checklists {
namespace {

using screening::Rules;

/// What a page is written from.
struct Page {
    const Rules& rules;
    const CaseFile& file;
    const WholeCase& whole;
    std::vector<Line> lines;

    void heading(std::string text) { lines.push_back({LineKind::heading, std::move(text), {}}); }
    void text(std::string words) { lines.push_back({LineKind::text, std::move(words), {}}); }
};

void add_booking(Page& page)
{
    const screening::Booking& booking = page.file.record.booking;
    page.heading(fmt::format("Case {}", page.file.record.id));
    const screening::Date day = screening::date_of(booking.start);
    page.text(fmt::format("{}, {}, born {}, {} years.", booking.patient.name,
                          booking.patient.number.empty() ? "no number" : booking.patient.number,
                          screening::iso_date(booking.patient.born),
                          screening::completed_years(booking.patient.born, day)));
    page.text(fmt::format("{}; starts {}; bleeding risk {}.",
                          procedures_in_words(page.rules, page.file.record),
                          moment_in_words(page.rules.zone, booking.start_moment),
                          screening::name_of(page.whole.assessment.bleeding_risk)));
    if (!page.whole.assessment.in_scope) {
        page.text("Outside what the protocol has plans for.");
    }
    if (page.file.ending) {
        page.text(fmt::format("{}: {}", name_of(page.file.ending->kind), page.file.ending->words));
    }
}

void add_findings(Page& page)
{
    page.heading("Findings");
    const auto& findings = page.whole.assessment.findings;
    if (findings.empty()) {
        page.text("No rule fired, and none is open.");
    }
    for (std::size_t place = 0; place < findings.size(); ++place) {
        add_item(page.lines, page.rules, findings[place], page.whole.decided.at(place));
    }
}

void add_medicines(Page& page)
{
    page.heading("Medicines");
    const screening::MedicineList& list = page.file.record.medicines;
    page.text(list.closed ? fmt::format("The list was closed by {} on {}.", list.closed->by,
                                        moment_in_words(page.rules.zone, list.closed->at))
                          : "The list is not closed.");
    for (const screening::MedicineItem& medicine : list.items) {
        if (!medicine.medicine) {
            page.text(fmt::format("\"{}\": nobody has named it.", medicine.heard));
        }
    }
    const auto& holds = page.whole.assessment.holds;
    for (std::size_t place = 0; place < holds.size(); ++place) {
        const Decided& decided = page.whole.decided.at(page.whole.assessment.findings.size() + place);
        add_hold(page.lines, page.rules, holds[place], decided, page.whole.stages.at(place));
    }
}

void add_questions(Page& page)
{
    page.heading("Open questions");
    const auto& assessment = page.whole.assessment;
    for (const screening::OpenQuestion& question : assessment.open_questions) {
        page.text(fmt::format("{} ({}); would settle {}.", question.fact, screening::name_of(question.why),
                              listed(question.would_settle)));
    }
    int not_asked = 0;
    for (const auto& [section, count] : assessment.not_asked) {
        not_asked += count;
        if (count > 0) {
            page.text(fmt::format("{}: {} not asked.", section, count));
        }
    }
    if (assessment.open_questions.empty() && not_asked == 0) {
        page.text("None.");
    }
}

void add_preparation(Page& page)
{
    page.heading("Preparation");
    const PreparationPlan& preparation = page.whole.preparation;
    if (!preparation.about_the_order.empty()) {
        page.text(preparation.about_the_order + ".");
    }
    if (const auto* plan = std::get_if<Fitted>(&preparation.plan)) {
        for (const screening::OpenOn& open : plan->open_on) {
            page.text(fmt::format("Open on {} ({}).", open.fact, screening::name_of(open.why)));
        }
        add_timetable(page.lines, *plan, page.rules.zone);
        for (const std::string& note : plan->notes) {
            page.text(note);
        }
        return;
    }
    const auto& refused = std::get<Refused>(preparation.plan);
    page.text("No plan: " + refused.reason + ".");
    if (!refused.choices.empty()) {
        page.text(fmt::format("Choices: {}.", fmt::join(refused.choices, "; ")));
    }
    page.text(preparation.stated.empty() ? "Nobody has stated one." : "Stated by " + preparation.stated);
}

void add_decisions(Page& page)
{
    page.heading("Decisions");
    if (page.file.record.decisions.empty()) {
        page.text("None.");
    }
    for (const screening::Decision& decision : page.file.record.decisions) {
        page.text(fmt::format("{}: {}.", decision.item, decision_in_words(decision, page.rules.zone)));
    }
}

void add_clearance(Page& page)
{
    page.heading("Clearance");
    const ClearanceCheck& check = page.whole.clearance;
    for (const Lack& lack : check.lacks) {
        page.text("Lacks " + lack.what + ".");
    }
    if (check.lacks.empty()) {
        page.text("Nothing stands in its way.");
    }
    for (const std::string& item : check.still_to_do) {
        page.text("Still to do: " + item + ".");
    }
    switch (check.given) {
        case ClearanceCheck::Given::no:
            break;
        case ClearanceCheck::Given::stands:
            page.text(fmt::format("Given by {}.", page.file.record.clearance.value().by));
            break;
        case ClearanceCheck::Given::lapsed:
            page.text(fmt::format("Given by {}, and lapsed: {}.", page.file.record.clearance.value().by,
                                  check.lapsed_because));
            break;
    }
}

}  // namespace

CasePage case_page(const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    Page page{rules, file, whole, {}};
    add_booking(page);
    add_findings(page);
    add_medicines(page);
    add_questions(page);
    add_preparation(page);
    add_decisions(page);
    add_clearance(page);
    page.heading("Caution");
    page.text(caution_for_staff());
    return {page.lines, bytes_of("case page", page.lines, rules.zone)};
}

}  // namespace foreday::checklists
