#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "checklists/timetable.h"
#include "tests/checklists/builders.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Level;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using ::testing::SizeIs;

using Why = Refused::Why;

/// A third preparation beside "peg" and "sulfate", sorted between them.
SmallUnit with_three()
{
    SmallUnit unit;
    screening::Preparation small = unit.preparation("peg");
    small.id = "picosulfate";
    small.generic = "Picosulfate";
    auto& all = unit.rules.protocol.preparations;
    all.insert(all.begin() + 1, std::move(small));
    unit.rules.policy.preparation_order = {2, 1};  // the unit names two; the third comes after them
    return unit;
}

std::vector<std::string> in_order(const SmallUnit& unit)
{
    std::vector<std::string> ids;
    for (const auto& choice : unit.plan().choices) {
        ids.push_back(unit.rules.protocol.preparations.at(choice.preparation).id);
    }
    return ids;
}

const PreparationPlan::Choice& choice_of(const PreparationPlan& plan, const SmallUnit& unit,
                                         std::string_view id)
{
    for (const auto& choice : plan.choices) {
        if (choice.preparation == unit.preparation_place(id)) {
            return choice;
        }
    }
    throw std::invalid_argument("a slip in the test: no such choice");
}

TEST(OrderedPreparation, IsKeptWhereNothingSpeaksAgainstIt)
{
    SmallUnit unit;
    unit.order("sulfate");  // though the unit would sooner have the other
    const PreparationPlan plan = unit.plan();
    EXPECT_EQ(fitted(plan.plan).preparation, unit.preparation_place("sulfate"));
    EXPECT_THAT(plan.about_the_order, AllOf(HasSubstr("Sulfate solution"), HasSubstr("kept")));
    EXPECT_FALSE(plan.suggestion);
}

TEST(OrderedPreparation, IsKeptDespiteACautionWhichIsShown)
{
    for (const Level level : {Level::note, Level::act}) {
        SmallUnit unit;
        unit.speaks_against("peg", "watch_the_salts", "worry", level);
        unit.answer("worry", true);
        const PreparationPlan plan = unit.plan();
        EXPECT_EQ(fitted(plan.plan).preparation, unit.preparation_place("peg"));
        EXPECT_THAT(choice_of(plan, unit, "peg").cautions, ElementsAre("About watch_the_salts"));
        EXPECT_TRUE(choice_of(plan, unit, "peg").acceptable);
    }
}

TEST(OrderedPreparation, IsRefusedWithSomethingAgainstItAndNamesIt)
{
    for (const Level level : {Level::ask, Level::stop}) {
        SmallUnit unit;
        unit.order("sulfate").speaks_against("sulfate", "weak_heart", "heart_failure", level);
        unit.answer("heart_failure", true);
        const PreparationPlan plan = unit.plan();
        EXPECT_EQ(refused(plan.plan).why, Why::speaks_against);
        EXPECT_THAT(refused(plan.plan).reason,
                    AllOf(HasSubstr("Sulfate solution"), HasSubstr("About weak_heart")));
        EXPECT_THAT(choice_of(plan, unit, "sulfate").speaks_against, ElementsAre("About weak_heart"));
        EXPECT_FALSE(choice_of(plan, unit, "sulfate").acceptable);
    }
}

TEST(OrderedPreparation, RefusedIsAnsweredByTheFirstAcceptableOneLaidOut)
{
    SmallUnit unit;
    unit.order("sulfate").speaks_against("sulfate", "weak_heart", "heart_failure");
    unit.answer("heart_failure", true);
    const PreparationPlan plan = unit.plan();
    EXPECT_THAT(refused(plan.plan).choices, ElementsAre("PEG with electrolytes"));
    ASSERT_TRUE(plan.suggestion);
    EXPECT_EQ(plan.suggestion->preparation, unit.preparation_place("peg"));
    EXPECT_EQ(text(plan.suggestion->second_portion), "2027-06-17T05:00-04:00");
}

TEST(OrderedPreparation, EveryReasonAgainstItIsNamed)
{
    SmallUnit unit;
    unit.speaks_against("peg", "slow_stomach_peg", "worry");
    unit.speaks_against("peg", "weak_heart", "heart_failure");
    unit.answer("worry", true).answer("heart_failure", true);
    EXPECT_THAT(refused(unit.plan().plan).reason,
                AllOf(HasSubstr("About slow_stomach_peg"), HasSubstr("About weak_heart")));
}

