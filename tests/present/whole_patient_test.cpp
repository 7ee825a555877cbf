#include <fmt/format.h>

#include <map>

#include "gui/present/review_desk.h"
#include "tests/present/arrival.h"
#include "tests/present/phone_call.h"

/// Three patients from the first call to the end, through what the desks show and do alone. Afterwards the
/// journal is compared with what had to be written, entry by entry.
namespace foreday::tests {
namespace {

using present::ArrivalDesk;
using present::PhoneDesk;
using present::QuestionView;
using present::ReviewDesk;
using present::Workplace;
using ::testing::ElementsAreArray;
using ::testing::IsEmpty;

/// Questions of the protocol asked of everybody who gets sedation, birth date and sex being the booking's.
constexpr int questions = 67;
constexpr int about_warfarin = 3;      ///< its reason, its target, heparin
constexpr int too_old_on_the_eve = 3;  ///< chest pain, the belly, a fever or cough: they count for seven days

std::string answers(int count)
{
    return fmt::format("answer x {}", count);
}

/// Kinds one after the other, those that follow each other counted: "answer x 66".
std::vector<std::string> counted(const std::vector<std::string>& kinds)
{
    std::vector<std::string> runs;
    for (std::size_t from = 0; from < kinds.size();) {
        std::size_t to = from;
        while (to < kinds.size() && kinds[to] == kinds[from]) {
            ++to;
        }
        runs.push_back(to - from == 1 ? kinds[from] : fmt::format("{} x {}", kinds[from], to - from));
        from = to;
    }
    return runs;
}

class WholePatient : public OnTheDay {
protected:
    using Said = std::map<std::string, std::string>;

    /// Goes through the call section by section until nothing is left to ask. What is not in `said` gets the
    /// harmless answer.
    static void go_through_the_questions(PhoneDesk& desk, const Workplace& place, const Said& said)
    {
        for (bool asked = true; asked;) {
            asked = false;
            for (const auto& section : desk.sections()) {
                for (const QuestionView& view : desk.questions(section.name)) {
                    if (view.to_ask) {
                        asked = true;
                        ASSERT_TRUE(answer(desk, view, said)) << view.words << ": " << place.notice().words;
                    }
                }
            }
        }
    }

    static bool answer(PhoneDesk& desk, const QuestionView& view, const Said& said)
    {
        const auto& asked = demo_rules().protocol.facts.at(view.fact);
        const auto typed = said.find(asked.id);
        if (typed != said.end()) {
            return desk.answer_typed(view.fact, typed->second);
        }
        switch (view.control) {
            case QuestionView::Control::yes_no:
                return desk.answer_yes_no(view.fact, asked.danger.kind == screening::Danger::Kind::no);
            case QuestionView::Control::choice:
                return desk.answer_choice(view.fact, asked.danger.order.front());
            case QuestionView::Control::typed:
                break;
        }
        return false;
    }

    static Said harmless()
    {
        return {{"diagnostic_only", "no"}, {"sedation_planned", "yes"}, {"weight", "70"},
                {"height", "5 ft 7 in"},   {"creatinine", "0.9"},       {"laboratory_egfr", "90"},
                {"journey_minutes", "30"}};
    }

    static void take_in(const std::string& id, const std::string& inr)
    {
        set_clock("2027-06-17T09:00");
        Workplace& clerks = sit(clerk, id, 1);
        ASSERT_TRUE(ArrivalDesk(clerks).receive()) << clerks.notice().words;
        Workplace& place = sit(nurse, id);
        ArrivalDesk desk(place);
        show_everything(desk, inr);
        ASSERT_TRUE(desk.record_intake({0, "06:30", "last glass of the preparation"}));
        ASSERT_TRUE(desk.record_intake({1, "2027-06-16 12:30", "toast"}));
        ASSERT_TRUE(desk.record_nothing_else());
        for (const auto& [medicine, name] : desk.medicines()) {
            ASSERT_TRUE(desk.record_dose_taken(medicine, "2027-06-11 18:00")) << place.notice().words;
        }
    }

