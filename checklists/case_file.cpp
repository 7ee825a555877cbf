#include "checklists/case_file.h"

#include <algorithm>
#include <array>

namespace foreday::checklists {
namespace {

// In the order of the enumerators.
constexpr std::array<std::string_view, 6> outcomes{"reached",      "no answer", "message left",
                                                   "wrong number", "rang in",   "ended for an emergency"};
constexpr std::array<std::string_view, 3> endings{"called off", "did not come", "not today"};

template <class Enum, std::size_t count>
std::optional<Enum> find_in(const std::array<std::string_view, count>& names, std::string_view name)
{
    const auto found = std::ranges::find(names, name);
    if (found == names.end()) {
        return std::nullopt;
    }
    return static_cast<Enum>(found - names.begin());
}

}  // namespace

std::string_view name_of(TryOutcome outcome)
{
    return outcomes.at(static_cast<std::size_t>(outcome));
}

std::optional<TryOutcome> find_try_outcome(std::string_view name)
{
    return find_in<TryOutcome>(outcomes, name);
}

std::string_view name_of(EndingKind kind)
{
    return endings.at(static_cast<std::size_t>(kind));
}

std::optional<EndingKind> find_ending_kind(std::string_view name)
{
    return find_in<EndingKind>(endings, name);
}

}  // namespace foreday::checklists
