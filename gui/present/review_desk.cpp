#include "gui/present/review_desk.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/decide_by.h"
#include "checklists/ground_words.h"
#include "checklists/page_text.h"
#include "checklists/words.h"
#include "data/book/seen_page.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_decision.h"
#include "gui/present/typed_value.h"
#include "screening/hold_plan.h"

namespace foreday::present {
namespace {

using screening::DecisionAnswer;
using screening::Item;

constexpr std::string_view preparation = "preparation";

const Item* find_item(const book::CaseNow& now, const std::string& id)
{
    for (const Item* item : checklists::all_items(now.whole.assessment)) {
        if (item->id == id) {
            return item;
        }
    }
    return nullptr;
}

const screening::Hold* find_hold(const book::CaseNow& now, const std::string& id)
{
    const auto& holds = now.whole.assessment.holds;
    const auto hold = std::ranges::find_if(holds, [&](const auto& one) { return one.item.id == id; });
    return hold == holds.end() ? nullptr : &*hold;
}

std::string_view chosen_in_words(DecisionAnswer answer)
{
    switch (answer) {
        case DecisionAnswer::agree:
            return "agreed";
        case DecisionAnswer::change:
            return "changed";
        case DecisionAnswer::ask_outside:
            return "asked outside first";
        case DecisionAnswer::not_go_ahead:
            return "not to go ahead";
    }
    return "";
}

std::string chosen_in_words(const book::DecidedItem& decided)
{
    std::string words = fmt::format("Chosen, not signed: {}", chosen_in_words(decided.answer));
    if (decided.last_dose) {
        words += fmt::format(", last dose {}", checklists::day_in_words(*decided.last_dose));
    }
    return words + (decided.words.empty() ? "." : fmt::format(", \"{}\".", decided.words));
}

/// What the item proposes, and what it stands on.
std::string ground_of(const book::CaseNow& now, const std::string& id)
{
    if (id == preparation) {
        const auto* refused = std::get_if<checklists::Refused>(&now.whole.preparation.plan);
        return refused == nullptr ? "" : refused->reason;
    }
    const Item* item = find_item(now, id);
    if (item == nullptr) {
        return "";
    }
    std::string words = item->reading.empty() || item->reading == item->title ? "" : item->reading;
    if (const auto* hold = find_hold(now, id)) {
        words +=
            fmt::format("{}Proposed: {}.", words.empty() ? "" : " ", checklists::plan_in_words(hold->plan));
    }
    const checklists::InView view{now.rules(), now.record(), now.whole.assessment};
    std::string grounds;
    for (const screening::Ground& ground : item->because) {
        const std::string said = checklists::ground_in_words(view, ground);
        if (!said.empty()) {
            grounds += (grounds.empty() ? "" : "; ") + said;
        }
    }
    return words + (grounds.empty() ? "" : fmt::format(" Because {}.", grounds));
}

}  // namespace

std::vector<checklists::Line> ReviewDesk::page() const
{
    return checklists::case_page(now().rules(), now().file(), now().whole).lines;
}

std::vector<std::string> ReviewDesk::changed_since_signed() const
{
    std::vector<std::string> words;
    for (const checklists::Change& change : book::changes_since_signed(place_.book(), now())) {
        words.push_back(change.words);
    }
    return words;
}

void ReviewDesk::keep_what_fits()
{
    if (case_ != now().id()) {
        case_ = now().id();
        chosen_.clear();
        return;
    }
    const auto shown = book::shown_items(now());
    const auto gone = std::erase_if(chosen_, [&](const book::DecidedItem& one) {
        const auto item = shown.find(one.item);
        return one.item != preparation && (item == shown.end() || item->second != one.fingerprint);
    });
    if (gone > 0) {
        place_.say(Notice::Kind::news,
                   "An item has changed meanwhile; what was chosen on it is dropped. Look at it once more.");
    }
}

std::vector<DecisionView> ReviewDesk::to_decide()
{
    keep_what_fits();
    std::vector<DecisionView> views;
    const auto& zone = now().rules().zone;
    for (const checklists::ToDecide& one :
         checklists::to_decide(now().rules(), now().record(), now().whole)) {
        DecisionView view;
        view.id = one.id;
        const auto* hold = find_hold(now(), one.id);
        view.title = fmt::format("{}{} ({}){}", hold == nullptr ? "" : hold->medicine + ": ", one.title,
                                 screening::shown_as(one.level), one.opened_again ? ", opened again" : "");
        view.by =
            fmt::format("{} decides, by {}.", checklists::capitalised(checklists::roles_in_words(one.who)),
                        checklists::moment_in_words(zone, one.decide_by));
        view.ground = ground_of(now(), one.id);
        view.mine = std::ranges::find(one.who, place_.writer().role) != one.who.end();
        view.can_agree =
            hold == nullptr ? one.id != preparation : checklists::has_instruction(hold->plan.action);
        const auto chosen = std::ranges::find(chosen_, one.id, &book::DecidedItem::item);
        view.chosen = chosen == chosen_.end() ? "" : chosen_in_words(*chosen);
        views.push_back(std::move(view));
    }
    return views;
}

std::string ReviewDesk::unsigned_in_words()
{
    const std::size_t all = checklists::to_decide(now().rules(), now().record(), now().whole).size();
    keep_what_fits();
    if (all == 0) {
        return now().whole.clearance.given == checklists::ClearanceCheck::Given::stands
                   ? "Nothing is left to decide, and the case is cleared."
                   : "Nothing is left to decide.";
    }
    return chosen_.empty() ? fmt::format("{} to decide on this page.", all)
                           : fmt::format("{} of {} chosen; nothing of it is in the book before it is signed.",
                                         chosen_.size(), all);
}

bool ReviewDesk::choose(const std::string& item, DecisionAnswer answer, const std::string& reason_for,
                        bool reason_needed)
{
    keep_what_fits();
    book::DecidedItem decided;
    decided.item = item;
    decided.answer = answer;
    if (reason_needed) {
        const auto words = place_.questioner().write(reason_for, "");
        if (!words) {
            return false;
        }
        decided.words = *words;
    }
    if (answer == DecisionAnswer::change && find_hold(now(), item) != nullptr) {
        const auto day = place_.questioner().write(
            "Day of the last dose before the procedure, or \"none\" where no day is given", "none");
        if (!day) {
            return false;
        }
        if (*day != "none") {
            const auto typed = typed_date(*day);
            if (!typed || !typed->exact()) {
                place_.say(
                    Notice::Kind::refused,
                    fmt::format("Not chosen: \"{}\" is no day; right would be such as 2026-11-03.", *day));
                return false;
            }
            if (typed->lowest > screening::date_of(now().record().booking.start)) {
                place_.say(Notice::Kind::refused,
                           fmt::format("Not chosen: {} is after the session; right would be its day or one "
                                       "before it.",
                                       checklists::day_in_words(typed->lowest)));
                return false;
            }
            decided.last_dose = typed->lowest;
        }
    }
    const auto shown = book::shown_items(now());
    if (const auto fingerprint = shown.find(item); fingerprint != shown.end()) {
        decided.fingerprint = fingerprint->second;
    }
    take_back(item);
    chosen_.push_back(std::move(decided));
    place_.say(Notice::Kind::none, "");
    return true;
}

bool ReviewDesk::agree(const std::string& item)
{
    if (item == preparation) {
        return choose(item, DecisionAnswer::change, "The plan of preparation, in words for the patient",
                      true);
    }
    const auto* hold = find_hold(now(), item);
    if (hold != nullptr && !checklists::has_instruction(hold->plan.action)) {
        place_.say(Notice::Kind::refused,
                   "Nothing is proposed to agree to; right would be to state what is to be done.");
        return false;
    }
    const Item* found = find_item(now(), item);
    const bool passes_stop = found != nullptr && found->level == screening::Level::stop;
    return choose(item, DecisionAnswer::agree, "Why may it go ahead all the same?", passes_stop);
}

bool ReviewDesk::change(const std::string& item)
{
    return choose(item, DecisionAnswer::change,
                  item == preparation ? "The plan of preparation, in words for the patient"
                                      : "What is done instead, and why",
                  true);
}

bool ReviewDesk::ask_outside(const std::string& item)
{
    return choose(item, DecisionAnswer::ask_outside, "Whom to ask, and what", true);
}

bool ReviewDesk::not_go_ahead(const std::string& item)
{
    return choose(item, DecisionAnswer::not_go_ahead, "Why it is not to go ahead", true);
}

void ReviewDesk::take_back(const std::string& item)
{
    std::erase_if(chosen_, [&](const book::DecidedItem& one) { return one.item == item; });
}

bool ReviewDesk::sign(bool clears)
{
    keep_what_fits();
    const book::SignedPage page{chosen_, book::shown_items(now()), clears};
    const bool stands = place_.act(clears ? "signed, and the case is cleared." : "signed.", [&] {
        return book::sign(place_.book(), place_.writer(), place_.on(), page);
    });
    if (stands) {
        chosen_.clear();
    }
    return stands;
}

bool ReviewDesk::sign()
{
    return sign(false);
}

bool ReviewDesk::sign_and_clear()
{
    return sign(true);
}

std::vector<WaitingView> ReviewDesk::to_countersign() const
{
    std::vector<WaitingView> views;
    const auto& decisions = now().record().decisions;
    const auto items = checklists::all_items(now().whole.assessment);
    for (std::size_t i = 0; i < items.size(); ++i) {
        const auto& decided = now().whole.decided.at(i);
        if (!decided.waits_for_signature || decided.by == nullptr || decided.by->who != place_.writer().who) {
            continue;
        }
        const auto place = static_cast<std::size_t>(decided.by - decisions.data());
        views.push_back(
            {std::to_string(now().folded.decision_entries.at(place)),
             fmt::format("Spoken by you on {}: {}. {}: \"{}\"",
                         checklists::moment_in_words(now().rules().zone, decided.by->when), items[i]->title,
                         chosen_in_words(decided.by->answer), decided.by->words)});
    }
    return views;
}

bool ReviewDesk::countersign(const std::string& entry)
{
    return place_.act("the spoken decision is signed.", [&] {
        return book::countersign(place_.book(), place_.writer(), place_.on(), std::stoll(entry));
    });
}

std::vector<WaitingView> ReviewDesk::restarts_to_decide() const
{
    std::vector<WaitingView> views;
    const bool over = now().record().done || now().file().ending;
    const auto& holds = now().whole.assessment.holds;
    for (std::size_t i = 0; over && i < holds.size(); ++i) {
        const auto& proposal = now().whole.restart_proposals.at(i);
        const bool decided = std::ranges::find(now().file().restarts, holds[i].item.id,
                                               &checklists::Restart::item) != now().file().restarts.end();
        const bool waits = holds[i].marked && screening::leaves_out(holds[i].plan.action);
        if (decided || (!proposal && !waits)) {
            continue;
        }
        views.push_back(
            {holds[i].item.id,
             fmt::format(
                 "{}: {}", holds[i].medicine,
                 proposal
                     ? fmt::format("proposed from {}{}", checklists::day_in_words(proposal->earliest),
                                   proposal->latest ? " to " + checklists::day_in_words(*proposal->latest)
                                                    : std::string())
                     : std::string("no day is proposed"))});
    }
    return views;
}

bool ReviewDesk::decide_restart(const std::string& item)
{
    const auto words = place_.questioner().write("How is it started again? In words for the patient", "");
    const auto from =
        words ? place_.questioner().write("From which day, or \"none\" where the words say it", "none")
              : std::nullopt;
    if (!from) {
        return false;
    }
    std::optional<screening::Date> day;
    if (*from != "none") {
        const auto typed = typed_date(*from);
        if (!typed || !typed->exact()) {
            place_.say(Notice::Kind::refused,
                       "Not written: the day is not clear; right would be such as 2026-11-03.");
            return false;
        }
        day = typed->lowest;
    }
    return place_.act("it is decided how the medicine is started again.", [&] {
        return book::decide_restart(place_.book(), place_.writer(), place_.on(), {item, *words, day});
    });
}

}  // namespace foreday::present