    /// What has aged since the first call, on the afternoon before.
    static void ring_once_more(const std::string& id)
    {
        set_clock("2027-06-16T15:00");
        Workplace& place = sit(nurse, id);
        PhoneDesk desk(place);
        go_through_the_questions(desk, place, harmless());
    }

    static void tell(PhoneDesk& desk, const Workplace& place)
    {
        EXPECT_FALSE(desk.sheet_is_draft());
        ASSERT_TRUE(desk.tell()) << place.notice().words;
        ASSERT_TRUE(desk.record_said_back()) << place.notice().words;
    }

    static void end_well(const std::string& id)
    {
        Workplace& place = sit(nurse, id);
        ArrivalDesk desk(place);
        ASSERT_EQ("May go in", desk.verdict().words) << ::testing::PrintToString(desk.verdict().reasons);
        ASSERT_TRUE(desk.go_in()) << place.notice().words;
        set_clock("2027-06-17T11:00");
        person().will({Writes{"10:40"}, Picks{"Removal of polyps"}, Picks{"nothing else"}, Writes{"clean"}});
        ASSERT_TRUE(desk.record_what_was_done()) << place.notice().words;
        ASSERT_TRUE(desk.record_preparation_quality());
    }

    static void close(const std::string& id)
    {
        Workplace& place = sit(nurse, id);
        person().will({LeavesAsItStands{}});
        ASSERT_TRUE(ArrivalDesk(place).close()) << place.notice().words;
        EXPECT_EQ("The case is closed", ArrivalDesk(place).verdict().words);
    }

    /// The first call to somebody on warfarin for atrial fibrillation, up to the hand-over.
    std::string begin_with_warfarin()
    {
        std::string id = begin_with_a_booking();
        Workplace& place = sit(nurse, id);
        PhoneDesk desk(place);
        present::MedicineForm warfarin = daily("warfarin");
        warfarin.dose = "4 mg";
        warfarin.times = "18:00";
        warfarin.last_dose = "2027-06-06 18:00";
        EXPECT_TRUE(desk.add_medicine(warfarin));
        Said said = harmless();
        said["atrial_fibrillation"] = "yes";
        go_through_the_questions(desk, place, said);
        mark_every_list_question(desk);
        EXPECT_TRUE(desk.close_list());
        EXPECT_FALSE(desk.clear()) << "that is the physician's";
        person().will({Picks{"review desk"}});
        EXPECT_TRUE(desk.hand_to_review());
        return id;
    }

    static void sign_all_and_tell(const std::string& id)
    {
        Workplace& review = sit(physician, id, 1);
        ReviewDesk desk(review);
        for (const auto& view : desk.to_decide()) {
            ASSERT_TRUE(view.mine) << view.title;
            ASSERT_TRUE(desk.agree(view.id));
        }
        ASSERT_TRUE(desk.sign_and_clear()) << review.notice().words;
        Workplace& place = sit(nurse, id);
        PhoneDesk phone(place);
        EXPECT_TRUE(says(phone.sheet(), "Fri 11 Jun 2027"));
        tell(phone, place);
    }

