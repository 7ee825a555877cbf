#include "gui/present/interview.h"

#include <fmt/format.h>

#include <map>
#include <set>

#include "data/book/playing.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_phone.h"
#include "tests/present/phone_call.h"

/// The phone call as the protocol makes it for the patient on the line.
namespace foreday::tests {
namespace {

using present::PhoneDesk;
using present::QuestionView;
using present::SectionView;
using present::Workplace;
using ::testing::ElementsAre;
using ::testing::EndsWith;
using ::testing::HasSubstr;
using ::testing::StartsWith;
using ::testing::UnorderedElementsAreArray;

/// An answer that opens others.
struct Opens {
    const char* stem;
    const char* answer;  ///< as typed
    const char* harmless;
    std::vector<const char*> others;
};

const std::vector<Opens> stems{
    {"heart_attack", "yes", "no", {"heart_attack_date"}},
    {"coronary_stent", "yes", "no", {"stent_date"}},
    {"heart_failure", "yes", "no", {"heart_failure_worse_now"}},
    {"clot_in_vein", "yes", "no", {"clot_date", "active_cancer"}},
    {"sleep_apnoea_known", "yes", "no", {"breathing_machine_used"}},
    {"stroke_or_tia", "yes", "no", {"stroke_date"}},
    {"swallowing_trouble", "yes", "no", {"thickener"}},
    {"alcohol_daily", "yes", "no", {"alcohol_withdrawal"}},
    {"dialysis", "haemodialysis", "peritoneal", {"dialysis_on_the_day"}},
    {"has_diabetes", "yes", "no", {"low_sugar_recent"}},
    {"diverticulitis", "yes", "no", {"diverticulitis_date", "diverticulitis_sore"}},
    {"covid_positive", "yes", "no", {"covid_date"}},
    {"sedation_planned", "yes", "no", {"escort_named", "alone_at_night"}},
};

/// A medicine on the list that opens questions.
struct Takes {
    const char* medicine;
    std::vector<const char*> questions;
};

const std::vector<Takes> medicines{
    {"semaglutide_weekly", {"glp1_symptoms", "glp1_escalating"}},
    {"prednisone", {"steroid_long_term"}},
    {"naltrexone_tablet", {"opioid_sedation_planned"}},
    {"empagliflozin", {"sglt2_for_heart_failure"}},
    {"apixaban", {"low_dose_doac", "reason_for_blood_thinner_known", "heparin_reaction"}},
    {"clopidogrel", {"reason_for_blood_thinner_known"}},
    {"warfarin", {"inr_target_high", "reason_for_blood_thinner_known", "heparin_reaction"}},
};

class Interview : public AtWork {
protected:
    /// Of an age at which pregnancy is asked about.
    std::string begin_with_a_young_woman()
    {
        return begin_with("a young woman", [](Desk& desk) -> std::string {
            desk.set_clock("2027-06-01T09:00");
            const auto patient =
                book::must(book::make_patient(desk.book(), scheduler,
                                              {"Runa Selby", "P-0950", day("1990-08-20"), "female", {}}),
                           "patient");
            const auto booked = book::must(
                book::make_booking(desk.book(), scheduler,
                                   {patient, {"colonoscopy"}, wall("2027-06-17T10:00"), {"", ""}}, "LK-0950"),
                "booking");
            desk.set_clock("2027-06-07T09:00");
            return booked.id();
        });
    }

