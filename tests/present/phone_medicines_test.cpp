#include <fmt/format.h>

#include "gui/present/follows.h"
#include "gui/present/medicine_form.h"
#include "tests/present/phone_call.h"

/// The medicine list at the phone desk: what is heard, what it is, and when the list is complete.
namespace foreday::tests {
namespace {

using present::PhoneDesk;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;
using ::testing::StartsWith;

using PhoneDeskMedicines = AtWork;
using PhoneDeskList = AtWork;

// --- the medicines ---

TEST_F(PhoneDeskMedicines, AreRankedByWhatWasHeardAndNoneIsPicked)
{
    const std::string id = begin_with_a_booking();
    PhoneDesk desk(sit(nurse, id));
    const auto before = last_number();
    struct Row {
        const char* heard;
        const char* first;
    };
    for (const Row& row : std::vector<Row>{{"warfarin", "warfarin"},
                                           {"WARFARIN", "warfarin"},
                                           {"warfrin", "warfarin"},
                                           {"clopidogrel", "clopidogrel"},
                                           {"klopidogrel", "clopidogrel"},
                                           {"apixa", "apixaban"}}) {
        SCOPED_TRACE(row.heard);
        const auto candidates = desk.candidates(row.heard);
        ASSERT_FALSE(candidates.empty());
        EXPECT_EQ(row.first, candidates.front().id);
    }
    EXPECT_THAT(desk.candidates("clopidogrel").front().words,
                HasSubstr("easily confused with dabigatran and paroxetine"));
    for (const std::string& nothing : {std::string(), std::string(" "), std::string("qqqqqqqq"),
                                       std::string(10000, 'w'), std::string("\xff")}) {
        EXPECT_THAT(desk.candidates(nothing), IsEmpty());
    }
    EXPECT_LE(desk.candidates("insulin").size(), 8U);
    EXPECT_TRUE(nothing_written_since(before));
    EXPECT_THAT(desk.medicines(), IsEmpty());
}

TEST_F(PhoneDeskMedicines, OfWhichOneIsMeantIsForTheNurseToSay)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = last_number();
    EXPECT_FALSE(desk.add_medicine(daily("", "warfrin"), true));
    EXPECT_TRUE(refused(place, {"Not written: pick which medicine is meant, or that it is none of these."}));
    EXPECT_TRUE(nothing_written_since(before));

    // She says that it is none of these: it is on the list as heard, and a clinician is asked.
    ASSERT_TRUE(desk.add_medicine(daily("", "the pink fat pill"), false));
    const auto added = last<book::MedicineAdded>(id);
    EXPECT_EQ("", added.medicine.medicine);
    EXPECT_EQ("the pink fat pill", added.medicine.heard);
    EXPECT_THAT(desk.medicines().front().words, StartsWith("\"the pink fat pill\" (nobody has named it)"));

    ASSERT_TRUE(desk.name_medicine(added.id, "atorvastatin")) << place.notice().words;
    EXPECT_TRUE(done(place, {"the medicine is named."}));
    EXPECT_THAT(desk.medicines().front().words, StartsWith("atorvastatin, every day at 08:00"));
    const auto named = last<book::MedicineChanged>(id);
    EXPECT_EQ(added.id, named.id);
    EXPECT_EQ("the pink fat pill", named.medicine.heard) << "the words as heard stay";

