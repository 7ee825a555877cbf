#include <fmt/format.h>
#include <fmt/ranges.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "data/book/playing.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_phone.h"
#include "tests/book/acts.h"
#include "tests/book/rewound_store.h"
#include "tests/support/rows.h"

/// Two people with the same case in view: one writes; then the other writes, still in view of the case as it
/// was. Every ordered pair of what can collide, against collisions.tsv: a row for who came first, in it a
/// letter for each second in the order of the rows.
///
///   .  both kept                               d  refused, and the other's entry is named
///   <  both kept, and the first one counts     f  refused, and what it changed is named
///   >  both kept, and the second one counts    n  refused, as it can no longer be done
///   c  both kept, as a conflict to clear up     2  both kept, and a medicine written twice is pointed out
namespace foreday::tests {
namespace {

using book::Refusal;

/// A base case to which every pair is done anew.
class Stage {
public:
    explicit Stage(const std::function<std::string(Desk&)>& play, std::vector<Act> acts)
        : acts_(std::move(acts))
    {
        auto store = std::make_unique<RewoundStore>();
        store_ = store.get();
        desk_ = std::make_unique<Desk>(std::move(store));
        id_ = play(*desk_);
        at_ = desk_->book().now();
        store_->keep();
    }

    [[nodiscard]] const std::vector<Act>& acts() const { return acts_; }
    /// What the second was told last, if anything.
    [[nodiscard]] const std::string& said() const { return said_; }

    /// How the second comes out, as one letter of the tables.
    char race(const Act& first, const Act& second)
    {
        said_.clear();
        store_->rewind();
        desk_->set_clock(at_);
        const Doing one = first.prepare(*desk_, id_);
        const Doing other = second.prepare(*desk_, id_);
        const auto begun = desk_->book().store().head(store::Chain::journal);
        const Done done = one();
        if (!done) {
            throw std::runtime_error(first.name + ": " + book::in_words(done.error()));
        }
        desk_->set_clock(at_ + std::chrono::seconds{90});
        const auto between = desk_->book().store().head(store::Chain::journal);
        const Done late = other();
        const auto after = desk_->book().store().head(store::Chain::journal);
        EXPECT_GT(between.number, begun.number);
        if (!late) {
            EXPECT_EQ(after, between) << "a refusal wrote something";
            return refused(late.error(), begun.number);
        }
        EXPECT_GE(after.number, between.number);
        said_ = fmt::format("{}", fmt::join(*late, "; "));
        return merged(first, second, *late, begun.number);
    }

private:
    char refused(const Refusal& refusal, std::int64_t begun)
    {
        said_ = book::in_words(refusal);
        EXPECT_FALSE(refusal.what.empty());
        EXPECT_FALSE(refusal.would_be_right.empty() && refusal.changes.empty());
        if (refusal.why != Refusal::Why::changed_meanwhile) {
            EXPECT_NE(refusal.why, Refusal::Why::malformed) << said_;
            return 'n';
        }
        const store::Entry first = desk_->book().store().entries(store::Chain::journal, begun, 1).at(0);
        const std::string by = first.said.kind + " by " + first.said.who;
        const bool names_it = std::ranges::count(refusal.changes, by) > 0;
        return names_it ? 'd' : 'f';
    }

    char merged(const Act& first, const Act& second, const std::vector<std::string>& remarks,
                std::int64_t begun) const
    {
        if (std::ranges::any_of(remarks, [](const std::string& remark) {
                return remark.find("twice") != std::string::npos;
            })) {
            return '2';
        }
        if (second.fact.empty() || first.fact != second.fact) {
            return '.';
        }
        const auto reading = desk_->reading(id_, second.fact);
        if (reading.state == screening::FactState::in_conflict) {
            return 'c';
        }
        const auto& entries = desk_->now(id_).folded.answer_entries.at(fact(second.fact));
        EXPECT_EQ(reading.standing.size(), 1U);
        return entries.at(reading.standing.at(0)) == begun + 1 ? '<' : '>';
    }

