#include "gui/present/case_list.h"

#include <fmt/format.h>

#include "data/book/playing.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_decision.h"
#include "data/book/verbs_phone.h"
#include "tests/present/phone_call.h"

/// The lists of the desks, and finding somebody as one types. It is Monday 12 April 2027, 09:00.
namespace foreday::tests {
namespace {

using present::Desk;
using present::PhoneDesk;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::IsEmpty;
using ::testing::SizeIs;

struct Booked {
    const char* id;
    const char* name;
    const char* number;
    const char* born;
    const char* phone;
    const char* start;
};

// In no order on purpose.
const std::vector<Booked> bookings{
    {"LK-0703", "Zo\u00eb M\u00fcller-O\u2019Dell", "P-0703", "1957-03-02", "555-0173", "2027-04-16T09:00"},
    {"LK-0701", "Orla Finch", "P-0701", "1961-03-02", "555-0171", "2027-04-12T11:00"},
    {"LK-0704", "Piet Finch", "P-0704", "1957-03-02", "555-0174", "2027-04-23T09:00"},
    {"LK-0702", "Ansel Brook", "P-0702", "1970-12-31", "(555) 0172", "2027-04-12T08:00"},
    {"LK-0705", "Finch Averill", "P-0705", "1980-01-01", "", "2027-06-30T09:00"},
};

class CaseList : public AtWork {
protected:
    void begin()
    {
        begin_with("five bookings", [](tests::Desk& desk) -> std::string {
            desk.set_clock("2027-04-01T09:00");
            for (const Booked& one : bookings) {
                std::vector<std::string> phones;
                if (*one.phone != '\0') {
                    phones.emplace_back(one.phone);
                }
                const auto patient =
                    book::must(book::make_patient(desk.book(), scheduler,
                                                  {one.name, one.number, day(one.born), "female", phones}),
                               one.name);
                static_cast<void>(book::must(
                    book::make_booking(desk.book(), scheduler,
                                       {patient, {"colonoscopy"}, wall(one.start), {"peg_els_4l_split", ""}},
                                       one.id),
                    one.name));
            }
            desk.set_clock("2027-04-12T09:00");
            return "";
        });
    }

    static std::vector<std::string> ids_of(const Workplace& place)
    {
        std::vector<std::string> ids;
        for (const present::ListRow& row : place.rows()) {
            ids.push_back(row.case_id);
        }
        return ids;
    }

