#include "screening/fact.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

FactDefinition weight_fact()
{
    FactDefinition fact;
    fact.id = "weight";
    fact.type = FactType::number;
    fact.unit = Unit::kilogram;
    return fact;
}

FactReading read(const FactDefinition& fact, const std::vector<Saying>& sayings,
                 std::string_view now = "2027-06-01T12:00")
{
    std::vector<Answer> answers;
    answers.reserve(sayings.size());
    for (const Saying& saying : sayings) {
        answers.push_back(saying.answer);
    }
    return read_answers(fact, answers, fixed_zone(), utc(now));
}

// What replaces what. The first answer is a letter that says 80 kg; the second comes after it.

enum class Second { weaker, equal, stronger };
enum class View { seen, unseen };
enum class Compare { no, yes };
enum class Says { the_same, otherwise, not_known };
enum class Stands { first, second, conflict };

struct Replaces {
    Second second;
    View view;
    Compare compare;
    Says says;
    Stands stands;
};

// Seen and at least as strong: it replaces. Seen and weaker: kept, and a conflict only where sources are
// compared and differ. Unseen: equals that differ are a conflict; a weaker one never replaces a stronger.
constexpr Replaces replacing[] = {
    {Second::weaker, View::seen, Compare::no, Says::the_same, Stands::first},
    {Second::weaker, View::seen, Compare::no, Says::otherwise, Stands::first},
    {Second::weaker, View::seen, Compare::no, Says::not_known, Stands::first},
    {Second::weaker, View::seen, Compare::yes, Says::the_same, Stands::first},
    {Second::weaker, View::seen, Compare::yes, Says::otherwise, Stands::conflict},
    {Second::weaker, View::seen, Compare::yes, Says::not_known, Stands::first},
    {Second::weaker, View::unseen, Compare::no, Says::the_same, Stands::first},
    {Second::weaker, View::unseen, Compare::no, Says::otherwise, Stands::first},
    {Second::weaker, View::unseen, Compare::no, Says::not_known, Stands::first},
    {Second::weaker, View::unseen, Compare::yes, Says::the_same, Stands::first},
    {Second::weaker, View::unseen, Compare::yes, Says::otherwise, Stands::conflict},
    {Second::weaker, View::unseen, Compare::yes, Says::not_known, Stands::first},
    {Second::equal, View::seen, Compare::no, Says::the_same, Stands::second},
    {Second::equal, View::seen, Compare::no, Says::otherwise, Stands::second},
    {Second::equal, View::seen, Compare::no, Says::not_known, Stands::second},
    {Second::equal, View::seen, Compare::yes, Says::the_same, Stands::second},
    {Second::equal, View::seen, Compare::yes, Says::otherwise, Stands::second},
    {Second::equal, View::seen, Compare::yes, Says::not_known, Stands::second},
    {Second::equal, View::unseen, Compare::no, Says::the_same, Stands::first},
    {Second::equal, View::unseen, Compare::no, Says::otherwise, Stands::conflict},
    {Second::equal, View::unseen, Compare::no, Says::not_known, Stands::conflict},
    {Second::equal, View::unseen, Compare::yes, Says::the_same, Stands::first},
    {Second::equal, View::unseen, Compare::yes, Says::otherwise, Stands::conflict},
    {Second::equal, View::unseen, Compare::yes, Says::not_known, Stands::conflict},
    {Second::stronger, View::seen, Compare::no, Says::the_same, Stands::second},
    {Second::stronger, View::seen, Compare::no, Says::otherwise, Stands::second},
    {Second::stronger, View::seen, Compare::no, Says::not_known, Stands::second},
    {Second::stronger, View::seen, Compare::yes, Says::the_same, Stands::second},
    {Second::stronger, View::seen, Compare::yes, Says::otherwise, Stands::second},
    {Second::stronger, View::seen, Compare::yes, Says::not_known, Stands::second},
    {Second::stronger, View::unseen, Compare::no, Says::the_same, Stands::second},
    {Second::stronger, View::unseen, Compare::no, Says::otherwise, Stands::second},
    {Second::stronger, View::unseen, Compare::no, Says::not_known, Stands::second},
    {Second::stronger, View::unseen, Compare::yes, Says::the_same, Stands::second},
    {Second::stronger, View::unseen, Compare::yes, Says::otherwise, Stands::conflict},
    {Second::stronger, View::unseen, Compare::yes, Says::not_known, Stands::second},
};