TEST(AcceptablePreparations, AreInTheUnitsOwnOrder)
{
    SmallUnit unit = with_three();
    EXPECT_THAT(in_order(unit), ElementsAre("sulfate", "picosulfate", "peg"));
    unit.order("peg").speaks_against("peg", "weak_heart", "heart_failure");
    unit.answer("heart_failure", true);
    const PreparationPlan plan = unit.plan();
    EXPECT_THAT(refused(plan.plan).choices, ElementsAre("Sulfate solution", "Picosulfate"));
    EXPECT_EQ(plan.suggestion.value().preparation, unit.preparation_place("sulfate"));
}

TEST(AcceptablePreparations, DoNotHoldOneOnWhichSomethingIsOpen)
{
    SmallUnit unit = with_three();
    unit.order("peg").speaks_against("peg", "weak_heart", "heart_failure");
    unit.speaks_against("sulfate", "poor_kidneys", "worry");  // nobody has asked
    unit.answer("heart_failure", true);
    const PreparationPlan plan = unit.plan();
    EXPECT_THAT(choice_of(plan, unit, "sulfate").open, ElementsAre("About poor_kidneys"));
    EXPECT_FALSE(choice_of(plan, unit, "sulfate").acceptable);
    EXPECT_THAT(refused(plan.plan).choices, ElementsAre("Picosulfate"));
}

TEST(AcceptablePreparations, DoNotHoldOneWithoutATimetable)
{
    SmallUnit unit = with_three();
    unit.order("peg").speaks_against("peg", "weak_heart", "heart_failure");
    unit.answer("heart_failure", true);
    unit.preparation("sulfate").second = glasses(1, std::chrono::minutes{300});
    const PreparationPlan plan = unit.plan();
    EXPECT_FALSE(choice_of(plan, unit, "sulfate").acceptable);
    EXPECT_THAT(choice_of(plan, unit, "sulfate").timetable, Not(HasSubstr("fits")));
    EXPECT_EQ(choice_of(plan, unit, "picosulfate").timetable, "fits");
    EXPECT_THAT(refused(plan.plan).choices, ElementsAre("Picosulfate"));
}

TEST(AcceptablePreparations, DoNotHoldOneTheUnitHasNotConfirmed)
{
    SmallUnit unit;
    unit.order("sulfate").speaks_against("sulfate", "weak_heart", "heart_failure");
    unit.answer("heart_failure", true);
    unit.preparation("peg").sure = screening::HowSure::common_practice;
    EXPECT_FALSE(unit.plan().suggestion);
    EXPECT_THAT(refused(unit.plan().plan).choices, Not(Contains("PEG with electrolytes")));
}

TEST(AcceptablePreparations, NoneLeftSaysSo)
{
    SmallUnit unit;
    unit.speaks_against("peg", "slow_stomach_peg", "worry");
    unit.speaks_against("sulfate", "slow_stomach_sulfate", "worry");
    unit.answer("worry", true);
    const PreparationPlan plan = unit.plan();
    EXPECT_THAT(refused(plan.plan).reason, HasSubstr("no preparation of the protocol would do"));
    EXPECT_THAT(refused(plan.plan).choices, IsEmpty());
    EXPECT_FALSE(plan.suggestion);
}

TEST(OrderedPreparation, ThatDoesNotFitNamesTheOthersAndTheWaysOut)
{
    SmallUnit unit;
    unit.preparation("peg").second = glasses(1, std::chrono::minutes{300});
    const PreparationPlan plan = unit.plan();
    const Refused why = refused(plan.plan);
    EXPECT_EQ(why.why, Why::no_common_time);
    EXPECT_THAT(why.choices, AllOf(Contains("Sulfate solution"), Contains(HasSubstr("another start"))));
    EXPECT_EQ(why.choices.front(), "Sulfate solution");
    EXPECT_EQ(plan.suggestion.value().preparation, unit.preparation_place("sulfate"));
}

TEST(OrderedPreparation, OnWhichSomethingIsOpenIsPlannedAndSaysWhatHangsOnIt)
{
    SmallUnit unit;
    unit.speaks_against("peg", "slow_stomach_peg", "worry");
    const PreparationPlan plan = unit.plan();
    EXPECT_EQ(fitted(plan.plan).preparation, unit.preparation_place("peg"));
    EXPECT_THAT(plan.about_the_order, HasSubstr("About slow_stomach_peg"));
    EXPECT_THAT(choice_of(plan, unit, "peg").open, SizeIs(1));
}

