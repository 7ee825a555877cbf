#pragma once
#include <string>
#include <vector>

#include "screening/assessment.h"

/// What an item stands on and waits for, in words: no id of the protocol is ever shown.
namespace foreday::checklists {

/// A case while it is written about. All three must outlive it.
struct InView {
    const screening::Rules& rules;
    const screening::CaseRecord& record;
    const screening::Assessment& assessment;
};

/// What a ground is about: label of a fact, words for a calculated value; anything else stays as it is.
[[nodiscard]] std::string ground_name(const screening::Protocol& protocol, const std::string& what);

/// "heart failure: yes (patient, Thu 8 Apr 2027)"; empty where the item's title says it all.
[[nodiscard]] std::string ground_in_words(const InView& view, const screening::Ground& ground);

/// "not asked yet", "known, but too long ago"
[[nodiscard]] std::string why_open_in_words(screening::OpenWhy why);
/// "kind of diabetes (not asked yet)"
[[nodiscard]] std::string open_in_words(const screening::Protocol& protocol, const screening::OpenOn& open);

/// The medicine of a hold, the title of a finding, "the preparation". An item that is not there any more has
/// the title of its rule, or no name but "an item that is gone".
[[nodiscard]] std::string item_in_words(const InView& view, const std::string& item);

/// Titles of hold rules, by their ids.
[[nodiscard]] std::vector<std::string> hold_rules_in_words(const screening::Protocol& protocol,
                                                           const std::vector<std::string>& rules);

}  // namespace foreday::checklists
