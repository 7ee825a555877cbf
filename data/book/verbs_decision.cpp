#include "data/book/verbs_decision.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "checklists/lacks_in_words.h"
#include "checklists/sheet_content.h"
#include "checklists/telling.h"
#include "data/book/codec.h"
#include "data/book/meanwhile.h"
#include "data/book/refusals.h"

namespace foreday::book {
namespace {

using screening::Item;
using screening::Level;
using screening::Role;

const Item* find_item(const CaseNow& now, const std::string& id)
{
    for (const Item* item : checklists::all_items(now.whole.assessment)) {
        if (item->id == id) {
            return item;
        }
    }
    return nullptr;
}

const screening::Hold* find_hold(const CaseNow& now, const Item& item)
{
    const auto& holds = now.whole.assessment.holds;
    const auto found = std::ranges::find_if(holds, [&](const auto& one) { return one.item.id == item.id; });
    return found == holds.end() ? nullptr : &*found;
}

bool role_may(const CaseNow& now, const Item& item, Role role)
{
    const auto* hold = find_hold(now, item);
    return hold == nullptr ? checklists::may_decide(item, role)
                           : checklists::may_agree(now.rules(), *hold, role);
}

Refusal role_may_not_decide(const Item& item, const std::string& who, Role role)
{
    std::vector<std::string_view> names;
    for (const Role may : item.who) {
        names.push_back(screening::name_of(may));
    }
    return {Refusal::Why::role_may_not,
            fmt::format("{} as {} may not decide on \"{}\"", who, screening::name_of(role), item.title),
            fmt::format("one of: {}", fmt::join(names, ", ")),
            {}};
}

/// The plan of preparation is decided in words under this name; it is no item of the assessment.
bool is_preparation(const DecidedItem& decided)
{
    return decided.item == "preparation";
}

std::optional<Refusal> check_decided(const CaseNow& before, const DecidedItem& decided,
                                     const std::string& who, Role role)
{
    const bool wordless = decided.words.find_first_not_of(" \t\n") == std::string::npos;
    if (is_preparation(decided)) {
        return wordless ? std::optional(malformed("a plan of preparation without words", "the plan in words"))
                        : std::nullopt;
    }
    const Item* item = find_item(before, decided.item);
    if (item == nullptr) {
        return Refusal{Refusal::Why::changed_meanwhile,
                       fmt::format("{} is not there any more", decided.item),
                       "the page looked at once more",
                       {}};
    }
    if (!role_may(before, *item, role)) {
        return role_may_not_decide(*item, who, role);
    }
    const bool passes_stop = item->level == Level::stop &&
                             decided.answer != screening::DecisionAnswer::not_go_ahead &&
                             decided.answer != screening::DecisionAnswer::ask_outside;
    if (wordless && (passes_stop || decided.answer == screening::DecisionAnswer::change)) {
        return malformed(fmt::format("\"{}\" is decided without a reason", item->title),
                         "the reason in words");
    }
    if (auto refused = changed_meanwhile(before, {{decided.item, decided.fingerprint}}, {decided.item})) {
        return refused;
    }
    const auto* hold = find_hold(before, *item);
    if (hold != nullptr && decided.answer == screening::DecisionAnswer::agree &&
        !checklists::has_instruction(hold->plan.action)) {
        return malformed(fmt::format("\"{}\" names nothing to agree to", item->title),
                         "a change that says what is to be done, and until when the medicine is taken");
    }
    return std::nullopt;
}

constexpr auto is_decision = is_any_of<DecisionSigned, DecisionSpoken, DecisionFromOutside, Countersigned>;

/// Whoever signs knows what was asked outside, and what came back: it may say that a medicine must go on.
constexpr auto is_from_outside = is_any_of<OutsideAskSent, OutsideAskAnswered>;

/// A decision on this one item. Who signs what was spoken decides nothing anew.
IsAbout decides_on(const std::string& item)
{
    return [item](const Content& content) {
        const auto on_it = [&](const auto* said) { return said != nullptr && said->decided.item == item; };
        return on_it(std::get_if<DecisionSigned>(&content)) || on_it(std::get_if<DecisionSpoken>(&content)) ||
               on_it(std::get_if<DecisionFromOutside>(&content));
    };
}

bool anything_asks(const CaseNow& now)
{
    return std::ranges::any_of(checklists::all_items(now.whole.assessment),
                               [](const Item* item) { return item->level >= Level::ask; });
}

/// The case as it is after the decisions of the same transaction.
std::optional<Refusal> clearance_lacks(const CaseNow& now)
{
    if (now.whole.clearance.possible) {
        return std::nullopt;
    }
    Refusal refusal = not_possible("the case cannot be cleared yet", "this settled first:");
    refusal.changes = checklists::lacks_in_words(now.whole.assessment, now.whole.clearance);
    return refusal;
}

ClearanceGiven clearance_for(const CaseNow& now, std::vector<StillToDo> still_to_do, Shown shown)
{
    return {wall_time(now.rules().zone, now.record().booking.start), std::move(still_to_do),
            std::move(shown)};
}

template <class Contents>
Outcome<CaseNow> decide_on(Book& book, const Writer& writer, Verb verb, const OnCase& on,
                           const DecidedItem& decided, const std::string& who, Role role,
                           const Contents& contents)
{
    return book.write_on(
        writer, verb, on,
        [&](const CaseNow& before) {
            auto refused = check_decided(before, decided, who, role);
            return refused ? refused : came_meanwhile(book, before, on, [&](const Content& content) {
                return is_moved_or_ended(content) || decides_on(decided.item)(content);
            });
        },
        contents);
}

}  // namespace

Outcome<CaseNow> sign(Book& book, const Writer& writer, const OnCase& on, const SignedPage& page)
{
    const auto check = [&](const CaseNow& before) -> std::optional<Refusal> {
        if (auto refused = changed_meanwhile(before, page.shown)) {
            return refused;
        }
        for (const DecidedItem& decided : page.decided) {
            if (auto refused = check_decided(before, decided, writer.who, writer.role)) {
                return refused;
            }
        }
        if (page.decided.empty() && !page.clears) {
            return malformed("nothing is decided", "at least one decision, or a clearance");
        }
        return came_meanwhile(book, before, on, [&](const Content& content) {
            return is_decision(content) || is_moved_or_ended(content) || is_from_outside(content) ||
                   (page.clears && is_any_of<ClearanceGiven>(content));
        });
    };
    return book.write_on(
        writer, Verb::decide, on, check,
        [&](const CaseNow& before, store::Writing& writing) {
            const Shown shown = keep_what_was_shown(before, writing);
            std::vector<Content> contents;
            for (const DecidedItem& decided : page.decided) {
                contents.emplace_back(DecisionSigned{decided, shown});
            }
            if (page.clears) {
                contents.emplace_back(clearance_for(before, {}, shown));
            }
            return contents;
        },
        [&](const CaseNow& after) { return page.clears ? clearance_lacks(after) : std::nullopt; });
}

Outcome<CaseNow> record_spoken_decision(Book& book, const Writer& writer, const OnCase& on,
                                        const DecisionSpoken& spoken)
{
    if (!spoken.read_back || spoken.clinician.empty() || spoken.how.empty()) {
        return tl::unexpected(
            malformed("a spoken decision needs the clinician's name, how it was spoken, and to be read back",
                      "all three"));
    }
    return decide_on(book, writer, Verb::record_spoken_decision, on, spoken.decided, spoken.clinician,
                     spoken.role, [&](const CaseNow& before, store::Writing& writing) {
                         DecisionSpoken kept = spoken;
                         kept.shown = keep_what_was_shown(before, writing);
                         return std::vector<Content>{kept};
                     });
}

Outcome<CaseNow> record_outside_decision(Book& book, const Writer& writer, const OnCase& on,
                                         const DecisionFromOutside& decision)
{
    if (decision.who.empty() || decision.how.empty()) {
        return tl::unexpected(malformed("a decision from outside needs who gave it and how it came", "both"));
    }
    return decide_on(book, writer, Verb::record_outside_answer, on, decision.decided, decision.who,
                     decision.role, [&](const CaseNow& before, store::Writing& writing) {
                         DecisionFromOutside kept = decision;
                         kept.shown = keep_what_was_shown(before, writing);
                         return std::vector<Content>{kept};
                     });
}

Outcome<CaseNow> countersign(Book& book, const Writer& writer, const OnCase& on, std::int64_t spoken_entry)
{
    return book.write_on(
        writer, Verb::countersign, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            const auto& entries = before.folded.decision_entries;
            const auto at = std::ranges::find(entries, spoken_entry);
            const auto* decision =
                at == entries.end()
                    ? nullptr
                    : &before.record().decisions.at(static_cast<std::size_t>(at - entries.begin()));
            if (decision == nullptr || decision->manner != screening::DecisionManner::spoken) {
                return not_there(fmt::format("entry {} is no spoken decision that waits", spoken_entry),
                                 "a spoken decision of this case");
            }
            if (decision->who != writer.who) {
                return Refusal{Refusal::Why::role_may_not,
                               fmt::format("{} spoke it, not {}", decision->who, writer.who),
                               "a signature by whoever spoke",
                               {}};
            }
            if (!record_has_changed(before, on)) {
                return std::nullopt;
            }
            const auto shown = as_it_was_shown(book, before, on);
            return shown ? changed_meanwhile(before, shown_items(*shown), {decision->item})
                         : std::optional(shown.error());
        },
        [&](const CaseNow& before, store::Writing& writing) {
            return std::vector<Content>{Countersigned{spoken_entry, keep_what_was_shown(before, writing)}};
        });
}

