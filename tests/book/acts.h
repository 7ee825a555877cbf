#pragma once
#include <functional>
#include <string>
#include <vector>

#include "tests/book/desk.h"

namespace foreday::tests {

/// How one thing that was prepared ends.
using Done = tl::expected<std::vector<std::string>, book::Refusal>;  // remarks
using Doing = std::function<Done()>;

/// One thing somebody does to a case, prepared from what is in view and done later.
struct Act {
    std::string name;
    /// Looks at the case and gives what is then done with it, in view of what was seen.
    std::function<Doing(Desk&, const std::string& id)> prepare;
    std::string fact{};  ///< that it answers; empty: it is no answer
};

/// Things done before the day, to a case on which all that asks was decided by voice and is to be signed, of
/// which the patient was told something, and about which a cardiologist was asked.
[[nodiscard]] std::vector<Act> acts_before_the_day();
/// Things done on the morning, to a patient who has not come yet.
[[nodiscard]] std::vector<Act> acts_of_the_morning();
/// Things done to a patient who is here and may go in.
[[nodiscard]] std::vector<Act> acts_of_the_day();
/// Things done after the procedure, with every restart decided and told.
[[nodiscard]] std::vector<Act> acts_afterwards();

}  // namespace foreday::tests
