#include "screening/hold_planner.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "screening/canonical.h"
#include "screening/hold_plan.h"
#include "screening/hold_words.h"

namespace foreday::screening {
namespace {

/// A rule that speaks about the medicine, with what its condition came to.
struct Judgement {
    const HoldRule* rule = nullptr;
    Judged judged;
    bool policy_in_force = true;  ///< its policy option is the one the unit has chosen
};

/// What a set of rules comes to.
struct Outcome {
    const HoldRule* rule = nullptr;  ///< the one that decides; nullptr: no rule fires
    HoldPlan plan;
    Moment forbidden_from;
    std::vector<std::string> beneath;
    std::vector<std::string> pulling_apart;
};

class Planner {
public:
    Planner(const Judge& judge, const MedicineItem& item)
        : judge_(judge),
          item_(item),
          medicine_(judge.rules().protocol.medicines[*item.medicine]),
          setting_{judge.rules().zone, item.pattern, judge.record().booking.start,
                   judge.record().booking.start_moment}
    {
    }

    Hold plan();

private:
    using RuleSet = std::vector<const HoldRule*>;

    void judge_rules();
    [[nodiscard]] RuleSet fired(const std::vector<std::uint32_t>& options) const;
    [[nodiscard]] RuleSet open(const std::vector<std::uint32_t>& options) const;
    [[nodiscard]] Outcome outcome_of(const RuleSet& rules, const std::vector<std::uint32_t>& options) const;
    [[nodiscard]] Outcome combine(const RuleSet& rules) const;
    [[nodiscard]] Outcome by_options(const std::vector<std::uint32_t>& options,
                                     std::vector<HoldOption>* possible) const;
    [[nodiscard]] Moment limit_of(const HoldRule& rule) const;
    [[nodiscard]] bool forbids_a_dose(const HoldRule& rule) const;
    /// @param options  the chosen option of each policy question, in this unit or as it might be
    [[nodiscard]] bool may_give_dates(const HoldRule& rule, const std::vector<std::uint32_t>& options) const;
    [[nodiscard]] HoldOption option_for(std::string label, const Outcome& outcome) const;

    void describe(Hold& hold, const Outcome& outcome) const;
    void add_grounds(Hold& hold) const;
    void add_other_policies(Hold& hold) const;
    void add_warnings(Hold& hold, const Outcome& outcome) const;
    void settle_level(Hold& hold) const;
    void add_fingerprint(Hold& hold) const;
    [[nodiscard]] bool passed(Moment from, Moment reference, HoldAction action) const;
    [[nodiscard]] bool stopped_too_early(const Outcome& outcome) const;
    [[nodiscard]] bool not_as_told(const HoldPlan& plan) const;
    [[nodiscard]] const Told* told() const;

