#include "data/book/book.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <limits>
#include <map>
#include <mutex>

#include "checklists/judged_at.h"
#include "data/book/codec.h"
#include "data/book/projecting.h"
#include "data/reading/hashing.h"

namespace foreday::book {
namespace {

using store::Entry;

/// Undoes a transaction that turned out to be one that must not stand.
struct Undo {
    Refusal refusal;
};

/// From the number of this entry on a case keeps the rules it had: its patient has arrived.
std::int64_t rules_frozen_at(const std::vector<Entry>& entries)
{
    std::int64_t number = std::numeric_limits<std::int64_t>::max();
    for (const Entry& entry : entries) {
        if (entry.said.kind == kind_of(Arrived{}).name) {
            number = std::min(number, entry.number);
        } else if (entry.said.kind == kind_of(Rescheduled{}).name) {
            number = std::numeric_limits<std::int64_t>::max();
        }
    }
    return number;
}

Refusal no_such_case(const std::string& id)
{
    return {Refusal::Why::not_there,
            fmt::format("there is no case {} in this book", id),
            "a case number from the lists",
            {}};
}

std::vector<std::string> set_aside_remarks(const CaseNow& now, std::int64_t after)
{
    std::vector<std::string> remarks;
    const auto& protocol = now.rules().protocol;
    for (std::size_t fact = 0; fact < now.folded.answer_entries.size(); ++fact) {
        const auto& entries = now.folded.answer_entries[fact];
        const bool just_written = !entries.empty() && entries.back() > after;
        if (just_written &&
            now.whole.assessment.readings.at(fact).state == screening::FactState::not_applicable) {
            remarks.push_back(fmt::format(
                "\"{}\" does not apply to this patient any more: the answer is kept, and set aside",
                protocol.facts[fact].question));
        }
    }
    return remarks;
}

}  // namespace

std::string in_words(const Refusal& refusal)
{
    std::string words = refusal.what;
    if (!refusal.would_be_right.empty()) {
        words += "; right would be " + refusal.would_be_right;
    }
    for (const std::string& change : refusal.changes) {
        words += "\n- " + change;
    }
    return words;
}

OnCase as_shown(const CaseNow& now)
{
    return {now.id(), now.folded.last_read};
}

const checklists::HashText& book_hash()
{
    static const checklists::HashText hash = [](std::string_view bytes) { return data::sha256_hex(bytes); };
    return hash;
}

std::optional<Refusal> role_refused(const Writer& writer, Verb verb)
{
    if (may(writer.role, verb)) {
        return std::nullopt;
    }
    std::vector<std::string_view> roles;
    for (const screening::Role role : roles_that_may(verb)) {
        roles.push_back(screening::name_of(role));
    }
    return Refusal{Refusal::Why::role_may_not,
                   fmt::format("{} is signed in as {}, who may not {}", writer.who,
                               screening::name_of(writer.role), name_of(verb)),
                   fmt::format("one of: {}", fmt::join(roles, ", ")),
                   {}};
}

/// Rules once read, by the documents they were read from.
struct Book::Shelf {
    std::mutex mutex;
    std::map<std::pair<std::string, std::string>, std::shared_ptr<const UnitRules>> units;
};

Book::Book(std::unique_ptr<store::Store> store, Clock clock)
    : store_(std::move(store)), clock_(std::move(clock)), shelf_(std::make_unique<Shelf>())
{
}

Book::~Book() = default;

std::shared_ptr<const UnitRules> Book::unit_of(const std::string& protocol_document,
                                               const std::string& policy_document) const
{
    const std::lock_guard lock(shelf_->mutex);
    auto& unit = shelf_->units[{protocol_document, policy_document}];
    if (unit == nullptr) {
        const auto protocol = store_->document(protocol_document);
        const auto policy = store_->document(policy_document);
        const auto texts = protocol ? protocol_of_document(*protocol) : std::nullopt;
        if (texts && policy) {
            unit = read_unit({*texts, *policy}).rules;
        }
    }
    return unit;
}

Outcome<std::shared_ptr<const UnitRules>> Book::rules_up_to(std::int64_t number) const
{
    std::string protocol;
    std::string policy;
    for (const Entry& entry : store_->entries_of("")) {
        const auto read = entry.number < number ? std::optional(read_entry(entry)) : std::nullopt;
        if (!read || !*read) {
            continue;
        }
        if (const auto* said = std::get_if<ProtocolInForce>(&(*read)->content)) {
            protocol = said->document;
        } else if (const auto* unit = std::get_if<PolicyInForce>(&(*read)->content)) {
            policy = unit->document;
        }
    }
    if (protocol.empty() || policy.empty()) {
        return tl::unexpected(Refusal{Refusal::Why::not_possible,
                                      "no protocol and unit policy are in force in this book",
                                      "both put in force first",
                                      {}});
    }
    auto unit = unit_of(protocol, policy);
    if (unit == nullptr) {
        return tl::unexpected(
            Refusal{Refusal::Why::not_possible,
                    "the protocol or policy in force cannot be read by this version of the program",
                    "the version that put it in force, or a protocol put in force anew",
                    {}});
    }
    return unit;
}

Outcome<std::shared_ptr<const UnitRules>> Book::rules() const
{
    return rules_up_to(std::numeric_limits<std::int64_t>::max());
}

Outcome<CaseNow> Book::open_from(const std::string& case_id, const EntriesOf& entries_of) const
{
    return open_at(case_id, entries_of, clock_());
}

Outcome<CaseNow> Book::open_at(const std::string& case_id, const EntriesOf& entries_of,
                               screening::Moment at) const
{
    const auto case_entries = entries_of(case_id);
    auto unit = rules_up_to(rules_frozen_at(case_entries));
    if (!unit) {
        return tl::unexpected(unit.error());
    }
    CaseNow now;
    now.unit = *unit;
    now.at = at;
    now.folded = fold_case(now.rules().protocol, now.rules().zone, case_id, case_entries,
                           patient_entries_for(case_entries, entries_of));
    if (!now.folded.booked || !now.folded.patient_known) {
        return tl::unexpected(no_such_case(case_id));
    }
    now.whole = checklists::look_at(now.rules(), now.record(), checklists::judged_at(now.file(), now.at),
                                    book_hash());
    return now;
}

Outcome<CaseNow> Book::open(const std::string& case_id) const
{
    return open_from(case_id, [this](const std::string& subject) { return store_->entries_of(subject); });
}

store::NewEntry Book::entry(const Writer& writer, std::string subject, std::int64_t seen,
                            const Content& content) const
{
    return new_entry(std::move(subject), clock_(), writer.who, writer.desk, Envelope{writer.role, seen},
                     content);
}

Outcome<CaseNow> Book::project_again(const std::string& case_id, store::Writing& writing) const
{
    auto now = open_from(case_id, [&](const std::string& subject) { return writing.entries_of(subject); });
    if (now) {
        const auto current = rules();
        writing.project(projection_of(*now, current ? (*current)->hash : now->unit->hash));
    }
    return now;
}

Outcome<CaseNow> Book::write_on(const Writer& writer, Verb verb, const OnCase& on, const Check& check,
                                const Contents& contents, const Check& check_after)
{
    if (auto refused = role_refused(writer, verb)) {
        return tl::unexpected(std::move(*refused));
    }
    Outcome<CaseNow> outcome;
    try {
        store_->write([&](store::Writing& writing) {
            const auto before =
                open_from(on.id, [&](const std::string& subject) { return writing.entries_of(subject); });
            if (!before) {
                throw Undo{before.error()};
            }
            if (auto refused = check ? check(*before) : std::nullopt) {
                throw Undo{std::move(*refused)};
            }
            const std::int64_t seen = std::min(on.seen, before->folded.up_to);
            for (const Content& content : contents(*before, writing)) {
                writing.append(kind_of(content).chain, entry(writer, on.id, seen, content));
            }
            outcome = project_again(on.id, writing);
            if (!outcome) {
                throw Undo{outcome.error()};
            }
            for (const NotPlaced& lost : outcome->folded.not_placed) {
                if (lost.entry > before->folded.last_read) {
                    throw Undo{{Refusal::Why::malformed, lost.why, "what the protocol in force has", {}}};
                }
            }
            if (auto refused = check_after ? check_after(*outcome) : std::nullopt) {
                throw Undo{std::move(*refused)};
            }
            outcome->remarks = set_aside_remarks(*outcome, before->folded.last_read);
        });
    } catch (Undo& undo) {
        return tl::unexpected(std::move(undo.refusal));
    } catch (const std::invalid_argument& error) {  // text that is not UTF-8, a day or number out of range
        return tl::unexpected(
            Refusal{Refusal::Why::malformed, error.what(), "plain text and days of this century", {}});
    }
    return outcome;
}

std::optional<Refusal> Book::write(const Writer& writer, Verb verb, const Work& work)
{
    if (auto refused = role_refused(writer, verb)) {
        return refused;
    }
    try {
        store_->write([&](store::Writing& writing) {
            if (auto refused = work(writing)) {
                throw Undo{std::move(*refused)};
            }
        });
    } catch (Undo& undo) {
        return std::move(undo.refusal);
    } catch (const std::invalid_argument& error) {
        return Refusal{Refusal::Why::malformed, error.what(), "plain text and days of this century", {}};
    }
    return std::nullopt;
}

}  // namespace foreday::book
