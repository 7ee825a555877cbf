#include "screening/medicine.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;

// --- the list of medicines

TEST(MedicineListIsClosedOnlyByAnAnswer, EmptyAndNotClosedIsOpen)
{
    TinyCase tiny;
    const Judged judged = tiny.judge(tiny.takes({"anticoagulant"}));
    EXPECT_EQ(judged.truth, Truth::open);
    EXPECT_THAT(names_of(judged.open_on), ElementsAre("medicine list: list not closed"));
}

TEST(MedicineListIsClosedOnlyByAnAnswer, EmptyAndClosedIsFalse)
{
    TinyCase tiny;
    tiny.close_list();
    const Judged judged = tiny.judge(tiny.takes({"anticoagulant"}));
    EXPECT_EQ(judged.truth, Truth::no);
    ASSERT_EQ(judged.because.size(), 1U);
    EXPECT_EQ(judged.because.front().what, "medicine list");
    EXPECT_EQ(judged.because.front().who, "Robin Example");
}

TEST(MedicineListIsClosedOnlyByAnAnswer, OneOfTheClassOnItIsTrueClosedOrNot)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"apixaban"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"nsaid"})), Truth::open);
    EXPECT_EQ(tiny.truth(tiny.takes({"warfarin"})), Truth::open);
    tiny.close_list();
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"nsaid"})), Truth::no);
    EXPECT_EQ(tiny.truth(tiny.takes({"warfarin"})), Truth::no);
    EXPECT_EQ(tiny.truth(tiny.takes({"nsaid", "apixaban"})), Truth::yes);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, ACombinationCountsForEachOfItsClasses)
{
    TinyCase tiny;
    tiny.take("m1", "pen");
    EXPECT_EQ(tiny.truth(tiny.takes({"glp1"})), Truth::yes);
    EXPECT_EQ(tiny.truth(tiny.takes({"insulin"})), Truth::yes);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, AnUnrecognisedEntryReadsAsAbsentOnAClosedList)
{
    TinyCase tiny;
    tiny.take("m1", "");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::open);
    tiny.close_list();
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no) << "it has a finding of its own";
    EXPECT_EQ(tiny.truth(leaf(RecordHas{RecordHas::What::unrecognised_medicine})), Truth::yes);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, AnImportThatAddsToItReopensIt)
{
    TinyCase tiny;
    tiny.close_list("2027-06-01T10:00");
    MedicineItem& imported = tiny.take("m1", "ibuprofen");
    imported.origin = Origin::import;
    imported.at = utc("2027-06-01T10:00");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no)
        << "it was there when the list was closed";
    imported.at = utc("2027-06-01T10:01");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::open);
    tiny.close_list("2027-06-01T11:00");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no) << "closed again in view of the import";
}

TEST(MedicineListIsClosedOnlyByAnAnswer, ALaterMedicineOfThePatientsOwnReopensNothing)
{
    TinyCase tiny;
    tiny.close_list("2027-06-01T10:00");
    tiny.take("m1", "ibuprofen").at = utc("2027-06-01T11:00");
    EXPECT_EQ(tiny.truth(tiny.takes({"anticoagulant"})), Truth::no);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, OlderThanAllowedIsOpenAgain)
{
    TinyCase tiny;
    tiny.set_parameter("list_closed_days", Exact{14});
    tiny.close_list("2027-06-01T12:00");
    const auto at = [&](std::string_view moment) {
        tiny.now = utc(moment);
        return tiny.truth(tiny.takes({"anticoagulant"}));
    };
    EXPECT_EQ(at("2027-06-15T11:59"), Truth::no);
    EXPECT_EQ(at("2027-06-15T12:00"), Truth::no);
    EXPECT_EQ(at("2027-06-15T12:01"), Truth::open);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, AnImportedMedicineWarnsAndNeverReassures)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban").origin = Origin::import;
    tiny.close_list();
    const Judged takes = tiny.judge(tiny.takes({"anticoagulant"}));
    EXPECT_EQ(takes.truth, Truth::yes);
    EXPECT_TRUE(takes.on_unconfirmed);
    EXPECT_THAT(names_of(takes.open_on), ElementsAre("medicine m1: unconfirmed"));
    EXPECT_EQ(tiny.truth(negated(tiny.takes({"anticoagulant"}))), Truth::open);
}

TEST(MedicineListIsClosedOnlyByAnAnswer, TellsWhyItIsNotClosed)
{
    MedicineList list;
    const date::days thirty{30};
    EXPECT_EQ(list_state(list, utc("2027-06-01T12:00"), thirty), ListState::never_closed);
    list.closed = MedicineList::Closing{"Robin Example", utc("2027-06-01T12:00")};
    EXPECT_EQ(list_state(list, utc("2027-06-01T12:00"), thirty), ListState::closed);
    EXPECT_EQ(list_state(list, utc("2027-07-01T12:01"), thirty), ListState::older_than_allowed);
    MedicineItem imported;
    imported.origin = Origin::import;
    imported.at = utc("2027-06-02T12:00");
    list.items.push_back(imported);
    EXPECT_EQ(list_state(list, utc("2027-06-02T12:00"), thirty), ListState::reopened_by_import);
}

}  // namespace
}  // namespace foreday::screening
