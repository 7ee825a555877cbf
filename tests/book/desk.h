#pragma once
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "data/book/book.h"
#include "data/book/contents_of.h"
#include "data/book/verbs_decision.h"
#include "tests/book/journal.h"

namespace foreday::tests {

inline const book::Writer nurse{"Nurse Ilse Marrack", screening::Role::nurse, "phone desk"};
inline const book::Writer second_nurse{"Nurse Ansgar Leith", screening::Role::nurse, "phone desk 2"};
inline const book::Writer clerk{"Jonas Quill", screening::Role::arrival_clerk, "arrival desk"};
inline const book::Writer scheduler{"Wanda Pell", screening::Role::scheduler, "booking desk"};
inline const book::Writer physician{"Dr Teodor Wexcombe", screening::Role::endoscopist, "review desk"};
inline const book::Writer director{"Dr Imke Sandvoort", screening::Role::medical_director, "review desk"};

/// The demo unit's protocol and policy.
[[nodiscard]] book::UnitTexts demo_texts();
/// The same with other words at one place of the policy.
[[nodiscard]] book::UnitTexts demo_texts_with(const std::string& from, const std::string& to);
/// @throws std::runtime_error when `from` is not in the text
[[nodiscard]] std::string replaced(std::string text, const std::string& from, const std::string& to);

/// What a file of the demo says, in the order in which people did it.
[[nodiscard]] std::vector<book::RecordedContent> demo_contents(std::string_view file);
/// The person of this unit who writes such a thing.
[[nodiscard]] const book::Writer& writer_of(const book::RecordedContent& said);

/// A book in memory with the demo unit's rules in force, and a clock that the test sets.
class Desk {
public:
    /// @param store  empty; a store in memory when null
    explicit Desk(std::unique_ptr<store::Store> store = nullptr);

    /// Plays one of the demo's case files up to its as_of, and leaves the clock there. Returns the case id.
    std::string play_case(std::string_view file);

    /// The same up to the moment before the patient comes in at the door.
    std::string play_case_up_to_the_day(std::string_view file);

    [[nodiscard]] book::Book& book() { return *book_; }
    void set_clock(std::string_view written) { *clock_ = at(written); }
    void set_clock(screening::Moment moment) { *clock_ = moment; }

    [[nodiscard]] book::CaseNow now(const std::string& id) const;
    [[nodiscard]] book::OnCase on(const std::string& id) const { return book::as_shown(now(id)); }
    [[nodiscard]] screening::FactReading reading(const std::string& id, std::string_view fact) const;

    /// Signs agreement to everything that asks and clears with it.
    book::Outcome<book::CaseNow> agree_to_all(const std::string& id);
    /// The page a physician has in view, with agreement to everything that asks.
    [[nodiscard]] book::SignedPage page_of(const std::string& id) const;

private:
    std::string play(std::string_view file, bool with_the_day);

    std::shared_ptr<screening::Moment> clock_;
    std::unique_ptr<book::Book> book_;
};

/// Orla Finch, born on 2 March 1961, booked for a colonoscopy on 17 June 2027 at 10:00. Returns the case id.
std::string book_orla_finch(book::Book& book);

[[nodiscard]] book::Answered said_number(std::string fact, std::string_view number, std::string unit);
[[nodiscard]] book::StatedMedicine on_list(std::string medicine);
/// Every list question of the demo unit's protocol was asked by name.
[[nodiscard]] book::ListClosed whole_list();

}  // namespace foreday::tests