    std::vector<Act> acts_;
    RewoundStore* store_ = nullptr;
    std::unique_ptr<Desk> desk_;
    std::string id_;
    screening::Moment at_;
    std::string said_;
};

Stage& before_the_day()
{
    static Stage stage(
        [](Desk& desk) {
            std::string id = desk.play_case("warfarin_no_valve.yaml");
            for (const book::DecidedItem& decided : desk.page_of(id).decided) {
                const book::DecisionSpoken spoken{decided,
                                                  {},
                                                  physician.who,
                                                  physician.role,
                                                  book::wall_time(demo_rules().zone, desk.book().now()),
                                                  "by phone",
                                                  true};
                static_cast<void>(book::must(
                    book::record_spoken_decision(desk.book(), nurse, desk.on(id), spoken), "spoken"));
            }
            static_cast<void>(book::must(
                book::ask_outside(desk.book(), nurse, desk.on(id),
                                  {"o1", "hold:m1", "May it pause?", "heart clinic", day("2027-04-12")}),
                "ask"));
            static_cast<void>(book::must(
                book::tell(desk.book(), nurse, desk.on(id), book::sheet_hash(desk.now(id)), "by phone"),
                "told"));
            return id;
        },
        acts_before_the_day());
    return stage;
}

Stage& morning()
{
    static Stage stage(
        [](Desk& desk) {
            std::string id = desk.play_case_up_to_the_day("arriving_with_everything_right.yaml");
            book::ask_again_what_is_old(desk.book(), nurse, id);
            return id;
        },
        acts_of_the_morning());
    return stage;
}

/// Asked again what has grown old since the case file was made, so that the patient may go in.
std::string play_arriving(Desk& desk)
{
    std::string id = desk.play_case("arriving_with_everything_right.yaml");
    book::ask_again_what_is_old(desk.book(), nurse, id);
    return id;
}

Stage& on_the_day()
{
    static Stage stage(play_arriving, acts_of_the_day());
    return stage;
}

Stage& afterwards()
{
    static Stage stage(
        [](Desk& desk) {
            std::string id = play_arriving(desk);
            static_cast<void>(book::must(book::go_in(desk.book(), nurse, desk.on(id)), "in"));
            desk.set_clock("2027-06-15T10:30");
            static_cast<void>(
                book::must(book::record_what_was_done(desk.book(), nurse, desk.on(id),
                                                      {wall("2027-06-15T10:05"), {"colonoscopy"}, ""}),
                           "done"));
            static_cast<void>(book::must(
                book::decide_restart(desk.book(), physician, desk.on(id), {"hold:m1", "", day("2027-06-16")}),
                "restart"));
            static_cast<void>(
                book::must(book::tell_restart(desk.book(), nurse, desk.on(id), {{"hold:m1"}, ""}), "told"));
            return id;
        },
        acts_afterwards());
    return stage;
}

/// The rows of the table for one stage, by the name of who came first.
std::map<std::string, std::string> expected(const std::string& stage)
{
    std::map<std::string, std::string> rows;
    for (const Row& row : read_rows(FOREDAY_SOURCE_DIR "/tests/book/collisions.tsv")) {
        if (row.at("stage") == stage) {
            rows[row.at("first")] = row.at("second");
        }
    }
    return rows;
}

void expect_as_in_the_table(Stage& stage, const std::string& name)
{
    const auto table = expected(name);
    EXPECT_EQ(table.size(), stage.acts().size()) << "rows of " << name;
    for (const Act& first : stage.acts()) {
        ASSERT_EQ(table.count(first.name), 1U) << first.name << " has no row under " << name;
        const std::string& row = table.at(first.name);
        ASSERT_EQ(row.size(), stage.acts().size()) << first.name;
        std::string came;
        for (std::size_t place = 0; place < row.size(); ++place) {
            const Act& second = stage.acts()[place];
            came += stage.race(first, second);
            EXPECT_EQ(came.back(), row[place])
                << name << ": " << first.name << ", then " << second.name << ": " << stage.said();
        }
        EXPECT_EQ(came, row) << name << ": " << first.name;
    }
}

TEST(RunTwoInView, BeforeTheDay)
{
    expect_as_in_the_table(before_the_day(), "before the day");
}

TEST(RunTwoInView, OnTheMorning)
{
    expect_as_in_the_table(morning(), "morning");
}

TEST(RunTwoInView, OfAPatientWhoIsHere)
{
    expect_as_in_the_table(on_the_day(), "here");
}

TEST(RunTwoInView, Afterwards)
{
    expect_as_in_the_table(afterwards(), "afterwards");
}

}  // namespace
}  // namespace foreday::tests