Outcome<CaseNow> clear(Book& book, const Writer& writer, const OnCase& on, const ShownItems& shown,
                       const std::vector<StillToDo>& still_to_do)
{
    return book.write_on(
        writer, Verb::clear, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (auto refused = changed_meanwhile(before, shown)) {
                return refused;
            }
            // First what is missing: the nurse asks on, and then it may be hers to clear.
            auto refused = came_meanwhile(book, before, on, [](const Content& content) {
                return is_decision(content) || is_moved_or_ended(content) || is_from_outside(content) ||
                       is_any_of<ClearanceGiven>(content);
            });
            refused = refused ? refused : clearance_lacks(before);
            if (!refused && anything_asks(before) && !screening::is_clinician(writer.role)) {
                return Refusal{Refusal::Why::role_may_not,
                               "something of this case was for a clinician to decide",
                               "a clearance by the clinician who signs",
                               {}};
            }
            return refused;
        },
        [&](const CaseNow& before, store::Writing& writing) {
            return std::vector<Content>{
                clearance_for(before, still_to_do, keep_what_was_shown(before, writing))};
        });
}

std::string sheet_hash(const CaseNow& now)
{
    return book_hash()(checklists::sheet_content(now.rules(), now.file(), now.whole).bytes);
}

Outcome<CaseNow> tell(Book& book, const Writer& writer, const OnCase& on, const std::string& sheet,
                      const std::string& words)
{
    return book.write_on(
        writer, Verb::tell, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (sheet_hash(before) == sheet) {
                return came_meanwhile(book, before, on, [](const Content& content) {
                    return is_moved_or_ended(content) || is_any_of<HoldsTold>(content);
                });
            }
            return Refusal{Refusal::Why::changed_meanwhile,
                           "the sheet says something else than when it was shown",
                           "the sheet read once more before it is told",
                           {}};
        },
        [&](const CaseNow& before, store::Writing& writing) {
            HoldsTold told{.holds = {},
                           .sheet = writing.keep_document(
                               checklists::sheet_content(before.rules(), before.file(), before.whole).bytes),
                           .words = words};
            const auto& holds = before.whole.assessment.holds;
            const std::size_t findings = before.whole.decided.size() - holds.size();
            for (std::size_t place = 0; place < holds.size(); ++place) {
                if (before.whole.stages[place] == checklists::HoldStage::proposed) {
                    continue;  // nothing agreed to tell of it
                }
                const auto* decision = before.whole.decided[findings + place].by;
                std::optional<screening::Date> last_dose;
                if (decision != nullptr && decision->last_dose) {
                    last_dose = decision->last_dose;
                } else if (holds[place].plan.last_dose) {
                    last_dose = holds[place].plan.last_dose->day;
                }
                told.holds.push_back({holds[place].item.id, last_dose});
            }
            return std::vector<Content>{told};
        });
}