    EXPECT_FALSE(desk.name_medicine("m77", "atorvastatin"));
    EXPECT_TRUE(refused(place, {"That entry is no longer on the list."}));
    EXPECT_FALSE(desk.name_medicine(added.id, "no such medicine"));
    EXPECT_TRUE(refused(place, {"has no medicine \"no such medicine\""}));
}

TEST_F(PhoneDeskMedicines, AreKeptWithDosePatternPrescriberAndLastDose)
{
    const std::string id = begin_with_a_booking();
    PhoneDesk desk(sit(nurse, id));
    desk.set_said_by({screening::Informant::relative, "Piet Finch", ""});
    present::MedicineForm form = daily("warfarin", "the rat poison");
    form.dose = "4 mg";
    form.times = "18:00";
    form.last_dose = "2027-06-06 18:00";
    form.prescriber = "Dr Moss";
    form.reason = "atrial fibrillation";
    ASSERT_TRUE(desk.add_medicine(form));
    const auto added = last<book::MedicineAdded>(id).medicine;
    EXPECT_EQ("warfarin", added.medicine);
    EXPECT_EQ("the rat poison", added.heard);
    EXPECT_EQ("4 mg", added.dose);
    EXPECT_EQ("Dr Moss", added.prescriber);
    EXPECT_EQ("atrial fibrillation", added.reason);
    EXPECT_EQ(screening::Informant::relative, added.informant);
    EXPECT_EQ("Piet Finch", added.who);
    EXPECT_EQ((screening::Dose{day("2027-06-06"), screening::TimeOfDay{18 * 60}}), added.last_dose);
    EXPECT_EQ("warfarin, 4 mg, every day at 18:00, last dose Sun 6 Jun 2027, 18:00.",
              desk.medicines().front().words);
}

/// It is 09:00 on 7 June 2027.
TEST_F(PhoneDeskMedicines, AreTypedInManyWays)
{
    enum : std::size_t { each_day, weekdays, every_n, monthly, as_needed, all_the_time, not_known };
    struct Row {
        std::size_t taken;
        std::string days;
        std::string times;
        std::string last;
        std::string words;  ///< after "warfarin, "; or of the refusal
    };
    const std::string id = begin_with_a_booking();
    const std::vector<Row> right{
        {each_day, "", "08:00, 20:00", "", "every day at 08:00 and 20:00, last dose not known."},
        {each_day, "", "2000 0800 8:00", "", "every day at 08:00 and 20:00, last dose not known."},
        {each_day, "", "", "2027-06-07 08:30", "every day, last dose Mon 7 Jun 2027, 08:30."},
        {each_day, "", "", "08:30", "every day, last dose Mon 7 Jun 2027, 08:30."},
        {each_day, "", "", "09:00", "every day, last dose Mon 7 Jun 2027, 09:00."},
        {each_day, "", "", "2027-06-07", "every day, last dose Mon 7 Jun 2027."},
        {each_day, "", "", "6 Jun 2027 22:00", "every day, last dose Sun 6 Jun 2027, 22:00."},
        {weekdays, "Mon, thu", "08:00", "", "on Monday and Thursday at 08:00, last dose not known."},
        {weekdays, "sa; sunday", "", "", "on Saturday and Sunday, last dose not known."},
        {every_n, "14 from 2027-06-01", "", "", "every 14 days from Tue 1 Jun 2027, last dose not known."},
        {every_n, "2 from 2027-06-01", "", "", "every 2 days from Tue 1 Jun 2027, last dose not known."},
        {every_n, "366 days from 1 Jun 2027", "", "",
         "every 366 days from Tue 1 Jun 2027, last dose not known."},
        {monthly, "1", "", "", "on day 1 of each month, last dose not known."},
        {monthly, "31", "", "", "on day 31 of each month, last dose not known."},
        {as_needed, "", "", "", "as needed, last dose not known."},
        {all_the_time, "", "", "", "all the time, last dose not known."},
        {not_known, "", "", "", "how often is not known, last dose not known."},
    };
    for (const Row& row : right) {
        SCOPED_TRACE(fmt::format("{} | {} | {}", row.days, row.times, row.last));
        begin_with_a_booking();
        Workplace& place = sit(nurse, id);
        PhoneDesk desk(place);
        present::MedicineForm form{"warfarin", "warfarin", "", row.taken, row.days,
                                   row.times,  row.last,   "", ""};
        ASSERT_TRUE(desk.add_medicine(form)) << place.notice().words;
        EXPECT_EQ("warfarin, " + row.words, desk.medicines().front().words);
    }
    const std::vector<Row> wrong{
        {each_day, "", "25:00", "", "Times: \"25:00\" is no time of day; right would be from 00:00 to 23:59"},
        {each_day, "", "morning", "", "Times: \"morning\" is no time of day"},
        {each_day, "", "", "2027-06-08", "Last dose: that day is still to come"},
        {each_day, "", "", "09:01", "Last dose: that time is still to come"},
        {each_day, "", "", "22:00", "2026-11-03 22:00, if it was yesterday"},
        {each_day, "", "", "June 2027", "Last dose: the day is not clear"},
        {each_day, "", "", "yesterday", "Last dose: the day is not clear"},
        {each_day, "", "", "30 Feb 2027 08:00", "Last dose: the day is not clear"},
        {each_day, "", "", "2027-06-06 26:00", "Last dose: \"26:00\" is no time of day"},
        {weekdays, "", "", "", "Days: no day of the week was typed; right would be such as Mon, Thu"},
        {weekdays, "Mon, T", "", "", "Days: \"T\" is no day of the week"},
        {weekdays, "Mondayish", "", "", "Days: \"Mondayish\" is no day of the week"},
        {every_n, "1 from 2027-06-01", "", "", "Days: how many, and from which day, is not clear"},
        {every_n, "367 from 2027-06-01", "", "", "Days: how many"},
        {every_n, "14", "", "", "Days: how many"},
        {every_n, "-14 from 2027-06-01", "", "", "Days: how many"},
        {every_n, "14 from June 2027", "", "", "Days: the day of one dose is not clear"},
        {monthly, "0", "", "", "Days: the day of the month is not clear; right would be from 1 to 31"},
        {monthly, "32", "", "", "from 1 to 31"},
        {monthly, "first", "", "", "from 1 to 31"},
        {monthly, std::string(10000, '1'), "", "", "from 1 to 31"},
    };
    begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    const auto before = last_number();
    for (const Row& row : wrong) {
        SCOPED_TRACE(fmt::format("{} | {} | {}", row.days.substr(0, 40), row.times, row.last));
        present::MedicineForm form{"warfarin", "warfarin", "", row.taken, row.days,
                                   row.times,  row.last,   "", ""};
        EXPECT_FALSE(desk.add_medicine(form));
        EXPECT_TRUE(refused(place, {"Not written: ", row.words}));
    }
    for (const std::string& nobody : {std::string(), std::string("  "), std::string("?!")}) {
        EXPECT_FALSE(desk.add_medicine(daily("", nobody.empty() ? " " : nobody)));
        EXPECT_TRUE(
            refused(place, {"No medicine was named; right would be the name as the patient says it"}));
    }
    EXPECT_FALSE(desk.add_medicine(daily("", "bad \xff\xfe bytes")));
    EXPECT_TRUE(refused(place, {"UTF-8"}));
    EXPECT_TRUE(nothing_written_since(before));
}

TEST_F(PhoneDeskMedicines, OfTheSameIngredientTwiceArePointedOutAndNotFused)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_TRUE(desk.add_medicine(daily("empagliflozin")));
    ASSERT_TRUE(desk.add_medicine(daily("empagliflozin_metformin")));
    EXPECT_TRUE(done(place, {"the medicine is on the list.", "empagliflozin is on the list twice"}));
    EXPECT_THAT(desk.medicines(), SizeIs(2));
}

