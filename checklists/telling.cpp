#include "checklists/telling.h"

#include <algorithm>
#include <functional>

#include "checklists/decide_by.h"
#include "checklists/hold_moments.h"
#include "checklists/sheet_content.h"
#include "screening/judge.h"

namespace foreday::checklists {
namespace {

using screening::CaseRecord;
using screening::Hold;
using screening::Item;
using screening::Level;
using screening::Moment;
using screening::Rules;
using screening::Told;

bool was_told(const CaseRecord& record, const std::string& item)
{
    return std::ranges::find(record.told, item, &Told::item) != record.told.end();
}

void look_at_holds(TellingState& state, const Rules& rules, const CaseRecord& record, const WholeCase& whole)
{
    for (std::size_t place = 0; place < whole.assessment.holds.size(); ++place) {
        const Hold& hold = whole.assessment.holds[place];
        const HoldStage stage = whole.stages.at(place);
        if (stage != HoldStage::told && was_told(record, hold.item.id)) {
            state.no_longer_right.push_back(hold.item.id);
        }
        if (stage != HoldStage::agreed || hold.item.level < Level::act) {
            continue;
        }
        const auto moments = standing_moments(rules, record, hold, decided_on_hold(whole, place));
        state.to_tell.push_back(
            {hold.item.id, hold.medicine, moments ? std::optional{moments->first_left_out} : std::nullopt});
    }
}

void look_at_findings(TellingState& state, const CaseRecord& record, const WholeCase& whole)
{
    for (std::size_t place = 0; place < whole.assessment.findings.size(); ++place) {
        const Item& finding = whole.assessment.findings[place];
        const bool decided = whole.decided.at(place).state == DecisionState::standing;
        const bool fired = finding.state == screening::ItemState::fired;
        if (finding.level == Level::act && fired && !decided && !was_told(record, finding.id)) {
            state.to_tell.push_back({finding.id, finding.title, std::nullopt});
        }
    }
}

}  // namespace

TellingState telling_state(const Rules& rules, const CaseFile& file, const WholeCase& whole,
                           const HashText& hash)
{
    TellingState state;
    state.last = file.tellings.empty() ? nullptr : &file.tellings.back();
    look_at_holds(state, rules, file.record, whole);
    look_at_findings(state, file.record, whole);
    const auto told = last_told(file);
    state.moved_since = told && file.moved_at && *file.moved_at > *told;
    state.sheet_changed = state.last != nullptr && !state.last->sheet.empty() &&
                          state.last->sheet != hash(sheet_content(rules, file, whole).bytes);
    state.nothing_open =
        screening_finished(rules, file, whole) && to_decide(rules, file.record, whole).empty();
    const bool plan_stands =
        std::holds_alternative<Fitted>(whole.preparation.plan) || !whole.preparation.stated.empty();
    state.preparation_untold = plan_stands && !told;
    return state;
}

bool screening_begun(const CaseFile& file)
{
    const CaseRecord& record = file.record;
    const auto said_here = [](const screening::Answer& answer) {
        return answer.origin == screening::Origin::this_case &&
               answer.informant != screening::Informant::booking;
    };
    const bool asked = std::ranges::any_of(
        record.answers, [&](const auto& answers) { return std::ranges::any_of(answers, said_here); });
    const bool medicine = std::ranges::any_of(record.medicines.items, [](const auto& item) {
        return item.origin == screening::Origin::this_case && item.informant != screening::Informant::booking;
    });
    return asked || medicine || record.medicines.closed.has_value();
}

namespace {

using Such = std::function<bool(const screening::FactDefinition&, const screening::FactReading&)>;

/// Questions that apply and are such, those of the day of the procedure apart.
int count_questions(const Rules& rules, const CaseFile& file, const WholeCase& whole, const Such& such)
{
    const screening::Judge judge(rules, file.record, whole.assessment.at);
    int count = 0;
    for (screening::FactIndex place = 0; place < rules.protocol.facts.size(); ++place) {
        const screening::FactDefinition& fact = rules.protocol.facts[place];
        if (fact.scope != screening::FactScope::day && such(fact, judge.readings()[place]) &&
            judge.applies(place) == screening::Truth::yes) {
            ++count;
        }
    }
    return count;
}

}  // namespace

int questions_left(const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    return count_questions(rules, file, whole, [](const auto& /*fact*/, const auto& reading) {
        return reading.state == screening::FactState::not_asked || reading.past_its_age;
    });
}

bool patient_was_asked_everything(const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    return count_questions(rules, file, whole, [](const auto& fact, const auto& reading) {
               return fact.asked_of == screening::AskedOf::patient &&
                      reading.state == screening::FactState::not_asked;
           }) == 0;
}

bool screening_finished(const Rules& rules, const CaseFile& file, const WholeCase& whole)
{
    const auto days = std::chrono::duration_cast<date::days>(
        screening::minutes_of(rules.protocol.engine.list_closed_days, rules.protocol, rules.policy));
    return screening::list_state(file.record.medicines, whole.assessment.at, days) ==
               screening::ListState::closed &&
           questions_left(rules, file, whole) == 0;
}

Moment last_word(const CaseFile& file)
{
    Moment last = std::max(file.booked_at, file.moved_at.value_or(file.booked_at));
    const auto hear = [&](Moment when) { last = std::max(last, when); };
    for (const auto& answers : file.record.answers) {
        for (const screening::Answer& answer : answers) {
            hear(answer.at);
        }
    }
    for (const screening::MedicineItem& medicine : file.record.medicines.items) {
        hear(medicine.at);
    }
    if (file.record.medicines.closed) {
        hear(file.record.medicines.closed->at);
    }
    for (const screening::Decision& decision : file.record.decisions) {
        hear(decision.when);
    }
    for (const screening::OwnConcern& concern : file.record.concerns) {
        hear(concern.at);
    }
    return last;
}

std::optional<Moment> last_told(const CaseFile& file)
{
    std::optional<Moment> last;
    const auto hear = [&](Moment when) { last = std::max(last.value_or(when), when); };
    for (const Telling& telling : file.tellings) {
        hear(telling.when);
    }
    for (const Told& told : file.record.told) {
        hear(told.when);
    }
    return last;
}

}  // namespace foreday::checklists
