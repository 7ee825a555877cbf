#include "checklists/calls.h"

#include <algorithm>
#include <array>
#include <tuple>

#include "checklists/call_maker.h"

namespace foreday::checklists {
namespace {

using screening::Moment;

int tries_for(const CaseFile& file, const std::string& call, std::optional<Moment> since)
{
    return static_cast<int>(std::ranges::count_if(file.tries, [&](const Try& one) {
        return one.call == call && one.outcome != TryOutcome::rang_in && (!since || one.when >= *since);
    }));
}

}  // namespace

std::string_view name_of(CallKind kind)
{
    constexpr std::array<std::string_view, 7> names{
        "first call",          "to tell",         "outside ask", "undecided", "after a change",
        "what to start again", "clearance lapsed"};
    return names.at(static_cast<std::size_t>(kind));
}

Call placed(const CallSetting& setting, CallDraft draft)
{
    Call call;
    call.id = name_of(draft.kind);
    if (!draft.about.empty()) {
        call.id += ":" + draft.about;
    }
    call.kind = draft.kind;
    call.useful_until = last_working_moment(setting.time, draft.useful_until).value_or(draft.useful_until);
    call.due_from = std::min(next_working_moment(setting.time, draft.due_from).value_or(draft.due_from),
                             call.useful_until);
    call.why = std::move(draft.why);
    call.tries = tries_for(setting.file, call.id, draft.since);
    call.about = std::move(draft.about);
    return call;
}

std::vector<Call> calls_of(const screening::Rules& rules, const CaseFile& file, const WholeCase& whole,
                           const HashText& hash)
{
    std::vector<Call> calls;
    if (file.closed || file.gone_in || file.record.done) {
        return calls;
    }
    const CallSetting setting{rules,
                              file,
                              whole,
                              {rules.policy.calendar, rules.zone},
                              telling_state(rules, file, whole, hash),
                              to_decide(rules, file.record, whole),
                              first_step(rules, file.record, whole)};
    if (!file.ending) {
        add_first_call(setting, calls);
        add_outside_asks(setting, calls);
        add_undecided(setting, calls);
        add_to_tell(setting, calls);
        add_after_a_change(setting, calls);
        add_clearance_lapsed(setting, calls);
    }
    add_what_to_start_again(setting, calls);
    std::ranges::sort(calls, {},
                      [](const Call& call) { return std::tie(call.useful_until, call.tries, call.id); });
    return calls;
}

}  // namespace foreday::checklists
