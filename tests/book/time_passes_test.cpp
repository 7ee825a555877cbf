#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/codec.h"
#include "data/book/playing.h"
#include "data/book/projecting.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_decision.h"
#include "data/book/verbs_phone.h"
#include "data/book/verbs_unit.h"
#include "tests/book/desk.h"

/// What happens to a book in which nobody writes, and under rules that change.
namespace foreday::tests {
namespace {

using checklists::ClearanceCheck;

int lapses_of(Desk& desk, const std::string& id)
{
    const auto entries = desk.book().store().entries_of(id);
    return static_cast<int>(std::ranges::count_if(entries, [](const store::Entry& entry) {
        return entry.said.kind == book::kind_of(book::ClearanceLapsed{}).name;
    }));
}

/// Cleared on 12 April 2027 for 26 April.
std::string cleared_case(Desk& desk)
{
    std::string id = desk.play_case("dabigatran_poor_kidneys.yaml");
    const auto done = desk.agree_to_all(id);
    if (!done) {
        throw std::runtime_error(book::in_words(done.error()));
    }
    return id;
}

void let_time_pass(Desk& desk)
{
    while (book::look_again(desk.book(), "a program", 100) > 0) {
    }
}

TEST(LapsedClearance, IsEnteredOnceWhenTheCaseIsNextLookedAt)
{
    Desk desk;
    const std::string id = cleared_case(desk);
    ASSERT_TRUE(book::answer(desk.book(), nurse, desk.on(id), said("heart_attack", true)));
    ASSERT_EQ(desk.now(id).whole.clearance.given, ClearanceCheck::Given::lapsed);
    EXPECT_EQ(lapses_of(desk, id), 0);
    desk.set_clock("2027-04-13T00:01");
    let_time_pass(desk);
    EXPECT_EQ(lapses_of(desk, id), 1);
    desk.set_clock("2027-04-14T00:01");
    let_time_pass(desk);
    EXPECT_EQ(lapses_of(desk, id), 1);
    const auto now = desk.now(id);
    EXPECT_EQ(now.whole.clearance.given, ClearanceCheck::Given::no);
    ASSERT_TRUE(now.file().clearance_lapsed);
    EXPECT_EQ(now.file().clearance_lapsed->given.by, physician.who);
}

TEST(LapsedClearance, DoesNotLapseOverASlipThatIsMendedAtOnce)
{
    Desk desk;
    const std::string id = cleared_case(desk);
    ASSERT_TRUE(book::answer(desk.book(), nurse, desk.on(id), said("heart_attack", true)));
    const auto slip = desk.now(id).folded.answer_entries.at(fact("heart_attack")).back();
    ASSERT_TRUE(book::strike(desk.book(), nurse, desk.on(id), {slip, "the wrong line"}));
    desk.set_clock("2027-04-13T00:01");
    let_time_pass(desk);
    EXPECT_EQ(lapses_of(desk, id), 0);
    EXPECT_EQ(desk.now(id).whole.clearance.given, ClearanceCheck::Given::stands);
}

TEST(LapsedClearance, StaysLapsedWhenWhatEndedItIsTakenBackLater)
{
    Desk desk;
    const std::string id = cleared_case(desk);
    ASSERT_TRUE(book::answer(desk.book(), nurse, desk.on(id), said("heart_attack", true)));
    desk.set_clock("2027-04-13T00:01");
    let_time_pass(desk);
    const auto entry = desk.now(id).folded.answer_entries.at(fact("heart_attack")).back();
    ASSERT_TRUE(book::strike(desk.book(), nurse, desk.on(id), {entry, "another patient's"}));
    EXPECT_EQ(desk.now(id).whole.clearance.given, ClearanceCheck::Given::no);
    const auto cleared = book::clear(desk.book(), physician, desk.on(id), book::shown_items(desk.now(id)));
    ASSERT_TRUE(cleared) << book::in_words(cleared.error());
    EXPECT_EQ(cleared->whole.clearance.given, ClearanceCheck::Given::stands);
    EXPECT_FALSE(cleared->file().clearance_lapsed);
}

TEST(LookAgain, IsDoneByOneProgramAtATime)
{
    Desk desk;
    static_cast<void>(desk.play_case("nothing_to_ask.yaml"));
    desk.set_clock("2027-05-20T09:00");
    ASSERT_TRUE(
        desk.book().store().elect("one", desk.book().now(), desk.book().now() + std::chrono::seconds{30}));
    EXPECT_EQ(book::look_again(desk.book(), "other", 100), 0) << "the lease of the first runs";
    desk.set_clock(desk.book().now() + std::chrono::seconds{29});
    EXPECT_EQ(book::look_again(desk.book(), "other", 100), 0);
    desk.set_clock(desk.book().now() + std::chrono::seconds{1});
    EXPECT_EQ(book::look_again(desk.book(), "other", 100), 1) << "the lease has run out";
}

TEST(LookAgain, MakesTheListsOfOpenCasesAgainUnderOtherRules)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const std::string before = desk.book().store().projection(id)->rules_hash;
    ASSERT_FALSE(book::put_in_force(
        desk.book(), director, demo_texts_with("bmi_ask: {value: 45 kg/m2}", "bmi_ask: {value: 44 kg/m2}")));
    EXPECT_EQ(desk.book().store().projection(id)->rules_hash, before);
    let_time_pass(desk);
    EXPECT_NE(desk.book().store().projection(id)->rules_hash, before);
}

void lower_the_table_limit(Desk& desk)
{
    const auto refused =
        book::put_in_force(desk.book(), director, demo_texts_with("value: 200 kg", "value: 180 kg"));
    ASSERT_FALSE(refused) << book::in_words(*refused);
}

/// The heaviest patient the table bears, in kilograms, by the rules a case is judged by.
screening::Exact table_limit(const book::CaseNow& now)
{
    const auto& parameters = now.rules().protocol.parameters;
    const auto place = static_cast<std::size_t>(
        std::ranges::find(parameters, "table_limit", &screening::Parameter::id) - parameters.begin());
    return std::get<screening::Exact>(now.rules().policy.parameters.at(place));
}

TEST(RulesInForce, AreThoseOfTodayForAPatientWhoHasNotComeYet)
{
    Desk desk;
    const std::string id = desk.play_case_up_to_the_day("arriving_with_everything_right.yaml");
    ASSERT_EQ(table_limit(desk.now(id)), screening::Exact{200});
    lower_the_table_limit(desk);
    EXPECT_EQ(table_limit(desk.now(id)), screening::Exact{180});
}

TEST(RulesInForce, StayThoseOfTheArrivalForAPatientWhoIsHere)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_everything_right.yaml");
    const std::string before = desk.now(id).unit->hash;
    lower_the_table_limit(desk);
    EXPECT_EQ(table_limit(desk.now(id)), screening::Exact{200});
    EXPECT_EQ(desk.now(id).unit->hash, before);
    EXPECT_NE((*desk.book().rules())->hash, before);
}

TEST(RulesInForce, AreThoseOfTodayAgainForAPatientMovedToAnotherDay)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_everything_right.yaml");
    lower_the_table_limit(desk);
    ASSERT_EQ(table_limit(desk.now(id)), screening::Exact{200});
    const auto moved =
        book::reschedule(desk.book(), scheduler, desk.on(id), {wall("2027-06-22T09:00"), {}, {}, "asked"});
    ASSERT_TRUE(moved) << book::in_words(moved.error());
    EXPECT_EQ(table_limit(*moved), screening::Exact{180});
}

}  // namespace
}  // namespace foreday::tests
