#include "checklists/clearance.h"

#include <fmt/format.h>

#include <algorithm>

namespace foreday::checklists {
namespace {

using screening::Assessment;
using screening::CaseRecord;
using screening::Item;
using screening::Level;
using screening::Rules;

std::string undecided_words(const Item& item, const Decided& decided)
{
    std::string text = item.title;
    if (item.state == screening::ItemState::open) {
        text += " (open)";
    }
    if (decided.asked_outside) {
        return text + ": asked outside, no answer decided on yet";
    }
    if (decided.lacks_reason) {
        return fmt::format("{}: {} gave no reason for going ahead", text, decided.not_counted->who);
    }
    if (decided.lacks_instruction) {
        return fmt::format("{}: {} agreed and did not say what is to be done", text,
                           decided.not_counted->who);
    }
    if (decided.role_may_not) {
        return fmt::format("{}: decided by {}, a role that may not decide on it", text, decided.by->who);
    }
    if (decided.state == DecisionState::opened_again) {
        return text + ": changed since it was decided";
    }
    if (decided.order_expired && item.level < Level::ask) {
        return text + ": the standing order has run out";
    }
    return text + ": not decided";
}

/// An `act` item is done once it was told, or somebody has decided on it.
bool is_done(const CaseRecord& record, const Item& item, const Decided& decided)
{
    return decided.state == DecisionState::standing ||
           std::ranges::find(record.told, item.id, &screening::Told::item) != record.told.end();
}

void look_at_items(const CaseRecord& record, const Assessment& assessment,
                   const std::vector<Decided>& decided, ClearanceCheck& check)
{
    const auto items = all_items(assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        const Item& item = *items[place];
        if (is_undecided(item, decided[place])) {
            check.lacks.push_back({item.id, undecided_words(item, decided[place])});
        } else if (decided[place].not_go_ahead) {
            check.lacks.push_back({item.id, item.title + ": decided not to go ahead"});
        } else if (item.level == Level::act && !is_done(record, item, decided[place])) {
            check.still_to_do.push_back(item.title);
        }
    }
}

bool speaks_of_unrecognised(const screening::FindingRule& rule)
{
    return std::ranges::any_of(
        screening::comparisons_in(rule.when), [](const screening::Comparison* comparison) {
            const auto* record = std::get_if<screening::RecordHas>(comparison);
            return record != nullptr && record->what == screening::RecordHas::What::unrecognised_medicine;
        });
}

/// An entry nobody could name blocks until a clinician has decided on the words as heard. Where the protocol
/// has no finding to decide on, it blocks by itself.
void look_at_unrecognised(const Rules& rules, const CaseRecord& record, const Assessment& assessment,
                          ClearanceCheck& check)
{
    const auto has_a_finding = [&](const screening::MedicineItem& entry) {
        return std::ranges::any_of(rules.protocol.findings, [&](const screening::FindingRule& rule) {
            const std::string id = fmt::format("finding:{}:{}", rule.head.id, entry.id);
            return speaks_of_unrecognised(rule) && rule.level >= Level::ask &&
                   std::ranges::find(assessment.findings, id, &Item::id) != assessment.findings.end();
        });
    };
    for (const screening::MedicineItem& entry : record.medicines.items) {
        if (!entry.medicine && !has_a_finding(entry)) {
            check.lacks.push_back(
                {"medicine list",
                 fmt::format("\"{}\" on the medicine list: nobody has named it", entry.heard)});
        }
    }
}

void look_at_list(const Rules& rules, const CaseRecord& record, screening::Moment now, ClearanceCheck& check)
{
    const auto days =
        screening::number_of(screening::Limit{rules.protocol.engine.list_closed_days}, rules.policy).floor();
    const auto lacks = [&](std::string what) { check.lacks.push_back({"medicine list", std::move(what)}); };
    switch (screening::list_state(record.medicines, now, date::days{static_cast<int>(days)})) {
        case screening::ListState::closed:
            return;
        case screening::ListState::never_closed:
            return lacks("nobody has said that the medicine list is complete");
        case screening::ListState::reopened_by_import:
            return lacks("an import has added to the medicine list since it was closed");
        case screening::ListState::older_than_allowed:
            return lacks(fmt::format("the medicine list was closed more than {} days ago", days));
    }
}

/// Whether the item, as it is now, was decided by the time of the clearance.
bool decided_before(const CaseRecord& record, const Item& item, const Decided& decided)
{
    const std::string& fingerprint = decided.fingerprint;
    return std::ranges::any_of(record.decisions, [&](const screening::Decision& decision) {
        const bool for_this = !decision.fingerprint || *decision.fingerprint == fingerprint;
        return decision.item == item.id && for_this && decision.role == decided.by->role &&
               decision.when <= record.clearance.value().when;
    });
}

/// Why a clearance that was given does not stand. Empty: it does.
std::string why_lapsed(const Rules& rules, const CaseRecord& record, const Assessment& assessment,
                       const std::vector<Decided>& decided, screening::Moment now,
                       const ClearanceCheck& check)
{
    const screening::Clearance& given = record.clearance.value();
    const auto days =
        screening::number_of(screening::Limit{rules.protocol.engine.clearance_days}, rules.policy).floor();
    if (given.for_start != record.booking.start) {
        return "the start has been moved since";
    }
    if (now - given.when > date::days{days}) {
        return fmt::format("it is more than {} days old", days);
    }
    if (!check.possible) {
        return check.lacks.front().what;
    }
    bool anything_asks = false;
    const auto items = all_items(assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        if (items[place]->level < Level::ask) {
            continue;
        }
        anything_asks = true;
        if (!decided_before(record, *items[place], decided[place])) {
            return items[place]->title + ": decided only after the clearance was given";
        }
    }
    if (!is_clinician(given.role) && (anything_asks || given.role != screening::Role::nurse)) {
        return fmt::format("{} ({}) may not give it {}", given.by, screening::name_of(given.role),
                           anything_asks ? "where a clinician decides" : "at all");
    }
    return "";
}

}  // namespace

ClearanceCheck check_clearance(const Rules& rules, const CaseRecord& record, const Assessment& assessment,
                               const std::vector<Decided>& decided, const PreparationPlan& preparation,
                               screening::Moment now)
{
    ClearanceCheck check;
    look_at_items(record, assessment, decided, check);
    look_at_unrecognised(rules, record, assessment, check);
    look_at_list(rules, record, now, check);
    if (const auto* refused = std::get_if<Refused>(&preparation.plan);
        refused != nullptr && preparation.stated.empty()) {
        check.lacks.push_back({"preparation", refused->reason});
    }
    const auto* fitted = std::get_if<Fitted>(&preparation.plan);
    if (fitted != nullptr && !fitted->open_on.empty()) {
        check.still_to_do.push_back("The journey from home, which the preparation's times hang on");
    }
    check.possible = check.lacks.empty();
    if (record.clearance) {
        check.lapsed_because = why_lapsed(rules, record, assessment, decided, now, check);
        check.given =
            check.lapsed_because.empty() ? ClearanceCheck::Given::stands : ClearanceCheck::Given::lapsed;
    }
    return check;
}

}  // namespace foreday::checklists
