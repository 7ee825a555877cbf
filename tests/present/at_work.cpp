#include "tests/present/at_work.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <map>
#include <stdexcept>

#include "data/book/playing.h"
#include "tests/book/rewound_store.h"

namespace foreday::tests {
namespace {

using present::Notice;
using present::Workplace;

struct Begun {
    RewoundStore store;
    screening::Moment at;
    std::string id;
};

/// What lives as long as the program: the protocol is read once for each workplace, and every book filled
/// once.
struct House {
    SharedStore::Place place = std::make_shared<store::Store*>(nullptr);
    screening::Moment clock;
    std::map<std::string, std::unique_ptr<Begun>> begun;
    std::array<ListedAnswers, 2> people;
    std::array<std::unique_ptr<Workplace>, 2> seats;

    std::unique_ptr<book::Book> book()
    {
        return std::make_unique<book::Book>(std::make_unique<SharedStore>(place), [this] { return clock; });
    }
};

House& house()
{
    static House one;
    return one;
}

std::string_view word_of(Notice::Kind kind)
{
    constexpr std::array<std::string_view, 4> words{"none", "done", "refused", "news"};
    return words.at(static_cast<std::size_t>(kind));
}

}  // namespace

std::string AtWork::begin_with(const std::string& name, const std::function<std::string(Desk&)>& fill)
{
    House& at = house();
    auto& begun = at.begun[name];
    if (begun == nullptr) {
        begun = std::make_unique<Begun>();
        *at.place = &begun->store;
        Desk desk(std::make_unique<SharedStore>(at.place));
        begun->id = fill(desk);
        begun->at = desk.book().now();
        begun->store.keep();
    }
    begun->store.rewind();
    *at.place = &begun->store;
    at.clock = begun->at;
    return begun->id;
}

std::string AtWork::begin_with(const std::string& demo_case)
{
    return begin_with(demo_case, [&](Desk& desk) { return desk.play_case(demo_case); });
}

std::string AtWork::begin_on_the_day(const std::string& demo_case)
{
    return begin_with("the day: " + demo_case,
                      [&](Desk& desk) { return desk.play_case_up_to_the_day(demo_case); });
}

std::string AtWork::begin_after(const std::string& base, const std::string& name,
                                const std::function<void(const std::string& id)>& done_then)
{
    House& at = house();
    auto& begun = at.begun[name];
    if (begun == nullptr) {
        const Begun& before = *at.begun.at(base);
        begun = std::make_unique<Begun>();
        begun->store.begin_as(before.store);
        begun->id = before.id;
        *at.place = &begun->store;
        at.clock = before.at;
        done_then(before.id);
        begun->at = at.clock;
        begun->store.keep();
    }
    begun->store.rewind();
    *at.place = &begun->store;
    at.clock = begun->at;
    return begun->id;
}

std::string AtWork::begin_with_a_booking()
{
    return begin_with("a booking", [](Desk& desk) {
        desk.set_clock("2027-06-01T09:00");
        std::string id = book_orla_finch(desk.book());
        desk.set_clock("2027-06-07T09:00");
        return id;
    });
}

void AtWork::set_clock(std::string_view written)
{
    house().clock = at(written);
}

screening::Moment AtWork::clock()
{
    return house().clock;
}

std::unique_ptr<Workplace> AtWork::new_workplace(present::Questioner& questioner)
{
    return std::make_unique<Workplace>(house().book(), questioner, "another program");
}

Workplace& AtWork::sit(const book::Writer& writer, const std::string& case_in_hand, std::size_t at_place)
{
    auto& seat = house().seats.at(at_place);
    if (seat == nullptr) {
        seat = std::make_unique<Workplace>(house().book(), house().people.at(at_place),
                                           fmt::format("program {}", at_place));
    }
    EXPECT_TRUE(seat->sign_in(writer.who, writer.role));
    seat->go_to(seat->desk());  // what somebody else looked for is gone
    if (!case_in_hand.empty()) {
        seat->open(case_in_hand);
        EXPECT_EQ(case_in_hand, seat->now() == nullptr ? "" : seat->now()->id()) << seat->notice().words;
    }
    house().people.at(at_place).will({});
    return *seat;
}

ListedAnswers& AtWork::person(std::size_t at_place)
{
    return house().people.at(at_place);
}

store::Store& AtWork::store()
{
    return **house().place;
}

SharedStore::Place AtWork::where()
{
    return house().place;
}

std::vector<std::string> AtWork::kinds_of(const std::string& id, std::int64_t after)
{
    std::vector<std::string> kinds;
    for (const store::Entry& entry : store().entries_of(id)) {
        if (entry.number > after) {
            kinds.push_back(entry.said.kind);
        }
    }
    return kinds;
}

store::Entry AtWork::last_entry(const std::string& id)
{
    const auto entries = store().entries_of(id);
    return entries.empty() ? store::Entry{} : entries.back();
}

void AtWork::TearDown()
{
    for (ListedAnswers& one : house().people) {
        EXPECT_EQ(0U, one.left()) << "the person waited for questions that never came";
        one.will({});
    }
}

testing::AssertionResult notice(const Workplace& place, Notice::Kind kind,
                                const std::vector<std::string>& words)
{
    const Notice& stands = place.notice();
    bool fits = stands.kind == kind;
    for (const std::string& word : words) {
        fits = fits && stands.words.find(word) != std::string::npos;
    }
    return (fits ? testing::AssertionSuccess() : testing::AssertionFailure())
           << "the notice (" << word_of(stands.kind) << ") says: " << stands.words << "\nexpected ("
           << word_of(kind) << "): " << fmt::format("{}", fmt::join(words, " | "));
}

testing::AssertionResult refused(const Workplace& place, const std::vector<std::string>& words)
{
    return notice(place, Notice::Kind::refused, words);
}

testing::AssertionResult done(const Workplace& place, const std::vector<std::string>& words)
{
    return notice(place, Notice::Kind::done, words);
}

bool says(const std::vector<checklists::Line>& lines, std::string_view words)
{
    return std::ranges::any_of(lines,
                               [&](const auto& line) { return line.text.find(words) != std::string::npos; });
}

bool says(const std::vector<std::string>& lines, std::string_view words)
{
    return std::ranges::any_of(lines,
                               [&](const auto& line) { return line.find(words) != std::string::npos; });
}

}  // namespace foreday::tests
