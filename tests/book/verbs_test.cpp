#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/codec.h"
#include "data/book/playing.h"
#include "data/book/projecting.h"
#include "data/book/verbs_booking.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_phone.h"
#include "data/book/verbs_unit.h"
#include "data/store/verify.h"
#include "tests/book/desk.h"

namespace foreday::tests {
namespace {

using book::Refusal;
using book::Verb;
using screening::Role;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::SizeIs;

TEST(WhoMayDoWhat, AClerkRecordsNoAnswerAndTakesNoMeasure)
{
    EXPECT_FALSE(book::may(Role::arrival_clerk, Verb::answer));
    EXPECT_FALSE(book::may(Role::arrival_clerk, Verb::take_measure));
    EXPECT_FALSE(book::may(Role::arrival_clerk, Verb::record_intake));
    EXPECT_TRUE(book::may(Role::arrival_clerk, Verb::arrive));
    EXPECT_TRUE(book::may(Role::arrival_clerk, Verb::confirm_item));
}

TEST(WhoMayDoWhat, OnlyCliniciansOfTheUnitSign)
{
    EXPECT_EQ(book::roles_that_may(Verb::decide),
              (std::vector{Role::endoscopist, Role::anaesthesia, Role::medical_director}));
    EXPECT_EQ(book::roles_that_may(Verb::let_pass), book::roles_that_may(Verb::decide));
    EXPECT_EQ(book::roles_that_may(Verb::record_spoken_decision), std::vector{Role::nurse});
}

TEST(WhoMayDoWhat, AnAuditorAndThoseOutsideWriteNothing)
{
    for (const Role role : {Role::auditor, Role::prescriber, Role::cardiology, Role::haematology,
                            Role::diabetes, Role::kidney, Role::obstetrics}) {
        for (const Verb verb : book::all_verbs()) {
            EXPECT_FALSE(book::may(role, verb)) << screening::name_of(role) << ": " << book::name_of(verb);
        }
    }
}

TEST(WhoMayDoWhat, EveryVerbHasSomebodyAndANameOfItsOwn)
{
    std::set<std::string_view> names;
    for (const Verb verb : book::all_verbs()) {
        EXPECT_THAT(book::roles_that_may(verb), ::testing::Not(IsEmpty())) << book::name_of(verb);
        EXPECT_TRUE(names.insert(book::name_of(verb)).second) << book::name_of(verb);
    }
    EXPECT_EQ(static_cast<std::size_t>(Verb::hand_over) + 1, names.size());
}

TEST(WhoMayDoWhat, ARefusedRoleIsToldWhoMayAndNothingIsWritten)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const auto before = desk.book().store().head(store::Chain::journal);
    const auto refused = book::answer(desk.book(), clerk, desk.on(id), weight("81"));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().why, Refusal::Why::role_may_not);
    EXPECT_THAT(book::in_words(refused.error()), HasSubstr("nurse"));
    EXPECT_EQ(desk.book().store().head(store::Chain::journal), before);
}

TEST(PuttingInForce, TheSameProtocolSavedAgainWritesNothing)
{
    Desk desk;
    const auto before = desk.book().store().head(store::Chain::journal);
    const book::UnitTexts texts{data::protocol_texts(FOREDAY_SOURCE_DATA_DIR "/protocol").value(),
                                *desk.book().store().document(
                                    std::get<book::PolicyInForce>(
                                        book::read_entry(desk.book().store().entries_of("").back())->content)
                                        .document)};
    EXPECT_FALSE(book::put_in_force(desk.book(), director, texts));
    EXPECT_EQ(desk.book().store().head(store::Chain::journal), before);
}

TEST(PuttingInForce, APolicyWithAFaultIsRefusedWithItsPlace)
{
    Desk desk;
    const auto refused =
        book::put_in_force(desk.book(), director,
                           {data::protocol_texts(FOREDAY_SOURCE_DATA_DIR "/protocol").value(),
                            "unit: Larkmoor\nzone: Nowhere/Land\nzone: x\n"});
    ASSERT_TRUE(refused);
    EXPECT_EQ(refused->why, Refusal::Why::malformed);
    EXPECT_THAT(refused->changes, Contains(HasSubstr("unit policy:3")));
}

