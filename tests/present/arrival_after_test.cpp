#include "gui/present/review_desk.h"
#include "tests/present/arrival.h"

/// After the procedure: what was done, how clean it was, what is started again, and the end.
namespace foreday::tests {
namespace {

using present::ArrivalDesk;
using present::ReviewDesk;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

/// She went in at 08:30; it is 10:20.
class Afterwards : public OnTheDay {
protected:
    std::string begin_afterwards()
    {
        std::string id = begin_ready();
        EXPECT_TRUE(ArrivalDesk(sit(nurse, id)).go_in());
        set_clock("2027-06-15T10:20");
        return id;
    }
};

TEST_F(Afterwards, NothingWasDoneBeforeThePatientWentIn)
{
    const std::string id = begin_ready();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    const auto before = last_number();
    person().will({LeavesAsItStands{}, Picks{"nothing else"}});
    EXPECT_FALSE(desk.record_what_was_done());
    EXPECT_TRUE(refused(place, {"the patient has not gone in; right would be the patient sent in first"}));
    person().will({Writes{"clean"}});
    EXPECT_FALSE(desk.record_preparation_quality());
    EXPECT_TRUE(refused(place, {"nobody has said what was done"}));
    EXPECT_FALSE(desk.tell_restart());
    EXPECT_TRUE(refused(place, {"Nothing decided waits to be told."}));
    person().will({LeavesAsItStands{}});
    EXPECT_FALSE(desk.close());
    EXPECT_TRUE(refused(place, {"the case cannot be closed"}));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(Afterwards, WhatWasDoneIsWhatWasBookedAndWhatCameBesideIt)
{
    const std::string id = begin_afterwards();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    person().will(
        {Writes{"10:05"}, Picks{"Removal of polyps"}, Picks{"Mucosal biopsy"}, Picks{"nothing else"}});
    ASSERT_TRUE(desk.record_what_was_done()) << place.notice().words;
    EXPECT_THAT(person().offered(), ::testing::Not(::testing::Contains("Removal of polyps")))
        << "what was picked is not offered again";
    const auto work = last<book::WorkDone>(id);
    EXPECT_THAT(work.procedures, ElementsAre("colonoscopy", "polypectomy", "biopsy"));
    EXPECT_EQ(wall("2027-06-15T10:05"), work.ended);
    EXPECT_EQ("Done at 10:05", desk.verdict().words);
}

TEST_F(Afterwards, ItEndedBetweenGoingInAndNow)
{
    struct Row {
        const char* typed;
        bool stands;
        const char* words;
    };
    const std::string id = begin_afterwards();
    for (const Row& row : std::vector<Row>{
             {"08:29", false, "the procedure ended before the patient went in, or has not ended yet"},
             {"08:30", true, ""},
             {"10:20", true, ""},
             {"10:21", false, "a time between going in and now"},
             {"2027-06-14 10:00", false, "a time between going in and now"},
         }) {
        SCOPED_TRACE(row.typed);
        begin_afterwards();
        Workplace& place = sit(nurse, id);
        const auto before = last_number();
        person().will({Writes{row.typed}, Picks{"nothing else"}});
        EXPECT_EQ(row.stands, ArrivalDesk(place).record_what_was_done()) << place.notice().words;
        EXPECT_TRUE(row.stands || refused(place, {row.words}));
        EXPECT_EQ(row.stands ? before + 1 : before, last_number());
    }
    begin_afterwards();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    const auto before = last_number();
    for (const char* no_time : {"noon", "25:00", "2027-06-15", "ten past ten"}) {
        SCOPED_TRACE(no_time);
        person().will({Writes{no_time}});
        EXPECT_FALSE(desk.record_what_was_done());
        EXPECT_TRUE(refused(place, {"Not written: "}));
    }
    for (const auto& given_up :
         std::vector<std::vector<Reply>>{{GivesUp{}},
                                         {LeavesAsItStands{}, GivesUp{}},
                                         {LeavesAsItStands{}, Picks{"biopsy"}, GivesUp{}}}) {
        person().will(given_up);
        EXPECT_FALSE(desk.record_what_was_done());
    }
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(Afterwards, IsNotClosedBeforeTheRestartIsDecidedAndTold)
{
    const std::string id = begin_afterwards();
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    person().will({Writes{"10:05"}, Picks{"nothing else"}, Writes{"clean, a little foam"}});
    ASSERT_TRUE(desk.record_what_was_done());
    ASSERT_TRUE(desk.record_preparation_quality());
    EXPECT_EQ("clean, a little foam", last<book::QualityStated>(id).words);

    auto before = last_number();
    person().will({LeavesAsItStands{}});
    EXPECT_FALSE(desk.close());
    EXPECT_TRUE(refused(place, {"the case cannot be closed: "}));
    EXPECT_FALSE(desk.tell_restart());
    EXPECT_TRUE(refused(place, {"Nothing decided waits to be told."}));
    EXPECT_TRUE(nothing_written_since(before));

    Workplace& review = sit(physician, id, 1);
    ReviewDesk reviewing(review);
    ASSERT_THAT(reviewing.restarts_to_decide(), SizeIs(1));
    person(1).will({Writes{"the usual dose this evening"}, Writes{"2027-06-15"}});
    ASSERT_TRUE(reviewing.decide_restart("hold:m1")) << review.notice().words;
    EXPECT_THAT(reviewing.restarts_to_decide(), IsEmpty());

    place.look_again();
    before = last_number();
    person().will({LeavesAsItStands{}});
    EXPECT_FALSE(desk.close()) << "decided, and not told";
    EXPECT_TRUE(nothing_written_since(before));
    ASSERT_TRUE(desk.tell_restart()) << place.notice().words;
    EXPECT_THAT(last<book::RestartTold>(id).items, ElementsAre("hold:m1"));
    EXPECT_FALSE(desk.tell_restart()) << "told once is told";
    person().will({GivesUp{}});
    EXPECT_FALSE(desk.close());
    person().will({LeavesAsItStands{}});
    ASSERT_TRUE(desk.close()) << place.notice().words;
    EXPECT_EQ("gone home with the escort", last<book::CaseClosed>(id).words);
    EXPECT_EQ("The case is closed", desk.verdict().words);
}

}  // namespace
}  // namespace foreday::tests