Saying second_answer(const Replaces& row)
{
    Saying saying = row.says == Says::the_same    ? said(number("80"))
                    : row.says == Says::otherwise ? said(number("85"))
                                                  : does_not_know();
    if (row.second == Second::equal) {
        saying = saying.in_a_letter();
    } else if (row.second == Second::stronger) {
        saying = saying.measured();
    }
    return row.view == View::unseen ? saying.unseen() : saying;
}

TEST(WhatReplacesWhat, FollowsTheTableOfStrengthViewAndComparison)
{
    int rows = 0;
    for (const Replaces& row : replacing) {
        SCOPED_TRACE("row " + std::to_string(++rows));
        FactDefinition fact = weight_fact();
        fact.compare = row.compare == Compare::yes;
        const FactReading reading = read(fact, {said(number("80")).in_a_letter(), second_answer(row)});
        switch (row.stands) {
            case Stands::first:
                EXPECT_EQ(reading.state, FactState::known);
                EXPECT_THAT(reading.values, ElementsAre(number("80")));
                EXPECT_THAT(reading.standing, ElementsAre(0));
                EXPECT_THAT(reading.beside, ElementsAre(1));
                break;
            case Stands::second:
                EXPECT_THAT(reading.standing, ElementsAre(1));
                EXPECT_THAT(reading.beside, ElementsAre(0));
                if (row.says == Says::not_known) {
                    EXPECT_EQ(reading.state, FactState::not_known);
                    EXPECT_THAT(reading.values, IsEmpty());
                } else {
                    EXPECT_EQ(reading.state, FactState::known);
                    EXPECT_THAT(reading.values,
                                ElementsAre(number(row.says == Says::the_same ? "80" : "85")));
                }
                break;
            case Stands::conflict:
                EXPECT_EQ(reading.state, FactState::in_conflict);
                EXPECT_FALSE(reading.confirmed);
                EXPECT_THAT(reading.standing, ElementsAre(0, 1));
                EXPECT_THAT(reading.beside, IsEmpty());
                if (row.says == Says::not_known) {
                    EXPECT_THAT(reading.values, ElementsAre(number("80")));
                } else {
                    EXPECT_THAT(reading.values, ElementsAre(number("80"), number("85")));
                }
                break;
        }
    }
    EXPECT_EQ(rows, 3 * 2 * 2 * 3);
}

TEST(WhatReplacesWhat, NothingSaidIsNotAsked)
{
    const FactReading reading = read(weight_fact(), {});
    EXPECT_EQ(reading.state, FactState::not_asked);
    EXPECT_FALSE(reading.confirmed);
    EXPECT_THAT(reading.values, IsEmpty());
}

TEST(WhatReplacesWhat, WhoDoesNotKnowWasAsked)
{
    EXPECT_EQ(read(weight_fact(), {does_not_know()}).state, FactState::not_known);
}

TEST(WhatReplacesWhat, WhoKnowsLaterReplacesWhoDidNotKnow)
{
    const FactReading reading = read(weight_fact(), {does_not_know(), said(number("80"))});
    EXPECT_EQ(reading.state, FactState::known);
    EXPECT_TRUE(reading.confirmed);
}

TEST(WhatReplacesWhat, WhoKnowsUnseenOfEqualStrengthIsInConflictWithWhoDidNotKnow)
{
    const FactReading reading = read(weight_fact(), {does_not_know(), said(number("80")).unseen()});
    EXPECT_EQ(reading.state, FactState::in_conflict);
    EXPECT_THAT(reading.values, ElementsAre(number("80")));
}

TEST(WhatReplacesWhat, AnAnswerGivenInViewOfAConflictOfItsStrengthEndsIt)
{
    const FactReading reading =
        read(weight_fact(), {said(number("80")), said(number("85")).unseen(), said(number("82"))});
    EXPECT_EQ(reading.state, FactState::known);
    EXPECT_THAT(reading.values, ElementsAre(number("82")));
    EXPECT_THAT(reading.beside, ElementsAre(0, 1));
}

