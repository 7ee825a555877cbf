#include "gui/present/workplace.h"

#include <array>

#include "data/store/memory_store.h"
#include "tests/present/arrival.h"
#include "tests/present/phone_call.h"

/// One person at work, and what others do meanwhile.
namespace foreday::tests {
namespace {

using present::ArrivalDesk;
using present::Desk;
using present::Notice;
using present::PhoneDesk;
using present::Workplace;
using screening::Role;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

using SignIn = AtWork;
using TwoWorkplaces = AtWork;
using WorkplaceClock = OnTheDay;
using WorkplaceFaults = AtWork;

TEST_F(SignIn, NeedsAName)
{
    begin_with_a_booking();
    ListedAnswers nobody;
    const auto place = new_workplace(nobody);
    const auto looks = store().head(store::Chain::looks).number;
    for (const char* name : {"", " ", "\t\n", "?!", "\x01\x02"}) {
        SCOPED_TRACE(name);
        EXPECT_FALSE(place->sign_in(name, Role::nurse));
        EXPECT_TRUE(refused(*place, {"Nobody has signed in: a name is needed"}));
        EXPECT_FALSE(place->signed_in());
        EXPECT_EQ("Nobody has signed in.", place->who_in_words());
        EXPECT_THAT(place->rows(), IsEmpty());
    }
    EXPECT_EQ(looks, store().head(store::Chain::looks).number);
    EXPECT_TRUE(place->sign_in("Nurse Ilse Marrack", Role::nurse));
    EXPECT_EQ("Nurse Ilse Marrack, nurse, at the phone desk of Larkmoor Endoscopy", place->who_in_words());
    EXPECT_EQ(looks + 1, store().head(store::Chain::looks).number);
}

TEST_F(SignIn, OfTheSameNameWithABlankBesideItIsTheSamePerson)
{
    begin_with_a_booking();
    ListedAnswers nobody;
    const auto place = new_workplace(nobody);
    ASSERT_TRUE(place->sign_in("  Dr Teodor Wexcombe ", Role::endoscopist));
    EXPECT_EQ("Dr Teodor Wexcombe", place->writer().who);
}

TEST_F(SignIn, BeginsAtTheDeskOfTheRole)
{
    begin_with_a_booking();
    ListedAnswers nobody;
    const auto place = new_workplace(nobody);
    const std::vector<std::pair<Role, Desk>> rows{
        {Role::scheduler, Desk::phone},    {Role::arrival_clerk, Desk::arrival},
        {Role::nurse, Desk::phone},        {Role::endoscopist, Desk::review},
        {Role::anaesthesia, Desk::review}, {Role::medical_director, Desk::review},
        {Role::manager, Desk::phone},      {Role::auditor, Desk::phone},
    };
    for (const auto& [role, desk] : rows) {
        SCOPED_TRACE(screening::name_of(role));
        ASSERT_TRUE(place->sign_in("Somebody", role));
        EXPECT_EQ(desk, place->desk());
        EXPECT_EQ(present::name_of(desk), place->writer().desk);
    }
}

TEST_F(SignIn, WritesUnderTheDeskOneHasGoneTo)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    place.go_to(Desk::arrival);
    EXPECT_EQ(id, place.now()->id()) << "the case in hand stays";
    person().will({Writes{"asks for the way"}});
    ASSERT_TRUE(PhoneDesk(place).note());
    EXPECT_EQ("arrival desk", last_entry(id).said.desk);
}

TEST_F(SignIn, LooksAreNotedAndAreNoPartOfTheJournal)
{
    const std::string id = begin_with_a_booking();
    const auto looks = store().head(store::Chain::looks).number;
    const auto before = last_number();
    sit(nurse, id);
    EXPECT_EQ(looks + 2, store().head(store::Chain::looks).number);  // signed in, looked
    const auto entry = store().entries(store::Chain::looks, looks + 1, 1).front();
    EXPECT_EQ("looked", entry.said.kind);
    EXPECT_EQ(id, entry.said.subject);
    EXPECT_TRUE(nothing_written_since(before));
}

// --- two at once ---

TEST_F(TwoWorkplaces, WhatOneWritesComesIntoTheOthersViewAsNews)
{
    const std::string id = begin_with_a_booking();
    Workplace& one = sit(nurse, id, 0);
    Workplace& other = sit(second_nurse, id, 1);
    EXPECT_FALSE(other.let_time_pass());
    EXPECT_EQ(Notice::Kind::none, other.notice().kind);

    ASSERT_TRUE(PhoneDesk(one).answer_yes_no(fact("heart_attack"), true));
    EXPECT_EQ("Not asked yet.", stands(PhoneDesk(other), "heart_attack"));
    EXPECT_TRUE(other.let_time_pass());
    EXPECT_TRUE(notice(other, Notice::Kind::news,
                       {"09:00: somebody else has written into this case; it is shown as it is now."}));
    EXPECT_THAT(stands(PhoneDesk(other), "heart_attack"), HasSubstr("Yes. The patient"));
    EXPECT_FALSE(other.let_time_pass()) << "news is told once";

    EXPECT_FALSE(one.let_time_pass()) << "what one has written oneself is no news";
    EXPECT_TRUE(done(one, {"the answer is in the book"}));
}

TEST_F(TwoWorkplaces, ARefusedActSaysWhyAndReadsTheCaseAgain)
{
    const std::string id = begin_with_a_booking();
    Workplace& one = sit(nurse, id, 0);
    Workplace& other = sit(second_nurse, id, 1);
    ASSERT_TRUE(PhoneDesk(one).add_medicine(daily("warfarin")));
    other.look_again();
    person(0).will({Writes{"her husband's"}});
    ASSERT_TRUE(PhoneDesk(one).stop_medicine("m1"));

    const auto before = last_number();
    EXPECT_FALSE(PhoneDesk(other).name_medicine("m1", "apixaban"));
    EXPECT_TRUE(refused(
        other, {"the case has changed since it was shown; right would be the case looked at once more",
                "\n- medicine stopped by Nurse Ilse Marrack"}));
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_THAT(PhoneDesk(other).medicines(), IsEmpty());
}

TEST_F(TwoWorkplaces, TheListOfOneShowsWhatTheOtherDid)
{
    const std::string id = begin_with_a_booking();
    Workplace& one = sit(nurse, id, 0);
    Workplace& other = sit(second_nurse, "", 1);
    ASSERT_TRUE(PhoneDesk(one).record_try(checklists::TryOutcome::no_answer));
    EXPECT_THAT(other.rows().front().sentence, ::testing::Not(HasSubstr("try so far")));
    EXPECT_TRUE(other.let_time_pass());
    EXPECT_THAT(other.rows().front().sentence, HasSubstr("One try so far."));
}

/// Whoever does several things one after the other has their own in view.
TEST_F(TwoWorkplaces, OnesOwnEntriesNeverComeInBetween)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    for (int times = 0; times < 3; ++times) {
        person().will({Picks{"review desk"}});
        ASSERT_TRUE(desk.hand_to_review()) << place.notice().words;
        person().will({Writes{"a note"}});
        ASSERT_TRUE(desk.note()) << place.notice().words;
    }
}

