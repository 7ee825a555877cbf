#include "gui/console/restart_words.h"

#include <fmt/format.h>

#include "gui/console/words.h"

namespace foreday::console {
namespace {

using checklists::RestartProposal;

std::string ground_words(const screening::Protocol& protocol, const RestartProposal& proposal)
{
    std::string text = fmt::format(
        "after a {} bleeding risk, {}", name_of(proposal.after),
        proposal.as_booked ? "as booked: nobody has said what was really done" : "by what was really done");
    if (proposal.sure) {
        text += fmt::format("; {}", name_of(*proposal.sure));
    }
    for (const screening::SourceUse& use : proposal.sources) {
        text += fmt::format("; {}", source_words(protocol, use));
    }
    return text;
}

}  // namespace

std::string restart_words(const screening::Protocol& protocol, const screening::Hold& hold,
                          const std::optional<RestartProposal>& proposal)
{
    if (!proposal) {
        return hold.marked
                   ? "restart: no day is proposed; where doses were left out the endoscopist states it"
                   : "restart: no day is proposed; where doses were left out ask the endoscopist";
    }
    std::string text = "restart: not before " + day_words(proposal->earliest);
    if (proposal->latest) {
        text += ", as a rule by " + day_words(*proposal->latest);
    }
    if (proposal->endoscopist_decides) {
        text += ". Proposed only: the endoscopist decides";
    }
    return proposal->sure ? fmt::format("{} ({})", text, ground_words(protocol, *proposal)) : text;
}

}  // namespace foreday::console