    static bool answer(PhoneDesk& desk, std::string_view fact_id, const std::string& typed)
    {
        return desk.answer_typed(fact(fact_id), typed);
    }
};

TEST_F(Interview, AsksEveryQuestionOfTheProtocolOnceWhereEverythingApplies)
{
    Workplace& place = sit(nurse, begin_with_a_young_woman());
    PhoneDesk desk(place);
    for (const Opens& one : stems) {
        ASSERT_TRUE(answer(desk, one.stem, one.answer)) << place.notice().words;
    }
    for (const Takes& one : medicines) {
        ASSERT_TRUE(desk.add_medicine(daily(one.medicine))) << place.notice().words;
    }
    std::vector<std::string> asked;
    for (const SectionView& section : desk.sections()) {
        for (const QuestionView& view : desk.questions(section.name)) {
            asked.push_back(fact_id_of(view.fact));
            EXPECT_EQ(section.name, demo_rules().protocol.facts.at(view.fact).section);
        }
    }
    std::vector<std::string> all;
    for (const auto& one : demo_rules().protocol.facts) {
        if (one.scope != screening::FactScope::day) {
            all.push_back(one.id);
        }
    }
    EXPECT_GT(all.size(), 80U);
    EXPECT_THAT(asked, UnorderedElementsAreArray(all));
}

TEST_F(Interview, GoesThroughTheSectionsInTheOrderOfTheProtocolAndLeavesTheDayToTheDay)
{
    PhoneDesk desk(sit(nurse, begin_with_a_booking()));
    std::vector<std::string> names;
    for (const SectionView& section : desk.sections()) {
        names.push_back(section.name);
        EXPECT_EQ(static_cast<std::size_t>(section.left),
                  static_cast<std::size_t>(std::ranges::count_if(
                      desk.questions(section.name), [](const auto& view) { return view.to_ask; })))
            << section.name;
    }
    // Without a medicine on the list no question is about one.
    EXPECT_THAT(names, ElementsAre("identity and booking", "heart", "clots and bleeding", "lungs and airway",
                                   "brain and mind", "kidney and liver", "sugar", "gut and preparation",
                                   "allergy", "infection", "body and sedation", "escort and home"));
    EXPECT_FALSE(is_asked(desk, "identity_confirmed"));
    EXPECT_FALSE(is_asked(desk, "inr_today"));
}

TEST_F(Interview, OpensAQuestionOnlyWhenItsStemIsAnsweredSo)
{
    const std::string id = begin_with_a_booking();
    for (const Opens& one : stems) {
        SCOPED_TRACE(one.stem);
        begin_with_a_booking();
        Workplace& place = sit(nurse, id);
        PhoneDesk desk(place);
        const auto expect_asked = [&](bool asked, const char* when) {
            for (const char* other : one.others) {
                EXPECT_EQ(asked, is_asked(desk, other)) << other << ", " << when;
            }
        };
        expect_asked(false, "before the stem is asked");
        ASSERT_TRUE(answer(desk, one.stem, one.harmless)) << place.notice().words;
        expect_asked(false, "answered harmlessly");
        person().will({Picks{"does not know"}});
        ASSERT_TRUE(desk.answer_not_known(fact(one.stem)));
        expect_asked(false, "not known");
        ASSERT_TRUE(answer(desk, one.stem, one.answer)) << place.notice().words;
        expect_asked(true, "answered so");
        for (const char* other : one.others) {
            EXPECT_TRUE(question_about(desk, other)->unfolded) << other;
        }
        EXPECT_FALSE(question_about(desk, one.stem)->unfolded);
    }
}

TEST_F(Interview, OpensTheQuestionsAboutAMedicineOnceItIsOnTheList)
{
    const std::string id = begin_with_a_booking();
    for (const Takes& one : medicines) {
        SCOPED_TRACE(one.medicine);
        begin_with_a_booking();
        Workplace& place = sit(nurse, id);
        PhoneDesk desk(place);
        for (const char* question : one.questions) {
            EXPECT_FALSE(is_asked(desk, question)) << question;
        }
        ASSERT_TRUE(desk.add_medicine(daily(one.medicine))) << place.notice().words;
        for (const char* question : one.questions) {
            EXPECT_TRUE(is_asked(desk, question)) << question;
        }
        EXPECT_EQ("medicines", desk.sections().at(1).name);
    }
}

TEST_F(Interview, AsksAboutPregnancyOnlyWhereItCanBe)
{
    PhoneDesk young(sit(nurse, begin_with_a_young_woman()));
    EXPECT_TRUE(is_asked(young, "could_be_pregnant"));
    PhoneDesk old(sit(nurse, begin_with_a_booking()));
    EXPECT_FALSE(is_asked(old, "could_be_pregnant"));
}

TEST_F(Interview, AsksAStemBeforeWhatItOpens)
{
    Workplace& place = sit(nurse, begin_with_a_booking());
    PhoneDesk desk(place);
    for (const Opens& one : stems) {
        ASSERT_TRUE(answer(desk, one.stem, one.answer)) << place.notice().words;
    }
    std::map<std::string, std::size_t> at;  // in the order of the call
    for (const SectionView& section : desk.sections()) {
        for (const QuestionView& view : desk.questions(section.name)) {
            at.emplace(fact_id_of(view.fact), at.size());
        }
    }
    for (const Opens& one : stems) {
        for (const char* other : one.others) {
            EXPECT_LT(at.at(one.stem), at.at(other)) << one.stem << " and " << other;
        }
    }
}

TEST_F(Interview, SaysWhatToSayAndHowItIsAnswered)
{
    PhoneDesk desk(sit(nurse, begin_with_a_booking()));
    const auto heart = question_about(desk, "heart_attack").value();
    EXPECT_EQ("Have you ever had a heart attack?", heart.words);
    EXPECT_EQ("The first two months are the most dangerous ones.", heart.why);
    EXPECT_EQ(QuestionView::Control::yes_no, heart.control);
    const auto device = question_about(desk, "heart_device").value();
    EXPECT_EQ(QuestionView::Control::choice, device.control);
    EXPECT_THAT(device.choices, ElementsAre("none", "pacemaker", "defibrillator"));
    EXPECT_THAT(question_about(desk, "diabetes")->choices, ElementsAre("none", "type 1", "type 2", "other"));

    const std::vector<std::pair<const char*, const char*>> typed{
        {"weight", "kg, or lb after the number"},
        {"height", "cm, or such as 5 ft 10 in"},
        {"creatinine", "mg/dL, or umol/L after the number"},
        {"laboratory_egfr", "in mL/min/1.73 m2"},
        {"journey_minutes", "in minutes"},
        {"birth_date", "such as 3 Nov 2026, Nov 2026 or 2026"},
    };
    for (const auto& [fact_id, expected] : typed) {
        const auto view = question_about(desk, fact_id).value();
        EXPECT_EQ(QuestionView::Control::typed, view.control) << fact_id;
        EXPECT_EQ(expected, view.expected) << fact_id;
    }
}

TEST_F(Interview, ShowsWhatStandsWithWhoSaidItAndWhen)
{
    Workplace& place = sit(nurse, begin_with_a_booking());
    PhoneDesk desk(place);
    EXPECT_EQ("Not asked yet.", stands(desk, "heart_attack"));
    EXPECT_TRUE(question_about(desk, "heart_attack")->to_ask);
    EXPECT_EQ(16, desk.sections().at(1).left);  // of the heart

    ASSERT_TRUE(desk.answer_yes_no(fact("heart_attack"), false));
    EXPECT_EQ("No. The patient, Mon 7 Jun 2027, 09:00.", stands(desk, "heart_attack"));
    EXPECT_FALSE(question_about(desk, "heart_attack")->to_ask);
    EXPECT_EQ(15, desk.sections().at(1).left);

    ASSERT_TRUE(answer(desk, "weight", "70,5"));
    EXPECT_EQ("70.5 kg, \"70,5\". The patient, Mon 7 Jun 2027, 09:00.", stands(desk, "weight"));
    ASSERT_TRUE(desk.answer_choice(fact("heart_device"), 1));
    EXPECT_EQ("Pacemaker. The patient, Mon 7 Jun 2027, 09:00.", stands(desk, "heart_device"));

    person().will({Picks{"would not say"}});
    ASSERT_TRUE(desk.answer_not_known(fact("alcohol_daily")));
    EXPECT_EQ("Not known (would not say). The patient, Mon 7 Jun 2027, 09:00.",
              stands(desk, "alcohol_daily"));
    EXPECT_FALSE(question_about(desk, "alcohol_daily")->to_ask);

    desk.set_said_by({screening::Informant::relative, "Piet Finch", "line 7"});
    ASSERT_TRUE(desk.answer_yes_no(fact("seizures"), true));
    EXPECT_EQ("Yes. A relative (Piet Finch), through line 7, Mon 7 Jun 2027, 09:00.",
              stands(desk, "seizures"));
}

/// The age limit of chest pain is 7 days: at exactly 7 days the answer still stands.
TEST_F(Interview, AsksAgainWhatIsTooLongAgo)
{
    const std::string id = begin_with_a_booking();
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_TRUE(desk.answer_yes_no(fact("chest_pain_now"), false));
    for (const auto& [when, again] : std::vector<std::pair<const char*, bool>>{
             {"2027-06-14T08:59", false}, {"2027-06-14T09:00", false}, {"2027-06-14T09:01", true}}) {
        SCOPED_TRACE(when);
        set_clock(when);
        place.look_again();
        EXPECT_EQ(again, question_about(desk, "chest_pain_now")->to_ask);
        EXPECT_EQ(again, stands(desk, "chest_pain_now").ends_with(" Too long ago: ask again."));
    }
    ASSERT_TRUE(desk.answer_yes_no(fact("chest_pain_now"), false));
    EXPECT_FALSE(question_about(desk, "chest_pain_now")->to_ask);
}

TEST_F(Interview, KeepsAWeakerAnswerBesideTheLetter)
{
    Workplace& place = sit(nurse, begin_with_a_booking());
    PhoneDesk desk(place);
    desk.set_said_by({screening::Informant::letter, "ward letter", ""});
    ASSERT_TRUE(answer(desk, "weight", "81"));
    desk.set_said_by({});
    ASSERT_TRUE(answer(desk, "weight", "84"));
    const auto view = question_about(desk, "weight").value();
    EXPECT_THAT(view.stands, StartsWith("81 kg"));
    EXPECT_THAT(view.stands, HasSubstr("A letter or result (ward letter)"));
    ASSERT_EQ(1U, view.beside.size());
    EXPECT_THAT(view.beside.front(), StartsWith("84 kg"));
}

TEST_F(Interview, ShowsBothAnswersOfTwoWhoDidNotKnowOfEachOther)
{
    const std::string id = begin_with_a_booking();
    Workplace& one = sit(nurse, id, 0);
    Workplace& other = sit(second_nurse, id, 1);
    PhoneDesk first(one);
    PhoneDesk second(other);
    ASSERT_TRUE(first.answer_yes_no(fact("heart_attack"), false));
    ASSERT_TRUE(second.answer_yes_no(fact("heart_attack"), true));
    const std::string both = stands(second, "heart_attack");
    EXPECT_THAT(both, StartsWith("Two answers differ. "));
    EXPECT_THAT(both, HasSubstr("No. The patient"));
    EXPECT_THAT(both, HasSubstr("Yes. The patient"));
}

TEST_F(Interview, TakesWhatIsKnownFromAnEarlierCaseAsUnconfirmed)
{
    const std::string earlier = begin_with("nothing_to_ask.yaml");
    set_clock("2027-06-07T09:00");
    Workplace& place = sit(nurse, earlier);
    const auto again = book::make_booking(
        place.book(), scheduler,
        {place.now()->folded.patient_id, {"colonoscopy"}, wall("2027-06-17T10:00"), {"", ""}}, "LK-0999");
    ASSERT_TRUE(again);
    place.open("LK-0999");
    PhoneDesk desk(place);
    EXPECT_THAT(stands(desk, "heart_attack"), StartsWith("No. The patient, in an earlier case, "));
    EXPECT_THAT(stands(desk, "heart_attack"), EndsWith(" Not confirmed in this case: ask."));
    EXPECT_TRUE(question_about(desk, "heart_attack")->to_ask);
    const int left = desk.sections().at(1).left;
    EXPECT_EQ("Not asked yet.", stands(desk, "chest_pain_now")) << "what is of a case does not come with it";
    ASSERT_TRUE(desk.answer_yes_no(fact("heart_attack"), false));
    EXPECT_EQ("No. The patient, Mon 7 Jun 2027, 09:00.", stands(desk, "heart_attack"));
    EXPECT_FALSE(question_about(desk, "heart_attack")->to_ask);
    EXPECT_EQ(left - 1, desk.sections().at(1).left);
}

/// What was answered and no longer applies stays with the case and is said.
TEST_F(Interview, SetsAsideAnAnswerWhoseStemIsTakenBackMeanwhile)
{
    const std::string id = begin_with_a_booking();
    Workplace& one = sit(nurse, id, 0);
    PhoneDesk first(one);
    ASSERT_TRUE(first.answer_yes_no(fact("coronary_stent"), true));
    Workplace& other = sit(second_nurse, id, 1);
    PhoneDesk second(other);
    ASSERT_TRUE(second.answer_yes_no(fact("coronary_stent"), false));
    ASSERT_TRUE(answer(first, "stent_date", "2026-11-03"));
    EXPECT_TRUE(done(one, {"does not apply to this patient any more", "set aside"}));
    EXPECT_FALSE(is_asked(first, "stent_date"));
    EXPECT_EQ("answer", last_entry(id).said.kind);
}

}  // namespace
}  // namespace foreday::tests
