#include "gui/console/report_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "gui/console/restart_words.h"
#include "gui/console/words.h"
#include "screening/hold_words.h"

namespace foreday::console {
namespace {

using checklists::Decided;
using checklists::WholeCase;
using screening::CaseRecord;
using screening::Hold;
using screening::Item;
using screening::ItemState;
using screening::Level;
using screening::Rules;

constexpr std::size_t in = 2;  // columns each step of detail is moved in
constexpr std::size_t further = 4;

std::string heading(std::string_view text)
{
    return fmt::format("\n{}\n", text);
}

std::string roles(const std::vector<screening::Role>& who)
{
    std::vector<std::string_view> names;
    for (const screening::Role role : who) {
        names.push_back(screening::name_of(role));
    }
    return fmt::format("{}", fmt::join(names, ", "));
}

/// Open only on what nobody has asked yet: counted by section, not listed one by one.
bool only_not_asked(const Item& item)
{
    return item.state == ItemState::open &&
           std::ranges::all_of(item.open_on, [](const screening::OpenOn& open) {
               return open.why == screening::OpenWhy::not_asked ||
                      open.why == screening::OpenWhy::not_applicable ||
                      open.why == screening::OpenWhy::list_not_closed;
           });
}

std::string decision_words(const Decided& decided)
{
    if (decided.by == nullptr) {
        return "not decided";
    }
    if (decided.role_may_not) {
        return fmt::format("decided by {}, whose role may not decide on this: does not count",
                           decided.by->who);
    }
    if (decided.state == checklists::DecisionState::opened_again) {
        return fmt::format("decided by {}, and changed since: opened again", decided.by->who);
    }
    std::string text = fmt::format("decided by {}", decided.by->who);
    if (decided.asked_outside) {
        text = fmt::format("{} asks outside", decided.by->who);
    } else if (decided.not_go_ahead) {
        text += ": not to go ahead";
    }
    if (decided.waits_for_signature) {
        text += ", spoken, to be signed";
    }
    return decided.bound ? text : text + " (not bound)";
}

std::string ground_words(const Item& item)
{
    std::vector<std::string> parts;
    for (const screening::Ground& ground : item.because) {
        parts.push_back(ground.who.empty()
                            ? fmt::format("{} {}", ground.what, ground.value)
                            : fmt::format("{} {} ({})", ground.what, ground.value, ground.who));
    }
    return fmt::format("{}", fmt::join(parts, "; "));
}

std::string open_words(const Item& item)
{
    std::vector<std::string> parts;
    for (const screening::OpenOn& open : item.open_on) {
        parts.push_back(fmt::format("{} ({})", open.fact, screening::name_of(open.why)));
    }
    return fmt::format("{}", fmt::join(parts, "; "));
}

std::string details(const Rules& rules, const Item& item)
{
    std::string text;
    if (!item.because.empty()) {
        text += wrapped("because: " + ground_words(item), further);
    }
    if (!item.open_on.empty()) {
        text += wrapped((item.on_unconfirmed ? "not confirmed: " : "open on: ") + open_words(item), further);
    }
    std::vector<std::string> sources;
    for (const screening::SourceUse& use : item.sources) {
        sources.push_back(source_words(rules.protocol, use));
    }
    text += wrapped(fmt::format("how sure: {}{}{}", screening::name_of(item.sure),
                                sources.empty() ? "" : ": ", fmt::join(sources, "; ")),
                    further);
    return text;
}

std::string finding_words(const Rules& rules, const Item& item, const Decided& decided)
{
    std::string line = fmt::format("{}: {}", screening::shown_as(item.level), item.title);
    if (item.state == ItemState::open) {
        line += " (open)";
    }
    std::string text = wrapped(line, in);
    if (item.now) {
        text += wrapped("NOW, say: " + item.now_words, further);
    }
    if (!item.reading.empty()) {
        text += wrapped(item.reading, further);
    }
    if (item.level >= Level::ask) {
        text += wrapped(fmt::format("who: {}. {}", roles(item.who), decision_words(decided)), further);
        if (checklists::is_undecided(item, decided)) {
            text += wrapped("until then, say: " + item.meanwhile, further);
        }
    } else {
        text += wrapped("who: " + roles(item.who), further);
    }
    return text + details(rules, item);
}

std::string findings_words(const Rules& rules, const WholeCase& whole)
{
    std::string text = heading("FINDINGS");
    std::size_t counted = 0;
    for (std::size_t place = 0; place < whole.assessment.findings.size(); ++place) {
        const Item& item = whole.assessment.findings[place];
        if (only_not_asked(item)) {
            ++counted;
            continue;
        }
        text += finding_words(rules, item, whole.decided[place]);
    }
    if (whole.assessment.findings.size() == counted) {
        text += wrapped("none fired", in);
    }
    if (counted > 0) {
        text += wrapped(fmt::format("{} more may yet fire on questions that nobody has asked", counted), in);
    }
    return text;
}

void add_options(std::string& text, std::string_view lead, const std::vector<screening::HoldOption>& options)
{
    for (const screening::HoldOption& option : options) {
        text += wrapped(fmt::format("{} {}: {}", lead, option.label, plan_words(option.plan)), further);
    }
}

void add_other_policies(std::string& text, const Hold& hold)
{
    const screening::OtherPolicies others = screening::sorted_by_result(hold);
    add_options(text, "under another policy,", others.different);
    if (!others.the_same.empty()) {
        text += wrapped(fmt::format("the same under another policy: {}", fmt::join(others.the_same, "; ")),
                        further);
    }
}

std::string hold_words(const Rules& rules, const CaseRecord& record, const WholeCase& whole,
                       std::size_t place)
{
    const Hold& hold = whole.assessment.holds[place];
    const Decided& decided = whole.decided[whole.assessment.findings.size() + place];
    std::string text = wrapped(
        fmt::format("{}{}: {}", hold.medicine, hold.marked ? " (marked)" : "", plan_words(hold.plan)), in);
    text += wrapped(fmt::format("{}; {}; {}", screening::shown_as(hold.item.level),
                                checklists::name_of(whole.stages[place]), hold.item.title),
                    further);
    for (const screening::HoldWarning warning : hold.warnings) {
        text += wrapped(fmt::format("warning: {}", screening::name_of(warning)), further);
    }
    if (hold.item.now) {
        text += wrapped(
            "NOW: the last dose comes before the unit's next working hours; ring who may decide while "
            "the patient is on the line",
            further);
    }
    if (!hold.plan.dates_omitted.empty()) {
        std::vector<std::string> days;
        for (const screening::Date day : hold.plan.dates_omitted) {
            days.push_back(day_words(day));
        }
        text += wrapped(fmt::format("no dose on: {}", fmt::join(days, ", ")), further);
    }
    if (hold.plan.day_of) {
        text += wrapped(fmt::format("on the day: {}", screening::name_of(*hold.plan.day_of)), further);
    }
    if (!hold.pulling_apart.empty()) {
        text +=
            wrapped(fmt::format("rules that pull apart: {}", fmt::join(hold.pulling_apart, ", ")), further);
    }
    if (!hold.published_fraction.empty()) {
        text += wrapped("published figure, for the clinician: " + hold.published_fraction, further);
    }
    if (hold.item.level >= Level::ask) {
        text += wrapped(fmt::format("who: {}. {}", roles(hold.item.who), decision_words(decided)), further);
        if (checklists::is_undecided(hold.item, decided)) {
            text += wrapped("until then, say: " + hold.item.meanwhile, further);
        }
    }
    if (record.done) {
        text += wrapped(restart_words(rules.protocol, hold, whole.restart_proposals[place]), further);
    }
    add_options(text, "still possible,", hold.options);
    add_other_policies(text, hold);
    return text + details(rules, hold.item);
}

/// A day as a heading, and under it a line a step. On a day on which the clocks change every time carries
/// its offset, as one of them may exist twice.
std::string steps_words(const screening::Zone& zone, const std::vector<checklists::Step>& steps)
{
    std::string text;
    std::optional<screening::Date> day;
    bool clocks_change = false;
    for (const checklists::Step& step : steps) {
        const screening::LocalMinute local = screening::local_of(zone, step.at);
        if (day != screening::date_of(local)) {
            day = screening::date_of(local);
            const screening::Moment begin = screening::moment_of(zone, screening::LocalMinute{*day});
            clocks_change =
                screening::offset_at(zone, begin) != screening::offset_at(zone, begin + date::days{1});
            text += wrapped(day_words(*day), further);
        }
        const std::string iso = screening::iso_with_offset(zone, step.at);
        constexpr std::size_t after_the_minute = 16;  // "2027-04-12T09:00"
        text +=
            wrapped(fmt::format("{}{}  {}", time_words(screening::time_of_day(local)),
                                clocks_change ? " (UTC" + iso.substr(after_the_minute) + ")" : "", step.what),
                    further + in);
    }
    return text;
}

std::string preparation_words(const Rules& rules, const WholeCase& whole)
{
    std::string text = heading("PREPARATION");
    if (!whole.preparation.about_the_order.empty()) {
        text += wrapped(whole.preparation.about_the_order, in);
    }
    const auto* fitted = std::get_if<checklists::Fitted>(&whole.preparation.plan);
    if (const auto* refused = std::get_if<checklists::Refused>(&whole.preparation.plan)) {
        if (refused->reason != whole.preparation.about_the_order) {
            text += wrapped(refused->reason, in);
        }
        text +=
            wrapped(fmt::format("a clinician decides; choices: {}", fmt::join(refused->choices, "; ")), in);
        if (whole.preparation.suggestion) {
            fitted = &*whole.preparation.suggestion;
            text += wrapped(
                "if it becomes " + rules.protocol.preparations[*fitted->preparation].generic + ":", in);
        }
    }
    if (fitted == nullptr) {
        return text;
    }
    text += steps_words(rules.zone, fitted->steps);
    if (fitted->journey_assumed) {
        text += wrapped("planned with the unit's usual journey; open until the patient has told theirs", in);
    }
    if (!fitted->leave_home) {
        text += wrapped(
            "when to leave home is not said: the unit has not confirmed how early patients are to be there",
            in);
    }
    for (const std::string& note : fitted->notes) {
        text += wrapped(note, in);
    }
    return text;
}

std::string open_questions_words(const WholeCase& whole)
{
    std::string text;
    if (!whole.assessment.open_questions.empty()) {
        text += heading("OPEN QUESTIONS");
        for (const screening::OpenQuestion& question : whole.assessment.open_questions) {
            text +=
                wrapped(fmt::format("{}: {}; would settle {}", question.fact,
                                    screening::name_of(question.why), fmt::join(question.would_settle, ", ")),
                        in);
        }
    }
    std::vector<std::string> sections;
    for (const auto& [section, count] : whole.assessment.not_asked) {
        if (count > 0) {
            sections.push_back(fmt::format("{} {}", section, count));
        }
    }
    if (!sections.empty()) {
        text += heading("NOT ASKED YET, BY SECTION");
        text += wrapped(fmt::format("{}", fmt::join(sections, "; ")), in);
    }
    return text;
}

std::string clearance_words(const WholeCase& whole)
{
    const checklists::ClearanceCheck& check = whole.clearance;
    std::string text = heading("CLEARANCE");
    switch (check.given) {
        case checklists::ClearanceCheck::Given::stands:
            text += wrapped("given, and stands", in);
            break;
        case checklists::ClearanceCheck::Given::lapsed:
            text += wrapped("given, and lapsed: " + check.lapsed_because, in);
            break;
        case checklists::ClearanceCheck::Given::no:
            text += wrapped(check.possible ? "possible, not given yet" : "not possible yet", in);
            break;
    }
    for (const checklists::Lack& lack : check.lacks) {
        text += wrapped("lacks: " + lack.what, further);
    }
    for (const std::string& what : check.still_to_do) {
        text += wrapped("still to do: " + what, further);
    }
    return text;
}

std::string readiness_words(const Rules& rules, const WholeCase& whole)
{
    const checklists::Readiness& readiness = whole.readiness;
    std::string text = heading("READINESS ON THE DAY");
    text += wrapped(std::string{checklists::name_of(readiness.verdict)}, in);
    for (const std::string& reason : readiness.reasons) {
        text += wrapped(reason, further);
    }
    if (readiness.earliest) {
        text += wrapped("earliest: " + moment_words(rules.zone, *readiness.earliest), further);
    }
    if (readiness.verdict == checklists::Verdict::not_here_yet) {
        return text;
    }
    for (const checklists::ReadinessItem& item : readiness.items) {
        text += wrapped(fmt::format("{}: {}: {}", checklists::name_of(item.state), item.title, item.why),
                        further);
    }
    return text;
}

}  // namespace

std::string report_words(const ReportHead& head, const Rules& rules, const CaseRecord& record,
                         const WholeCase& whole)
{
    constexpr std::size_t short_hash = 12;
    std::string text = fmt::format("As of {}\n", moment_words(rules.zone, whole.assessment.at));
    text += fmt::format("Case {}, {}, born {}, number {}\n", head.case_id, record.booking.patient.name,
                        day_words(record.booking.patient.born), record.booking.patient.number);
    std::vector<std::string> procedures;
    for (const screening::ProcedureIndex place : record.booking.procedures) {
        procedures.push_back(rules.protocol.procedures[place].title);
    }
    text += fmt::format("{}, {}, bleeding risk {}\n", fmt::join(procedures, " and "),
                        moment_words(rules.zone, record.booking.start_moment),
                        screening::name_of(whole.assessment.bleeding_risk));
    text += fmt::format("{}; protocol {} ({}){}\n", head.unit, head.protocol_version,
                        head.protocol_hash.substr(0, short_hash),
                        head.policy_hash.empty() ? ", published defaults, nothing confirmed by a unit"
                                                 : ", policy " + head.policy_hash.substr(0, short_hash));
    text += wrapped(head.caution, 0);
    text += findings_words(rules, whole);
    text += heading("MEDICINES");
    if (whole.assessment.holds.empty()) {
        text += wrapped("none on the list", in);
    }
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        text += hold_words(rules, record, whole, place);
    }
    text += preparation_words(rules, whole);
    text += open_questions_words(whole);
    text += clearance_words(whole);
    text += readiness_words(rules, whole);
    return text;
}

}  // namespace foreday::console