TEST(WhatReplacesWhat, AWeakerAnswerDoesNotEndAConflict)
{
    const FactReading reading = read(
        weight_fact(),
        {said(number("80")).in_a_letter(), said(number("85")).in_a_letter().unseen(), said(number("80"))});
    EXPECT_EQ(reading.state, FactState::in_conflict);
    EXPECT_THAT(reading.values, ElementsAre(number("80"), number("85")));
}

TEST(WhatReplacesWhat, ThreeUnseenAnswersThatAllDifferStandSideBySide)
{
    const FactReading reading =
        read(weight_fact(), {said(number("80")), said(number("85")).unseen(), said(number("90")).unseen(),
                             said(number("85")).unseen()});
    EXPECT_EQ(reading.state, FactState::in_conflict);
    EXPECT_THAT(reading.values, ElementsAre(number("80"), number("85"), number("90")));
}

TEST(WhatReplacesWhat, APatientCorrectingHimselfIsNoConflictEvenWhereSourcesAreCompared)
{
    FactDefinition fact = weight_fact();
    fact.compare = true;
    const FactReading reading = read(fact, {said(number("80")), said(number("95"))});
    EXPECT_EQ(reading.state, FactState::known);
    EXPECT_THAT(reading.values, ElementsAre(number("95")));
}

TEST(Tolerance, NumbersJustBelowAtAndJustAboveIt)
{
    const Exact five{5};
    EXPECT_FALSE(differ(number("80"), number("84.9"), five));
    EXPECT_FALSE(differ(number("80"), number("85"), five));
    EXPECT_TRUE(differ(number("80"), number("85.1"), five));
    EXPECT_TRUE(differ(number("85.1"), number("80"), five));
}

TEST(Tolerance, DatesInWholeDaysJustBelowAtAndJustAboveIt)
{
    const Exact seven{7};
    EXPECT_FALSE(differ(on("2027-03-01"), on("2027-03-07"), seven));
    EXPECT_FALSE(differ(on("2027-03-01"), on("2027-03-08"), seven));
    EXPECT_TRUE(differ(on("2027-03-01"), on("2027-03-09"), seven));
    EXPECT_TRUE(differ(on("2027-03-09"), on("2027-03-01"), seven));
}

TEST(Tolerance, TimesInWholeDays)
{
    const Value nine = TimeInterval{wall("2027-06-01T09:00"), wall("2027-06-01T09:00")};
    const Value next_nine = TimeInterval{wall("2027-06-02T09:00"), wall("2027-06-02T09:00")};
    const Value after_it = TimeInterval{wall("2027-06-02T09:01"), wall("2027-06-02T09:01")};
    EXPECT_FALSE(differ(nine, next_nine, Exact{1}));
    EXPECT_TRUE(differ(nine, after_it, Exact{1}));
    EXPECT_TRUE(differ(nine, next_nine, Exact{0}));
}

TEST(Tolerance, IntervalsThatTouchDoNotDiffer)
{
    EXPECT_FALSE(differ(between("80", "85"), between("85", "90"), Exact{0}));
    EXPECT_FALSE(differ(between("80", "90"), between("84", "86"), Exact{0}));
    EXPECT_TRUE(differ(between("80", "85"), between("85.1", "90"), Exact{0}));
    EXPECT_FALSE(differ(from_to("2027-03-01", "2027-03-31"), on("2027-03-31"), Exact{0}));
    EXPECT_TRUE(differ(from_to("2027-03-01", "2027-03-31"), on("2027-04-01"), Exact{0}));
}

TEST(Tolerance, YesNoChoicesAndTextHaveNone)
{
    EXPECT_TRUE(differ(yes(), no(), Exact{100}));
    EXPECT_FALSE(differ(yes(), yes(), Exact{0}));
    EXPECT_TRUE(differ(Choice{0}, Choice{1}, Exact{100}));
    EXPECT_TRUE(differ(std::string{"left"}, std::string{"right"}, Exact{100}));
    EXPECT_FALSE(differ(std::string{"left"}, std::string{"left"}, Exact{0}));
}

