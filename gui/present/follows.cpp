#include "gui/present/follows.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decide_by.h"
#include "checklists/lacks_in_words.h"
#include "checklists/strands.h"
#include "checklists/timetable_lines.h"
#include "checklists/words.h"
#include "screening/fact_words.h"

namespace foreday::present {
namespace {

using checklists::Line;
using checklists::LineKind;
using screening::Item;
using screening::ItemState;
using screening::Level;

/// Lines under headings that appear only when there is something below them.
class Lines {
public:
    void heading(std::string text) { heading_ = std::move(text); }
    void text(std::string words)
    {
        if (!heading_.empty()) {
            lines_.push_back({LineKind::heading, std::move(heading_), {}});
            heading_.clear();
        }
        lines_.push_back({LineKind::text, std::move(words), {}});
    }
    [[nodiscard]] std::vector<Line> take() { return std::move(lines_); }

    std::vector<Line>& raw() { return lines_; }

private:
    std::vector<Line> lines_;
    std::string heading_;
};

std::string finding_in_words(const Item& item, const checklists::Decided& decided)
{
    std::string words = item.title;
    if (words.empty() || words.back() != '.') {
        words += '.';
    }
    if (decided.state == checklists::DecisionState::standing && decided.by != nullptr) {
        return fmt::format("{} Decided by {}: {}", words, decided.by->who, decided.by->words);
    }
    if (item.state == ItemState::open) {
        words += checklists::only_needs_asking(item) ? " Open until it is asked." : " Open.";
    }
    if (item.level >= Level::ask && !item.meanwhile.empty() && item.state == ItemState::fired) {
        words += " Until then say: " + item.meanwhile;
    }
    return words;
}

void add_findings(Lines& lines, const book::CaseNow& now, Level level)
{
    const auto& findings = now.whole.assessment.findings;
    for (std::size_t place = 0; place < findings.size(); ++place) {
        // What only waits to be asked stands in the questions; it would hide what has been found.
        if (findings[place].level == level &&
            (findings[place].state == ItemState::fired || !checklists::only_needs_asking(findings[place]))) {
            lines.text(finding_in_words(findings[place], now.whole.decided.at(place)));
        }
    }
}

void add_at_once(Lines& lines, const book::CaseNow& now)
{
    lines.heading("Now, while the patient is on the line");
    for (const Item* item : checklists::all_items(now.whole.assessment)) {
        if (item->now && item->state == ItemState::fired) {
            lines.text(item->now_words.empty() ? item->title
                                               : fmt::format("{} Say: {}", item->title, item->now_words));
        }
    }
}

void add_medicines(Lines& lines, const book::CaseNow& now)
{
    const auto& holds = now.whole.assessment.holds;
    lines.heading("Medicines");
    for (std::size_t place = 0; place < holds.size(); ++place) {
        const screening::Hold& hold = holds[place];
        const auto stage = now.whole.stages.at(place);
        std::string words = fmt::format("{}: {}", hold.medicine, checklists::plan_in_words(hold.plan));
        if (words.back() != '.') {
            words += '.';
        }
        if (stage == checklists::HoldStage::proposed && hold.item.level >= Level::ask) {
            words += fmt::format(" Not agreed: {} decides.", checklists::roles_in_words(hold.item.who));
            if (!hold.item.meanwhile.empty()) {
                words += " Until then say: " + hold.item.meanwhile;
            }
        } else {
            words += stage == checklists::HoldStage::told ? " Told." : "";
        }
        for (const screening::HoldWarning warning : hold.warnings) {
            words += fmt::format(" Mind: {}.", screening::name_of(warning));
        }
        lines.text(std::move(words));
    }
}

void add_preparation(Lines& lines, const book::CaseNow& now)
{
    lines.heading("Preparation");
    const auto& preparation = now.whole.preparation;
    if (const auto* refused = std::get_if<checklists::Refused>(&preparation.plan)) {
        lines.text(preparation.stated.empty() ? fmt::format("No plan: {}.", refused->reason)
                                              : "Stated by " + preparation.stated);
        return;
    }
    const auto& plan = std::get<checklists::Fitted>(preparation.plan);
    if (!preparation.about_the_order.empty()) {
        lines.text(preparation.about_the_order + ".");
    }
    const auto& zone = now.rules().zone;
    if (plan.first_portion) {
        lines.text(fmt::format("First portion {}.", checklists::moment_in_words(zone, *plan.first_portion)));
    }
    if (plan.second_portion) {
        lines.text(
            fmt::format("Second portion {}.", checklists::moment_in_words(zone, *plan.second_portion)));
    }
    lines.text(
        fmt::format("Last clear liquid {}.", checklists::moment_in_words(zone, plan.last_clear_liquid)));
}

}  // namespace

std::vector<Line> follows(const book::CaseNow& now)
{
    Lines lines;
    add_at_once(lines, now);
    for (const Level level : {Level::stop, Level::ask, Level::act, Level::note}) {
        std::string heading{screening::shown_as(level)};
        heading.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(heading.front())));
        lines.heading(std::move(heading));
        add_findings(lines, now, level);
    }
    add_medicines(lines, now);
    add_preparation(lines, now);
    lines.heading("Clearance");
    const auto& clearance = now.whole.clearance;
    if (clearance.given == checklists::ClearanceCheck::Given::stands) {
        lines.text(fmt::format("Given by {}.", now.record().clearance->by));
    } else if (clearance.lacks.empty()) {
        lines.text("Nothing stands in its way.");
    }
    for (const std::string& lack : checklists::lacks_in_words(now.whole.assessment, clearance)) {
        lines.text("Lacks " + lack + ".");
    }
    return lines.take();
}

std::vector<std::string> where_it_stands(const book::CaseNow& now)
{
    const auto strands =
        checklists::strands_of(now.rules(), now.file(), now.whole, now.at, book::book_hash());
    return {strands.screening_words, strands.decision_words, strands.told_words, strands.day_words,
            strands.closing_words};
}

std::string patient_in_words(const book::CaseNow& now)
{
    const auto& booking = now.record().booking;
    std::string procedures;
    for (const auto place : booking.procedures) {
        procedures += (procedures.empty() ? "" : ", ") + now.rules().protocol.procedures.at(place).title;
    }
    std::string phones;
    for (const std::string& phone : now.file().phones) {
        phones += (phones.empty() ? " Phone " : ", ") + phone;
    }
    return fmt::format("{}, born {}{}. {}, {}.{}{}", booking.patient.name,
                       screening::date_in_words(booking.patient.born),
                       booking.patient.number.empty() ? "" : ", " + booking.patient.number, procedures,
                       checklists::moment_in_words(now.rules().zone, booking.start_moment), phones,
                       phones.empty() ? "" : ".");
}

}  // namespace foreday::present
