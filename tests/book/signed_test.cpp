#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/playing.h"
#include "data/book/projecting.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_phone.h"
#include "data/book/verbs_unit.h"
#include "data/reading/yaml_text.h"
#include "screening/hold_plan.h"
#include "tests/book/desk.h"

/// What opens a signature again, and what does not.
namespace foreday::tests {
namespace {

using checklists::DecisionState;

/// Ids of the items whose decision was opened again.
std::vector<std::string> opened_again(const book::CaseNow& now)
{
    std::vector<std::string> ids;
    const auto items = checklists::all_items(now.whole.assessment);
    for (std::size_t place = 0; place < items.size(); ++place) {
        if (now.whole.decided[place].state == DecisionState::opened_again) {
            ids.push_back(items[place]->id);
        }
    }
    return ids;
}

struct Happening {
    const char* name;
    std::function<void(Desk&, const std::string& id)> happens;
};
void PrintTo(const Happening& happening, std::ostream* out)
{
    *out << happening.name;
}

/// Dabigatran with poor kidneys (42 mL/min) and a colleague's concern, both signed, cleared and told.
std::string signed_case(Desk& desk)
{
    const auto must_be_done = [](const auto& done) {
        if (!done) {
            throw std::runtime_error(book::in_words(done.error()));
        }
    };
    std::string id = desk.play_case("dabigatran_poor_kidneys.yaml");
    // A birthday tomorrow: 76 today, 77 on the day of the procedure.
    const book::PatientChanged born{.name = {},
                                    .number = {},
                                    .born = day("1950-04-13"),
                                    .sex = {},
                                    .phones = {},
                                    .words = "the passport says so"};
    if (const auto refused =
            book::change_patient(desk.book(), scheduler, desk.now(id).folded.patient_id, born)) {
        throw std::runtime_error(book::in_words(*refused));
    }
    must_be_done(
        book::raise_concern(desk.book(), nurse, desk.on(id),
                            {"the daughter sounds worried", screening::Level::ask, screening::Topic::heart}));
    must_be_done(desk.agree_to_all(id));
    must_be_done(book::tell(desk.book(), nurse, desk.on(id), book::sheet_hash(desk.now(id)), "by phone"));
    return id;
}

/// The laboratory letter of the day of signing.
book::Answered creatinine(std::string_view milligrams)
{
    auto result = said_number("creatinine", milligrams, "mg/dL creatinine");
    result.dated = day("2027-04-12");
    return result;
}

void move_session(Desk& desk, const std::string& id, const book::Rescheduled& change)
{
    const auto done = book::reschedule(desk.book(), scheduler, desk.on(id), change);
    ASSERT_TRUE(done) << book::in_words(done.error());
}

void answer(Desk& desk, const std::string& id, book::Answered said)
{
    said.strength = screening::Strength::dated_document;
    said.informant = screening::Informant::letter;
    const auto done = book::answer(desk.book(), nurse, desk.on(id), said);
    ASSERT_TRUE(done) << book::in_words(done.error());
}

class OpensNothing : public ::testing::TestWithParam<Happening> {};

TEST_P(OpensNothing, AfterSigningAndTelling)
{
    Desk desk;
    const std::string id = signed_case(desk);
    GetParam().happens(desk, id);
    const auto now = desk.now(id);
    EXPECT_THAT(opened_again(now), ::testing::IsEmpty());
    EXPECT_EQ(now.whole.clearance.given, checklists::ClearanceCheck::Given::stands)
        << now.whole.clearance.lapsed_because;
}

INSTANTIATE_TEST_SUITE_P(
    ASignature, OpensNothing,
    ::testing::Values(
        Happening{"midnight, and a birthday with it",
                  [](Desk& desk, const std::string& id) {
                      EXPECT_EQ(desk.now(id).record().booking.patient.born, day("1950-04-13"));
                      desk.set_clock("2027-04-13T09:15");
                  }},
        Happening{"creatinine moving within its band",  // 42 becomes 45 mL/min; the limit is 50
                  [](Desk& desk, const std::string& id) { answer(desk, id, creatinine("1.4")); }},
        Happening{"weight one kilogram below the limit of its band",  // 49.6 mL/min
                  [](Desk& desk, const std::string& id) {
                      answer(desk, id, said_number("weight", "85", "kg"));
                  }},
        Happening{"words for the patient put otherwise",
                  [](Desk& desk, const std::string& /*id*/) {
                      auto texts = demo_texts();
                      texts.protocol["preparations.yaml"] =
                          replaced(texts.protocol["preparations.yaml"], "quickly rather than in sips",
                                   "at once rather than in sips");
                      ASSERT_FALSE(book::put_in_force(desk.book(), director, texts));
                  }},
        Happening{"an answer to a policy question nothing here depends on",
                  [](Desk& desk, const std::string& /*id*/) {
                      ASSERT_FALSE(book::put_in_force(
                          desk.book(), director, demo_texts_with("answers: {}", "answers: {p2y12_days: {option: seven_for_all}}")));
                  }},
        Happening{"the last dose passing after it was told",
                  [](Desk& desk, const std::string& id) {
                      const auto last_dose = desk.now(id).whole.assessment.holds.at(0).plan.last_dose.value();
                      desk.set_clock(screening::moment_of_dose(last_dose, demo_rules().zone,
                                                               screening::DoseWithoutTime::end_of_day) +
                                     std::chrono::minutes{1});
                      book::ask_again_what_is_old(desk.book(), nurse, id);
                  }},
        Happening{"84.6 kg for 84.0 kg",
                  [](Desk& desk, const std::string& id) {
                      const auto reading = desk.reading(id, "weight");
                      const auto kilograms = std::get<screening::NumberInterval>(reading.values.at(0)).lowest;
                      const auto more = kilograms + screening::Exact{3} / screening::Exact{5};
                      answer(desk, id, said("weight", book::StatedNumber{more, more, "kg"}));
                  }},
        Happening{"a phone number",
                  [](Desk& desk, const std::string& id) {
                      ASSERT_FALSE(book::change_patient(desk.book(), scheduler,
                                                        desk.now(id).folded.patient_id,
                                                        {.name = {},
                                                         .number = {},
                                                         .born = {},
                                                         .sex = {},
                                                         .phones = {{"555-0123"}},
                                                         .words = ""}));
                  }},
        Happening{"the spelling of a name",
                  [](Desk& desk, const std::string& id) {
                      ASSERT_FALSE(book::change_patient(desk.book(), scheduler,
                                                        desk.now(id).folded.patient_id,
                                                        {.name = "Another Spelling",
                                                         .number = {},
                                                         .born = {},
                                                         .sex = {},
                                                         .phones = {},
                                                         .words = ""}));
                  }},
        Happening{"a title of a rule spelt otherwise",
                  [](Desk& desk, const std::string& /*id*/) {
                      auto texts = demo_texts();
                      texts.protocol["holds.yaml"] =
                          replaced(texts.protocol["holds.yaml"], "title: Warfarin goes on",
                                   "title: Warfarin just goes on");
                      ASSERT_FALSE(book::put_in_force(desk.book(), director, texts));
                  }},
        Happening{"a rule nothing here depends on, made stricter",
                  [](Desk& desk, const std::string& /*id*/) {
                      ASSERT_FALSE(book::put_in_force(
                          desk.book(), director,
                          demo_texts_with("bmi_ask: {value: 45 kg/m2}", "bmi_ask: {value: 44 kg/m2}")));
                  }},
        Happening{"an unrelated parameter of the unit",
                  [](Desk& desk, const std::string& /*id*/) {
                      ASSERT_FALSE(book::put_in_force(desk.book(), director,
                                                      demo_texts_with("usual_journey: {value: 45 minutes}",
                                                                      "usual_journey: {value: 50 minutes}")));
                  }},
        Happening{"the same protocol saved again",
                  [](Desk& desk, const std::string& /*id*/) {
                      auto texts = demo_texts();
                      texts.policy += "\n# looked through\n";
                      ASSERT_FALSE(book::put_in_force(desk.book(), director, texts));
                  }},
        Happening{"a note",
                  [](Desk& desk, const std::string& id) {
                      ASSERT_TRUE(book::note(desk.book(), nurse, desk.on(id), "rings back"));
                  }},
        Happening{"lists made again",
                  [](Desk& desk, const std::string& /*id*/) { EXPECT_EQ(book::rebuild(desk.book()), 1); }}));

struct Opening {
    const char* name;
    std::function<void(Desk&, const std::string& id)> happens;
    std::vector<std::string> opens;
};
void PrintTo(const Opening& opening, std::ostream* out)
{
    *out << opening.name;
}

class OpensWhatUsesIt : public ::testing::TestWithParam<Opening> {};

TEST_P(OpensWhatUsesIt, AndNoOther)
{
    Desk desk;
    const std::string id = signed_case(desk);
    GetParam().happens(desk, id);
    EXPECT_EQ(opened_again(desk.now(id)), GetParam().opens);
    EXPECT_EQ(desk.now(id).whole.clearance.given, checklists::ClearanceCheck::Given::lapsed);
}

INSTANTIATE_TEST_SUITE_P(
    ASignature, OpensWhatUsesIt,
    ::testing::Values(
        Opening{"creatinine across a limit",
                [](Desk& desk, const std::string& id) { answer(desk, id, creatinine("0.9")); },
                {"hold:m1"}},
        Opening{
            "weight across a limit",  // 50.2 mL/min
            [](Desk& desk, const std::string& id) { answer(desk, id, said_number("weight", "86", "kg")); },
            {"hold:m1"}},
        Opening{"another day",
                [](Desk& desk, const std::string& id) {
                    move_session(desk, id, {wall("2027-04-28T09:00"), {}, {}, "asked"});
                },
                {"hold:m1"}},
        Opening{"another hour of the same day, on which no day of the hold depends",
                [](Desk& desk, const std::string& id) {
                    move_session(desk, id, {wall("2027-04-26T11:00"), {}, {}, "asked"});
                },
                {}},
        Opening{"another procedure, of lower bleeding risk",
                [](Desk& desk, const std::string& id) {
                    move_session(desk, id, {{}, std::vector<std::string>{"upper_endoscopy"}, {}, "asked"});
                },
                {"hold:m1"}},
        Opening{"the policy question its rule answers to",
                [](Desk& desk, const std::string& /*id*/) {
                    ASSERT_FALSE(book::put_in_force(
                        desk.book(), director,
                        demo_texts_with("answers: {}",
                                        "answers: {dabigatran_at_50: {option: counts_as_reduced}}")));
                },
                {"hold:m1"}}));

TEST(OpensItsOwnItem, ANewMedicineAsksAnewAndLeavesWhatWasDecided)
{
    Desk desk;
    const std::string id = signed_case(desk);
    ASSERT_TRUE(book::add_medicine(desk.book(), nurse, desk.on(id), on_list("lisinopril")));
    const auto now = desk.now(id);
    EXPECT_EQ(now.whole.assessment.holds.size(), 2U);
    EXPECT_THAT(opened_again(now), ::testing::IsEmpty());
}

TEST(ChangedSinceSigned, SaysItItemByItem)
{
    Desk desk;
    const std::string id = signed_case(desk);
    for (const checklists::Change& change : book::changes_since_signed(desk.book(), desk.now(id))) {
        ADD_FAILURE() << name_of(change.kind) << ": " << change.words;
    }
    answer(desk, id, creatinine("0.9"));
    const auto changes = book::changes_since_signed(desk.book(), desk.now(id));
    ASSERT_FALSE(changes.empty());
    EXPECT_THAT(changes, ::testing::Contains(::testing::Field(&checklists::Change::item, "hold:m1")));
}

}  // namespace
}  // namespace foreday::tests
