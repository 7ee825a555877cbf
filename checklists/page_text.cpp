#include "checklists/page_text.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/page_items.h"
#include "checklists/timetable_lines.h"
#include "checklists/words.h"
#include "screening/fact_words.h"

namespace foreday::checklists {
namespace {

using screening::Rules;

/// What a page is written from.
struct Page {
    const Rules& rules;
    const CaseFile& file;
    const WholeCase& whole;
    std::vector<Line> lines;

    [[nodiscard]] InView view() const { return {rules, file.record, whole.assessment}; }
    void heading(std::string text) { lines.push_back({LineKind::heading, std::move(text), {}}); }
    void text(std::string words) { lines.push_back({LineKind::text, std::move(words), {}}); }
};

void add_booking(Page& page)
{
    const screening::Booking& booking = page.file.record.booking;
    page.heading(fmt::format("Case {}", page.file.record.id));
    const screening::Date day = screening::date_of(booking.start);
    page.text(fmt::format("{}, {}, born {}, {} years old on the day.", booking.patient.name,
                          booking.patient.number.empty() ? "no number" : booking.patient.number,
                          screening::date_in_words(booking.patient.born),
                          screening::completed_years(booking.patient.born, day)));
    page.text(fmt::format("{}, {}. Bleeding risk: {}.",
                          capitalised(procedures_in_words(page.rules, page.file.record)),
                          moment_in_words(page.rules.zone, booking.start_moment),
                          screening::name_of(page.whole.assessment.bleeding_risk)));
    if (!page.whole.assessment.in_scope) {
        page.text("Outside what the protocol has plans for.");
    }
    if (page.file.ending) {
        const std::string kind = capitalised(std::string{name_of(page.file.ending->kind)});
        page.text(sentence(
            page.file.ending->words.empty() ? kind : fmt::format("{}: {}", kind, page.file.ending->words)));
    }
}

void add_findings(Page& page)
{
    page.heading("Findings");
    const auto& findings = page.whole.assessment.findings;
    std::size_t waiting = 0;
    for (std::size_t place = 0; place < findings.size(); ++place) {
        if (waits_for_questions(findings[place])) {
            ++waiting;
        } else {
            add_item(page.lines, page.view(), findings[place], page.whole.decided.at(place));
        }
    }
    if (findings.size() == waiting) {
        page.text("No rule has fired.");
    }
    if (waiting > 0) {
        page.text(fmt::format("{} may still come of questions that nobody has asked yet.",
                              waiting == 1 ? "1 finding" : fmt::format("{} findings", waiting)));
    }
}

void add_medicines(Page& page)
{
    page.heading("Medicines");
    const screening::MedicineList& list = page.file.record.medicines;
    page.text(list.closed ? fmt::format("{} closed the list: {}.", list.closed->by,
                                        moment_in_words(page.rules.zone, list.closed->at))
                          : "The list is not closed: nobody has said that it is complete.");
    for (const screening::MedicineItem& medicine : list.items) {
        if (!medicine.medicine) {
            page.text(fmt::format("\"{}\": nobody has named it.", medicine.heard));
        }
    }
    const auto& holds = page.whole.assessment.holds;
    for (std::size_t place = 0; place < holds.size(); ++place) {
        const Decided& decided = page.whole.decided.at(page.whole.assessment.findings.size() + place);
        add_hold(page.lines, page.view(), holds[place], decided, page.whole.stages.at(place));
    }
}

std::string settled_in_words(const Page& page, const std::vector<std::string>& items)
{
    std::vector<std::string> words;
    for (const std::string& item : items) {
        std::string name = item_in_words(page.view(), item);
        if (std::ranges::find(words, name) == words.end()) {
            words.push_back(std::move(name));
        }
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

void add_questions(Page& page)
{
    page.heading("Open questions");
    const auto& assessment = page.whole.assessment;
    const screening::Protocol& protocol = page.rules.protocol;
    for (const screening::OpenQuestion& question : assessment.open_questions) {
        const std::string name = capitalised(open_in_words(protocol, {question.fact, question.why}));
        page.text(fmt::format("{}. An answer would settle: {}.", name,
                              settled_in_words(page, question.would_settle)));
    }
    int not_asked = 0;
    for (const auto& [section, count] : assessment.not_asked) {
        not_asked += count;
        if (count > 0) {
            page.text(fmt::format("{}: {} not asked yet.", capitalised(section),
                                  count == 1 ? "1 question is" : fmt::format("{} questions are", count)));
        }
    }
    if (assessment.open_questions.empty() && not_asked == 0) {
        page.text("None.");
    }
}

void add_plan(Page& page, const Fitted& plan)
{
    if (!plan.open_on.empty()) {
        page.text("Planned with the unit's usual journey; the patient's own is not known yet.");
    }
    add_short_timetable(page.lines, plan, page.rules.zone);
    for (const std::string& note : plan.notes) {
        page.text(sentence(note));
    }
}

void add_preparation(Page& page)
{
    page.heading("Preparation");
    const PreparationPlan& preparation = page.whole.preparation;
    if (!preparation.about_the_order.empty()) {
        page.text(sentence(preparation.about_the_order));
    }
    if (const auto* plan = std::get_if<Fitted>(&preparation.plan)) {
        add_plan(page, *plan);
        return;
    }
    const auto& refused = std::get<Refused>(preparation.plan);
    page.text(refused.reason == preparation.about_the_order
                  ? "So there is no plan."
                  : "There is no plan: " + sentence(refused.reason));
    if (!refused.choices.empty()) {
        page.text(fmt::format("What could be chosen: {}.", fmt::join(refused.choices, "; ")));
    }
    page.text(preparation.stated.empty() ? "A clinician is to state the preparation; nobody has yet."
                                         : "Stated by " + sentence(preparation.stated));
    if (preparation.suggestion && preparation.suggestion->preparation) {
        page.text(
            fmt::format("If it becomes {}:",
                        page.rules.protocol.preparations.at(*preparation.suggestion->preparation).generic));
        add_plan(page, *preparation.suggestion);
    }
}

void add_decisions(Page& page)
{
    page.heading("Decisions");
    if (page.file.record.decisions.empty()) {
        page.text("None.");
    }
    for (const screening::Decision& decision : page.file.record.decisions) {
        page.text(fmt::format("{}: {}", capitalised(item_in_words(page.view(), decision.item)),
                              sentence(decision_in_words(decision, page.rules.zone))));
    }
}

bool is_counted_only(const Page& page, const Lack& lack)
{
    const auto& findings = page.whole.assessment.findings;
    const auto found = std::ranges::find(findings, lack.item, &screening::Item::id);
    return found != findings.end() && waits_for_questions(*found);
}

void add_lacks(Page& page)
{
    std::size_t waiting = 0;
    for (const Lack& lack : page.whole.clearance.lacks) {
        if (is_counted_only(page, lack)) {
            ++waiting;
        } else {
            page.text("Still missing: " + sentence(lack.what));
        }
    }
    if (waiting > 0) {
        page.text(fmt::format("Still missing: answers that {} for.",
                              waiting == 1 ? "1 finding waits" : fmt::format("{} findings wait", waiting)));
    }
}

void add_clearance(Page& page)
{
    page.heading("Clearance");
    const ClearanceCheck& check = page.whole.clearance;
    add_lacks(page);
    const bool given = check.given == ClearanceCheck::Given::stands;
    if (check.lacks.empty()) {
        page.text(given ? "Nothing stands in its way." : "Nothing stands in its way; it has not been given.");
    }
    for (const std::string& item : check.still_to_do) {
        page.text("Still to do: " + sentence(item));
    }
    const auto by = [&](const screening::Clearance& clearance) {
        return fmt::format("Given by {} ({}), {}", clearance.by, screening::name_of(clearance.role),
                           moment_in_words(page.rules.zone, clearance.when));
    };
    const auto& clearance = page.file.record.clearance;
    if (clearance) {
        page.text(given
                      ? by(*clearance) + "."
                      : fmt::format("{}; it has lapsed: {}", by(*clearance), sentence(check.lapsed_because)));
    } else if (const auto& lapsed = page.file.clearance_lapsed) {
        page.text(fmt::format("{}; it lapsed, which was entered {}: {}", by(lapsed->given),
                              moment_in_words(page.rules.zone, lapsed->when), sentence(lapsed->because)));
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
