#include "checklists/readiness_checks.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/confirmed_figures.h"
#include "checklists/dose_taken.h"
#include "checklists/words.h"
#include "screening/fact_words.h"

namespace foreday::checklists {
namespace {

using screening::FactIndex;
using screening::FactReading;
using screening::FactState;
using screening::LocalMinute;
using screening::Moment;

/// Whether somebody said or measured it on the day of the procedure.
bool is_of_the_day(FactIndex fact, const ReadinessSetting& setting)
{
    const screening::Judge& judge = setting.judge;
    const auto& answers = judge.record().answers.at(fact);
    return std::ranges::any_of(judge.readings()[fact].standing, [&](std::size_t place) {
        const screening::Answer& answer = answers[place];
        const auto said = screening::date_of(screening::local_of(judge.rules().zone, answer.at));
        return answer.dated.value_or(said) == judge.day();
    });
}

std::string why_blank(const FactReading& reading)
{
    switch (reading.state) {
        case FactState::known:
            return reading.past_its_age ? "past its age at the start, measure it again"
                                        : "not confirmed in this case";
        case FactState::in_conflict:
            return "two answers differ";
        case FactState::not_known:
            return "asked, and not known";
        case FactState::not_asked:
        case FactState::not_applicable:
            break;
    }
    return "not done yet";
}

/// The one value that counts today, or nullptr; then the item is blank and says why.
const screening::Value* value_today(FactIndex fact, const ReadinessSetting& setting, ReadinessItem& item)
{
    const FactReading& reading = setting.judge.readings()[fact];
    if (reading.state != FactState::known || !reading.confirmed) {
        item.state = ReadinessState::blank;
        item.why = why_blank(reading);
        return nullptr;
    }
    const bool daily = setting.judge.rules().protocol.facts[fact].scope == screening::FactScope::day;
    if (daily && !is_of_the_day(fact, setting)) {
        item.state = ReadinessState::blank;
        item.why = "not of today";
        return nullptr;
    }
    return reading.values.data();
}

/// A number that rests on common practice or memory shows nobody ready until the unit has confirmed it.
bool gives_an_answer(const ReadinessItem& item, const screening::Limit& limit, const screening::Rules& rules)
{
    const auto* parameter = std::get_if<screening::ParameterIndex>(&limit);
    return screening::may_give_a_date(item.sure) &&
           (parameter == nullptr || screening::may_give_a_date(rank_of(rules, *parameter)));
}

void open_unless_confirmed(ReadinessItem& item, const screening::Limit& limit, const screening::Rules& rules)
{
    if (item.state == ReadinessState::met && !gives_an_answer(item, limit, rules)) {
        item.state = ReadinessState::open;
        item.why += ", by a limit the unit has not confirmed";
    }
}

std::chrono::minutes gap_of(const screening::Limit& limit, const screening::Rules& rules)
{
    if (const auto* parameter = std::get_if<screening::ParameterIndex>(&limit)) {
        return screening::minutes_of(*parameter, rules.protocol, rules.policy);
    }
    constexpr int minutes_an_hour = 60;
    return std::chrono::minutes{
        (std::get<screening::Exact>(limit) * screening::Exact{minutes_an_hour}).floor()};
}

const screening::Intake* last_of_kind(const screening::CaseRecord& record, const std::string& kind)
{
    const screening::Intake* last = nullptr;
    if (record.arrival) {
        for (const screening::Intake& intake : record.arrival->intake) {
            if (intake.kind == kind && (last == nullptr || intake.at > last->at)) {
                last = &intake;
            }
        }
    }
    return last;
}

bool keeps(const screening::NumberInterval& value, screening::Operator op, const screening::Exact& limit)
{
    return screening::holds(value.lowest, op, limit) && screening::holds(value.highest, op, limit);
}

}  // namespace

void check_confirmed(const screening::ConfirmedCheck& check, const ReadinessSetting& setting,
                     ReadinessItem& item)
{
    const screening::Value* value = value_today(check.fact, setting, item);
    if (value == nullptr) {
        return;
    }
    const bool as_expected = std::get<bool>(*value) == check.expected;
    item.state = as_expected ? ReadinessState::met : ReadinessState::not_met;
    item.why = std::get<bool>(*value) ? "yes" : "no";
}

void check_measured(const screening::MeasuredCheck& check, const ReadinessSetting& setting,
                    ReadinessItem& item)
{
    const screening::Value* value = value_today(check.fact, setting, item);
    if (value == nullptr) {
        return;
    }
    const screening::Rules& rules = setting.judge.rules();
    const auto& number = std::get<screening::NumberInterval>(*value);
    item.state = ReadinessState::met;
    item.why = screening::value_in_words(rules.protocol.facts[check.fact], *value);
    for (const auto& bound : check.bounds) {
        const screening::Exact limit = screening::number_of(bound.limit, rules.policy);
        if (!keeps(number, bound.op, limit)) {
            item.state = ReadinessState::not_met;
            item.why += fmt::format(", must be {} {}", words_for(bound.op), limit.text());
        }
    }
    for (const auto& bound : check.bounds) {
        open_unless_confirmed(item, bound.limit, rules);
    }
}

void check_fasting(const screening::FastingCheck& check, const ReadinessSetting& setting, ReadinessItem& item)
{
    const screening::CaseRecord& record = setting.judge.record();
    const screening::Rules& rules = setting.judge.rules();
    const screening::Intake* last = last_of_kind(record, check.intake);
    if (last == nullptr) {
        const bool asked = record.arrival && record.arrival->nothing_else_taken;
        item.state = asked ? ReadinessState::met : ReadinessState::blank;
        item.why = asked ? "asked, and there was none" : "nobody has asked for the last one";
        return;
    }
    // Of a time that came twice the later one: the gap is never taken for longer than it was.
    const Moment possible =
        screening::moments_of(rules.zone, last->at).later + gap_of(check.gap_hours, rules);
    item.why = fmt::format("{} on {}, {}{}", check.intake, day_in_words(screening::date_of(last->at)),
                           time_in_words(screening::time_of_day(last->at)),
                           last->what.empty() ? "" : " (" + last->what + ")");
    item.state = setting.start >= possible ? ReadinessState::met : ReadinessState::not_met;
    if (item.state == ReadinessState::not_met) {
        item.earliest = possible;
        item.why += fmt::format(", so not before {}", moment_in_words(rules.zone, possible));
    }
    open_unless_confirmed(item, check.gap_hours, rules);
}

void check_holds(const ReadinessSetting& setting, ReadinessItem& item)
{
    std::vector<std::string> not_met;
    std::vector<std::string> blank;
    std::vector<std::string> noted;
    const std::size_t findings = setting.assessment.findings.size();
    for (std::size_t place = 0; place < setting.assessment.holds.size(); ++place) {
        const screening::Hold& hold = setting.assessment.holds[place];
        DoseTaken taken = dose_taken(setting.judge, hold, setting.decided[findings + place]);
        switch (taken.kind) {
            case DoseTaken::Kind::too_late:
            case DoseTaken::Kind::too_early:
            case DoseTaken::Kind::agreed_in_words:
            case DoseTaken::Kind::nothing_agreed:
                not_met.push_back(std::move(taken.words));
                break;
            case DoseTaken::Kind::nobody_asked:
                blank.push_back(std::move(taken.words));
                break;
            case DoseTaken::Kind::shorter_than_told:
            case DoseTaken::Kind::as_agreed:
                noted.push_back(std::move(taken.words));
                break;
            case DoseTaken::Kind::nothing_to_ask:
                break;
        }
    }
    // What nobody has asked yet is the nearest thing to do; a clinician then sees all of it at once.
    item.state = !blank.empty()     ? ReadinessState::blank
                 : !not_met.empty() ? ReadinessState::not_met
                                    : ReadinessState::met;
    std::vector<std::string> words = std::move(not_met);
    words.insert(words.end(), blank.begin(), blank.end());
    if (words.empty()) {
        words = std::move(noted);
    }
    item.why = words.empty() ? "no medicine to ask about" : fmt::format("{}", fmt::join(words, "; "));
}

}  // namespace foreday::checklists
