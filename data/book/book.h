#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "checklists/calls.h"
#include "checklists/strands.h"
#include "checklists/whole_case.h"
#include "data/book/contents.h"
#include "data/book/fold.h"
#include "data/book/roles.h"
#include "data/book/unit_rules.h"
#include "data/store/store.h"
#include "screening/result.h"

namespace foreday::book {

/// Who writes, in which role, at which desk: as signed in.
struct Writer {
    std::string who;
    screening::Role role = screening::Role::nurse;
    std::string desk;
};

/// Why a verb did nothing. Everything in it is for the person at the desk.
struct Refusal {
    enum class Why : std::uint8_t {
        role_may_not,
        changed_meanwhile,  ///< what was shown is not what stands; `changes` says what came between
        not_there,          ///< no such case, patient, entry or item
        not_possible,       ///< the case does not allow it now
        malformed,          ///< what was given cannot be kept as it is
    } why = Why::not_possible;
    std::string what;
    std::string would_be_right;
    std::vector<std::string> changes;
};
/// "what; what would be right", and each change in a line of its own.
[[nodiscard]] std::string in_words(const Refusal& refusal);

template <class T>
using Outcome = tl::expected<T, Refusal>;

/// A case with its new assessment. Not copied: what was decided points into its record.
struct CaseNow {
    CaseNow() = default;
    CaseNow(CaseNow&&) noexcept = default;
    CaseNow& operator=(CaseNow&&) noexcept = default;
    CaseNow(const CaseNow&) = delete;
    CaseNow& operator=(const CaseNow&) = delete;
    ~CaseNow() = default;

    FoldedCase folded;
    std::shared_ptr<const UnitRules> unit;  ///< the rules this case is judged by
    checklists::WholeCase whole;            ///< as judged at checklists::judged_at()
    screening::Moment at;
    /// What the writer ought to know although it was done: an answer that is kept and set aside.
    std::vector<std::string> remarks;

    [[nodiscard]] const screening::Rules& rules() const { return unit->rules; }
    [[nodiscard]] const checklists::CaseFile& file() const { return folded.file; }
    [[nodiscard]] const screening::CaseRecord& record() const { return folded.file.record; }
    [[nodiscard]] const std::string& id() const { return folded.file.record.id; }
};

/// The case a verb is about, and what of it the writer had in view.
struct OnCase {
    std::string id;
    /// FoldedCase::last_read of the case as shown. Of what it counts, an entry keeps what can change the
    /// fold.
    std::int64_t seen = 0;
};
/// The case with all of it in view.
[[nodiscard]] OnCase as_shown(const CaseNow& now);

/// The hash all fingerprints, pages and sheets of a book are taken with.
[[nodiscard]] const checklists::HashText& book_hash();

using Clock = std::function<screening::Moment()>;

/// An open book: one store, one clock. The verbs that write are functions of their own beside it
/// (verbs_booking.h, verbs_phone.h, verbs_decision.h, verbs_day.h, verbs_unit.h); all of them go through
/// write_on() or write(). Every function may throw store::StoreFault.
class Book {
public:
    Book(std::unique_ptr<store::Store> store, Clock clock);

    [[nodiscard]] store::Store& store() const { return *store_; }
    [[nodiscard]] screening::Moment now() const { return clock_(); }

    /// The rules in force. Refused while no protocol and policy are.
    [[nodiscard]] Outcome<std::shared_ptr<const UnitRules>> rules() const;
    /// The case as it is now.
    [[nodiscard]] Outcome<CaseNow> open(const std::string& case_id) const;

    using Check = std::function<std::optional<Refusal>(const CaseNow& before)>;
    using Contents = std::function<std::vector<Content>(const CaseNow& before, store::Writing& writing)>;
    /// Appends to a case and projects it, in one transaction, after the check of the role and `check`, which
    /// sees the case as it is inside that transaction. What the fold cannot place is refused and undone, and
    /// so is what `check_after` refuses of the case as it has become.
    [[nodiscard]] Outcome<CaseNow> write_on(const Writer& writer, Verb verb, const OnCase& on,
                                            const Check& check, const Contents& contents,
                                            const Check& check_after = {});
    /// Makes the projection of a case again from its entries.
    [[nodiscard]] Outcome<CaseNow> project_again(const std::string& case_id, store::Writing& writing) const;

    /// For verbs that begin a case or a patient, or are about the whole book.
    using Work = std::function<std::optional<Refusal>(store::Writing& writing)>;
    [[nodiscard]] std::optional<Refusal> write(const Writer& writer, Verb verb, const Work& work);

    /// An entry by this writer, now.
    [[nodiscard]] store::NewEntry entry(const Writer& writer, std::string subject, std::int64_t seen,
                                        const Content& content) const;

    using EntriesOf = std::function<std::vector<store::Entry>(const std::string& subject)>;
    /// The case as entries give it; `entries_of` sees what a transaction has appended.
    [[nodiscard]] Outcome<CaseNow> open_from(const std::string& case_id, const EntriesOf& entries_of) const;
    /// The same, judged at another moment than now.
    [[nodiscard]] Outcome<CaseNow> open_at(const std::string& case_id, const EntriesOf& entries_of,
                                           screening::Moment at) const;

private:
    [[nodiscard]] Outcome<std::shared_ptr<const UnitRules>> rules_up_to(std::int64_t number) const;
    [[nodiscard]] std::shared_ptr<const UnitRules> unit_of(const std::string& protocol_document,
                                                           const std::string& policy_document) const;

    std::unique_ptr<store::Store> store_;
    Clock clock_;
    struct Shelf;
    std::unique_ptr<Shelf> shelf_;

public:
    ~Book();
};

/// The refusal of a role, with the roles that may.
[[nodiscard]] std::optional<Refusal> role_refused(const Writer& writer, Verb verb);

}  // namespace foreday::book
