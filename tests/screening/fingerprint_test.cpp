#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "screening/assessment.h"
#include "tests/screening/builders.h"

namespace foreday::screening {
namespace {

using namespace build;

// --- fingerprints

std::string fingerprint(const TinyCase& tiny, std::string_view finding)
{
    const auto item = tiny.found(finding);
    return item ? item->fingerprint_bytes : "not there";
}

TinyCase heavy_and_old()
{
    TinyCase tiny;
    tiny.finding("heavy", Level::ask,
                 any({tiny.compares("weight", Operator::at_least, Exact{120}),
                      leaf(CalculatedCompares{Calculator::age, Operator::at_least, Exact{70}})}));
    tiny.answer("weight", number("130")).answer("birth_date", on("1957-06-18"));  // 69 on the day
    return tiny;
}

TEST(Fingerprint, StaysWhenARawValueMovesWithoutChangingAnOutcome)
{
    TinyCase tiny = heavy_and_old();
    const std::string before = fingerprint(tiny, "finding:heavy");
    tiny.answer("weight", number("140"));
    EXPECT_EQ(fingerprint(tiny, "finding:heavy"), before);
    tiny.answer("weight", number("120"));
    EXPECT_EQ(fingerprint(tiny, "finding:heavy"), before);
}

TEST(Fingerprint, ChangesWhenAComparisonCrossesItsLimitThoughTheResultStays)
{
    TinyCase tiny = heavy_and_old();
    const std::string before = fingerprint(tiny, "finding:heavy");
    tiny.answer("birth_date", on("1957-06-17"));  // 70 on the day: fires for two reasons now
    EXPECT_EQ(tiny.found("finding:heavy")->state, ItemState::fired);
    const std::string older = fingerprint(tiny, "finding:heavy");
    EXPECT_NE(older, before);
    tiny.answer("weight", number("119.9"));  // and now for the other reason alone
    EXPECT_NE(fingerprint(tiny, "finding:heavy"), older);
    EXPECT_NE(fingerprint(tiny, "finding:heavy"), before);
}

TEST(Fingerprint, ChangesWhenAComparisonBecomesOpen)
{
    TinyCase tiny = heavy_and_old();
    const std::string before = fingerprint(tiny, "finding:heavy");
    tiny.forget("birth_date");
    EXPECT_NE(fingerprint(tiny, "finding:heavy"), before);
}

TEST(Fingerprint, IsNotMovedByTheClockNorByABirthdayBeforeTheProcedure)
{
    TinyCase tiny = heavy_and_old();
    tiny.answer("birth_date", on("1957-06-05"));  // turns 70 between the call and the procedure
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"apixaban"}, HoldAction::omit_days, Exact{2});
    const std::string finding = fingerprint(tiny, "finding:heavy");
    const std::string hold = tiny.hold().item.fingerprint_bytes;
    for (const char* moment :
         {"2027-06-01T23:59", "2027-06-02T00:00", "2027-06-05T00:00", "2027-06-13T23:59"}) {
        tiny.now = utc(moment);
        EXPECT_EQ(fingerprint(tiny, "finding:heavy"), finding) << moment;
        EXPECT_EQ(tiny.hold().item.fingerprint_bytes, hold) << moment;
    }
}

TEST(Fingerprint, IsNotMovedByWhoSaidItNorByWordsTitlesAndSources)
{
    TinyCase tiny = heavy_and_old();
    const std::string before = fingerprint(tiny, "finding:heavy");
    auto& answer = tiny.record.answers.at(tiny.fact("weight")).front();
    answer.informant = Informant::relative;
    answer.who = "daughter";
    answer.words = "about a hundred and thirty";
    answer.desk = "arrival";
    FindingRule& rule = tiny.rules.protocol.findings.front();
    rule.head.title = "Other words";
    rule.head.reading = "Other words for the clinician";
    rule.head.sources = {{"another", "page 3"}};
    rule.head.meanwhile = "Other words still";
    EXPECT_EQ(fingerprint(tiny, "finding:heavy"), before);
}

TEST(Fingerprint, ChangesWithTheLevelAndWithWhoMayDecide)
{
    TinyCase tiny = heavy_and_old();
    const std::string before = fingerprint(tiny, "finding:heavy");
    tiny.rules.protocol.findings.front().level = Level::stop;
    const std::string stop = fingerprint(tiny, "finding:heavy");
    EXPECT_NE(stop, before);
    tiny.rules.protocol.findings.front().head.who = {Role::anaesthesia};
    EXPECT_NE(fingerprint(tiny, "finding:heavy"), stop);
}

TEST(Fingerprint, OfAHoldStaysWhenAValueMovesAndChangesWithItsDates)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"apixaban"}, HoldAction::omit_days, Exact{2}).when =
        tiny.compares("weight", Operator::at_least, Exact{50});
    tiny.answer("weight", number("80"));
    const auto bytes = [&] { return tiny.hold().item.fingerprint_bytes; };
    const std::string before = bytes();
    tiny.answer("weight", number("81"));
    EXPECT_EQ(bytes(), before);
    tiny.start("2027-06-17T10:00");
    EXPECT_EQ(bytes(), before) << "an hour later on the same day moves no date";
    tiny.start("2027-06-18T09:00");
    EXPECT_NE(bytes(), before);
    tiny.start("2027-06-17T09:00");
    tiny.record.medicines.items.front().pattern = daily({"21:00"});
    EXPECT_NE(bytes(), before);
}

TEST(Fingerprint, OfAHoldKnowsWhichMedicineItIsAbout)
{
    TinyCase tiny;
    tiny.take("m1", "apixaban", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"anticoagulant"}, HoldAction::omit_days, Exact{2});
    const std::string before = tiny.hold().item.fingerprint_bytes;
    tiny.record.medicines.items.front().medicine = find_medicine(tiny.rules.protocol, "warfarin");
    EXPECT_NE(tiny.hold().item.fingerprint_bytes, before)
        << "an entry corrected from one medicine to another";
}

TEST(Fingerprint, OfAHoldOnceToldDoesNotBecomeTooLateWithTheClock)
{
    TinyCase tiny;
    tiny.take("m1", "ibuprofen", daily({"20:00"}));
    tiny.hold_rule("bleeding", {"ibuprofen"}, HoldAction::omit_days, Exact{2});
    tiny.record.told = {{"hold:m1", utc("2027-06-02T12:00"), day("2027-06-14")}};
    const std::string before = tiny.hold().item.fingerprint_bytes;
    tiny.now = utc("2027-06-17T08:00");
    EXPECT_EQ(tiny.hold().item.fingerprint_bytes, before);
    tiny.record.told.clear();
    EXPECT_NE(tiny.hold().item.fingerprint_bytes, before) << "not told, it is too late by now";
}

}  // namespace
}  // namespace foreday::screening
