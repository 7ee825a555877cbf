#include "data/book/verbs_unit.h"

#include <algorithm>

#include "data/book/codec.h"
#include "data/reading/hashing.h"

namespace foreday::book {
namespace {

Refusal faulty(const std::vector<data::LocatedFault>& faults)
{
    Refusal refusal{Refusal::Why::malformed, "protocol or policy have faults", "files without faults", {}};
    for (const data::LocatedFault& fault : faults) {
        refusal.changes.push_back(data::text_of(fault));
    }
    return refusal;
}

void add_shown(const Shown& shown, std::vector<std::string>& hashes)
{
    hashes.push_back(shown.page);
    hashes.push_back(shown.assessment);
}

/// Adds what each kind of content names; a kind without documents adds nothing.
struct DocumentsNamed {
    std::vector<std::string> hashes;

    void operator()(const DecisionSigned& said) { add_shown(said.shown, hashes); }
    void operator()(const DecisionSpoken& said) { add_shown(said.shown, hashes); }
    void operator()(const DecisionFromOutside& said) { add_shown(said.shown, hashes); }
    void operator()(const Countersigned& said) { add_shown(said.shown, hashes); }
    void operator()(const ClearanceGiven& said) { add_shown(said.shown, hashes); }
    void operator()(const HoldsTold& said) { hashes.push_back(said.sheet); }
    void operator()(const SheetIssued& said) { hashes.push_back(said.sheet); }
    void operator()(const ProtocolInForce& said) { hashes.push_back(said.document); }
    void operator()(const PolicyInForce& said) { hashes.push_back(said.document); }
    void operator()(const Printed& said) { hashes.push_back(said.document); }
    template <class Other>
    void operator()(const Other& /*unused*/)
    {
    }
};

void note(Book& book, const Writer& writer, const std::string& subject, const Content& content)
{
    book.store().write([&](store::Writing& writing) {
        writing.append(kind_of(content).chain, book.entry(writer, subject, 0, content));
    });
}

}  // namespace

std::optional<Refusal> put_in_force(Book& book, const Writer& writer, const UnitTexts& texts)
{
    const ReadUnit unit = read_unit(texts);
    if (unit.rules == nullptr) {
        return faulty(unit.faults);
    }
    return book.write(writer, Verb::put_in_force, [&](store::Writing& writing) -> std::optional<Refusal> {
        // Inside the transaction: another program may just have put the same in force.
        const auto in_force = book.rules();
        if (in_force && (*in_force)->protocol_hash == unit.rules->protocol_hash &&
            (*in_force)->policy_hash == unit.rules->policy_hash) {
            return std::nullopt;
        }
        const std::string protocol = writing.keep_document(protocol_document(texts.protocol));
        const std::string policy = writing.keep_document(texts.policy);
        const auto& rules = unit.rules->rules;
        writing.append(
            store::Chain::journal,
            book.entry(writer, "", 0,
                       ProtocolInForce{rules.protocol.version, unit.rules->protocol_hash, protocol}));
        writing.append(
            store::Chain::journal,
            book.entry(writer, "", 0, PolicyInForce{rules.policy.unit, unit.rules->policy_hash, policy}));
        return std::nullopt;
    });
}

std::optional<Refusal> set_roster(Book& book, const Writer& writer, const RosterSet& roster)
{
    return book.write(writer, Verb::set_roster, [&](store::Writing& writing) -> std::optional<Refusal> {
        writing.append(store::Chain::journal, book.entry(writer, "", 0, roster));
        return std::nullopt;
    });
}

void note_sign_in(Book& book, const Writer& writer)
{
    note(book, writer, "", SignedIn{});
}

void note_look(Book& book, const Writer& writer, const std::string& case_id, const std::string& page)
{
    note(book, writer, case_id, Looked{page});
}

void note_print(Book& book, const Writer& writer, const std::string& case_id, const Printed& printed)
{
    note(book, writer, case_id, printed);
}

std::vector<std::string> documents_named(const store::Entry& entry)
{
    const auto read = read_entry(entry);
    if (!read) {
        return {};
    }
    DocumentsNamed named;
    std::visit(named, read->content);
    std::erase(named.hashes, "");
    return named.hashes;
}

}  // namespace foreday::book