TEST(PuttingInForce, ANurseDoesNot)
{
    Desk desk;
    const auto refused = book::put_in_force(desk.book(), nurse, {{}, ""});
    ASSERT_TRUE(refused);
}

TEST(Bookings, TheBookGivesNumbersOfItsOwn)
{
    Desk desk;
    const book::PatientMade patient{"Invented Person", "", day("1961-03-02"), "female", {"555-0100"}};
    const auto id = book::make_patient(desk.book(), scheduler, patient);
    ASSERT_TRUE(id);
    const auto booked = book::make_booking(
        desk.book(), scheduler, {*id, {"colonoscopy"}, wall("2027-06-17T10:00"), {"peg_els_4l_split", ""}});
    ASSERT_TRUE(booked) << book::in_words(booked.error());
    EXPECT_EQ(desk.now(booked->id()).record().booking.patient.name, "Invented Person");
    EXPECT_NE(booked->id(), *id);
}

TEST(Bookings, AProcedureNobodyKnowsIsRefusedAndLeavesNoCase)
{
    Desk desk;
    const auto id =
        book::make_patient(desk.book(), scheduler, {"Invented Person", "", day("1961-03-02"), "", {}});
    const auto refused = book::make_booking(desk.book(), scheduler,
                                            {*id, {"no_such_thing"}, wall("2027-06-17T10:00"), {}}, "LK-1");
    ASSERT_FALSE(refused);
    EXPECT_THAT(desk.book().store().entries_of("LK-1"), IsEmpty());
}

TEST(Bookings, TheLastDayIsTheLastOf2037)
{
    Desk desk;
    const auto id =
        book::make_patient(desk.book(), scheduler, {"Invented Person", "", day("1961-03-02"), "", {}});
    const auto last = book::make_booking(
        desk.book(), scheduler,
        {*id, {"colonoscopy"}, {day("2037-12-31") + std::chrono::hours{9}, std::chrono::minutes{-300}}, {}});
    EXPECT_TRUE(last) << book::in_words(last.error());
    const auto beyond = book::make_booking(
        desk.book(), scheduler,
        {*id, {"colonoscopy"}, {day("2038-01-01") + std::chrono::hours{0}, std::chrono::minutes{-300}}, {}});
    ASSERT_FALSE(beyond);
    EXPECT_THAT(beyond.error().would_be_right, HasSubstr("2038"));
}

TEST(Bookings, WhatIsKnownOfThePersonComesWithTheNextCaseUnconfirmed)
{
    Desk desk;
    const std::string first = desk.play_case("warfarin_mechanical_valve.yaml");
    const std::string patient = desk.now(first).folded.patient_id;
    const auto next =
        book::make_booking(desk.book(), scheduler,
                           {patient, {"colonoscopy"}, wall("2027-09-17T10:00"), {"peg_els_4l_split", ""}});
    ASSERT_TRUE(next) << book::in_words(next.error());
    const auto valve = desk.reading(next->id(), "mechanical_valve");
    EXPECT_EQ(valve.state, screening::FactState::known);
    EXPECT_FALSE(valve.confirmed);
}

TEST(Bookings, NobodyMovesACaseThatHasGoneIn)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_everything_right.yaml");
    book::ask_again_what_is_old(desk.book(), nurse, id);
    const auto gone_in = book::go_in(desk.book(), nurse, desk.on(id));
    ASSERT_TRUE(gone_in) << book::in_words(gone_in.error());
    EXPECT_FALSE(
        book::reschedule(desk.book(), scheduler, desk.on(id), {wall("2027-06-18T10:00"), {}, {}, "asked"}));
    EXPECT_FALSE(book::call_off(desk.book(), scheduler, desk.on(id), "asked"));
}

TEST(TheList, ADoubledIngredientIsPointedOutAndNotFused)
{
    Desk desk;
    const std::string id = desk.play_case("warfarin_no_valve.yaml");
    const auto before = desk.now(id).record().medicines.items.size();
    const auto added = book::add_medicine(desk.book(), nurse, desk.on(id), on_list("warfarin"));
    ASSERT_TRUE(added) << book::in_words(added.error());
    EXPECT_THAT(added->remarks, Contains(HasSubstr("warfarin is on the list twice")));
    EXPECT_THAT(added->record().medicines.items, SizeIs(before + 1));
}

