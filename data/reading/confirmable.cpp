#include "data/reading/confirmable.h"

#include <algorithm>
#include <optional>
#include <tuple>

namespace foreday::data {
namespace {

using screening::HowSure;
using screening::Preparation;
using screening::RuleHead;

/// A confirmation of a preparation speaks for its windows and its diet too.
HowSure weakest(const Preparation& preparation)
{
    HowSure sure = std::max(preparation.sure, preparation.diet_sure);
    for (const screening::StartWindow& window : preparation.windows) {
        sure = std::max(sure, window.sure);
    }
    return sure;
}

/// Empty: the rule has no figure. Who confirms a rule speaks for its days of restart too.
std::optional<HowSure> weakest_restart(const screening::HoldRule& rule)
{
    std::optional<HowSure> sure;
    for (const auto* figure : {&rule.restart_after_low, &rule.restart_after_high}) {
        if (*figure) {
            sure = std::max(sure.value_or(HowSure::published), (*figure)->sure);
        }
    }
    return sure;
}

}  // namespace

std::vector<Confirmable> confirmables(const screening::Protocol& protocol,
                                      const std::vector<std::uint32_t>& options)
{
    std::vector<Confirmable> all;
    const auto add_rule = [&](std::string kind, const RuleHead& head) {
        all.push_back({std::move(kind), head.id, head.title, head.sure});
    };
    // A policy being read may have answered only some questions yet.
    const bool answered = options.size() == protocol.policy_questions.size();
    for (const auto& parameter : protocol.parameters) {
        all.push_back({"parameter", parameter.id, parameter.title, parameter.sure});
    }
    for (const auto& rule : protocol.findings) {
        add_rule("finding", rule.head);
    }
    for (const auto& rule : protocol.holds) {
        const bool used = !answered || screening::in_force(rule.policies, options);
        all.push_back({"hold", rule.head.id, rule.head.title, rule.head.sure, used});
        if (const auto sure = weakest_restart(rule)) {
            all.push_back({"restart", rule.head.id, rule.head.title, *sure, used});
        }
    }
    for (const auto& rule : protocol.readiness) {
        add_rule("readiness item", rule.head);
    }
    for (const Preparation& preparation : protocol.preparations) {
        all.push_back({"preparation", preparation.id, preparation.generic, weakest(preparation)});
        for (const auto& limit : preparation.limits) {
            add_rule("limit", limit.finding.head);
        }
    }
    for (std::size_t i = 0; i < protocol.policy_questions.size(); ++i) {
        const auto& question = protocol.policy_questions[i];
        for (std::uint32_t j = 0; j < question.options.size(); ++j) {
            const auto& option = question.options[j];
            all.push_back({"policy option", option.id, question.question + ": " + option.title, option.sure,
                           i < options.size() && options[i] == j});
        }
    }
    std::ranges::sort(all, {}, [](const Confirmable& item) { return std::tie(item.kind, item.id); });
    return all;
}

HowSure weakest_of(const std::vector<Confirmable>& known, std::string_view id)
{
    HowSure sure = HowSure::published;
    for (const Confirmable& item : known) {
        if (item.id == id) {
            sure = std::max(sure, item.sure);
        }
    }
    return sure;
}

}  // namespace foreday::data
