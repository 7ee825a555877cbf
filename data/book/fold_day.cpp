#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/book/fold_state.h"

/// The day of the session.
namespace foreday::book {

screening::Arrival& Folding::arrival()
{
    if (!record_.arrival) {
        record_.arrival.emplace();
    }
    return *record_.arrival;
}

void Folding::apply(const Arrived& said)
{
    arrival().here_since = said.here_since.local;
}

void Folding::apply(const IntakeStated& said)
{
    arrival().intake.push_back({said.intake, said.at.local, said.what});
}

void Folding::apply(const DoseReallyTaken& said)
{
    const std::string& id = said.medicine;
    if (!medicine_place(id)) {
        return not_placed(id, fmt::format("the list has no entry \"{}\"", id));
    }
    auto& doses = arrival().doses_taken;
    const auto place_of_dose =
        std::ranges::lower_bound(doses, id, {}, [](const auto& taken) { return taken.first; });
    if (place_of_dose != doses.end() && place_of_dose->first == id) {
        place_of_dose->second = said.dose;
    } else {
        doses.emplace(place_of_dose, id, said.dose);
    }
}

void Folding::apply(const NothingElseTaken& /*said*/)
{
    arrival().nothing_else_taken = true;
}

void Folding::apply(const Escalated& said)
{
    folded_.escalations.push_back({event_->number(), said.item, said.to, said.words, at(), who()});
}

void Folding::apply(const DecidedAtDesk& said)
{
    folded_.desk_decisions.push_back(
        {event_->number(), said.item, said.who, said.role, said.reason, at(), who()});
    const bool known =
        std::ranges::any_of(protocol_.readiness, [&](const auto& rule) { return rule.head.id == said.item; });
    if (!known) {
        return not_placed(said.item, fmt::format("the protocol has no readiness item \"{}\"", said.item));
    }
    auto& passed = arrival().let_pass;
    std::erase_if(passed, [&](const auto& earlier) { return earlier.item == said.item; });
    const screening::ItemLetPass now{said.item, said.as_it_read};
    passed.insert(std::ranges::lower_bound(passed, now), now);
}

void Folding::apply(const GoneIn& said)
{
    file_.gone_in = moment_of(said.at);
}

void Folding::apply(const WorkDone& said)
{
    record_.done = moment_of(said.ended);
}

}  // namespace foreday::book