TEST_F(PhoneDeskMedicines, LeaveTheListWithAReason)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_TRUE(desk.add_medicine(daily("warfarin")));
    const std::string item = desk.medicines().front().id;
    person().will({Writes{"that was her husband's"}});
    ASSERT_TRUE(desk.stop_medicine(item));
    EXPECT_EQ("that was her husband's", last<book::MedicineStopped>(id).words);
    EXPECT_THAT(desk.medicines(), IsEmpty());
    person().will({Writes{"once more"}});
    EXPECT_FALSE(desk.stop_medicine(item));
    EXPECT_TRUE(refused(place, {"there is no entry m1 on the medicine list"}));
}

// --- the list ---

TEST_F(PhoneDeskList, IsNotClosedBeforeEveryQuestionWasAskedByName)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    EXPECT_EQ("Nobody has said yet that this list is complete.", desk.list_in_words());
    const auto questions = desk.list_questions();
    ASSERT_THAT(questions, SizeIs(8));
    const auto before = last_number();
    // All but one, whichever it is; then the one taken back again.
    for (std::size_t missing = 0; missing < questions.size(); ++missing) {
        SCOPED_TRACE(questions[missing].words);
        mark_every_list_question(desk);
        desk.mark_asked(missing, false);
        EXPECT_FALSE(desk.list_questions().at(missing).asked);
        EXPECT_FALSE(desk.close_list());
        EXPECT_TRUE(refused(place, {"The list is not complete yet", questions[missing].words}));
    }
    EXPECT_TRUE(nothing_written_since(before));

    mark_every_list_question(desk);
    desk.set_said_by({screening::Informant::relative, "Piet Finch", ""});
    mark_every_list_question(desk);
    ASSERT_TRUE(desk.close_list()) << place.notice().words;
    const auto closed = last<book::ListClosed>(id);
    EXPECT_THAT(closed.gone_through,
                ElementsAre("blood_thinners", "injections", "insulin", "water_pills", "iron", "pain_killers",
                            "patches_and_drops", "without_prescription"));
    EXPECT_EQ(screening::Informant::relative, closed.informant);
    EXPECT_EQ("Piet Finch", closed.who);
    EXPECT_EQ("The list is complete: said to Nurse Ilse Marrack on Mon 7 Jun 2027, 09:00.",
              desk.list_in_words());
}