    static void decide_and_tell_restart(const std::string& id)
    {
        Workplace& review = sit(physician, id, 1);
        person(1).will({Writes{"the usual dose this evening"}, Writes{"2027-06-17"}});
        ASSERT_TRUE(ReviewDesk(review).decide_restart("hold:m1")) << review.notice().words;
        Workplace& place = sit(nurse, id);
        ASSERT_TRUE(ArrivalDesk(place).tell_restart()) << place.notice().words;
    }
};

TEST_F(WholePatient, OfWhomNothingIsAskedGoesInWithoutAPhysiciansWord)
{
    const std::string id = begin_with_a_booking();
    set_clock("2027-06-11T09:00");
    Workplace& place = sit(nurse, id);
    PhoneDesk desk(place);
    ASSERT_TRUE(desk.record_try(checklists::TryOutcome::reached));
    go_through_the_questions(desk, place, harmless());
    mark_every_list_question(desk);
    ASSERT_TRUE(desk.close_list());
    ASSERT_TRUE(desk.clear()) << place.notice().words;
    tell(desk, place);
    EXPECT_THAT(desk.calls(), IsEmpty());
    take_in(id, "");
    end_well(id);
    close(id);
    EXPECT_THAT(counted(kinds_of(id)), ElementsAreArray(std::vector<std::string>{
                                           "booking made",
                                           "try",
                                           answers(questions),
                                           "list closed",
                                           "clearance given",
                                           "told",
                                           "said back",
                                           "arrival",
                                           "readiness item confirmed x 9",
                                           "measure x 5",
                                           "intake x 2",
                                           "nothing else taken",
                                           "gone in",
                                           "what was done",
                                           "preparation quality",
                                           "closed",
                                       }));
}

TEST_F(WholePatient, OnWarfarinGoesInAfterAPhysicianHasSigned)
{
    const std::string id = begin_with_warfarin();
    sign_all_and_tell(id);
    ring_once_more(id);
    take_in(id, "1.2");
    end_well(id);
    decide_and_tell_restart(id);
    close(id);
    EXPECT_THAT(counted(kinds_of(id)), ElementsAreArray(std::vector<std::string>{
                                           "booking made",
                                           "medicine added",
                                           answers(questions + about_warfarin),
                                           "list closed",
                                           "handed over",
                                           "decision signed",
                                           "clearance given",
                                           "told",
                                           "said back",
                                           answers(too_old_on_the_eve),
                                           "arrival",
                                           "readiness item confirmed x 9",
                                           "measure x 6",
                                           "intake x 2",
                                           "nothing else taken",
                                           "dose really taken",
                                           "gone in",
                                           "what was done",
                                           "preparation quality",
                                           "restart decided",
                                           "restart told",
                                           "closed",
                                       }));
}

TEST_F(WholePatient, WithTooHighAnInrIsSentHomeAndToldWhatToStartAgain)
{
    const std::string id = begin_with_warfarin();
    sign_all_and_tell(id);
    ring_once_more(id);
    take_in(id, "1.7");
    Workplace& place = sit(nurse, id);
    ArrivalDesk desk(place);
    EXPECT_EQ("Not ready", desk.verdict().words);
    EXPECT_FALSE(desk.go_in());
    EXPECT_TRUE(refused(place, {"INR below the limit: 1.7, must be below 1.5"}));
    person().will({Picks{"Teodor"}, LeavesAsItStands{}});
    ASSERT_TRUE(desk.escalate("inr_below_limit"));
    Workplace& review = sit(physician, id, 1);
    person(1).will({Writes{"the INR is too high to remove anything"}});
    ASSERT_TRUE(ArrivalDesk(review).not_today()) << review.notice().words;
    decide_and_tell_restart(id);
    EXPECT_EQ("Not today", ArrivalDesk(sit(nurse, id)).verdict().words);
    close(id);
    EXPECT_THAT(counted(kinds_of(id)), ElementsAreArray(std::vector<std::string>{
                                           "booking made",
                                           "medicine added",
                                           answers(questions + about_warfarin),
                                           "list closed",
                                           "handed over",
                                           "decision signed",
                                           "clearance given",
                                           "told",
                                           "said back",
                                           answers(too_old_on_the_eve),
                                           "arrival",
                                           "readiness item confirmed x 9",
                                           "measure x 6",
                                           "intake x 2",
                                           "nothing else taken",
                                           "dose really taken",
                                           "escalated",
                                           "not today",
                                           "restart decided",
                                           "restart told",
                                           "closed",
                                       }));
}

}  // namespace
}  // namespace foreday::tests
