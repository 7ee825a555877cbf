#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "screening/hold_planner.h"
#include "tests/screening/hold_cases.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Not;

using enum HoldAction;

// --- too late

void tell(TinyCase& tiny, std::string_view when, std::optional<Date> last_dose)
{
    tiny.record.told.push_back({"hold:m1", utc(when), last_dose});
}

TEST(TooLate, JustBeforeAtAndJustAfterTheFirstDoseThatShouldBeLeftOut)
{
    EXPECT_THAT(apixaban_two_days("2027-06-15T07:59").hold().warnings, Not(Contains(HoldWarning::too_late)));
    EXPECT_THAT(apixaban_two_days("2027-06-15T08:00").hold().warnings, Contains(HoldWarning::too_late));
    EXPECT_THAT(apixaban_two_days("2027-06-15T08:01").hold().warnings, Contains(HoldWarning::too_late));
}

TEST(TooLate, MakesAnUnmarkedMedicineAnAsk)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-15T07:59");
    EXPECT_EQ(tiny.hold().item.level, Level::act);
    tiny.now = utc("2027-06-15T08:00");
    EXPECT_EQ(tiny.hold().item.level, Level::ask);
}

TEST(TooLate, ToldInTimeIsNotTooLateForEver)
{
    TinyCase tiny = apixaban_two_days("2027-06-16T12:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
    tell(tiny, "2027-06-15T07:59", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(TooLate, ToldTooLateStaysTooLate)
{
    TinyCase tiny = apixaban_two_days("2027-06-16T12:00");
    tell(tiny, "2027-06-15T08:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
}

TEST(TooLate, WhoHasStoppedByHimselfIsInTime)
{
    TinyCase tiny = apixaban_two_days("2027-06-15T10:00");
    MedicineItem& item = tiny.record.medicines.items.front();
    item.last_dose = Dose{day("2027-06-14"), clock("20:00")};
    item.at = utc("2027-06-15T10:00");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.now = utc("2027-06-15T20:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late))
        << "a dose has come due since, and nobody has told him to leave it out";
}

TEST(TooLate, AsNeededItCountsFromTheBeginningOfTheTimeLeftOut)
{
    TinyCase tiny;
    tiny.take("m1", "ibuprofen", AsNeeded{});
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-14T23:59");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.now = utc("2027-06-15T00:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
}

TEST(TooLate, AsNeededWhatWasSaidBeforeTheTimeLeftOutDoesNotTellThatNoneWasTakenSince)
{
    TinyCase tiny;
    MedicineItem& item = tiny.take("m1", "ibuprofen", AsNeeded{});
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-16T12:00");
    item.last_dose = Dose{day("2027-05-30"), std::nullopt};
    item.at = utc("2027-06-01T12:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
    item.at = utc("2027-06-16T12:00");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(TooLate, ADoseWithoutATimeIsDueFromTheStartOfItsDay)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({}));
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    tiny.now = utc("2027-06-14T23:59");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.now = utc("2027-06-15T00:00");
    EXPECT_THAT(tiny.hold().warnings, Contains(HoldWarning::too_late));
}

// --- two numbers

TEST(TwoNumbers, BetweenWhatIsToldAndWhatIsTooShortIsANote)
{
    // Told three days, too short below two.
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{3}).too_short_below = Exact{2};
    const auto at = [&](std::string_view now) {
        tiny.now = utc(now);
        return tiny.hold();
    };
    EXPECT_THAT(at("2027-06-14T07:59").warnings, IsEmpty());
    EXPECT_THAT(at("2027-06-14T08:00").warnings, ElementsAre(HoldWarning::shorter_than_told));
    EXPECT_EQ(at("2027-06-14T08:00").item.level, Level::act);
    EXPECT_THAT(at("2027-06-15T07:59").warnings, ElementsAre(HoldWarning::shorter_than_told));
    EXPECT_THAT(at("2027-06-15T08:00").warnings, ElementsAre(HoldWarning::too_late));
    EXPECT_EQ(at("2027-06-15T08:00").item.level, Level::ask);
    EXPECT_EQ(text_of(at("2027-06-14T08:00").plan.last_dose), "2027-06-13 20:00")
        << "what is told stays three days";
}

TEST(TwoNumbers, AreHeldAgainstWhatWasReallyTaken)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{3}).too_short_below = Exact{2};
    tiny.now = utc("2027-06-16T22:00");
    MedicineItem& item = tiny.record.medicines.items.front();
    item.at = tiny.now;
    const auto last_taken = [&](const char* date, const char* hour) {
        item.last_dose = Dose{day(date), clock(hour)};
        return tiny.hold().warnings;
    };
    EXPECT_THAT(last_taken("2027-06-13", "20:00"), IsEmpty());
    EXPECT_THAT(last_taken("2027-06-14", "08:00"), ElementsAre(HoldWarning::shorter_than_told));
    EXPECT_THAT(last_taken("2027-06-14", "20:00"), ElementsAre(HoldWarning::shorter_than_told));
    EXPECT_THAT(last_taken("2027-06-15", "08:00"), ElementsAre(HoldWarning::too_late));
}

TEST(TwoNumbers, WithOneNumberBelowItIsTooLate)
{
    TinyCase tiny = on_ibuprofen();
    tiny.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{3});
    tiny.now = utc("2027-06-14T08:00");
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::too_late));
}

