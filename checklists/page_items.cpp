#include "checklists/page_items.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/words.h"

namespace foreday::checklists {
namespace {

using screening::Item;
using screening::Rules;

void add_text(std::vector<Line>& lines, std::string text)
{
    lines.push_back({LineKind::text, std::move(text), {}});
}

std::string grounds_in_words(const Item& item)
{
    std::vector<std::string> words;
    for (const screening::Ground& ground : item.because) {
        words.push_back(ground.who.empty()
                            ? fmt::format("{}: {}", ground.what, ground.value)
                            : fmt::format("{}: {} ({})", ground.what, ground.value, ground.who));
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

std::string open_in_words(const Item& item)
{
    std::vector<std::string> words;
    for (const screening::OpenOn& open : item.open_on) {
        words.push_back(fmt::format("{} ({})", open.fact, screening::name_of(open.why)));
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

std::string sources_in_words(const Rules& rules, const Item& item)
{
    std::vector<std::string> words;
    for (const screening::SourceUse& use : item.sources) {
        const auto source = std::ranges::find(rules.protocol.sources, use.source, &screening::Source::id);
        words.push_back(source == rules.protocol.sources.end()
                            ? fmt::format("{}, {}", use.source, use.locator)
                            : fmt::format("{} {}, {}", source->by, source->year, use.locator));
    }
    const std::string rank{screening::name_of(item.sure)};
    return words.empty() ? rank : fmt::format("{} ({})", fmt::join(words, "; "), rank);
}

std::string state_in_words(const Item& item, const Decided& decided, const screening::Zone& zone)
{
    if (is_undecided(item, decided)) {
        if (decided.asked_outside) {
            return "Not decided: asked outside, " + decision_in_words(*decided.by, zone);
        }
        if (decided.state == DecisionState::opened_again) {
            return "Opened again; before it changed: " + decision_in_words(*decided.by, zone);
        }
        return decided.order_expired ? "Not decided: the standing order has run out" : "Not decided";
    }
    if (decided.state != DecisionState::standing) {
        return "";
    }
    return "Decided: " + decision_in_words(*decided.by, zone) +
           (decided.waits_for_signature ? "; to be signed" : "");
}

std::string headline(const Item& item)
{
    std::string text = fmt::format("{}: {}", screening::shown_as(item.level),
                                   item.reading.empty() ? item.title : item.reading);
    if (text.ends_with('.')) {
        text.pop_back();  // whoever writes the line ends it
    }
    if (item.state == screening::ItemState::open) {
        text += " (open)";
    }
    if (item.on_unconfirmed) {
        text += " (on a value nobody has confirmed in this case)";
    }
    return text;
}

void add_options(std::vector<Line>& lines, std::string_view title,
                 const std::vector<screening::HoldOption>& options)
{
    for (const screening::HoldOption& option : options) {
        add_text(lines, fmt::format("{}: {}: {}.", title, option.label, plan_in_words(option.plan)));
    }
}

}  // namespace

std::string decision_in_words(const screening::Decision& decision, const screening::Zone& zone)
{
    using screening::DecisionAnswer;
    using screening::DecisionManner;
    const auto answer = [&] {
        switch (decision.answer) {
            case DecisionAnswer::agree:
                return "agrees";
            case DecisionAnswer::change:
                return "changes it";
            case DecisionAnswer::ask_outside:
                return "asks outside";
            case DecisionAnswer::not_go_ahead:
                return "decides not to go ahead";
        }
        return "";
    };
    const auto manner = [&] {
        switch (decision.manner) {
            case DecisionManner::is_signed:
                return "signed";
            case DecisionManner::spoken:
                return "spoken";
            case DecisionManner::from_outside:
                return "from outside";
        }
        return "";
    };
    std::string text = fmt::format("{} ({}) {}, {}, on {}", decision.who, screening::name_of(decision.role),
                                   answer(), manner(), moment_in_words(zone, decision.when));
    if (decision.last_dose) {
        text += ", last dose " + day_in_words(*decision.last_dose);
    }
    return decision.words.empty() ? text : text + ": " + decision.words;
}

void add_item(std::vector<Line>& lines, const Rules& rules, const Item& item, const Decided& decided)
{
    lines.push_back({LineKind::step, headline(item) + ".", {}});
    if (!item.because.empty()) {
        add_text(lines, "Because " + grounds_in_words(item) + ".");
    }
    if (!item.open_on.empty()) {
        add_text(lines, "Would settle it: " + open_in_words(item) + ".");
    }
    if (!item.meanwhile.empty() && is_undecided(item, decided)) {
        add_text(lines, "Said meanwhile: " + item.meanwhile);
    }
    add_text(lines, "Source: " + sources_in_words(rules, item) + ".");
    if (const std::string state = state_in_words(item, decided, rules.zone); !state.empty()) {
        add_text(lines, state + ".");
    }
}

void add_hold(std::vector<Line>& lines, const Rules& rules, const screening::Hold& hold,
              const Decided& decided, HoldStage stage)
{
    lines.push_back({LineKind::step,
                     fmt::format("{}{}: {} ({}).", hold.medicine, hold.marked ? ", marked" : "",
                                 plan_in_words(hold.plan), name_of(stage)),
                     {}});
    for (const screening::HoldWarning warning : hold.warnings) {
        add_text(lines, fmt::format("Warning: {}.", screening::name_of(warning)));
    }
    if (!hold.published_fraction.empty()) {
        add_text(lines, "Published: " + hold.published_fraction);
    }
    add_options(lines, "Still possible", hold.options);
    add_options(lines, "Under another policy", hold.other_policies);
    if (!hold.pulling_apart.empty()) {
        add_text(lines, fmt::format("These rules pull apart: {}.", fmt::join(hold.pulling_apart, ", ")));
    }
    if (!hold.beneath.empty()) {
        add_text(lines, fmt::format("These ask for less: {}.", fmt::join(hold.beneath, ", ")));
    }
    add_item(lines, rules, hold.item, decided);
}

}  // namespace foreday::checklists
