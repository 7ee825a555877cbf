#include <fmt/format.h>

#include "tests/screening/builders.h"

namespace foreday::screening::build {
namespace {

/// Lines of an assessment. Text is quoted with its length, so that two of them cannot look alike by chance.
class Lines {
public:
    void add(std::string_view name, std::string_view text)
    {
        all_ += fmt::format("{} {}:{}\n", name, text.size(), text);
    }
    void add(std::string_view name, bool value) { add(name, std::string_view{value ? "yes" : "no"}); }
    void add_count(std::string_view name, std::size_t count) { add(name, std::to_string(count)); }
    [[nodiscard]] std::string take() && { return std::move(all_); }

private:
    std::string all_;
};

void add_item(Lines& lines, const Item& item)
{
    lines.add("id", item.id);
    lines.add("rule", item.rule);
    lines.add("level", name_of(item.level));
    lines.add("open", item.state == ItemState::open);
    lines.add("on unconfirmed", item.on_unconfirmed);
    lines.add("topic", name_of(item.topic));
    lines.add("hazard", name_of(item.hazard));
    lines.add("now", item.now);
    lines.add("title", item.title);
    lines.add("reading", item.reading);
    for (const Ground& ground : item.because) {
        lines.add("because", fmt::format("{}|{}|{}", ground.what, ground.value, ground.who));
    }
    for (const std::string& name : names_of(item.open_on)) {
        lines.add("open on", name);
    }
    for (const SourceUse& source : item.sources) {
        lines.add("source", source.source + "|" + source.locator);
    }
    lines.add("sure", name_of(item.sure));
    for (const Role role : item.who) {
        lines.add("who", name_of(role));
    }
    lines.add("meanwhile", item.meanwhile);
    lines.add("now words", item.now_words);
    lines.add("fingerprint", item.fingerprint_bytes);
}

void add_plan(Lines& lines, const HoldPlan& plan)
{
    lines.add("action", name_of(plan.action));
    lines.add("number", plan.number ? plan.number->text() : "");
    for (const DoseCondition condition : plan.conditions) {
        lines.add("condition", name_of(condition));
    }
    lines.add("last dose", text_of(plan.last_dose));
    lines.add("none from", plan.none_from ? iso_date(*plan.none_from) : "");
    for (const std::string& date : texts_of(plan.dates_omitted)) {
        lines.add("omitted", date);
    }
    lines.add("day of", plan.day_of ? name_of(*plan.day_of) : "");
    lines.add("missed", plan.doses_missed ? std::to_string(*plan.doses_missed) : "");
    lines.add("next", text_of(plan.next_dose));
}

void add_hold(Lines& lines, const Hold& hold)
{
    add_item(lines, hold.item);
    lines.add("item", hold.medicine_item);
    lines.add("medicine", hold.medicine);
    lines.add("marked", hold.marked);
    add_plan(lines, hold.plan);
    lines.add("needs agreement", hold.needs_agreement);
    for (const HoldWarning warning : hold.warnings) {
        lines.add("warning", name_of(warning));
    }
    for (const auto* options : {&hold.options, &hold.other_policies}) {
        lines.add_count("options", options->size());
        for (const HoldOption& option : *options) {
            lines.add("option", option.label + "|" + option.rule);
            add_plan(lines, option.plan);
        }
    }
    for (const auto* rules : {&hold.beneath, &hold.pulling_apart}) {
        lines.add_count("rules", rules->size());
        for (const std::string& rule : *rules) {
            lines.add("rule", rule);
        }
    }
    lines.add("fraction", hold.published_fraction);
}

}  // namespace

std::string whole_text(const Assessment& assessment)
{
    Lines lines;
    lines.add("at", iso_with_offset(fixed_zone(), assessment.at));
    for (const Item& item : assessment.findings) {
        add_item(lines, item);
    }
    for (const Hold& hold : assessment.holds) {
        add_hold(lines, hold);
    }
    for (const PreparationStanding& standing : assessment.preparations) {
        lines.add_count("preparation", standing.preparation);
        for (const auto* items : {&standing.against, &standing.cautions, &standing.open}) {
            lines.add_count("items", items->size());
            for (const Item& item : *items) {
                add_item(lines, item);
            }
        }
    }
    for (const OpenQuestion& question : assessment.open_questions) {
        lines.add("question", question.fact);
        lines.add_count("state", static_cast<std::size_t>(question.state));
        lines.add("why", name_of(question.why));
        for (const std::string& item : question.would_settle) {
            lines.add("would settle", item);
        }
    }
    for (const auto& [section, count] : assessment.not_asked) {
        lines.add("not asked", fmt::format("{} {}", section, count));
    }
    lines.add("risk", name_of(assessment.bleeding_risk));
    lines.add("in scope", assessment.in_scope);
    return std::move(lines).take();
}

}  // namespace foreday::screening::build
