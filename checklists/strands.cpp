#include "checklists/strands.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "checklists/decide_by.h"
#include "checklists/hold_moments.h"
#include "checklists/running_holds.h"
#include "checklists/strand_words.h"
#include "checklists/telling.h"
#include "checklists/words.h"

namespace foreday::checklists {
namespace {

using screening::Moment;
using screening::Rules;

void look_at_screening(Strands& strands, const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    if (!screening_begun(file)) {
        strands.screening = ScreeningStrand::not_begun;
    } else {
        strands.screening =
            screening_finished(rules, file, whole) ? ScreeningStrand::finished : ScreeningStrand::begun;
    }
    strands.screening_words = screening_sentence(strands.screening, questions_left(rules, file, whole));
}

/// Whoever the most urgent item waits for: somebody outside, or the roles that may decide.
std::string waiting_for(const CaseFile& file, const ToDecide& item)
{
    const auto ask = std::ranges::find_if(
        file.outside_asks, [&](const OutsideAsk& one) { return one.item == item.id && !one.came; });
    return ask != file.outside_asks.end() ? ask->whom : roles_in_words(item.who);
}

void look_at_decision(Strands& strands, const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    const auto undecided = to_decide(rules, file.record, whole);
    if (!undecided.empty()) {
        const bool again = std::ranges::any_of(undecided, &ToDecide::opened_again);
        strands.decision = again ? DecisionStrand::opened_again : DecisionStrand::waiting;
        strands.decide_by = undecided.front().decide_by;
        strands.waiting_for = waiting_for(file, undecided.front());
        strands.decision_words = waiting_sentence(strands, undecided.size(), rules.zone);
        return;
    }
    const auto items = all_items(whole.assessment);
    bool any = !whole.preparation.stated.empty();
    for (std::size_t place = 0; place < items.size(); ++place) {
        const bool asks = items[place]->level >= screening::Level::ask && !only_needs_asking(*items[place]);
        any = any || asks || whole.decided[place].order_expired;
    }
    strands.decision = any ? DecisionStrand::decided : DecisionStrand::nothing_to_decide;
    strands.waiting_for = listed(to_sign(whole));
    const bool not_to_go_ahead = std::ranges::any_of(whole.decided, &Decided::not_go_ahead);
    strands.decision_words = decided_sentence(strands, not_to_go_ahead);
}

void look_at_telling(Strands& strands, const Rules& rules, const CaseFile& file, const WholeCase& whole,
                     const HashText& hash)
{
    const TellingState state = telling_state(rules, file, whole, hash);
    if (state.wrong()) {
        strands.told = ToldStrand::no_longer_right;
    } else if (!state.to_tell.empty() || state.sheet_changed ||
               (state.nothing_open && state.preparation_untold)) {
        strands.told = ToldStrand::to_be_told;
    } else {
        strands.told = last_told(file) ? ToldStrand::told : ToldStrand::nothing_to_tell_yet;
    }
    for (const Call& call : calls_of(rules, file, whole, hash)) {
        if (call.kind == CallKind::to_tell || call.kind == CallKind::after_a_change) {
            strands.tell_by = call.useful_until;
        }
    }
    strands.told_words = telling_sentence(strands, file, rules.zone);
}

/// Roles that a readiness item of the clinician's kind waits for; else whoever gives clearance.
std::vector<screening::Role> clinicians_waited_for(const WholeCase& whole)
{
    std::vector<screening::Role> roles;
    for (const ReadinessItem& item : whole.readiness.items) {
        const bool waits = item.kind == screening::ReadinessKind::needs_a_clinician &&
                           item.state != ReadinessState::met && item.state != ReadinessState::let_pass;
        if (waits) {
            roles.insert(roles.end(), item.who.begin(), item.who.end());
        }
    }
    std::ranges::sort(roles);
    roles.erase(std::ranges::unique(roles).begin(), roles.end());
    return roles;
}

bool is_here(const Rules& rules, const CaseFile& file, Moment now)
{
    const auto& arrival = file.record.arrival;
    return arrival && arrival->here_since && *arrival->here_since <= screening::local_of(rules.zone, now);
}

void look_at_day(Strands& strands, const Rules& rules, const CaseFile& file, const WholeCase& whole,
                 Moment now)
{
    if (file.record.done) {
        strands.day = DayStrand::done;
    } else if (file.ending) {
        strands.day = DayStrand::called_off;
    } else if (file.gone_in) {
        strands.day = DayStrand::gone_in;
    } else if (!is_here(rules, file, now)) {
        strands.day = DayStrand::expected;
    } else if (whole.readiness.verdict == Verdict::may_go_in) {
        strands.day = DayStrand::may_go_in;
    } else if (whole.readiness.verdict == Verdict::waiting_for_a_clinician) {
        strands.day = DayStrand::waiting_for_a_clinician;
    } else {
        strands.day = DayStrand::here;
    }
    strands.day_words =
        day_sentence(strands.day, file, whole, rules.zone, roles_in_words(clinicians_waited_for(whole)));
}

/// Medicines left out for the session, with what became of each.
struct LeftOut {
    std::vector<std::string> undecided;
    std::vector<std::string> untold;
    std::vector<std::string> told;
};

const Restart* restart_of(const CaseFile& file, const std::string& item, Moment since)
{
    const auto& all = file.restarts;
    const auto last = std::find_if(all.rbegin(), all.rend(),
                                   [&](const Restart& one) { return one.item == item && one.when >= since; });
    return last == all.rend() ? nullptr : &*last;
}

void sort_in(LeftOut& left_out, const Restart* restart, const std::string& medicine)
{
    if (restart == nullptr) {
        left_out.undecided.push_back(medicine);
    } else {
        (restart->told ? left_out.told : left_out.untold).push_back(medicine);
    }
}

/// After the procedure every medicine that was left out for it; after another end those whose pause was told
/// or had begun.
LeftOut left_out_for(const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    LeftOut left_out;
    if (!file.record.done) {
        const Moment ended = file.ending.value().when;
        for (const RunningHold& hold : running_holds(rules, file, whole, ended, false)) {
            sort_in(left_out, restart_of(file, hold.item, ended), hold.medicine);
        }
        return left_out;
    }
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        const screening::Hold& hold = whole.assessment.holds[place];
        const bool paused = whole.stages.at(place) != HoldStage::proposed &&
                            standing_moments(rules, file.record, hold, decided_on_hold(whole, place));
        if (paused) {
            // Whatever was decided before a moved session's end was about another day.
            sort_in(left_out, restart_of(file, hold.item.id, file.moved_at.value_or(file.booked_at)),
                    hold.medicine);
        }
    }
    return left_out;
}

/// A restart decided once the case was closed, which the patient has not heard of: it must not lie in a
/// closed case.
bool restart_came_after_closing(const CaseFile& file)
{
    return std::ranges::any_of(file.restarts, [&](const Restart& restart) {
        return !restart.told && restart.when >= file.closed.value();
    });
}

void look_at_closing(Strands& strands, const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    if (file.closed && !restart_came_after_closing(file)) {
        strands.closing = ClosingStrand::closed;
    } else if (file.record.done || file.ending) {
        const LeftOut left_out = left_out_for(rules, file, whole);
        if (!left_out.undecided.empty()) {
            strands.closing = ClosingStrand::restart_to_be_decided;
            strands.closing_words = listed(left_out.undecided);
        } else if (!left_out.untold.empty()) {
            strands.closing = ClosingStrand::restart_to_be_told;
            strands.closing_words = listed(left_out.untold);
        } else if (!left_out.told.empty()) {
            strands.closing = ClosingStrand::restart_told;
            strands.closing_words = listed(left_out.told);
        } else {
            strands.closing = ClosingStrand::nothing_to_start_again;
        }
    }
    strands.closing_words = closing_sentence(strands.closing, strands.closing_words);
}

}  // namespace

