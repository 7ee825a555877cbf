#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <utility>

#include "data/book/fold_state.h"

/// What was decided and told.
namespace foreday::book {
namespace {

using screening::Decision;
using screening::DecisionManner;

/// "finding:RULE:3" of a rule about somebody's own concern: the place 3, counted from 1.
std::optional<std::size_t> concern_place(const screening::Protocol& protocol, const std::string& item)
{
    constexpr std::string_view finding = "finding:";
    const auto colon = item.rfind(':');
    if (!item.starts_with(finding) || colon < finding.size() || colon == std::string::npos) {
        return std::nullopt;
    }
    const std::string_view rule = std::string_view{item}.substr(finding.size(), colon - finding.size());
    const bool is_about_concerns = std::ranges::any_of(protocol.findings, [&](const auto& one) {
        return one.head.id == rule &&
               screening::record_test(one.when) == screening::RecordHas::What::own_concern;
    });
    std::size_t place = 0;
    const auto end = item.data() + item.size();
    const auto read = std::from_chars(item.data() + colon + 1, end, place);
    return is_about_concerns && read.ec == std::errc{} && read.ptr == end ? std::optional{place}
                                                                          : std::nullopt;
}

}  // namespace

/// Concerns are counted as they stood when the decision was made. One that was struck since gives its place
/// to the next, which nobody has decided on by that.
std::optional<std::string> Folding::item_today(const std::string& item)
{
    const auto place = concern_place(protocol_, item);
    if (!place) {
        return item;
    }
    std::size_t then = 0;
    std::size_t now = 0;
    for (const RaisedConcern& concern : gathered_.concerns) {
        const bool stood = concern.entry < event_->number() &&
                           (concern.struck_by == 0 || concern.struck_by > event_->number());
        then += stood ? 1 : 0;
        now += concern.struck_by == 0 ? 1 : 0;
        if (stood && then == *place) {
            return concern.struck_by == 0
                       ? std::optional{item.substr(0, item.rfind(':') + 1) + std::to_string(now)}
                       : std::nullopt;
        }
    }
    return std::nullopt;
}

void Folding::decide(const DecidedItem& decided, Decision decision)
{
    auto item = item_today(decided.item);
    if (!item) {
        return not_placed(decided.item, "the concern that was decided on was struck, or never raised");
    }
    decision.item = *std::move(item);
    decision.answer = decided.answer;
    decision.words = decided.words;
    decision.last_dose = decided.last_dose;
    if (!decided.fingerprint.empty()) {
        decision.fingerprint = decided.fingerprint;
    }
    record_.decisions.push_back(std::move(decision));
    folded_.decision_entries.push_back(event_->number());
}

void Folding::apply(const DecisionSigned& said)
{
    Decision decision;
    decision.who = who();
    decision.role = event_->envelope.role;
    decision.manner = DecisionManner::is_signed;
    decision.when = at();
    decide(said.decided, std::move(decision));
}

void Folding::apply(const DecisionSpoken& said)
{
    Decision decision;
    decision.who = said.clinician;
    decision.role = said.role;
    decision.manner = DecisionManner::spoken;
    decision.when = moment_of(said.spoken);
    decide(said.decided, std::move(decision));
}

void Folding::apply(const DecisionFromOutside& said)
{
    Decision decision;
    decision.who = said.who;
    decision.role = said.role;
    decision.manner = DecisionManner::from_outside;
    decision.when = moment_of(said.given);
    decide(said.decided, std::move(decision));
}

/// Only the clinician who spoke signs it.
void Folding::apply(const Countersigned& said)
{
    const auto& entries = folded_.decision_entries;
    const auto found = std::ranges::find(entries, said.entry);
    if (found == entries.end()) {
        return not_placed(std::to_string(said.entry), fmt::format("entry {} is no decision", said.entry));
    }
    Decision& decision = record_.decisions[static_cast<std::size_t>(found - entries.begin())];
    if (decision.manner != DecisionManner::spoken) {
        return not_placed(decision.item, "there is nothing spoken to sign");
    }
    if (decision.who != who()) {
        return not_placed(decision.item,
                          fmt::format("spoken by {} and signed by {}: it still waits", decision.who, who()));
    }
    decision.manner = DecisionManner::is_signed;
}

void Folding::apply(const ClearanceGiven& said)
{
    record_.clearance = screening::Clearance{who(), event_->envelope.role, at(), said.for_start.local};
    folded_.clearance_entry = event_->number();
    file_.clearance_lapsed.reset();
}

void Folding::apply(const ClearanceLapsed& said)
{
    if (!record_.clearance) {
        return not_placed("clearance", "no clearance stood that could lapse");
    }
    file_.clearance_lapsed = checklists::LapsedClearance{at(), said.because, *std::move(record_.clearance)};
    record_.clearance.reset();
    folded_.clearance_entry = 0;
}

void Folding::apply(const HoldsTold& said)
{
    for (const ToldHold& hold : said.holds) {
        record_.told.push_back({hold.item, at(), hold.last_dose});
    }
    file_.tellings.push_back({at(), who(), said.sheet, false});
    folded_.telling_entries.push_back(event_->number());
}

void Folding::apply(const SaidBack& said)
{
    const auto& entries = folded_.telling_entries;
    const auto found = std::ranges::find(entries, said.entry);
    if (found == entries.end()) {
        return not_placed(std::to_string(said.entry),
                          fmt::format("nothing was told in entry {}", said.entry));
    }
    file_.tellings[static_cast<std::size_t>(found - entries.begin())].said_back = true;
}

}  // namespace foreday::book
