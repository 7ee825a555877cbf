#include <fmt/format.h>

#include <algorithm>

#include "checklists/call_maker.h"
#include "checklists/words.h"

/// Calls that come up as the days go by.
namespace foreday::checklists {
namespace {

using screening::Date;
using screening::LocalMinute;
using screening::Moment;

Moment midnight(const CallSetting& setting, Date day)
{
    return screening::moment_of(setting.rules.zone, LocalMinute{day});
}

std::string why_first(const CallSetting& setting)
{
    if (!screening_begun(setting.file)) {
        return "Nobody has screened this patient yet.";
    }
    std::vector<std::string> missing;
    const int left = questions_left(setting.rules, setting.file, setting.whole);
    if (left > 0) {
        missing.push_back(left == 1 ? "1 question" : fmt::format("{} questions", left));
    }
    const auto& lacks = setting.whole.clearance.lacks;
    if (std::ranges::find(lacks, "medicine list", &Lack::item) != lacks.end()) {
        missing.emplace_back("the medicine list");
    }
    return fmt::format("The screening is not finished; still to go through: {}.", listed(missing));
}

/// For which instructions there is a last moment, and which it is.
Moment tell_until(const CallSetting& setting)
{
    std::optional<Moment> until;
    for (const ToTell& one : setting.telling.to_tell) {
        if (one.begins) {
            until = std::min(until.value_or(*one.begins), *one.begins);
        }
    }
    if (!until || setting.telling.preparation_untold) {
        until = std::min(until.value_or(setting.first_step), setting.first_step);
    }
    return *until;
}

/// Medicines and the preparation are told; what a finding asks the nurse to do stands apart.
std::string why_to_tell(const CallSetting& setting)
{
    std::vector<std::string> about;
    std::vector<std::string> to_do;
    for (const ToTell& one : setting.telling.to_tell) {
        (one.item.starts_with("hold:") ? about : to_do).push_back(one.words);
    }
    if (setting.telling.nothing_open && setting.telling.preparation_untold) {
        about.emplace_back("the preparation");
    }
    const std::string also = fmt::format("{}", fmt::join(to_do, "; "));
    if (about.empty()) {
        return "To do with the patient: " + sentence(also);
    }
    const std::string text = fmt::format("To be told about: {}.", listed(about));
    return also.empty() ? text : fmt::format("{} Also to do: {}", text, sentence(also));
}

}  // namespace

void add_first_call(const CallSetting& setting, std::vector<Call>& calls)
{
    const screening::Rules& rules = setting.rules;
    const bool cleared = setting.whole.clearance.given == ClearanceCheck::Given::stands;
    const auto& arrival = setting.file.record.arrival;
    if (cleared || (arrival && arrival->here_since) ||
        screening_finished(rules, setting.file, setting.whole)) {
        return;  // what a cleared patient was not asked keeps nobody waiting; who is here is asked here
    }
    const auto days = std::chrono::duration_cast<date::days>(
        screening::minutes_of(rules.protocol.engine.first_call_days, rules.protocol, rules.policy));
    const Date day = screening::date_of(setting.file.record.booking.start) - days;
    calls.push_back(placed(setting, {CallKind::first_call,
                                     std::max(midnight(setting, day), setting.file.booked_at),
                                     setting.first_step,
                                     why_first(setting),
                                     "",
                                     {}}));
}

void add_outside_asks(const CallSetting& setting, std::vector<Call>& calls)
{
    for (const OutsideAsk& ask : setting.file.outside_asks) {
        const auto item = std::ranges::find(setting.undecided, ask.item, &ToDecide::id);
        const bool decided = !ask.item.empty() && item == setting.undecided.end();
        if (ask.came || decided) {
            continue;
        }
        const Moment useful =
            item != setting.undecided.end()
                ? item->decide_by
                : last_working_hour_before(setting.time, setting.file.record.booking.start_moment)
                      .value_or(setting.first_step);
        calls.push_back(placed(
            setting, {CallKind::outside_ask,
                      midnight(setting, ask.reply_by + date::days{1}),
                      useful,
                      fmt::format("{} has not answered: {} The answer was wanted by {}.",
                                  capitalised(ask.whom), sentence(ask.what), day_in_words(ask.reply_by)),
                      ask.id,
                      {}}));
    }
}

void add_undecided(const CallSetting& setting, std::vector<Call>& calls)
{
    for (const ToDecide& item : setting.undecided) {
        calls.push_back(placed(
            setting, {CallKind::undecided,
                      item.decide_by,
                      item.decide_by,
                      fmt::format("A clinician is to decide by {}: {} If nobody has, ring the next on the "
                                  "roster.",
                                  moment_in_words(setting.rules.zone, item.decide_by),
                                  sentence(capitalised(item.title))),
                      item.id,
                      {}}));
    }
}

void add_to_tell(const CallSetting& setting, std::vector<Call>& calls)
{
    const TellingState& telling = setting.telling;
    if (telling.wrong() || telling.sheet_changed) {
        return;  // said in the call after a change
    }
    if (telling.to_tell.empty() && !(telling.nothing_open && telling.preparation_untold)) {
        return;
    }
    const Moment until = tell_until(setting);
    const auto to_phone = screening::minutes_of(setting.rules.protocol.engine.phone_hours,
                                                setting.rules.protocol, setting.rules.policy);
    // While something is open the rest waits for it, so that the patient is rung once, as long as it can.
    const Moment due = telling.nothing_open
                           ? last_word(setting.file)
                           : working_time_before(setting.time, until, to_phone).value_or(until - to_phone);
    calls.push_back(
        placed(setting, {CallKind::to_tell, due, until, why_to_tell(setting), "", last_told(setting.file)}));
}

}  // namespace foreday::checklists
