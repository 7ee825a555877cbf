#include "checklists/readiness_checks.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/dose_taken.h"

namespace foreday::checklists {
namespace {

using screening::FactIndex;
using screening::FactReading;
using screening::FactState;
using screening::LocalMinute;
using screening::Moment;

/// The one confirmed value of a fact of the day, or why there is none.
const screening::Value* value_now(FactIndex fact, const ReadinessSetting& setting, ReadinessItem& item)
{
    const FactReading& reading = setting.judge.readings()[fact];
    if (reading.state == FactState::known && reading.confirmed) {
        return reading.values.data();
    }
    item.state = ReadinessState::blank;
    if (reading.state == FactState::known) {
        item.why = reading.past_its_age ? "measured too long ago, do it again" : "not confirmed in this case";
    } else if (reading.state == FactState::in_conflict) {
        item.why = "two answers differ";
    } else {
        item.why = reading.state == FactState::not_known ? "asked, and not known" : "not done yet";
    }
    return nullptr;
}

bool keeps(const screening::NumberInterval& value, screening::Operator op, const screening::Exact& limit)
{
    const auto holds = [&](const screening::Exact& one) {
        switch (op) {
            case screening::Operator::below:
                return one < limit;
            case screening::Operator::at_most:
                return one <= limit;
            case screening::Operator::equals:
                return one == limit;
            case screening::Operator::at_least:
                return one >= limit;
            case screening::Operator::above:
                return one > limit;
        }
        return false;
    };
    return holds(value.lowest) && holds(value.highest);
}

std::string_view words_for(screening::Operator op)
{
    switch (op) {
        case screening::Operator::below:
            return "below";
        case screening::Operator::at_most:
            return "at most";
        case screening::Operator::equals:
            return "exactly";
        case screening::Operator::at_least:
            return "at least";
        case screening::Operator::above:
            return "above";
    }
    return "";
}

}  // namespace

void check_confirmed(const screening::ConfirmedCheck& check, const ReadinessSetting& setting, ReadinessItem& item)
{
    const screening::Value* value = value_now(check.fact, setting, item);
    if (value == nullptr) {
        return;
    }
    const bool as_expected = std::get<bool>(*value) == check.expected;
    item.state = as_expected ? ReadinessState::met : ReadinessState::not_met;
    item.why = std::get<bool>(*value) ? "yes" : "no";
}

void check_measured(const screening::MeasuredCheck& check, const ReadinessSetting& setting, ReadinessItem& item)
{
    const screening::Value* value = value_now(check.fact, setting, item);
    if (value == nullptr) {
        return;
    }
    const auto& number = std::get<screening::NumberInterval>(*value);
    const auto& definition = setting.judge.rules().protocol.facts[check.fact];
    item.state = ReadinessState::met;
    item.why = screening::value_text(definition, *value);
    for (const auto& bound : check.bounds) {
        const screening::Exact limit = screening::number_of(bound.limit, setting.judge.rules().policy);
        if (!keeps(number, bound.op, limit)) {
            item.state = ReadinessState::not_met;
            item.why += fmt::format(", must be {} {}", words_for(bound.op), limit.text());
        }
    }
}

void check_fasting(const screening::FastingCheck& check, const ReadinessSetting& setting, ReadinessItem& item)
{
    const auto& arrival = setting.judge.record().arrival;
    const screening::Zone& zone = setting.judge.rules().zone;
    const screening::Intake* last = nullptr;
    if (arrival) {
        for (const screening::Intake& intake : arrival->intake) {
            if (intake.kind == check.intake && (last == nullptr || intake.at > last->at)) {
                last = &intake;
            }
        }
    }
    if (last == nullptr) {
        const bool asked = arrival && arrival->nothing_else_taken;
        item.state = asked ? ReadinessState::met : ReadinessState::blank;
        item.why = asked ? "asked, and there was none" : "nobody has asked for the last one";
        return;
    }
    const screening::Exact hours = screening::number_of(check.gap_hours, setting.judge.rules().policy);
    const Moment possible =
        screening::moment_of(zone, last->at) + std::chrono::minutes{(hours * screening::Exact{60}).floor()};
    item.why = fmt::format("{} at {}{}", check.intake, screening::iso_local(last->at),
                           last->what.empty() ? "" : " (" + last->what + ")");
    item.state = setting.start >= possible ? ReadinessState::met : ReadinessState::not_met;
    if (item.state == ReadinessState::not_met) {
        item.earliest = possible;
        item.why += fmt::format(", so not before {}", screening::iso_with_offset(zone, possible));
    }
}

void check_holds(const ReadinessSetting& setting, ReadinessItem& item)
{
    item.state = ReadinessState::met;
    std::vector<std::string> blanks;
    std::vector<std::string> not_met;
    const std::size_t findings = setting.assessment.findings.size();
    for (std::size_t place = 0; place < setting.assessment.holds.size(); ++place) {
        const screening::Hold& hold = setting.assessment.holds[place];
        const DoseTaken taken = dose_taken(setting.judge, hold, setting.decided[findings + place]);
        if (taken.kind == DoseTaken::Kind::nobody_asked) {
            blanks.push_back(taken.words);
        } else if (taken.kind == DoseTaken::Kind::too_late || taken.kind == DoseTaken::Kind::too_early ||
                   taken.kind == DoseTaken::Kind::nothing_agreed) {
            not_met.push_back(taken.words);
        }
    }
    if (!not_met.empty()) {
        item.state = ReadinessState::not_met;
        item.why = fmt::format("{}", fmt::join(not_met, "; "));
    } else if (!blanks.empty()) {
        item.state = ReadinessState::blank;
        item.why = fmt::format("{}", fmt::join(blanks, "; "));
    } else {
        item.why = "as agreed";
    }
}

}  // namespace foreday::checklists