std::string_view name_of(ScreeningStrand strand)
{
    constexpr std::array<std::string_view, 3> names{"not begun", "begun", "finished"};
    return names.at(static_cast<std::size_t>(strand));
}

std::string_view name_of(DecisionStrand strand)
{
    constexpr std::array<std::string_view, 4> names{"nothing to decide", "waiting", "decided",
                                                    "opened again"};
    return names.at(static_cast<std::size_t>(strand));
}

std::string_view name_of(ToldStrand strand)
{
    constexpr std::array<std::string_view, 4> names{"nothing to tell yet", "to be told", "told",
                                                    "told something that is no longer right"};
    return names.at(static_cast<std::size_t>(strand));
}

std::string_view name_of(DayStrand strand)
{
    constexpr std::array<std::string_view, 7> names{
        "expected", "here", "waiting for a clinician", "may go in", "gone in", "done", "called off"};
    return names.at(static_cast<std::size_t>(strand));
}

std::string_view name_of(ClosingStrand strand)
{
    constexpr std::array<std::string_view, 6> names{
        "not yet",      "restart to be decided",  "restart to be told",
        "restart told", "nothing to start again", "closed"};
    return names.at(static_cast<std::size_t>(strand));
}

Strands strands_of(const Rules& rules, const CaseFile& file, const WholeCase& whole, Moment now,
                   const HashText& hash)
{
    Strands strands;
    look_at_screening(strands, rules, file, whole);
    look_at_decision(strands, rules, file, whole);
    look_at_telling(strands, rules, file, whole, hash);
    look_at_day(strands, rules, file, whole, now);
    look_at_closing(strands, rules, file, whole);
    return strands;
}

}  // namespace foreday::checklists
