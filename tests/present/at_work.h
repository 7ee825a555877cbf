#pragma once
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <array>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "checklists/lines.h"
#include "data/book/codec.h"
#include "gui/present/workplace.h"
#include "tests/book/desk.h"
#include "tests/present/listed_answers.h"
#include "tests/present/shared_store.h"

namespace foreday::tests {

/// People at their desks in the demo unit, all on its one book. A book is filled once for each beginning and
/// set back to it before each test.
class AtWork : public testing::Test {
protected:
    static constexpr std::size_t workplaces = 2;

    /// One of the demo's cases, up to its as_of. Sets the clock to it. Returns the case id.
    std::string begin_with(const std::string& demo_case);
    /// The same up to the moment before the patient comes in at the door.
    std::string begin_on_the_day(const std::string& demo_case);
    /// Orla Finch, born on 2 March 1961, booked for a colonoscopy on 17 June 2027 at 10:00; nobody has rung
    /// yet. It is 7 June 2027, 09:00.
    std::string begin_with_a_booking();
    /// Anything else, done once under the name.
    std::string begin_with(const std::string& name, const std::function<std::string(Desk&)>& fill);

    /// What is done at the desks after another beginning, which goes under `base`; done once under the name.
    std::string begin_after(const std::string& base, const std::string& name,
                            const std::function<void(const std::string& id)>& done);

    static void set_clock(std::string_view written);
    static screening::Moment clock();

    /// Sits somebody down at one of the workplaces. With a case: takes it in hand.
    static present::Workplace& sit(const book::Writer& writer, const std::string& case_in_hand = "",
                                   std::size_t at_place = 0);
    /// Whoever sits there.
    static ListedAnswers& person(std::size_t at_place = 0);
    /// One more program on the same book, at which nobody has signed in.
    static std::unique_ptr<present::Workplace> new_workplace(present::Questioner& questioner);

    [[nodiscard]] static store::Store& store();
    /// Where the book lies, for one more program that looks at it in its own way.
    [[nodiscard]] static SharedStore::Place where();
    /// Kinds of the journal's entries about a case, in order, from the one after `after` on.
    [[nodiscard]] static std::vector<std::string> kinds_of(const std::string& id, std::int64_t after = 0);
    [[nodiscard]] static std::int64_t last_number() { return store().head(store::Chain::journal).number; }

    /// The journal ends where it ended then.
    [[nodiscard]] static testing::AssertionResult nothing_written_since(std::int64_t number)
    {
        return last_number() == number
                   ? testing::AssertionSuccess()
                   : testing::AssertionFailure() << last_number() - number << " entries were written";
    }

    /// The last entry about the case, with its content.
    [[nodiscard]] static store::Entry last_entry(const std::string& id);
    template <class Kind>
    [[nodiscard]] static Kind last(const std::string& id)
    {
        const auto read = book::read_entry(last_entry(id));
        const auto* content = read ? std::get_if<Kind>(&read->content) : nullptr;
        if (content == nullptr) {
            ADD_FAILURE() << "the last entry is of kind " << last_entry(id).said.kind;
            return {};
        }
        return *content;
    }

    void TearDown() override;
};

/// The notice stands, is of this kind, and has all of these words.
[[nodiscard]] testing::AssertionResult notice(const present::Workplace& place, present::Notice::Kind kind,
                                              const std::vector<std::string>& words);
[[nodiscard]] testing::AssertionResult refused(const present::Workplace& place,
                                               const std::vector<std::string>& words);
[[nodiscard]] testing::AssertionResult done(const present::Workplace& place,
                                            const std::vector<std::string>& words = {});

/// Some of the lines of a page has these words.
[[nodiscard]] bool says(const std::vector<checklists::Line>& lines, std::string_view words);
[[nodiscard]] bool says(const std::vector<std::string>& lines, std::string_view words);

}  // namespace foreday::tests
