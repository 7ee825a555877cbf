#include "checklists/patient_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "checklists/words.h"
#include "screening/hold_plan.h"
#include "screening/hold_words.h"

namespace foreday::checklists {
namespace {

using screening::DoseCondition;
using screening::Hold;
using screening::HoldAction;
using screening::HoldPlan;
using screening::HoldWarning;

constexpr std::string_view until_told = "until we tell you to start it again";

bool is_letter(char one)
{
    // Bytes above 127 are inside a word of another alphabet.
    const auto byte = static_cast<unsigned char>(one);
    return (byte >= 'a' && byte <= 'z') || (byte >= 'A' && byte <= 'Z') || byte > 127;
}

char lower(char one)
{
    return one >= 'A' && one <= 'Z' ? static_cast<char>(one - 'A' + 'a') : one;
}

bool has_warning(const Hold& hold, HoldWarning warning)
{
    return std::ranges::find(hold.warnings, warning) != hold.warnings.end();
}

std::string we_tell_you()
{
    return "We tell you what was decided about it. Until then change nothing yourself.";
}

std::string dates_in_words(const std::vector<screening::Date>& dates)
{
    std::vector<std::string> words;
    words.reserve(dates.size());
    for (const screening::Date day : dates) {
        words.push_back(day_in_words(day));
    }
    return listed(words);
}

std::string left_out_in_words(const HoldPlan& plan, screening::Date day)
{
    if (plan.doses_missed && *plan.doses_missed == 0) {
        return "Go on taking it as usual; no dose falls into the time in which it would be left out.";
    }
    if (plan.action == HoldAction::omit_doses_due_within && !plan.dates_omitted.empty()) {
        std::string text = fmt::format("Leave out the dose of {}.", dates_in_words(plan.dates_omitted));
        if (plan.last_dose) {
            text = fmt::format("Last dose before the session: {}. {}", dose_in_words(*plan.last_dose), text);
        }
        return plan.next_dose ? fmt::format("{} The next one is due on {}, unless we tell you otherwise.",
                                            text, dose_in_words(*plan.next_dose))
                              : text;
    }
    if (plan.last_dose) {
        return fmt::format("Last dose: {}. Take none after that {}.", dose_in_words(*plan.last_dose),
                           until_told);
    }
    const screening::Date from =
        plan.none_from.value_or(plan.dates_omitted.empty() ? day : plan.dates_omitted.front());
    return fmt::format("Take none from {} on, {}.", day_in_words(from), until_told);
}

std::string plan_in_patient_words(const HoldPlan& plan, screening::Date day)
{
    std::string text;
    if (plan.action == HoldAction::sip_on_the_morning) {
        text = "Go on taking it as usual; on the morning of the session with a sip of water.";
    } else if (plan.action == HoldAction::take_as_usual) {
        const bool on_the_day = plan.day_of && *plan.day_of != screening::DayOf::nothing_due;
        text = on_the_day ? "Go on taking it as usual, also on the day of the session."
                          : "Go on taking it as usual.";
    } else {
        text = left_out_in_words(plan, day);
    }
    for (const DoseCondition condition : plan.conditions) {
        text += condition == DoseCondition::with_its_meal ? " Take each dose only with its meal."
                                                          : " Keep it apart from the preparation.";
    }
    return text;
}

bool names_no_plan(const HoldPlan& plan)
{
    return plan.action == HoldAction::ask_first || plan.action == HoldAction::dose_to_be_stated;
}

bool has_dates(const HoldPlan& plan)
{
    return plan.last_dose || plan.none_from || plan.day_of || !plan.dates_omitted.empty();
}

/// Nobody leaves out a marked medicine without knowing who has agreed to it.
std::string named_if_marked(const Hold& hold, const screening::Decision& decision, std::string text)
{
    return hold.marked ? fmt::format("{} {} has agreed to this.", text, decision.who) : text;
}

/// What a clinician wrote beside an agreement is a remark to colleagues; only the words of a change say what
/// to do.
std::string decided_in_patient_words(const Hold& hold, const screening::Decision& decision,
                                     screening::Date day)
{
    if (decision.last_dose) {
        return named_if_marked(hold, decision,
                               fmt::format("Last dose: {}. Take none after that {}.",
                                           day_in_words(*decision.last_dose), until_told));
    }
    if (decision.answer == screening::DecisionAnswer::change) {
        return decision.words.empty() || !fit_for_patients(decision.words)
                   ? we_tell_you()
                   : fmt::format("{} has decided: {}", decision.who, sentence(decision.words));
    }
    const bool leaves_out = screening::leaves_out(hold.plan.action);
    if (names_no_plan(hold.plan) || has_warning(hold, HoldWarning::too_late) ||
        (leaves_out && !has_dates(hold.plan))) {
        return we_tell_you();
    }
    const std::string text = plan_in_patient_words(hold.plan, day);
    return leaves_out ? named_if_marked(hold, decision, text) : text;
}

}  // namespace

bool fit_for_patients(std::string_view text)
{
    constexpr std::array<std::string_view, 5> words{"hold", "holds", "held", "holding", "withhold"};
    std::string word;
    bool fit = true;
    const auto end_word = [&] {
        fit = fit && std::ranges::find(words, word) == words.end();
        word.clear();
    };
    for (const char one : text) {
        if (is_letter(one)) {
            word += lower(one);
        } else {
            end_word();
        }
    }
    end_word();
    return fit;
}

std::string medicine_in_patient_words(const screening::MedicineItem& medicine, const std::string& generic)
{
    if (!medicine.medicine) {
        return fmt::format("\"{}\"", medicine.heard);
    }
    return medicine.heard.empty() || medicine.heard == generic
               ? generic
               : fmt::format("{} (\"{}\")", generic, medicine.heard);
}

std::optional<std::string> instruction_in_patient_words(const screening::CaseRecord& record, const Hold& hold,
                                                        const Decided& decided, HoldStage stage)
{
    const screening::Date day = screening::date_of(record.booking.start);
    const bool was_agreed = decided.by != nullptr && !decided.role_may_not &&
                            (decided.by->answer == screening::DecisionAnswer::agree ||
                             decided.by->answer == screening::DecisionAnswer::change);
    if (stage == HoldStage::proposed || (hold.needs_agreement && !was_agreed)) {
        return std::nullopt;
    }
    if (decided.state == DecisionState::standing && was_agreed) {
        return decided_in_patient_words(hold, *decided.by, day);
    }
    if (names_no_plan(hold.plan)) {
        return std::nullopt;
    }
    const bool dateless = screening::leaves_out(hold.plan.action) && !has_dates(hold.plan);
    return dateless || !screening::may_give_a_date(hold.item.sure)
               ? "We tell you about it. Until then go on as you do now."
               : plan_in_patient_words(hold.plan, day);
}

std::string meanwhile_in_patient_words(const screening::Item& item)
{
    const bool ours_to_say = !item.meanwhile.empty() && item.sure != screening::HowSure::from_memory &&
                             fit_for_patients(item.meanwhile);
    if (ours_to_say) {
        return item.meanwhile;
    }
    return item.id.starts_with("hold:") ? screening::no_rule_meanwhile()
                                        : "Please change nothing yourself. We will ring you about this.";
}

std::string caution_for_patients()
{
    return "This sheet helps the trained staff who talk with you, and does not take their place. Your doctor "
           "decides, and the rules of your unit come first: what they have told you goes before what is "
           "printed here. Stop no blood thinner and no insulin before a doctor you can name has agreed to "
           "it.";
}

}  // namespace foreday::checklists
