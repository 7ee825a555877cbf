#include "checklists/readiness.h"

#include <algorithm>

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
    const auto& passed = record.arrival->escalations_decided;
    if (std::ranges::find(passed, item.id) != passed.end()) {
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
    return item.kind == ReadinessKind::needs_a_clinician && item.state == ReadinessState::not_met;
}

void give_verdict(Readiness& readiness, const ClearanceCheck& clearance)
{
    std::vector<std::string> waiting;
    bool time_alone_will_do = true;
    for (const ReadinessItem& item : readiness.items) {
        if (!stands_in_the_way(item)) {
            continue;
        }
        const std::string reason = item.title + ": " + item.why;
        (waits_for_a_clinician(item) ? waiting : readiness.reasons).push_back(reason);
        if (item.earliest) {
            readiness.earliest = std::max(readiness.earliest.value_or(*item.earliest), *item.earliest);
        } else {
            time_alone_will_do = false;
        }
    }
    if (clearance.given != ClearanceCheck::Given::stands) {
        time_alone_will_do = false;
        waiting.push_back(clearance.given == ClearanceCheck::Given::lapsed
                              ? "the clearance has lapsed: " + clearance.lapsed_because
                              : "nobody has cleared the case");
    }
    if (!time_alone_will_do) {
        readiness.earliest.reset();
    }
    const bool ready = readiness.reasons.empty();
    readiness.reasons.insert(readiness.reasons.end(), waiting.begin(), waiting.end());
    if (!ready) {
        readiness.verdict = Verdict::not_ready;
    } else {
        readiness.verdict = waiting.empty() ? Verdict::may_go_in : Verdict::waiting_for_a_clinician;
    }
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
    const screening::Judge judge(rules, record, now);
    const ReadinessSetting setting{judge, assessment, decided, std::max(record.booking.start_moment, now)};
    Readiness readiness;
    for (const ReadinessRule& rule : rules.protocol.readiness) {
        if (judge.truth(rule.when) == screening::Truth::no) {
            continue;
        }
        readiness.items.push_back(item_for(rule, setting));
        let_pass(record, readiness.items.back());
    }
    if (!record.arrival || !record.arrival->here_since) {
        readiness.reasons.push_back("the patient is not here yet");
        return readiness;
    }
    give_verdict(readiness, clearance);
    return readiness;
}

}  // namespace foreday::checklists