Outcome<CaseNow> record_said_back(Book& book, const Writer& writer, const OnCase& on,
                                  std::int64_t telling_entry)
{
    return book.write_on(
        writer, Verb::record_said_back, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            const auto& tellings = before.folded.telling_entries;
            if (std::ranges::find(tellings, telling_entry) == tellings.end()) {
                return not_there(fmt::format("nothing was told by entry {}", telling_entry),
                                 "a telling of this case");
            }
            const auto place = std::ranges::find(tellings, telling_entry) - tellings.begin();
            return before.file().tellings.at(static_cast<std::size_t>(place)).said_back
                       ? std::optional(
                             not_possible("it was said back already", "the plan told anew, and said back"))
                       : std::nullopt;
        },
        just(SaidBack{telling_entry}));
}

Outcome<CaseNow> issue_sheet(Book& book, const Writer& writer, const OnCase& on, const SheetIssued& said)
{
    return book.write_on(
        writer, Verb::issue_sheet, on,
        [&](const CaseNow& before) -> std::optional<Refusal> {
            if (sheet_hash(before) != said.sheet) {
                return Refusal{Refusal::Why::changed_meanwhile,
                               "the sheet says something else than when it was shown",
                               "the sheet looked at once more",
                               {}};
            }
            return came_meanwhile(book, before, on, is_moved_or_ended);
        },
        [&](const CaseNow& before, store::Writing& writing) {
            writing.keep_document(
                checklists::sheet_content(before.rules(), before.file(), before.whole).bytes);
            return std::vector<Content>{said};
        });
}

bool note_lapsed_clearance(const Book& book, const CaseNow& now, store::Writing& writing)
{
    if (now.whole.clearance.given != checklists::ClearanceCheck::Given::lapsed) {
        return false;
    }
    const Writer nobody{"the book", Role::auditor, "by itself"};  // no person: time or another entry did it
    const Content lapsed = ClearanceLapsed{now.whole.clearance.lapsed_because};
    writing.append(kind_of(lapsed).chain, book.entry(nobody, now.id(), now.folded.up_to, lapsed));
    return true;
}

}  // namespace foreday::book