TEST_F(PhoneDeskList, OfAnotherPatientIsGoneThroughAnew)
{
    const std::string id = begin_with("warfarin_no_valve.yaml");
    Workplace& place = sit(nurse, id);
    const std::string next = book_orla_finch(place.book());
    PhoneDesk desk(place);
    mark_every_list_question(desk);
    place.open(next);
    for (const auto& question : desk.list_questions()) {
        EXPECT_FALSE(question.asked) << question.words;
    }
    EXPECT_FALSE(desk.close_list());
    EXPECT_TRUE(refused(place, {"not asked by name"}));
}

TEST_F(PhoneDeskList, IsNotClosedOverAMedicineSomebodyElseAddedMeanwhile)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id, 0);
    PhoneDesk desk(place);
    mark_every_list_question(desk);
    Workplace& other = sit(second_nurse, id, 1);
    ASSERT_TRUE(PhoneDesk(other).add_medicine(daily("clopidogrel")));
    const auto before = last_number();
    EXPECT_FALSE(desk.close_list());
    EXPECT_TRUE(
        refused(place, {"the case has changed since it was shown", "medicine added by Nurse Ansgar Leith"}));
    EXPECT_TRUE(nothing_written_since(before));
    // It was read again: what came is in view now, and the list may be closed with it.
    EXPECT_THAT(desk.medicines(), SizeIs(1));
    EXPECT_TRUE(desk.close_list());
}

TEST_F(PhoneDeskList, StaysClosedForFourteenDays)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    set_clock("2027-06-02T09:00");
    mark_every_list_question(desk);
    ASSERT_TRUE(desk.close_list());
    for (const auto& [when, words] : std::vector<std::pair<const char*, const char*>>{
             {"2027-06-16T08:59", "The list is complete"},
             {"2027-06-16T09:00", "The list is complete"},
             {"2027-06-16T09:01", "Said to be complete on Wed 2 Jun"}}) {
        SCOPED_TRACE(when);
        set_clock(when);
        place.look_again();
        EXPECT_THAT(desk.list_in_words(), StartsWith(words));
    }
    EXPECT_THAT(desk.list_in_words(), EndsWith("too long ago: anything new since?"));
}

/// It stays closed until somebody says otherwise; what was added stands on it all the same.
TEST_F(PhoneDeskList, StaysClosedWhenAMedicineIsAddedAndTheMedicineCounts)
{
    const std::string id = begin_with("nothing_to_ask.yaml");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_TRUE(place.now()->whole.clearance.possible);
    const std::string closed = desk.list_in_words();
    EXPECT_THAT(closed, StartsWith("The list is complete: "));
    ASSERT_TRUE(desk.add_medicine(daily("clopidogrel")));
    EXPECT_EQ(closed, desk.list_in_words());
    EXPECT_THAT(desk.medicines(), SizeIs(3));
    EXPECT_TRUE(says(present::follows(*place.now()), "clopidogrel: "));
    EXPECT_TRUE(is_asked(desk, "reason_for_blood_thinner_known"));
    EXPECT_FALSE(desk.clear());
}

TEST_F(PhoneDeskList, IsReopenedWithWhatIsNew)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    mark_every_list_question(desk);
    ASSERT_TRUE(desk.close_list());
    person().will({Writes{"an antibiotic since Friday"}});
    ASSERT_TRUE(desk.reopen_list());
    EXPECT_EQ("list reopened", last_entry(id).said.kind);
    EXPECT_EQ("Nobody has said yet that this list is complete.", desk.list_in_words());
    EXPECT_FALSE(place.now()->whole.clearance.possible);
}

}  // namespace
}  // namespace foreday::tests