// --- time ---

/// The pulse was measured at 08:30 and counts for two hours; the session waits.
TEST_F(WorkplaceClock, ShowsThatAMeasureIsPastItsAge)
{
    const std::string id = begin_ready();
    Workplace& nurses = sit(nurse, id);
    ASSERT_TRUE(ArrivalDesk(nurses).measure("pulse_in_range", "72"));
    ASSERT_EQ("May go in", ArrivalDesk(nurses).verdict().words);
    const std::vector<std::pair<const char*, const char*>> rows{
        {"2027-06-15T09:30", "May go in"},
        {"2027-06-15T10:30", "May go in"},
        {"2027-06-15T10:31", "Not ready"},
        {"2027-06-15T10:32", "Not ready"},
    };
    std::string shown = "May go in";
    for (const auto& [when, words] : rows) {
        SCOPED_TRACE(when);
        set_clock(when);
        EXPECT_EQ(shown != words, nurses.let_time_pass());
        EXPECT_EQ(words, ArrivalDesk(nurses).verdict().words);
        shown = words;
    }
    EXPECT_NE(Notice::Kind::news, nurses.notice().kind) << "nobody else has written";
}

TEST_F(WorkplaceClock, MovesTheListByItself)
{
    begin_with_a_booking();
    set_clock("2027-06-02T09:00");
    Workplace& place = sit(nurse);
    EXPECT_EQ("No call is due now", place.list_heading());  // due 14 days before
    set_clock("2027-06-03T09:00");
    EXPECT_TRUE(place.let_time_pass());
    EXPECT_EQ("Calls due: 1", place.list_heading());
}

// --- what goes wrong ---

TEST_F(WorkplaceFaults, ACaseThatIsNotThereIsSaid)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    for (const char* none : {"LK-9999", "", "P-0900", "' OR 1=1"}) {
        SCOPED_TRACE(none);
        place.open(none);
        EXPECT_TRUE(refused(place, {"there is no case ", "a case number from the lists"}));
        EXPECT_EQ(id, place.now()->id()) << "the one in hand stays";
    }
}

/// A book on a disk that is full.
class FullDisk : public SharedStore {
public:
    using SharedStore::SharedStore;
    void write(const std::function<void(store::Writing&)>& /*work*/) override
    {
        throw store::StoreFault(store::StoreFault::Kind::full, "There is no room on the disk.",
                                "Nothing was written. Make room and do it again.");
    }
};

TEST_F(WorkplaceFaults, AFullDiskIsSaidInWordsAndNothingIsLost)
{
    const std::string id = begin_with_a_booking();
    ListedAnswers nobody;
    Workplace place(std::make_unique<book::Book>(std::make_unique<FullDisk>(where()), [] { return clock(); }),
                    nobody, "another program");
    EXPECT_FALSE(place.sign_in(nurse.who, nurse.role));
    EXPECT_TRUE(refused(place, {"There is no room on the disk.", "Make room and do it again."}));
    place.open(id);
    ASSERT_NE(nullptr, place.now());
    const auto before = last_number();
    EXPECT_FALSE(PhoneDesk(place).answer_yes_no(fact("heart_attack"), true));
    EXPECT_TRUE(refused(place, {"There is no room on the disk."}));
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_EQ("Not asked yet.", stands(PhoneDesk(place), "heart_attack"));
}

TEST_F(WorkplaceFaults, ABookWithoutRulesIsSaid)
{
    ListedAnswers nobody;
    Workplace place(
        std::make_unique<book::Book>(store::make_memory_store(), [] { return at("2027-06-07T09:00"); }),
        nobody, "another program");
    EXPECT_TRUE(refused(place, {"no protocol and unit policy are in force in this book"}));
    EXPECT_EQ(nullptr, place.unit());
    EXPECT_TRUE(place.sign_in(nurse.who, nurse.role));
    EXPECT_THAT(place.rows(), IsEmpty());
    EXPECT_EQ("Nurse Ilse Marrack, nurse, at the phone desk", place.who_in_words());
    EXPECT_FALSE(place.let_time_pass());
}

}  // namespace
}  // namespace foreday::tests