TEST(TheList, AMedicineTheProtocolDoesNotHaveIsRefusedAndWordsAsHeardAreNot)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    EXPECT_FALSE(book::add_medicine(desk.book(), nurse, desk.on(id), on_list("no_such_medicine")));
    EXPECT_FALSE(book::add_medicine(desk.book(), nurse, desk.on(id), {}));
    book::StatedMedicine heard;
    heard.heard = "the small yellow one";
    EXPECT_TRUE(book::add_medicine(desk.book(), nurse, desk.on(id), heard));
}

TEST(Answers, ANumberThatCannotBeRightIsRefusedAtItsLimits)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const auto& range = demo_rules().protocol.facts.at(fact("weight")).plausible;
    const auto answered = [&](const screening::Exact& kilograms) {
        return book::answer(desk.book(), nurse, desk.on(id),
                            said("weight", book::StatedNumber{kilograms, kilograms, "kg"}));
    };
    const screening::Exact a_gram = screening::Exact{1} / screening::Exact{1000};
    EXPECT_FALSE(answered(range.lowest - a_gram));
    EXPECT_TRUE(answered(range.lowest));
    EXPECT_TRUE(answered(range.highest));
    EXPECT_FALSE(answered(range.highest + a_gram));
}

TEST(Answers, TextThatIsNotUtf8IsRefusedAndNothingIsWritten)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const auto before = desk.book().store().head(store::Chain::journal);
    const auto refused = book::note(desk.book(), nurse, desk.on(id), "\xff\xfe");
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().why, Refusal::Why::malformed);
    EXPECT_EQ(desk.book().store().head(store::Chain::journal), before);
}

TEST(Striking, HidesTheAnswerAndKeepsItsEntry)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const auto answered = book::answer(desk.book(), nurse, desk.on(id), weight("99"));
    ASSERT_TRUE(answered);
    const std::int64_t entry = answered->folded.answer_entries.at(fact("weight")).back();
    const auto struck =
        book::strike(desk.book(), second_nurse, desk.on(id), {entry, "typed into the wrong case"});
    ASSERT_TRUE(struck) << book::in_words(struck.error());
    EXPECT_THAT(struck->folded.struck, Contains(entry));
    EXPECT_THAT(struck->folded.answer_entries.at(fact("weight")), ::testing::Not(Contains(entry)));
    EXPECT_FALSE(book::strike(desk.book(), nurse, desk.on(id), {entry, "once more"}));
}

TEST(Striking, AClinicianSDecisionIsStruckByNobodyElse)
{
    Desk desk;
    const std::string id = desk.play_case("warfarin_no_valve.yaml");
    const auto signed_case = desk.agree_to_all(id);
    ASSERT_TRUE(signed_case) << book::in_words(signed_case.error());
    const std::int64_t entry = signed_case->folded.decision_entries.front();
    const auto refused = book::strike(desk.book(), nurse, desk.on(id), {entry, "a slip"});
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().why, Refusal::Why::role_may_not);
    EXPECT_TRUE(book::strike(desk.book(), physician, desk.on(id), {entry, "a slip"}));
}

TEST(Clearing, ANurseClearsWhereNothingAsksAndNotWhereSomethingDid)
{
    Desk desk;
    const std::string healthy = desk.play_case("nothing_to_ask.yaml");
    const auto cleared =
        book::clear(desk.book(), nurse, desk.on(healthy), book::shown_items(desk.now(healthy)));
    ASSERT_TRUE(cleared) << book::in_words(cleared.error());
    EXPECT_EQ(cleared->whole.clearance.given, checklists::ClearanceCheck::Given::stands);

    const std::string asks = desk.play_case("warfarin_no_valve.yaml");
    const auto refused = book::clear(desk.book(), nurse, desk.on(asks), book::shown_items(desk.now(asks)));
    ASSERT_FALSE(refused);
    EXPECT_EQ(refused.error().why, Refusal::Why::not_possible);
    book::SignedPage decided = desk.page_of(asks);
    decided.clears = false;
    ASSERT_TRUE(book::sign(desk.book(), physician, desk.on(asks), decided));
    const auto afterwards = book::clear(desk.book(), nurse, desk.on(asks), book::shown_items(desk.now(asks)));
    ASSERT_FALSE(afterwards);
    EXPECT_EQ(afterwards.error().why, Refusal::Why::role_may_not);
}