TEST(Tolerance, DecidesWhetherComparedSourcesAreInConflict)
{
    FactDefinition fact = weight_fact();
    fact.compare = true;
    fact.tolerance = Exact{5};
    const auto state_with = [&](std::string_view patient) {
        return read(fact, {said(number("80")).in_a_letter(), said(number(patient))}).state;
    };
    EXPECT_EQ(state_with("84.9"), FactState::known);
    EXPECT_EQ(state_with("85"), FactState::known);
    EXPECT_EQ(state_with("85.1"), FactState::in_conflict);
    EXPECT_EQ(state_with("74.9"), FactState::in_conflict);
}

TEST(Confirmed, WhatIsSaidInThisCaseIsAndWhatWasImportedOrCarriedOverIsNot)
{
    EXPECT_TRUE(read(weight_fact(), {said(number("80"))}).confirmed);
    EXPECT_FALSE(read(weight_fact(), {said(number("80")).imported()}).confirmed);
    EXPECT_FALSE(read(weight_fact(), {said(number("80")).in_an_earlier_case()}).confirmed);
    EXPECT_FALSE(read(weight_fact(), {said(number("80")).imported()}).past_its_age);
}

TEST(Confirmed, AnImportThatThePatientConfirmsIs)
{
    const FactReading reading =
        read(weight_fact(), {said(number("80")).in_a_letter("2027-05-20").imported(), said(number("80"))});
    EXPECT_EQ(reading.state, FactState::known);
    EXPECT_THAT(reading.standing, ElementsAre(0));
    EXPECT_TRUE(reading.confirmed);
}

TEST(Confirmed, AnImportThatThePatientContradictsIsNot)
{
    const FactReading reading =
        read(weight_fact(), {said(number("80")).in_a_letter("2027-05-20").imported(), said(number("85"))});
    EXPECT_EQ(reading.state, FactState::known);
    EXPECT_THAT(reading.values, ElementsAre(number("80")));
    EXPECT_FALSE(reading.confirmed);
}

TEST(Confirmed, AnImportThatReplacesWhatThePatientSaidIsNot)
{
    const FactReading reading =
        read(weight_fact(), {said(number("85")), said(number("80")).in_a_letter().imported()});
    EXPECT_THAT(reading.values, ElementsAre(number("80")));
    EXPECT_FALSE(reading.confirmed);
}

TEST(Confirmed, ALaterImportThatSaysTheSameTakesNothingBack)
{
    EXPECT_TRUE(read(weight_fact(), {said(number("80")), said(number("80")).imported()}).confirmed);
    EXPECT_TRUE(
        read(weight_fact(), {said(number("80")), said(number("80")).in_a_letter().imported()}).confirmed);
}

TEST(AgeLimit, JustBelowAtAndJustAboveIt)
{
    FactDefinition fact = weight_fact();
    fact.age_limit = std::chrono::hours{24};
    const Saying spoken = said(number("80")).at("2027-06-01T12:00");
    const FactReading below = read(fact, {spoken}, "2027-06-02T11:59");
    const FactReading at = read(fact, {spoken}, "2027-06-02T12:00");
    const FactReading above = read(fact, {spoken}, "2027-06-02T12:01");
    EXPECT_TRUE(below.confirmed);
    EXPECT_TRUE(at.confirmed);
    EXPECT_FALSE(above.confirmed);
    EXPECT_FALSE(at.past_its_age);
    EXPECT_TRUE(above.past_its_age);
    EXPECT_EQ(above.state, FactState::known) << "a value past its age is still shown, and still warns";
}

TEST(AgeLimit, ADatedResultCountsFromTheStartOfItsDate)
{
    FactDefinition fact = weight_fact();
    fact.age_limit = std::chrono::hours{24};
    const Saying letter = said(number("80")).in_a_letter("2027-06-01").at("2027-06-05T09:00");
    EXPECT_TRUE(read(fact, {letter}, "2027-06-02T00:00").confirmed);
    EXPECT_TRUE(read(fact, {letter}, "2027-06-02T00:01").past_its_age);
}