TEST(OrderedPreparation, ByWordsNobodyCouldPlaceIsNotGuessed)
{
    SmallUnit unit;
    unit.record.booking.ordered.reset();
    unit.record.booking.ordered_words = "the orange powder";
    const PreparationPlan plan = unit.plan();
    EXPECT_EQ(refused(plan.plan).why, Why::order_not_known);
    EXPECT_THAT(refused(plan.plan).reason, HasSubstr("the orange powder"));
    EXPECT_THAT(refused(plan.plan).choices, ElementsAre("PEG with electrolytes", "Sulfate solution"));
    EXPECT_EQ(plan.suggestion.value().preparation, unit.preparation_place("peg"));
}

TEST(OrderedPreparation, ThatNobodyKnowsIsNotGuessed)
{
    SmallUnit unit;
    unit.record.booking.ordered.reset();
    const PreparationPlan plan = unit.plan();
    EXPECT_EQ(refused(plan.plan).why, Why::order_not_known);
    EXPECT_THAT(refused(plan.plan).reason, HasSubstr("nobody knows"));
    EXPECT_EQ(plan.suggestion.value().preparation, unit.preparation_place("peg"));
}

TEST(UpperEndoscopyAlone, NeedsNoOrder)
{
    SmallUnit unit;
    unit.procedures({"upper_endoscopy"}).record.booking.ordered.reset();
    const PreparationPlan plan = unit.plan();
    EXPECT_NO_THROW((void)fitted(plan.plan));
    EXPECT_EQ(plan.about_the_order, "");
    EXPECT_THAT(plan.choices, IsEmpty());
}

// --- the journey a case is planned with ----------------------------------------------------------------

std::chrono::minutes away(const SmallUnit& unit)
{
    const Fitted plan = fitted(unit.plan().plan);
    return std::chrono::duration_cast<std::chrono::minutes>(unit.record.booking.start_moment -
                                                            plan.leave_home.value()) -
           std::chrono::minutes{60};
}

TEST(JourneyOfACase, IsTheOneTold)
{
    SmallUnit unit;
    unit.number("journey_minutes", "25");
    EXPECT_EQ(away(unit), std::chrono::minutes{25});
    EXPECT_FALSE(fitted(unit.plan().plan).journey_assumed);
}

TEST(JourneyOfACase, NotAskedIsTheUnitsUsualOneAndThePlanIsOpenOnIt)
{
    SmallUnit unit;
    unit.forget("journey_minutes");
    EXPECT_EQ(away(unit), std::chrono::minutes{45});
    const Fitted plan = fitted(unit.plan().plan);
    EXPECT_TRUE(plan.journey_assumed);
    EXPECT_THAT(plan.open_on,
                ElementsAre(screening::OpenOn{"journey_minutes", screening::OpenWhy::not_asked}));
}

TEST(JourneyOfACase, AskedAndNotKnownSaysSo)
{
    SmallUnit unit;
    unit.last_answer("journey_minutes").value.reset();
    EXPECT_EQ(away(unit), std::chrono::minutes{45});
    EXPECT_THAT(fitted(unit.plan().plan).open_on,
                ElementsAre(screening::OpenOn{"journey_minutes", screening::OpenWhy::not_known}));
}

TEST(JourneyOfACase, AnUnconfirmedOneWarnsAndDoesNotReassure)
{
    SmallUnit unit;
    unit.last_answer("journey_minutes").origin = screening::Origin::earlier_case;  // 30, below the usual 45
    EXPECT_EQ(away(unit), std::chrono::minutes{45});
    EXPECT_THAT(fitted(unit.plan().plan).open_on, SizeIs(1));
    unit.forget("journey_minutes").number("journey_minutes", "60");
    unit.last_answer("journey_minutes").origin = screening::Origin::earlier_case;
    EXPECT_EQ(away(unit), std::chrono::minutes{60});
    EXPECT_THAT(fitted(unit.plan().plan).open_on, SizeIs(1));
}

TEST(JourneyOfACase, OfAnIntervalTheLongestCounts)
{
    SmallUnit unit;
    unit.answer("journey_minutes", screening::NumberInterval{num("40"), num("70.5")});
    EXPECT_EQ(away(unit), std::chrono::minutes{71});
}

TEST(SpacedMedicines, AreNamedWithTheirTimes)
{
    SmallUnit unit;
    auto& peg = unit.preparation("peg");
    peg.spaced_classes = {1};
    peg.spaced_before = peg.spaced_after = std::chrono::hours{2};
    EXPECT_THAT(fitted(unit.plan().plan).notes, Not(Contains(HasSubstr("iron"))));
    unit.take("m1", "iron", daily({"08:00"}));
    EXPECT_THAT(fitted(unit.plan().plan).notes,
                Contains(AllOf(HasSubstr("iron"), HasSubstr("Thursday 03:00"), HasSubstr("Thursday 09:05"))));
}

}  // namespace
}  // namespace foreday::checklists
