#pragma once
#include "data/reading/protocol_draft.h"

/// What can be judged only once every file of a protocol has been read.
namespace foreday::data {

/// Facts whose `asked_when` hang on each other: none of them would ever be asked.
/// @returns  by place: whether the fact lies on such a circle
[[nodiscard]] std::vector<bool> check_circles(ProtocolDraft& draft);

/// A fact with `asked_when` may be looked at only inside an `all`, beside a condition written exactly like
/// that `asked_when` (or beside each part of it, where it is an `all` itself). Facts on a circle are not
/// judged.
void check_guards(const std::vector<bool>& on_circle, ProtocolDraft& draft);

/// Medicines that no hold rule speaks about, and hold rules that speak about no medicine.
void check_reach(ProtocolDraft& draft);

/// What a unit may confirm has one id in the whole protocol, so that a confirmation means one thing.
void check_confirmable_ids(ProtocolDraft& draft);

/// Facts, classes, parameters, sources and policy questions that nothing uses: warnings.
void warn_of_unused(ProtocolDraft& draft);

}  // namespace foreday::data