    static std::vector<std::string> found(Workplace& place, const std::string& typed)
    {
        place.find(typed);
        return ids_of(place);
    }
};

TEST_F(CaseList, OfThePhoneDeskHasTheCallsThatAreDueTheMostUrgentFirst)
{
    begin();
    Workplace& place = sit(nurse);
    EXPECT_EQ(Desk::phone, place.desk());
    // Those of today are past calling by phone in time and stand first; the one in June is not due yet.
    EXPECT_THAT(ids_of(place), ElementsAre("LK-0701", "LK-0702", "LK-0703", "LK-0704"));
    EXPECT_EQ("Calls due: 4", place.list_heading());
    EXPECT_EQ("Orla Finch: Nobody has screened this patient yet. It was useful until Fri 9 Apr 2027, 16:30.",
              place.rows().at(0).sentence);
    EXPECT_EQ(
        "Zo\u00eb M\u00fcller-O\u2019Dell: Nobody has screened this patient yet. Useful until Thu 15 Apr "
        "2027, "
        "13:00.",
        place.rows().at(2).sentence);
}

TEST_F(CaseList, CountsTheTriesAndPutsFewerFirstWhereTheTimeIsTheSame)
{
    begin();
    Workplace& place = sit(nurse, "LK-0703");
    PhoneDesk desk(place);
    ASSERT_TRUE(desk.record_try(checklists::TryOutcome::no_answer));
    EXPECT_THAT(place.rows().at(2).sentence, EndsWith(" One try so far."));
    ASSERT_TRUE(desk.record_try(checklists::TryOutcome::no_answer));
    EXPECT_THAT(place.rows().at(2).sentence, EndsWith(" 2 tries so far."));
}

TEST_F(CaseList, OfTheArrivalDeskHasTheSessionsOfTodayByTheirStart)
{
    begin();
    Workplace& place = sit(clerk);
    EXPECT_EQ(Desk::arrival, place.desk());
    ASSERT_THAT(ids_of(place), ElementsAre("LK-0702", "LK-0701"));
    EXPECT_EQ("08:00 Ansel Brook, Colonoscopy: not here yet.", place.rows()[0].sentence);
    EXPECT_EQ("11:00 Orla Finch, Colonoscopy: not here yet.", place.rows()[1].sentence);
    EXPECT_EQ("Booked today: 2", place.list_heading());
}

TEST_F(CaseList, OfTheReviewDeskHasWhatIsUndecidedTheMostUrgentFirst)
{
    begin_with("warfarin_no_valve.yaml");
    PhoneDesk phone(sit(nurse, "", 1));
    const std::string orla = book_orla_finch(sit(nurse, "", 1).book());
    sit(nurse, orla, 1);
    person(1).will({Writes{"sounds confused"}, Picks{"a clinician decides"}});
    ASSERT_TRUE(phone.raise_concern());
    Workplace& place = sit(physician);
    EXPECT_EQ(Desk::review, place.desk());
    ASSERT_THAT(ids_of(place), SizeIs(2));
    EXPECT_EQ("To be decided: 2", place.list_heading());
    EXPECT_EQ(
        "Petra Innisford: Warfarin pauses for five days before a procedure of high bleeding risk. Decide by "
        "Fri "
        "16 Apr 2027, 12:30. Colonoscopy, Thu 22 Apr 2027, 09:00.",
        place.rows()[0].sentence);
    EXPECT_EQ(
        "Orla Finch: Somebody has raised a concern in own words: \"sounds confused\". Decide by Wed 16 Jun "
        "2027, "
        "09:00. Colonoscopy, Thu 17 Jun 2027, 10:00.",
        place.rows()[1].sentence);
    // At 12:30 it is still by; a minute later it was to be.
    for (const auto& [when, words] : std::vector<std::pair<const char*, const char*>>{
             {"2027-04-16T12:29", ". Decide by today at 12:30."},
             {"2027-04-16T12:30", ". Decide by today at 12:30."},
             {"2027-04-16T12:31", ". Was to be decided by today at 12:30."}}) {
        SCOPED_TRACE(when);
        set_clock(when);
        place.look_again();
        EXPECT_THAT(place.rows()[0].sentence, testing::HasSubstr(words));
    }
    sit(nurse, "LK-0403", 1);
    person(1).will({Writes{"sounds confused"}, Picks{"do not go ahead"}});
    ASSERT_TRUE(phone.raise_concern());
    place.look_again();
    EXPECT_THAT(place.rows()[0].sentence, testing::HasSubstr(", and 1 more. "));
}

TEST_F(CaseList, SaysThatItIsEmpty)
{
    begin();
    set_clock("2027-05-15T09:00");
    EXPECT_EQ("Nobody is booked today", sit(clerk).list_heading());
    EXPECT_EQ("Nothing waits for a decision", sit(physician).list_heading());
    begin_with("an empty book", [](tests::Desk& /*desk*/) { return std::string(); });
    Workplace& place = sit(nurse);
    EXPECT_EQ("No call is due now", place.list_heading());
    EXPECT_THAT(place.rows(), IsEmpty());
}

TEST_F(CaseList, FindsSomebodyAsOneTypes)
{
    begin();
    Workplace& place = sit(nurse);
    struct Row {
        std::string typed;
        std::vector<std::string> ids;  ///< nearest session first
    };
    const std::vector<Row> rows{
        {"f", {"LK-0701", "LK-0704", "LK-0705"}},
        {"finch", {"LK-0701", "LK-0704", "LK-0705"}},
        {"FINCH", {"LK-0701", "LK-0704", "LK-0705"}},
        {"finch pi", {"LK-0704"}},
        {"pi finch", {"LK-0704"}},
        {"Orla Finch", {"LK-0701"}},
        {" orla ", {"LK-0701"}},
        {"inch", {}},
        {"zoe", {"LK-0703"}},
        {"Zo\u00eb", {"LK-0703"}},
        {"muller", {"LK-0703"}},
        {"M\u00dcLLER", {"LK-0703"}},
        {"odell", {}},
        {"dell", {"LK-0703"}},
        {"P-0704", {"LK-0704"}},
        {"0704", {"LK-0704"}},
        {"5550173", {"LK-0703"}},
        {"5550172", {"LK-0702"}},
        {"1957-03-02", {"LK-0703", "LK-0704"}},
        {"2 Mar 1957", {"LK-0703", "LK-0704"}},
        {"2 March 1957", {"LK-0703", "LK-0704"}},
        {"finch 1957-03-02", {"LK-0704"}},
        {"1957-03-02 finch", {"LK-0704"}},
        {"1957-03-03", {}},
        {"1957-02-30", {}},
        {"nobody", {}},
        {"orla brook", {}},
        {std::string(10000, 'f'), {}},
        {"' OR 1=1 --", {}},
        {"%", {"LK-0701", "LK-0702", "LK-0703", "LK-0704"}},  // nothing to search by: the desk's own list
        {"", {"LK-0701", "LK-0702", "LK-0703", "LK-0704"}},
        {"   ", {"LK-0701", "LK-0702", "LK-0703", "LK-0704"}},
    };
    for (const Row& row : rows) {
        SCOPED_TRACE(row.typed.substr(0, 40));
        EXPECT_EQ(row.ids, found(place, row.typed));
    }
}

TEST_F(CaseList, SaysWhoWasFoundAndHowMany)
{
    begin();
    Workplace& place = sit(nurse);
    place.find("zoe");
    EXPECT_EQ("Found: 1", place.list_heading());
    EXPECT_EQ(
        "Zo\u00eb M\u00fcller-O\u2019Dell, born 2 Mar 1957, P-0703: Colonoscopy, Fri 16 Apr 2027, 09:00.",
        place.rows().front().sentence);
    place.find("orla");
    EXPECT_EQ("Orla Finch, born 2 Mar 1961, P-0701: Colonoscopy, today at 11:00.",
              place.rows().front().sentence);
    place.find("nobody");
    EXPECT_EQ("Nobody found by that", place.list_heading());
    place.find("");
    EXPECT_EQ("Calls due: 4", place.list_heading());
    place.find("finch");
    place.go_to(Desk::arrival);
    EXPECT_EQ("Booked today: 2", place.list_heading()) << "another desk begins with its own list";
}

}  // namespace
}  // namespace foreday::tests