TEST(Clearing, WithSomethingUndecidedIsRefusedWithWhatItLacks)
{
    Desk desk;
    const std::string id = desk.play_case("warfarin_mechanical_valve.yaml");
    const auto refused = book::clear(desk.book(), physician, desk.on(id), book::shown_items(desk.now(id)));
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().changes, ::testing::Not(IsEmpty()));
}

/// The review desk's list holds the case for what was said and is to be signed.
bool waits_for_a_signature(const book::Book& book, const std::string& id)
{
    for (const store::CaseProjection& row : book.store().undecided()) {
        for (const store::ProjectedItem& item : row.undecided) {
            if (row.case_id == id && item.id == "signature:" + physician.who) {
                return true;
            }
        }
    }
    return false;
}

TEST(SpokenDecisions, TakeEffectAtOnceAndWaitForThatClinician)
{
    Desk desk;
    const std::string id = desk.play_case("warfarin_no_valve.yaml");
    const auto page = desk.page_of(id);
    ASSERT_THAT(page.decided, ::testing::Not(IsEmpty()));
    book::DecisionSpoken spoken{page.decided.front(),     {},         physician.who, physician.role,
                                wall("2027-04-08T11:05"), "by phone", false};
    EXPECT_FALSE(book::record_spoken_decision(desk.book(), nurse, desk.on(id), spoken)) << "not read back";
    spoken.read_back = true;
    const auto recorded = book::record_spoken_decision(desk.book(), nurse, desk.on(id), spoken);
    ASSERT_TRUE(recorded) << book::in_words(recorded.error());
    EXPECT_TRUE(waits_for_a_signature(desk.book(), id));
    const std::int64_t entry = recorded->folded.decision_entries.back();
    EXPECT_FALSE(book::countersign(desk.book(), director, desk.on(id), entry)) << "somebody else spoke it";
    const auto done = book::countersign(desk.book(), physician, desk.on(id), entry);
    ASSERT_TRUE(done) << book::in_words(done.error());
    EXPECT_EQ(done->record().decisions.back().manner, screening::DecisionManner::is_signed);
    EXPECT_FALSE(waits_for_a_signature(desk.book(), id));
}

TEST(TheDay, NobodyArrivesOnAnotherDayOrTwice)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    desk.set_clock("2027-04-12T23:59");
    EXPECT_FALSE(book::arrive(desk.book(), clerk, desk.on(id)));
    desk.set_clock("2027-04-13T08:00");
    EXPECT_TRUE(book::arrive(desk.book(), clerk, desk.on(id)));
    EXPECT_FALSE(book::arrive(desk.book(), clerk, desk.on(id)));
}

TEST(TheDay, WhoIsNotReadyDoesNotGoInAndIsToldWhy)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_inr_1_7.yaml");
    const auto refused = book::go_in(desk.book(), nurse, desk.on(id));
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().changes, Contains(HasSubstr("INR")));
}

TEST(TheDay, ACaseIsClosedOnlyAfterTheRestartIsDecidedAndTold)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_everything_right.yaml");
    book::ask_again_what_is_old(desk.book(), nurse, id);
    const auto gone_in = book::go_in(desk.book(), nurse, desk.on(id));
    ASSERT_TRUE(gone_in) << book::in_words(gone_in.error());
    desk.set_clock("2027-06-15T10:30");
    EXPECT_FALSE(book::close(desk.book(), nurse, desk.on(id), "done"));
    ASSERT_TRUE(book::record_what_was_done(desk.book(), nurse, desk.on(id),
                                           {wall("2027-06-15T10:05"), {"colonoscopy"}, ""}));
    EXPECT_FALSE(book::close(desk.book(), nurse, desk.on(id), "done"));
    EXPECT_FALSE(
        book::decide_restart(desk.book(), physician, desk.on(id), {"hold:m1", "", day("2027-06-14")}))
        << "passed";
    ASSERT_TRUE(
        book::decide_restart(desk.book(), physician, desk.on(id), {"hold:m1", "", day("2027-06-15")}));
    EXPECT_FALSE(book::close(desk.book(), nurse, desk.on(id), "done"));
    ASSERT_TRUE(book::tell_restart(desk.book(), nurse, desk.on(id), {{"hold:m1"}, ""}));
    const auto closed = book::close(desk.book(), nurse, desk.on(id), "done");
    EXPECT_TRUE(closed) << book::in_words(closed.error());
}