    const Judge& judge_;
    const MedicineItem& item_;
    const MedicineDefinition& medicine_;
    HoldSetting setting_;
    std::vector<Judgement> judgements_;
};

void Planner::judge_rules()
{
    const Protocol& protocol = judge_.rules().protocol;
    for (const HoldRule& rule : protocol.holds) {
        if (speaks_about(rule, *item_.medicine, protocol)) {
            judgements_.push_back(
                {&rule, judge_.judge(rule.when), in_force(rule.policies, judge_.rules().policy.options)});
        }
    }
}

Planner::RuleSet Planner::fired(const std::vector<std::uint32_t>& options) const
{
    RuleSet rules;
    for (const Judgement& one : judgements_) {
        if (one.judged.truth == Truth::yes && in_force(one.rule->policies, options)) {
            rules.push_back(one.rule);
        }
    }
    return rules;
}

Planner::RuleSet Planner::open(const std::vector<std::uint32_t>& options) const
{
    RuleSet rules;
    for (const Judgement& one : judgements_) {
        if (one.judged.truth == Truth::open && in_force(one.rule->policies, options)) {
            rules.push_back(one.rule);
        }
    }
    return rules;
}

Moment Planner::limit_of(const HoldRule& rule) const
{
    const Exact number =
        needs_a_number(rule.action) ? number_of(rule.number, judge_.rules().policy) : Exact{0};
    return forbidden_from(rule.action, number, setting_);
}

bool Planner::forbids_a_dose(const HoldRule& rule) const
{
    if (!leaves_out(rule.action)) {
        return false;
    }
    // Without a schedule nobody can say that no dose falls into the time left out.
    return !has_schedule(item_.pattern) || !doses_left_out(setting_, limit_of(rule), rule.action).empty();
}

bool Planner::may_give_dates(const HoldRule& rule, const std::vector<std::uint32_t>& options) const
{
    if (!leaves_out(rule.action)) {
        return true;  // taking as usual names no figure
    }
    const UnitPolicy& policy = judge_.rules().policy;
    if (!may_give_a_date(rank_in(policy, rule.head.id, rule.head.sure))) {
        return false;
    }
    return std::ranges::all_of(rule.policies, [&](const PolicyUse& use) {
        const PolicyQuestion& question = judge_.rules().protocol.policy_questions[use.question];
        const PolicyOption& option = question.options[options.at(use.question)];
        return may_give_a_date(rank_in(policy, option.id, option.sure));
    });
}

std::vector<DoseCondition> all_conditions(const std::vector<const HoldRule*>& rules)
{
    std::vector<DoseCondition> conditions;
    for (const HoldRule* rule : rules) {
        conditions.insert(conditions.end(), rule->conditions.begin(), rule->conditions.end());
    }
    std::ranges::sort(conditions);
    conditions.erase(std::ranges::unique(conditions).begin(), conditions.end());
    return conditions;
}

const HoldRule* first_with(const std::vector<const HoldRule*>& rules, HoldAction action)
{
    const auto found = std::ranges::find(rules, action, &HoldRule::action);
    return found == rules.end() ? nullptr : *found;
}

Outcome Planner::outcome_of(const RuleSet& rules, const std::vector<std::uint32_t>& options) const
{
    Outcome outcome = combine(rules);
    if (outcome.rule != nullptr) {
        for (const HoldRule* rule : rules) {
            if (rule != outcome.rule &&
                std::ranges::find(outcome.pulling_apart, rule->head.id) == outcome.pulling_apart.end()) {
                outcome.beneath.push_back(rule->head.id);
            }
        }
        std::ranges::sort(outcome.beneath);
        if (!may_give_dates(*outcome.rule, options) || !judge_.in_scope()) {
            outcome.plan = without_dates(std::move(outcome.plan));
        }
    }
    return outcome;
}

Outcome Planner::combine(const RuleSet& rules) const
{
    Outcome outcome;
    outcome.forbidden_from = setting_.start_moment;
    outcome.plan.action = HoldAction::ask_first;
    for (const HoldAction always_wins : {HoldAction::ask_first, HoldAction::dose_to_be_stated}) {
        if (const HoldRule* rule = first_with(rules, always_wins)) {
            outcome.rule = rule;
            outcome.plan = lay_out(rule->action, Exact{0}, all_conditions(rules), setting_);
            return outcome;
        }
    }

    // The rule that leaves most out, on this patient's own dosing times; and the one that takes most.
    const HoldRule* omitting = nullptr;
    const HoldRule* taking = nullptr;
    for (const HoldRule* rule : rules) {
        if (rule->protects == Protects::by_omitting) {
            if (omitting == nullptr || limit_of(*rule) < limit_of(*omitting)) {
                omitting = rule;
            }
        } else if (taking == nullptr || rule->action > taking->action) {
            taking = rule;  // `take on the morning with a sip` says more than `take as usual`
        }
    }
    if (omitting != nullptr && taking != nullptr && forbids_a_dose(*omitting)) {
        outcome.rule = omitting;
        for (const HoldRule* rule : rules) {
            if (rule->protects == Protects::by_taking || forbids_a_dose(*rule)) {
                outcome.pulling_apart.push_back(rule->head.id);
            }
        }
        std::ranges::sort(outcome.pulling_apart);
        return outcome;
    }
    // Where both stand and no dose is left out, taking is what the patient is told.
    outcome.rule = taking != nullptr ? taking : omitting;
    if (outcome.rule != nullptr) {
        outcome.forbidden_from = limit_of(*outcome.rule);
        const Exact number = needs_a_number(outcome.rule->action)
                                 ? number_of(outcome.rule->number, judge_.rules().policy)
                                 : Exact{0};
        outcome.plan = lay_out(outcome.rule->action, number, all_conditions(rules), setting_);
    }
    return outcome;
}

std::string no_rule_title(const MedicineDefinition& medicine)
{
    return medicine.generic + ": no rule covers this medicine here";
}

HoldOption Planner::option_for(std::string label, const Outcome& outcome) const
{
    return {std::move(label), outcome.rule != nullptr ? outcome.rule->head.id : std::string{}, outcome.plan};
}

/// @param possible  filled with every action still possible while a rule is open; may be null
Outcome Planner::by_options(const std::vector<std::uint32_t>& options,
                            std::vector<HoldOption>* possible) const
{
    const RuleSet sure = fired(options);
    const RuleSet maybe = open(options);
    if (maybe.empty()) {
        return outcome_of(sure, options);
    }
    std::vector<HoldOption> still_possible;
    const Outcome as_known = outcome_of(sure, options);
    if (as_known.rule != nullptr) {
        still_possible.push_back(option_for(as_known.rule->head.title, as_known));
    }
    for (const HoldRule* rule : maybe) {
        RuleSet with = sure;
        with.push_back(rule);
        std::ranges::sort(with, {}, [](const HoldRule* one) { return one->head.id; });
        still_possible.push_back(option_for(rule->head.title, outcome_of(with, options)));
    }
    if (as_known.rule == nullptr && maybe.size() == 1) {
        // Should the one rule come out as no, nothing covers the medicine.
        still_possible.push_back(option_for(no_rule_title(medicine_), as_known));
    }
    Outcome outcome;
    outcome.rule = as_known.rule != nullptr ? as_known.rule : maybe.front();
    outcome.forbidden_from = setting_.start_moment;
    for (const RuleSet* rules : {&sure, &maybe}) {
        for (const HoldRule* rule : *rules) {
            outcome.forbidden_from = std::min(outcome.forbidden_from, limit_of(*rule));
        }
    }
    outcome.plan.action = HoldAction::ask_first;
    const auto& first = still_possible.front().plan;
    if (first.last_dose && std::ranges::all_of(still_possible, [&](const HoldOption& option) {
            return option.plan.last_dose == first.last_dose;
        })) {
        outcome.plan.last_dose = first.last_dose;
    }
    if (possible != nullptr) {
        *possible = std::move(still_possible);
    }
    return outcome;
}

Hold Planner::plan()
{
    judge_rules();
    const auto& options = judge_.rules().policy.options;
    Hold hold;
    hold.medicine_item = item_.id;
    hold.medicine = medicine_.generic;
    hold.marked = medicine_.marked;
    const Outcome outcome = by_options(options, &hold.options);
    describe(hold, outcome);
    add_grounds(hold);
    add_other_policies(hold);
    add_warnings(hold, outcome);
    settle_level(hold);
    add_fingerprint(hold);
    return hold;
}

void Planner::describe(Hold& hold, const Outcome& outcome) const
{
    hold.plan = outcome.plan;
    hold.beneath = outcome.beneath;
    hold.pulling_apart = outcome.pulling_apart;
    Item& item = hold.item;
    item.id = "hold:" + item_.id;
    item.state = ItemState::fired;
    item.topic = Topic::other_medicines;
    item.hazard = Hazard::withdrawal;
    item.who = {Role::endoscopist};
    if (outcome.rule == nullptr) {
        item.title = no_rule_title(medicine_);
        item.meanwhile = no_rule_meanwhile();
        return;
    }
    const RuleHead& head = outcome.rule->head;
    item.rule = head.id;
    item.title = head.title;
    item.reading = head.reading;
    item.topic = head.topic;
    item.hazard = head.hazard;
    item.sources = head.sources;
    item.sure = rank_in(judge_.rules().policy, head.id, head.sure);
    item.who = head.who;
    item.meanwhile = head.meanwhile;
    hold.published_fraction = outcome.rule->published_fraction;
}

void Planner::add_grounds(Hold& hold) const
{
    Item& item = hold.item;
    item.because.push_back(
        {"medicine " + medicine_.generic, item_.dose.empty() ? "on the list" : item_.dose, item_.who});
    for (const Judgement& one : judgements_) {
        if (!one.policy_in_force) {
            continue;
        }
        if (one.judged.truth == Truth::yes) {
            item.because.insert(item.because.end(), one.judged.because.begin(), one.judged.because.end());
        }
        item.on_unconfirmed =
            item.on_unconfirmed || (one.judged.truth == Truth::yes && one.judged.on_unconfirmed);
        if (one.judged.truth == Truth::open) {
            item.state = ItemState::open;
        }
        item.open_on.insert(item.open_on.end(), one.judged.open_on.begin(), one.judged.open_on.end());
        if (item.meanwhile.empty() && one.judged.truth != Truth::no) {
            item.meanwhile = one.rule->head.meanwhile;
        }
    }
    if (item.state == ItemState::open) {
        // No single rule's sentence: it would read like an instruction.
        item.title = medicine_.generic + ": what is known does not settle which plan holds";
        item.reading.clear();
    }
    std::ranges::sort(item.because);
    item.because.erase(std::ranges::unique(item.because).begin(), item.because.end());
    std::ranges::sort(item.open_on);
    item.open_on.erase(std::ranges::unique(item.open_on).begin(), item.open_on.end());
}

void Planner::add_other_policies(Hold& hold) const
{
    const Protocol& protocol = judge_.rules().protocol;
    std::vector<std::uint32_t> asked;
    for (const Judgement& one : judgements_) {
        if (one.judged.truth == Truth::no) {
            continue;
        }
        for (const PolicyUse& use : one.rule->policies) {
            asked.push_back(use.question);
        }
    }
    std::ranges::sort(asked);
    asked.erase(std::ranges::unique(asked).begin(), asked.end());
    for (const std::uint32_t question : asked) {
        const auto& choices = protocol.policy_questions[question].options;
        for (std::uint32_t option = 0; option < choices.size(); ++option) {
            auto options = judge_.rules().policy.options;
            if (options[question] == option) {
                continue;
            }
            options[question] = option;
            const std::string label =
                fmt::format("{}: {}", protocol.policy_questions[question].question, choices[option].title);
            hold.other_policies.push_back(option_for(label, by_options(options, nullptr)));
        }
    }
}

const Told* Planner::told() const
{
    const std::string id = "hold:" + item_.id;
    const auto& all = judge_.record().told;
    const auto last = std::find_if(all.rbegin(), all.rend(), [&](const Told& one) { return one.item == id; });
    return last == all.rend() ? nullptr : &*last;
}

/// Whether a dose that should have been left out was due at or before `reference`, and the patient is
/// not known to have stopped before it.
bool Planner::passed(Moment from, Moment reference, HoldAction action) const
{
    if (from > reference) {
        return false;
    }
    const auto known_stop = [&] {
        return item_.last_dose &&
               moment_of_dose(*item_.last_dose, setting_.zone, without_time_for(action)) < from;
    };
    if (!has_schedule(item_.pattern)) {
        return !(known_stop() && item_.at >= from);  // what was said before says nothing about the time since
    }
    const auto left_out = doses_left_out(setting_, from, action);
    const auto already_due = [&](const Dose& dose) {
        return moment_of_dose(dose, setting_.zone, DoseWithoutTime::start_of_day) <= reference &&
               !(known_stop() &&
                 item_.at >= moment_of_dose(dose, setting_.zone, DoseWithoutTime::start_of_day));
    };
    return std::ranges::any_of(left_out, already_due);
}

bool Planner::stopped_too_early(const Outcome& outcome) const
{
    if (!medicine_.marked || !item_.last_dose || !has_schedule(item_.pattern)) {
        return false;
    }
    // The dose that should have been the latest by the time of telling: the last one before the hold
    // begins, or before the patient spoke.
    const Moment reference = std::min(outcome.forbidden_from, item_.at);
    const Date last_day = date_of(local_of(setting_.zone, reference));
    const auto doses = doses_between(item_.pattern, item_.last_dose->day + date::days{1}, last_day);
    return std::ranges::any_of(doses, [&](const Dose& dose) {
        return moment_of_dose(dose, setting_.zone, DoseWithoutTime::end_of_day) < reference;
    });
}

/// Told a last dose other than the one that stands now, or told none where a dose is left out now.
bool Planner::not_as_told(const HoldPlan& plan) const
{
    const Told* one = told();
    if (one == nullptr) {
        return false;
    }
    if (!one->last_dose) {
        return leaves_out(plan.action) && plan.last_dose.has_value();
    }
    if (plan.last_dose) {
        return *one->last_dose != plan.last_dose->day;
    }
    // "None from DATE on" may have been noted as a last dose on the day before it.
    return !plan.none_from || *one->last_dose != *plan.none_from - date::days{1};
}

void Planner::add_warnings(Hold& hold, const Outcome& outcome) const
{
    if (stopped_too_early(outcome)) {
        hold.warnings.push_back(HoldWarning::stopped_too_early);
    }
    if (not_as_told(outcome.plan)) {
        hold.warnings.push_back(HoldWarning::not_as_told);
    }
    if (outcome.rule == nullptr || outcome.plan.action == HoldAction::ask_first) {
        return;
    }
    const HoldRule& rule = *outcome.rule;
    if (leaves_out(rule.action) && !may_give_dates(rule, judge_.rules().policy.options)) {
        hold.warnings.push_back(HoldWarning::no_date_until_confirmed);
    } else if (leaves_out(rule.action)) {
        const Told* one = told();
        const Moment reference = one != nullptr ? one->when : judge_.now();
        if (passed(outcome.forbidden_from, reference, rule.action)) {
            const bool shorter_will_do =
                rule.too_short_below &&
                !passed(forbidden_from(rule.action, number_of(*rule.too_short_below, judge_.rules().policy),
                                       setting_),
                        reference, rule.action);
            hold.warnings.push_back(shorter_will_do ? HoldWarning::shorter_than_told : HoldWarning::too_late);
        }
    }
    std::ranges::sort(hold.warnings);
}

void Planner::settle_level(Hold& hold) const
{
    const auto warned = [&](HoldWarning warning) {
        return std::ranges::find(hold.warnings, warning) != hold.warnings.end();
    };
    const HoldAction action = hold.plan.action;
    const bool decided_by_a_person =
        action == HoldAction::ask_first || action == HoldAction::dose_to_be_stated;
    const bool omits = leaves_out(action) && hold.plan.doses_missed.value_or(1) > 0;
    hold.needs_agreement = decided_by_a_person || (hold.marked && omits);
    if (hold.needs_agreement || warned(HoldWarning::too_late) || warned(HoldWarning::stopped_too_early)) {
        hold.item.level = Level::ask;
    } else {
        hold.item.level = leaves_out(action) ? Level::act : Level::note;
    }
    if (hold.item.level == Level::ask && told() == nullptr) {
        hold.item.now = last_dose_before_next_working_hours(hold, judge_);
    }
}

void Planner::add_fingerprint(Hold& hold) const
{
    CanonicalBytes bytes;
    bytes.add("hold");
    bytes.add(medicine_.id);  // an entry may be corrected from one medicine to another of the same rule
    bytes.add(hold.item.rule);
    bytes.add(name_of(hold.item.level));
    bytes.add(hold.item.state == ItemState::open ? "open" : "fired");
    add_plan(bytes, hold.plan);
    for (const auto* options : {&hold.options, &hold.other_policies}) {
        bytes.add_count(options->size());
        for (const HoldOption& option : *options) {
            bytes.add(option.rule);
            add_plan(bytes, option.plan);
        }
    }
    bytes.add_count(hold.item.who.size());
    for (const Role role : hold.item.who) {
        bytes.add(name_of(role));
    }
    for (const Judgement& one : judgements_) {
        bytes.add(one.rule->head.id);
        bytes.add_count(one.judged.comparisons.size());
        for (const Truth outcome : one.judged.comparisons) {
            bytes.add(outcome == Truth::yes ? "true" : outcome == Truth::no ? "false" : "open");
        }
    }
    hold.item.fingerprint_bytes = std::move(bytes).take();
}

}  // namespace

Hold plan_hold(const Judge& judge, const MedicineItem& item)
{
    return Planner(judge, item).plan();
}

}  // namespace foreday::screening