// --- stopped too early

TinyCase stopped(std::string_view medicine, std::string_view last_dose)
{
    TinyCase tiny;
    MedicineItem& item = tiny.take("m1", medicine, daily({"20:00"}));
    item.last_dose = Dose{day(last_dose), clock("20:00")};
    item.at = utc("2027-06-16T12:00");
    tiny.now = utc("2027-06-16T12:00");
    return tiny;
}

TEST(StoppedTooEarly, IsAFindingForMarkedMedicinesOnly)
{
    TinyCase marked = stopped("apixaban", "2027-06-10");
    marked.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    EXPECT_THAT(marked.hold().warnings, Contains(HoldWarning::stopped_too_early));
    TinyCase unmarked = stopped("ibuprofen", "2027-06-10");
    unmarked.hold_rule("bleeding", {"ibuprofen"}, omit_days, Exact{2});
    EXPECT_THAT(unmarked.hold().warnings, Not(Contains(HoldWarning::stopped_too_early)));
}

TEST(StoppedTooEarly, ADayEarlierThanTheLastDoseIsOnItIsNot)
{
    const auto warnings = [](std::string_view last_dose) {
        TinyCase tiny = stopped("apixaban", last_dose);
        tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
        return tiny.hold().warnings;
    };
    EXPECT_THAT(warnings("2027-06-13"), Contains(HoldWarning::stopped_too_early));
    EXPECT_THAT(warnings("2027-06-14"), IsEmpty());
}

TEST(StoppedTooEarly, OfOneThatShouldBeTakenAsUsual)
{
    TinyCase tiny = stopped("aspirin", "2027-06-14");
    tiny.hold_rule("heart", {"aspirin"}, take_as_usual).protects = Protects::by_taking;
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::stopped_too_early));
    EXPECT_EQ(tiny.hold().item.level, Level::ask);
}

TEST(StoppedTooEarly, IsSaidWhereAClinicianIsAskedFirstToo)
{
    TinyCase valve = stopped("warfarin", "2027-06-10");
    valve.hold_rule("valve", {"warfarin"}, ask_first);
    EXPECT_THAT(valve.hold().warnings, ElementsAre(HoldWarning::stopped_too_early));
    EXPECT_THAT(stopped("warfarin", "2027-06-10").hold().warnings,
                ElementsAre(HoldWarning::stopped_too_early))
        << "no rule covers it";
}

TEST(StoppedTooEarly, WhileOpenItIsMeasuredAgainstTheLongestHoldStillPossible)
{
    const auto warnings = [](std::string_view last_dose) {
        TinyCase tiny = stopped("apixaban", last_dose);
        tiny.hold_rule("good_kidneys", {"apixaban"}, omit_days, Exact{2}).when = tiny.is("a", false);
        tiny.hold_rule("weak_kidneys", {"apixaban"}, omit_days, Exact{4}).when = tiny.is("a");
        return tiny.hold().warnings;
    };
    EXPECT_THAT(warnings("2027-06-11"), Contains(HoldWarning::stopped_too_early));
    EXPECT_THAT(warnings("2027-06-12"), IsEmpty());
}

TEST(StoppedTooEarly, ADoseThatIsNotDueYetWasNotLeftOut)
{
    TinyCase tiny = stopped("apixaban", "2027-06-10");
    tiny.hold_rule("bleeding", {"apixaban"}, omit_days, Exact{2});
    tiny.record.medicines.items.front().at = utc("2027-06-11T12:00");
    tiny.now = utc("2027-06-11T12:00");
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

// --- told something that is no longer right

TEST(NotAsTold, WhenTheDateHasMoved)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tiny.start("2027-06-18T09:00");
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

TEST(NotAsTold, TheLatestTellingCounts)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", day("2027-06-12"));
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
    tell(tiny, "2027-06-03T12:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(NotAsTold, WhenADateWasToldAndNowAClinicianIsAskedFirst)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", day("2027-06-14"));
    tiny.hold_rule("valve", {"apixaban"}, ask_first);
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

TEST(NotAsTold, WhenADateWasToldAndNowItIsTakenAsUsual)
{
    TinyCase tiny;
    tiny.take("m1", "aspirin", daily({"08:00"}));
    tiny.hold_rule("heart", {"aspirin"}, take_as_usual).protects = Protects::by_taking;
    tell(tiny, "2027-06-02T12:00", std::nullopt);
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
    tell(tiny, "2027-06-02T13:00", day("2027-06-09"));
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

TEST(NotAsTold, NotWhileAnOpenRuleKeepsTheDateThatWasTold)
{
    TinyCase tiny = two_ways(last_dose_at_least_hours, 60);
    tell(tiny, "2027-06-02T12:00", day("2027-06-14"));
    EXPECT_THAT(tiny.hold().warnings, IsEmpty());
}

TEST(NotAsTold, WhenNothingWasToldToStopAndNowADoseIsLeftOut)
{
    TinyCase tiny = apixaban_two_days("2027-06-05T12:00");
    tell(tiny, "2027-06-02T12:00", std::nullopt);
    EXPECT_THAT(tiny.hold().warnings, ElementsAre(HoldWarning::not_as_told));
}

}  // namespace
}  // namespace foreday::screening
