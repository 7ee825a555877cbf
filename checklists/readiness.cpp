#include "checklists/readiness.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/lacks_in_words.h"
#include "checklists/readiness_checks.h"

namespace foreday::checklists {
namespace {

using screening::ReadinessKind;
using screening::ReadinessRule;

ReadinessItem item_for(const ReadinessRule& rule, const ReadinessSetting& setting)
{
    ReadinessItem item;
    item.id = rule.head.id;
    item.title = rule.head.title;
    item.kind = rule.kind;
    item.would_make_it_ready = rule.would_make_it_ready;
    item.sources = rule.head.sources;
    item.sure = screening::rank_in(setting.judge.rules().policy, rule.head.id, rule.head.sure);
    item.who = rule.head.who;
    if (const auto* confirmed = std::get_if<screening::ConfirmedCheck>(&rule.check)) {
        check_confirmed(*confirmed, setting, item);
    } else if (const auto* measured = std::get_if<screening::MeasuredCheck>(&rule.check)) {
        check_measured(*measured, setting, item);
    } else if (const auto* fasting = std::get_if<screening::FastingCheck>(&rule.check)) {
        check_fasting(*fasting, setting, item);
    } else {
        check_holds(setting, item);
    }
    return item;
}

void let_pass(const screening::CaseRecord& record, ReadinessItem& item)
{
    if (!record.arrival || item.state == ReadinessState::met) {
        return;
    }
    const auto& passed = record.arrival->let_pass;
    const auto found = std::ranges::find(passed, item.id, &screening::ItemLetPass::item);
    if (found != passed.end() && (found->as_it_read.empty() || found->as_it_read == item.why)) {
        item.state = ReadinessState::let_pass;
    }
}

bool stands_in_the_way(const ReadinessItem& item)
{
    return item.kind != ReadinessKind::to_be_noted && item.state != ReadinessState::met &&
           item.state != ReadinessState::let_pass;
}

/// A blank item is somebody's next action, so it makes "not ready" whoever will judge it. A measured one
/// that needs a clinician waits for that clinician.
bool waits_for_a_clinician(const ReadinessItem& item)
{
    return item.kind == ReadinessKind::needs_a_clinician && item.state != ReadinessState::blank;
}

std::string reason_for(const ReadinessItem& item)
{
    std::string text = item.title + ": " + item.why;
    for (const screening::OpenOn& open : item.open_on) {
        text += fmt::format("; whether it applies hangs on {} ({})", open.fact, screening::name_of(open.why));
    }
    return text;
}

/// What waits for a question is the next action of whoever asks; the rest waits for a clinician.
void add_clearance(const screening::Assessment& assessment, const ClearanceCheck& clearance,
                   std::vector<std::string>& to_do, std::vector<std::string>& waiting)
{
    if (clearance.given == ClearanceCheck::Given::stands) {
        return;
    }
    const Lacking lacks = lacking(assessment, clearance);
    if (!lacks.to_ask.empty()) {
        to_do.push_back("clearance lacks " + lacks.to_ask);
    }
    const bool lapsed = clearance.given == ClearanceCheck::Given::lapsed;
    const bool says_why = lapsed && lacks.to_ask.empty() && lacks.settled_otherwise.empty();
    waiting.push_back(says_why ? "the clearance has lapsed: " + clearance.lapsed_because
                      : lapsed ? "the clearance has lapsed"
                               : "nobody has cleared the case");
    for (const std::string& lack : lacks.settled_otherwise) {
        waiting.push_back("clearance lacks: " + lack);
    }
}

void give_verdict(Readiness& readiness, const screening::Assessment& assessment,
                  const ClearanceCheck& clearance)
{
    std::vector<std::string> waiting;
    bool time_alone_will_do = clearance.given == ClearanceCheck::Given::stands;
    for (const ReadinessItem& item : readiness.items) {
        if (!stands_in_the_way(item)) {
            continue;
        }
        (waits_for_a_clinician(item) ? waiting : readiness.reasons).push_back(reason_for(item));
        if (item.earliest) {
            readiness.earliest = std::max(readiness.earliest.value_or(*item.earliest), *item.earliest);
        } else {
            time_alone_will_do = false;
        }
    }
    if (!time_alone_will_do) {
        readiness.earliest.reset();
    }
    add_clearance(assessment, clearance, readiness.reasons, waiting);
    if (!readiness.reasons.empty()) {
        readiness.verdict = Verdict::not_ready;
    } else {
        readiness.verdict = waiting.empty() ? Verdict::may_go_in : Verdict::waiting_for_a_clinician;
    }
    readiness.reasons.insert(readiness.reasons.end(), waiting.begin(), waiting.end());
}

bool is_here(const screening::Rules& rules, const screening::CaseRecord& record, screening::Moment now)
{
    return record.arrival && record.arrival->here_since &&
           screening::moment_of(rules.zone, *record.arrival->here_since) <= now;
}

}  // namespace

std::string_view name_of(ReadinessState state)
{
    switch (state) {
        case ReadinessState::met:
            return "met";
        case ReadinessState::not_met:
            return "not met";
        case ReadinessState::blank:
            return "blank";
        case ReadinessState::let_pass:
            return "let pass";
        case ReadinessState::open:
            return "open";
    }
    return "";
}

std::string_view name_of(Verdict verdict)
{
    switch (verdict) {
        case Verdict::may_go_in:
            return "may go in";
        case Verdict::waiting_for_a_clinician:
            return "waiting for a clinician";
        case Verdict::not_ready:
            return "not ready";
        case Verdict::not_here_yet:
            return "not here yet";
    }
    return "";
}

Readiness check_readiness(const screening::Rules& rules, const screening::CaseRecord& record,
                          const screening::Assessment& assessment, const std::vector<Decided>& decided,
                          const ClearanceCheck& clearance, screening::Moment now)
{
    const screening::Moment start = std::max(record.booking.start_moment, now);
    const screening::Judge judge(rules, record, start);
    const ReadinessSetting setting{judge, assessment, decided, start};
    Readiness readiness;
    for (const ReadinessRule& rule : rules.protocol.readiness) {
        const screening::Judged applies = judge.judge(rule.when);
        if (applies.truth == screening::Truth::no) {
            continue;
        }
        readiness.items.push_back(item_for(rule, setting));
        if (applies.truth == screening::Truth::open) {
            readiness.items.back().open_on = applies.open_on;
        }
        let_pass(record, readiness.items.back());
    }
    if (!is_here(rules, record, now)) {
        readiness.reasons.emplace_back("the patient is not here yet");
        return readiness;
    }
    give_verdict(readiness, assessment, clearance);
    return readiness;
}

}  // namespace foreday::checklists