TEST(TheDay, AnItemIsLetPassOnlyByARoleItNamesAndAsShown)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_inr_1_7.yaml");
    const auto& items = desk.now(id).whole.readiness.items;
    const auto open =
        std::ranges::find(items, checklists::ReadinessState::not_met, &checklists::ReadinessItem::state);
    ASSERT_NE(open, items.end());
    EXPECT_FALSE(book::let_pass(desk.book(), nurse, desk.on(id), open->id, "fine", open->why));
    EXPECT_FALSE(
        book::let_pass(desk.book(), physician, desk.on(id), open->id, "fine", "as shown an hour ago"));
    EXPECT_FALSE(book::let_pass(desk.book(), physician, desk.on(id), open->id, " ", open->why));
    const auto passed =
        book::let_pass(desk.book(), physician, desk.on(id), open->id, "no biopsies today", open->why);
    EXPECT_TRUE(passed) << book::in_words(passed.error());
}

TEST(Lists, RebuiltOnesEqualThoseThatWereKept)
{
    Desk desk;
    const std::vector<std::string> cases{desk.play_case("nothing_to_ask.yaml"),
                                         desk.play_case("recent_stent.yaml"),
                                         desk.play_case("unknown_medicine.yaml")};
    const auto at_one_time = [&] {
        std::vector<store::CaseProjection> rows;
        for (const std::string& id : cases) {
            rows.push_back(*desk.book().store().projection(id));
        }
        return rows;
    };
    desk.set_clock("2027-05-20T09:00");
    while (book::look_again(desk.book(), "a program", 100) > 0) {
    }
    const auto kept = at_one_time();
    EXPECT_EQ(book::rebuild(desk.book()), 3);
    EXPECT_EQ(at_one_time(), kept);
}

TEST(Lists, AreSearchedByNameNumberPhoneAndBirthDate)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const std::string patient = desk.now(id).folded.patient_id;
    ASSERT_FALSE(book::change_patient(desk.book(), scheduler, patient,
                                      {.name = "Mårit Łoldenshaw",
                                       .number = {},
                                       .born = {},
                                       .sex = {},
                                       .phones = {{"555 0199"}},
                                       .words = "spelling"}));
    const auto finds = [&](const std::string& text) {
        return desk.book()
            .store()
            .search(book::search_words_of(text), std::nullopt, day("2027-04-13"), 10)
            .size();
    };
    EXPECT_EQ(finds("lolden"), 1U);
    EXPECT_EQ(finds("MARIT l"), 1U);
    EXPECT_EQ(finds("lk-0401"), 1U);
    EXPECT_EQ(finds("P-0401"), 1U);
    EXPECT_EQ(finds("5550199"), 1U);
    EXPECT_EQ(finds("nobody"), 0U);
    EXPECT_EQ(desk.book().store().search({}, day("1968-05-14"), day("2027-04-13"), 10).size(), 1U);
}

TEST(Documents, EveryOneAnEntryNamesIsKeptAndTheBookIsSound)
{
    Desk desk;
    const std::string id = desk.play_case("arriving_with_everything_right.yaml");
    EXPECT_THAT(store::verify(desk.book().store(), {}, book::documents_named).damages, IsEmpty());
    std::size_t named = 0;
    for (const auto& entry : desk.book().store().entries_of(id)) {
        named += book::documents_named(entry).size();
    }
    EXPECT_GE(named, 4U);  // page and assessment of the decision and of the clearance
}

}  // namespace
}  // namespace foreday::tests
