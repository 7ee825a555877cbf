#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/demo_book.h"
#include "data/store/memory_store.h"
#include "tests/book/book_rules.h"
#include "tests/book/journal.h"

namespace foreday::tests {
namespace {

/// Weekdays and weekends, before and after the hours at which the demo's cases were told, a change of clocks,
/// the turn of a year, and years in which the unit's standing order has run out.
class RunDemoAtAnyMoment : public testing::TestWithParam<const char*> {};

TEST_P(RunDemoAtAnyMoment, ItsPeopleHaveDoneTheirWorkAndNobodyIsLeftOut)
{
    const auto book = book::make_demo_book(store::make_memory_store(), FOREDAY_SOURCE_DATA_DIR "/demo",
                                           data::protocol_texts(FOREDAY_SOURCE_DATA_DIR "/protocol").value(),
                                           at(GetParam()));
    EXPECT_EQ(book->store().info().cases, 16);
    EXPECT_FALSE(book->store().with_calls(book->now()).empty());
    EXPECT_FALSE(book->store().undecided().empty());
    const auto today = screening::date_of(screening::local_of(demo_rules().zone, book->now()));
    EXPECT_GE(book->store().on_day(today).size(), 2U) << "at the arrival desk";
    for (const auto& row : book->store().undecided()) {
        EXPECT_FALSE(row.ended) << row.case_id;
    }
    for (const auto& entry : book->store().entries(store::Chain::journal, 0, 100'000)) {
        EXPECT_LE(entry.said.at, book->now()) << "entry " << entry.number;
    }
}

INSTANTIATE_TEST_SUITE_P(Moments, RunDemoAtAnyMoment,
                         testing::Values("2027-04-12T07:00", "2027-04-12T09:00", "2027-04-13T11:30",
                                         "2027-04-14T15:30", "2027-04-17T12:00", "2027-03-14T03:30",
                                         "2027-11-07T01:30-04:00", "2027-12-31T23:59", "2030-06-01T00:05"));

}  // namespace
}  // namespace foreday::tests
