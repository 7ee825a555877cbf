#include "gui/console/content_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "gui/console/words.h"
#include "screening/condition_words.h"

namespace foreday::console {

using namespace screening;

namespace {

constexpr std::size_t text_column = 20;

std::vector<std::string> role_names(const std::vector<Role>& roles)
{
    std::vector<std::string> names;
    for (const Role role : roles) {
        names.emplace_back(name_of(role));
    }
    return names;
}

std::string joined(const std::vector<std::string>& parts, std::string_view between)
{
    return fmt::format("{}", fmt::join(parts, between));
}

/// What a class covers, by generic names; long ones are cut and counted.
std::string members_of(ClassIndex group, const Protocol& protocol)
{
    constexpr std::size_t shown = 12;
    std::vector<std::string> names;
    std::size_t count = 0;
    for (const MedicineDefinition& medicine : protocol.medicines) {
        if (std::ranges::binary_search(medicine.classes, group) && ++count <= shown) {
            names.push_back(medicine.generic);
        }
    }
    std::string text = joined(names, ", ");
    if (count > shown) {
        text += fmt::format(" and {} more, see the medicines", count - shown);
    }
    return text.empty() ? "no medicine" : text;
}

std::string restart_words(const RestartFigure& figure)
{
    const auto day = [](date::days days) {
        return days.count() == 0
                   ? std::string{"on the day of the procedure"}
                   : fmt::format("{} day{} after it", days.count(), days.count() == 1 ? "" : "s");
    };
    std::string text = "not before: " + day(figure.earliest);
    if (figure.latest) {
        text += "; usually not later than: " + day(*figure.latest);
    }
    return text + fmt::format(" ({})", name_of(figure.sure));
}

std::string what_to_do(const HoldRule& rule, const Protocol& protocol, const UnitPolicy& policy)
{
    std::string text{name_of(rule.action)};
    if (needs_a_number(rule.action)) {
        const Unit unit = rule.action == HoldAction::last_dose_at_least_hours ? Unit::hour : Unit::day;
        text += ": " + limit_in_words(rule.number, unit, protocol, policy);
        if (rule.too_short_below) {
            text += "; too short below " + limit_in_words(*rule.too_short_below, unit, protocol, policy);
        }
    }
    for (const DoseCondition condition : rule.conditions) {
        text += fmt::format("; {}", name_of(condition));
    }
    return text +
           (rule.protects == Protects::by_omitting ? " (protects by omitting)" : " (protects by taking)");
}

}  // namespace

std::string labelled(std::string_view label, const std::string& text)
{
    if (text.empty()) {
        return "";
    }
    std::string block = wrapped(text, text_column);
    const std::string start = fmt::format("  {}", label);
    block.replace(0, std::min(start.size(), text_column), start, 0, text_column);
    return block;
}

std::string condition_block(const Condition& condition, const Protocol& protocol, const UnitPolicy& policy)
{
    const auto lines = condition_in_words(condition, protocol, policy);
    if (lines.empty()) {
        return labelled("when", "always");
    }
    std::string block;
    for (const std::string& line : lines) {
        const std::size_t deeper = line.find_first_not_of(' ');
        std::string text = wrapped(line.substr(deeper), text_column + deeper);
        if (block.empty()) {
            text.replace(0, 6, "  when");
        }
        block += text;
    }
    return block;
}

std::string sources_block(const std::vector<SourceUse>& sources, HowSure sure, const Protocol& protocol)
{
    std::string block;
    for (const SourceUse& use : sources) {
        block += labelled(block.empty() ? "read in" : "", source_words(protocol, use));
    }
    return block + labelled("how sure",
                            std::string{name_of(sure)} +
                                (may_give_a_date(sure) ? "" : ": gives no date until a unit confirms it"));
}

std::string head_block(const RuleHead& head, const Protocol& protocol, const UnitPolicy& policy)
{
    return labelled("for the clinician", head.reading) +
           labelled("hazard", fmt::format("{} ({})", name_of(head.hazard), name_of(head.topic))) +
           labelled("who", joined(role_names(head.who), ", ")) + labelled("meanwhile", head.meanwhile) +
           sources_block(head.sources, rank_in(policy, head.id, head.sure), protocol);
}

std::string hold_block(const HoldRule& rule, const Protocol& protocol, const UnitPolicy& policy)
{
    std::string block = rule.head.id + "\n" + labelled("says", rule.head.title);
    for (const ClassIndex group : rule.classes) {
        block += labelled("for",
                          fmt::format("{} ({})", protocol.classes[group].title, members_of(group, protocol)));
    }
    for (const MedicineIndex medicine : rule.medicines) {
        block += labelled("for", protocol.medicines[medicine].generic);
    }
    for (const PolicyUse& use : rule.policies) {
        const PolicyQuestion& question = protocol.policy_questions[use.question];
        std::vector<std::string> titles;
        for (const std::uint32_t option : use.options) {
            titles.push_back(question.options[option].title);
        }
        block += labelled("only under",
                          fmt::format("{}: {} ({})", question.question, joined(titles, "; or "),
                                      in_force({use}, policy.options) ? "holds here" : "does not hold here"));
    }
    block += condition_block(rule.when, protocol, policy) +
             labelled("what to do", what_to_do(rule, protocol, policy)) +
             labelled("published figure", rule.published_fraction) + head_block(rule.head, protocol, policy);
    if (rule.restart_after_low) {
        block += labelled("again, low risk", restart_words(*rule.restart_after_low));
    }
    if (rule.restart_after_high) {
        block += labelled("again, high risk", restart_words(*rule.restart_after_high));
    }
    return block;
}

std::string policy_block(const PolicyQuestion& question, std::uint32_t chosen, const Protocol& protocol)
{
    std::string block = question.id + "\n" + labelled("asks", question.question);
    for (std::uint32_t place = 0; place < question.options.size(); ++place) {
        const PolicyOption& option = question.options[place];
        std::string text = fmt::format("{}: {}", option.id, option.title);
        if (place == chosen) {
            text += " [holds here]";
        }
        if (place == question.by_default) {
            text += " [without an answer]";
        }
        block += labelled("option", text) + sources_block(option.sources, option.sure, protocol);
    }
    return block + labelled("why this default", question.why);
}

std::string medicine_block(const MedicineDefinition& medicine, const Protocol& protocol)
{
    std::vector<std::string> classes;
    for (const ClassIndex group : medicine.classes) {
        classes.push_back(protocol.classes[group].title);
    }
    std::vector<std::string> rules;
    const auto place = static_cast<MedicineIndex>(&medicine - protocol.medicines.data());
    for (const HoldRule* rule : rules_about(place, protocol)) {
        rules.push_back(rule->head.id);
    }
    std::vector<std::string> alike;
    for (const std::string& id : medicine.mistaken_for) {
        const auto other = find_medicine(protocol, id);
        alike.push_back(other ? protocol.medicines[*other].generic : id);
    }
    const std::string ingredients =
        medicine.ingredients.size() > 1 ? joined(medicine.ingredients, ", ") : std::string{};
    return medicine.generic + "\n" + labelled("id", medicine.id) +
           labelled("marked", medicine.marked ? "nothing is left out before a clinician has agreed" : "") +
           labelled("called", joined(medicine.names, ", ")) + labelled("contains", ingredients) +
           labelled("classes", joined(classes, "; ")) +
           labelled("rules", rules.empty() ? "none: a clinician decides" : joined(rules, ", ")) +
           labelled("easily taken for", joined(alike, ", "));
}

std::vector<const HoldRule*> rules_about(MedicineIndex medicine, const Protocol& protocol)
{
    std::vector<const HoldRule*> rules;
    for (const HoldRule& rule : protocol.holds) {
        if (speaks_about(rule, medicine, protocol)) {
            rules.push_back(&rule);
        }
    }
    return rules;
}

}  // namespace foreday::console
