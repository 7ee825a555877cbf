#include "checklists/page_items.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "checklists/words.h"
#include "screening/hold_words.h"

namespace foreday::checklists {
namespace {

using screening::Hold;
using screening::Item;
using screening::Rules;

void add_text(std::vector<Line>& lines, std::string text)
{
    lines.push_back({LineKind::text, std::move(text), {}});
}

std::string grounds_in_words(const InView& view, const Item& item)
{
    std::vector<std::string> words;
    for (const screening::Ground& ground : item.because) {
        if (std::string text = ground_in_words(view, ground); !text.empty()) {
            words.push_back(std::move(text));
        }
    }
    return fmt::format("{}", fmt::join(words, "; "));
}

std::string all_open_in_words(const InView& view, const Item& item)
{
    std::vector<std::string> words;
    words.reserve(item.open_on.size());
    for (const screening::OpenOn& open : item.open_on) {
        words.push_back(open_in_words(view.rules.protocol, open));
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
    return fmt::format("Decided{}: {}", decided.waits_for_signature ? ", to be signed" : "",
                       decision_in_words(*decided.by, zone));
}

std::string headline(const Item& item)
{
    std::string text = fmt::format("{}: {}", capitalised(std::string{screening::shown_as(item.level)}),
                                   capitalised(item.title));
    if (text.ends_with('.')) {
        text.pop_back();  // what is not known may follow
    }
    if (item.state == screening::ItemState::open) {
        text += " (open)";
    }
    if (item.on_unconfirmed) {
        text += " (on a value nobody has confirmed in this case)";
    }
    return text + '.';
}

void add_options(std::vector<Line>& lines, const Hold& hold)
{
    for (const screening::HoldOption& option : hold.options) {
        add_text(lines, fmt::format("Still possible: {}: {}.", option.label, plan_in_words(option.plan)));
    }
    const screening::OtherPolicies others = screening::sorted_by_result(hold);
    for (const screening::HoldOption& option : others.different) {
        add_text(lines,
                 fmt::format("Under another policy ({}): {}.", option.label, plan_in_words(option.plan)));
    }
    if (!others.the_same.empty()) {
        add_text(lines, fmt::format("The same under another policy ({}).", fmt::join(others.the_same, "; ")));
    }
}

std::string warning_in_words(screening::HoldWarning warning)
{
    using screening::HoldWarning;
    switch (warning) {
        case HoldWarning::too_late:
            return "Too late: a dose that was to be left out has already been due.";
        case HoldWarning::stopped_too_early:
            return "The patient stopped it earlier than this asks.";
        case HoldWarning::not_as_told:
            return "The patient was told something else.";
        case HoldWarning::shorter_than_told:
            return "The time without it is shorter than what is told, and not too short.";
        case HoldWarning::no_date_until_confirmed:
            return "No date is given until the unit has confirmed the figure.";
    }
    return "";
}

bool changed_by_a_clinician(const Decided& decided)
{
    return decided.state == DecisionState::standing && decided.by != nullptr &&
           decided.by->answer == screening::DecisionAnswer::change;
}

std::string stage_in_words(const Hold& hold, const Decided& decided, HoldStage stage)
{
    switch (stage) {
        case HoldStage::proposed:
            return "proposed; nobody has agreed yet";
        case HoldStage::agreed:
            if (decided.state == DecisionState::standing) {
                return "agreed, not told yet";
            }
            return hold.item.level == screening::Level::note ? "needs no agreement" : "not told yet";
        case HoldStage::told:
            return "told";
    }
    return "";
}

/// What is to be done about the medicine as it stands.
std::string standing_in_words(const Hold& hold, const Decided& decided)
{
    if (!changed_by_a_clinician(decided)) {
        return plan_in_words(hold.plan);
    }
    const std::string by = fmt::format("as {} has changed it", decided.by->who);
    return decided.by->last_dose ? fmt::format("{}, last dose {}", by, day_in_words(*decided.by->last_dose))
                                 : by;
}

}  // namespace

bool waits_for_questions(const Item& item)
{
    using screening::OpenWhy;
    return item.state == screening::ItemState::open &&
           std::ranges::all_of(item.open_on, [](const screening::OpenOn& open) {
               return open.why == OpenWhy::not_asked || open.why == OpenWhy::not_applicable ||
                      open.why == OpenWhy::list_not_closed;
           });
}

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
    std::string text = fmt::format("{} ({}) {}, {}, {}", decision.who, screening::name_of(decision.role),
                                   answer(), manner(), moment_in_words(zone, decision.when));
    if (decision.last_dose) {
        text += "; last dose " + day_in_words(*decision.last_dose);
    }
    return decision.words.empty() ? text : text + ": " + decision.words;
}

void add_item(std::vector<Line>& lines, const InView& view, const Item& item, const Decided& decided)
{
    lines.push_back({LineKind::step, headline(item), {}});
    if (!item.reading.empty() && item.reading != item.title) {
        add_text(lines, sentence(item.reading));
    }
    if (item.now && !item.now_words.empty()) {
        add_text(lines, "While the patient is on the line: " + sentence(item.now_words));
    }
    if (const std::string grounds = grounds_in_words(view, item); !grounds.empty()) {
        add_text(lines, "Because of: " + sentence(grounds));
    }
    if (!item.open_on.empty()) {
        add_text(lines, "Would settle it: " + sentence(all_open_in_words(view, item)));
    }
    if (!item.meanwhile.empty() && is_undecided(item, decided)) {
        add_text(lines, "Until then, say: " + sentence(item.meanwhile));
    }
    add_text(lines, fmt::format("Source: {}.", sources_in_words(view.rules, item)));
    if (const std::string state = state_in_words(item, decided, view.rules.zone); !state.empty()) {
        add_text(lines, sentence(state));
    }
}

void add_hold(std::vector<Line>& lines, const InView& view, const Hold& hold, const Decided& decided,
              HoldStage stage)
{
    lines.push_back({LineKind::step,
                     fmt::format("{}{}: {} ({}).", capitalised(hold.medicine), hold.marked ? ", marked" : "",
                                 standing_in_words(hold, decided), stage_in_words(hold, decided, stage)),
                     {}});
    if (changed_by_a_clinician(decided)) {
        add_text(lines, fmt::format("Before the change: {}.", plan_in_words(hold.plan)));
    }
    for (const screening::HoldWarning warning : hold.warnings) {
        add_text(lines, warning_in_words(warning));
    }
    if (!hold.published_fraction.empty()) {
        add_text(lines, "Published figure: " + sentence(hold.published_fraction));
    }
    add_options(lines, hold);
    const screening::Protocol& protocol = view.rules.protocol;
    if (!hold.pulling_apart.empty()) {
        add_text(lines, fmt::format("These rules pull apart: {}.",
                                    fmt::join(hold_rules_in_words(protocol, hold.pulling_apart), "; ")));
    }
    if (!hold.beneath.empty()) {
        add_text(lines, fmt::format("These rules ask for less: {}.",
                                    fmt::join(hold_rules_in_words(protocol, hold.beneath), "; ")));
    }
    add_item(lines, view, hold.item, decided);
}

}  // namespace foreday::checklists
