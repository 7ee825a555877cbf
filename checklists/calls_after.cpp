#include <fmt/format.h>

#include <algorithm>

#include "checklists/call_maker.h"
#include "checklists/hold_moments.h"
#include "checklists/running_holds.h"
#include "checklists/words.h"

/// Calls because something has happened.
namespace foreday::checklists {
namespace {

using screening::Hold;
using screening::Moment;
using screening::Told;

/// Restarts an ended session leaves behind, and since when.
struct Event {
    Moment when;
    std::string words;
    bool moved = false;
};

std::optional<Event> event_of(const CaseFile& file)
{
    if (file.ending) {
        switch (file.ending->kind) {
            case EndingKind::called_off:
                return Event{file.ending->when, "The session was called off", false};
            case EndingKind::did_not_come:
                return Event{file.ending->when, "The patient did not come", false};
            case EndingKind::not_today:
                return Event{file.ending->when, "The session did not take place", false};
        }
    }
    if (file.moved_at) {
        return Event{*file.moved_at, "The session was moved", true};
    }
    return std::nullopt;
}

/// Decided and told since, or, where the date was only moved, told anew.
bool settled(const CaseFile& file, const RunningHold& hold, const Event& event)
{
    const bool restarted = std::ranges::any_of(file.restarts, [&](const Restart& restart) {
        return restart.item == hold.item && restart.when >= event.when && restart.told;
    });
    const bool told_anew = event.moved && std::ranges::any_of(file.record.told, [&](const Told& told) {
                               return told.item == hold.item && told.when > event.when;
                           });
    return restarted || told_anew;
}

bool decided_since(const CaseFile& file, const RunningHold& hold, const Event& event)
{
    return std::ranges::any_of(file.restarts, [&](const Restart& restart) {
        return restart.item == hold.item && restart.when >= event.when;
    });
}

std::string why_start_again(const CaseFile& file, const std::vector<RunningHold>& holds, const Event& event)
{
    std::vector<std::string> medicines;
    std::vector<std::string> who;
    bool all_decided = true;
    for (const RunningHold& hold : holds) {
        medicines.push_back(hold.medicine);
        if (!hold.who.empty() && std::ranges::find(who, hold.who) == who.end()) {
            who.push_back(hold.who);
        }
        all_decided = all_decided && decided_since(file, hold, event);
    }
    std::string text =
        fmt::format("{} while the patient leaves out {}, or is about to", event.words, listed(medicines));
    if (all_decided) {
        return text + "; what to start again is decided and still to be told.";
    }
    return text + (who.empty() ? "; what to start again is to be decided and told."
                               : fmt::format("; what to start again is for {} to decide.", listed(who)));
}

/// The earliest moment at which somebody goes by what is no longer right.
Moment wrong_from(const CallSetting& setting)
{
    const screening::CaseRecord& record = setting.file.record;
    std::optional<Moment> earliest;
    const auto consider = [&](const std::optional<HoldMoments>& moments) {
        if (moments) {
            earliest = std::min(earliest.value_or(moments->first_left_out), moments->first_left_out);
        }
    };
    for (const Hold& hold : setting.whole.assessment.holds) {
        const auto& wrong = setting.telling.no_longer_right;
        if (std::ranges::find(wrong, hold.item.id) == wrong.end()) {
            continue;
        }
        consider(earliest_moments(setting.rules, record, hold));
        for (const Told& told : record.told) {
            if (told.item == hold.item.id && told.last_dose) {
                consider(moments_after(setting.rules, record, medicine_of(record, hold), *told.last_dose));
            }
        }
    }
    for (const ToTell& one : setting.telling.to_tell) {
        if (one.begins) {
            earliest = std::min(earliest.value_or(*one.begins), *one.begins);
        }
    }
    const bool anything = setting.telling.moved_since || setting.telling.sheet_changed || !earliest;
    return anything ? std::min(earliest.value_or(setting.first_step), setting.first_step) : *earliest;
}

std::string why_changed(const CallSetting& setting)
{
    std::vector<std::string> medicines;
    for (const Hold& hold : setting.whole.assessment.holds) {
        const auto& wrong = setting.telling.no_longer_right;
        if (std::ranges::find(wrong, hold.item.id) != wrong.end()) {
            medicines.push_back(hold.medicine);
        }
    }
    if (setting.telling.moved_since) {
        return medicines.empty()
                   ? "The session was moved after the patient was told."
                   : fmt::format(
                         "The session was moved after the patient was told; what was said about {} "
                         "is no longer right.",
                         listed(medicines));
    }
    if (!medicines.empty()) {
        return fmt::format("What the patient was told about {} is no longer right.", listed(medicines));
    }
    return "The sheet has changed since the patient was told it.";
}

/// When a clearance that does not stand any more stopped standing: the latest of what may have ended it, so
/// that nothing told before the last of them counts as told after it.
Moment lapsed_at(const CallSetting& setting)
{
    const screening::CaseRecord& record = setting.file.record;
    const screening::Clearance& given = record.clearance.value();
    const screening::Rules& rules = setting.rules;
    if (given.for_start != record.booking.start) {
        return setting.file.moved_at.value_or(last_word(setting.file));
    }
    std::optional<Moment> latest;
    const auto ended = [&](Moment at) { latest = std::max(latest.value_or(at), at); };
    const auto too_old = [&](Moment from, screening::ParameterIndex length) {
        // At exactly so many days it still stands.
        const Moment at =
            from + screening::minutes_of(length, rules.protocol, rules.policy) + std::chrono::seconds{1};
        if (at <= setting.whole.assessment.at) {
            ended(at);
        }
    };
    too_old(given.when, rules.protocol.engine.clearance_days);
    if (record.medicines.closed) {
        too_old(record.medicines.closed->at, rules.protocol.engine.list_closed_days);
    }
    const bool something_else = std::ranges::any_of(
        setting.whole.clearance.lacks, [](const Lack& lack) { return lack.item != "medicine list"; });
    if (something_else || !latest) {
        ended(last_word(setting.file));
    }
    return *latest;
}

bool told_between(const CaseFile& file, std::optional<Moment> after, std::optional<Moment> until)
{
    const auto fits = [&](Moment when) { return (!after || when > *after) && (!until || when <= *until); };
    return std::ranges::any_of(file.tellings, [&](const Telling& one) { return fits(one.when); }) ||
           std::ranges::any_of(file.record.told, [&](const Told& one) { return fits(one.when); });
}

}  // namespace

void add_after_a_change(const CallSetting& setting, std::vector<Call>& calls)
{
    const TellingState& telling = setting.telling;
    if (!telling.wrong() && !telling.sheet_changed) {
        return;
    }
    const Moment since = telling.moved_since ? *setting.file.moved_at : last_word(setting.file);
    calls.push_back(placed(setting, {CallKind::after_a_change, since, wrong_from(setting),
                                     why_changed(setting), "", last_told(setting.file)}));
}

void add_clearance_lapsed(const CallSetting& setting, std::vector<Call>& calls)
{
    const CaseFile& file = setting.file;
    const bool lapsed = setting.whole.clearance.given == ClearanceCheck::Given::lapsed;
    const bool entered = file.clearance_lapsed && !file.record.clearance;
    if ((!lapsed && !entered) || setting.telling.moved_since) {
        return;  // a moved date is said in the call after a change
    }
    const Moment since = entered ? file.clearance_lapsed->when : lapsed_at(setting);
    const bool told = told_between(file, {}, since) && !told_between(file, since, {});
    const std::string id{name_of(CallKind::clearance_lapsed)};
    const bool reached = std::ranges::any_of(file.tries, [&](const Try& one) {
        return one.call == id && one.when >= since && one.outcome == TryOutcome::reached;
    });
    if (!told || reached) {
        return;
    }
    const Moment start = file.record.booking.start_moment;
    const Moment useful = setting.first_step > since
                              ? setting.first_step
                              : last_working_hour_before(setting.time, start).value_or(start);
    const std::string& because =
        entered ? file.clearance_lapsed->because : setting.whole.clearance.lapsed_because;
    calls.push_back(
        placed(setting,
               {CallKind::clearance_lapsed, since, useful,
                because.empty() ? "The clearance has lapsed after the patient was told."
                                : "The clearance has lapsed after the patient was told: " + sentence(because),
                "", since}));
}

void add_what_to_start_again(const CallSetting& setting, std::vector<Call>& calls)
{
    const CaseFile& file = setting.file;
    const auto event = event_of(file);
    if (!event) {
        return;
    }
    auto holds = running_holds(setting.rules, file, setting.whole, event->when, event->moved);
    std::erase_if(holds, [&](const RunningHold& hold) { return settled(file, hold, *event); });
    if (holds.empty()) {
        return;
    }
    calls.push_back(placed(setting, {CallKind::what_to_start_again, event->when,
                                     end_of_working_day(setting.time, event->when).value_or(event->when),
                                     why_start_again(file, holds, *event), "", event->when}));
}

}  // namespace foreday::checklists