TEST(AgeLimit, TheStartOfADateIsThatOfTheUnit)
{
    FactDefinition fact = weight_fact();
    fact.age_limit = std::chrono::hours{24};
    const std::vector<Answer> answers{said(number("80")).in_a_letter("2027-06-01").answer};
    const Zone zone = new_york_2027();  // midnight is 04:00 UTC
    EXPECT_TRUE(read_answers(fact, answers, zone, utc("2027-06-02T04:00")).confirmed);
    EXPECT_FALSE(read_answers(fact, answers, zone, utc("2027-06-02T04:01")).confirmed);
}

TEST(AgeLimit, SayingItAgainRenewsIt)
{
    FactDefinition fact = weight_fact();
    fact.age_limit = std::chrono::hours{24};
    const Saying first = said(number("80")).at("2027-06-01T12:00");
    EXPECT_TRUE(read(fact, {first, said(number("80")).at("2027-06-03T12:00")}, "2027-06-03T13:00").confirmed);
}

TEST(AgeLimit, AnImportPastItsAgeIsBoth)
{
    FactDefinition fact = weight_fact();
    fact.age_limit = std::chrono::hours{24};
    const FactReading reading = read(fact, {said(number("80")).imported().at("2027-05-01T12:00")});
    EXPECT_FALSE(reading.confirmed);
    EXPECT_TRUE(reading.past_its_age);
}

TEST(SetAside, AnAnswerIsKeptAndReadAsNotApplicableWhenItsQuestionCeasesToApply)
{
    TinyCase tiny;
    tiny.answer("stent", yes()).answer("stent_date", on("2027-03-01"));
    EXPECT_EQ(tiny.reading("stent_date").state, FactState::known);

    tiny.answer("stent", no());
    const FactReading reading = tiny.reading("stent_date");
    EXPECT_EQ(reading.state, FactState::not_applicable);
    EXPECT_THAT(reading.set_aside, ElementsAre(0));
    EXPECT_THAT(reading.standing, IsEmpty());
    EXPECT_THAT(reading.values, IsEmpty());
    EXPECT_EQ(tiny.truth(tiny.within("stent_date", Exact{6}, Unit::month)), Truth::open);
}

TEST(SetAside, AQuestionThatAppliesAgainFindsItsAnswerAgain)
{
    TinyCase tiny;
    tiny.answer("stent", yes())
        .answer("stent_date", on("2027-03-01"))
        .answer("stent", no())
        .answer("stent", yes());
    EXPECT_EQ(tiny.reading("stent_date").state, FactState::known);
}

TEST(SetAside, NothingIsSetAsideOnAnUnconfirmedNo)
{
    TinyCase tiny;
    tiny.answer("stent", said(no()).imported()).answer("stent_date", on("2027-03-01"));
    EXPECT_EQ(tiny.reading("stent_date").state, FactState::known);
}

TEST(SetAside, AQuestionBehindAQuestionThatDoesNotApplyDoesNotApplyEither)
{
    TinyCase tiny;
    tiny.definition("last_visit").asked_when = std::make_shared<const Condition>(
        all({tiny.is("stent"), tiny.within("stent_date", Exact{6}, Unit::month)}));
    tiny.answer("stent", no()).answer("last_visit", on("2027-04-01"));
    EXPECT_EQ(tiny.reading("stent_date").state, FactState::not_applicable);
    EXPECT_EQ(tiny.reading("last_visit").state, FactState::not_applicable);
}

TEST(SetAside, AGateOnTheBleedingRiskLooksAtTheRiskOfThisBooking)
{
    TinyCase tiny;
    tiny.definition("a").asked_when =
        std::make_shared<const Condition>(leaf(BleedingRiskIs{BleedingRisk::low}));
    tiny.answer("a", yes());
    EXPECT_EQ(tiny.reading("a").state, FactState::not_applicable)
        << "a colonoscopy counts as one of high risk";
    tiny.procedures({"upper_endoscopy"});
    EXPECT_EQ(tiny.reading("a").state, FactState::known);
}

}  // namespace
}  // namespace foreday::screening
