#include "data/reading/case_reading.h"

#include <gtest/gtest.h>

#include "tests/reading/broken_input.h"
#include "tests/reading/small_rules.h"

namespace foreday::tests {
namespace {

using namespace screening;

data::ReadCase read_small(const std::string& from = "", const std::string& to = "")
{
    const TemporaryFolder folder;
    const std::string text = from.empty() ? small_case() : changed(small_case(), from, to);
    return data::read_case(folder.write("case.yaml", text), small_rules(), {});
}

CaseRecord record_of(const data::ReadCase& read)
{
    if (!read.record) {
        throw std::runtime_error(all_of(read.faults));
    }
    return *read.record;
}

const std::vector<Answer>& answers_of(const CaseRecord& record, const char* fact)
{
    return record.answers.at(*find_fact(small_rules().protocol, fact));
}

Moment moment(const char* text)
{
    return *resolve(small_rules().zone, *parse_written_time(text));
}
LocalMinute local(const char* text)
{
    return parse_written_time(text)->local;
}
Date day(const char* text)
{
    return *parse_date(text);
}

TEST(ReadCase, TheBookingsBirthAndSexAreAnswersOfTheirFacts)
{
    const CaseRecord record = record_of(read_small());
    ASSERT_EQ(record.answers.size(), small_rules().protocol.facts.size());
    ASSERT_EQ(answers_of(record, "born").size(), 1U);
    const Answer& born = answers_of(record, "born").front();
    EXPECT_EQ(std::get<DateInterval>(*born.value), (DateInterval{day("1961-03-02"), day("1961-03-02")}));
    EXPECT_EQ(born.informant, Informant::booking);
    EXPECT_EQ(born.strength, Strength::dated_document);
    EXPECT_EQ(born.origin, Origin::this_case);
    EXPECT_EQ(born.at, moment("2027-04-12T09:00"));
    EXPECT_EQ(std::get<Choice>(*answers_of(record, "sex").front().value).place, 0U);
}

TEST(ReadCase, AnAnswerOfTheCallComesAfterTheBookings)
{
    const CaseRecord record =
        record_of(read_small("  weight: 84.6 kg\n", "  weight: 84.6 kg\n  born: 1962-03-02\n"));
    ASSERT_EQ(answers_of(record, "born").size(), 2U);
    EXPECT_EQ(answers_of(record, "born")[1].informant, Informant::patient);
    EXPECT_EQ(answers_of(record, "born")[1].strength, Strength::said);
}

TEST(ReadCase, AFactThatIsNotNamedHasNoAnswer)
{
    EXPECT_TRUE(answers_of(record_of(read_small()), "only_looks").empty());
}

TEST(ReadCase, NumbersAreConvertedExactly)
{
    const CaseRecord record = record_of(read_small());
    EXPECT_EQ(std::get<NumberInterval>(*answers_of(record, "creatinine").front().value),
              (NumberInterval{Exact{1}, Exact{1}}));
    const CaseRecord in_pounds = record_of(read_small("84.6 kg", "200 lb"));
    EXPECT_EQ(std::get<NumberInterval>(*answers_of(in_pounds, "weight").front().value).lowest,
              Exact::ratio(90718474, 1000000));
}

TEST(ReadCase, BothEndsOfThePlausibleRangeAreTakenAndWhatLiesBeyondIsNot)
{
    EXPECT_TRUE(read_small("84.6 kg", "25 kg").record.has_value());
    EXPECT_TRUE(read_small("84.6 kg", "400 kg").record.has_value());
    EXPECT_FALSE(read_small("84.6 kg", "24.999 kg").record.has_value());
    EXPECT_FALSE(read_small("84.6 kg", "400.001 kg").record.has_value());
    EXPECT_FALSE(read_small("84.6 kg", "{from: 390 kg, to: 401 kg}").record.has_value());
}

TEST(ReadCase, AMonthAYearAndARangeAreIntervals)
{
    const auto dates = [](const char* written) {
        const CaseRecord record =
            record_of(read_small("value: 2026-11,", std::string("value: ") + written + ","));
        return std::get<DateInterval>(*answers_of(record, "stroke_date").front().value);
    };
    EXPECT_EQ(dates("2026-11"), (DateInterval{day("2026-11-01"), day("2026-11-30")}));
    EXPECT_EQ(dates("2024-02"), (DateInterval{day("2024-02-01"), day("2024-02-29")}));
    EXPECT_EQ(dates("2025-12"), (DateInterval{day("2025-12-01"), day("2025-12-31")}));
    EXPECT_EQ(dates("2026"), (DateInterval{day("2026-01-01"), day("2026-12-31")}));
    EXPECT_EQ(dates("2026-11-03"), (DateInterval{day("2026-11-03"), day("2026-11-03")}));
    EXPECT_EQ(dates("{from: 2026-10-15, to: 2026-11}"), (DateInterval{day("2026-10-15"), day("2026-11-30")}));
    const CaseRecord record = record_of(read_small("weight: 84.6 kg", "weight: {from: 80 kg, to: 90 kg}"));
    EXPECT_EQ(std::get<NumberInterval>(*answers_of(record, "weight").front().value),
              (NumberInterval{Exact{80}, Exact{90}}));
}

TEST(ReadCase, ATimeIsReadToTheMinuteAndADayIsAnyTimeOfIt)
{
    const auto times = [](const char* written) {
        const CaseRecord record =
            record_of(read_small("  weight: 84.6 kg\n", std::string("  last_meal: ") + written + "\n"));
        return std::get<TimeInterval>(*answers_of(record, "last_meal").front().value);
    };
    EXPECT_EQ(times("2027-04-19T12:30"),
              (TimeInterval{local("2027-04-19T12:30"), local("2027-04-19T12:30")}));
    EXPECT_EQ(times("2027-04-19"), (TimeInterval{local("2027-04-19T00:00"), local("2027-04-19T23:59")}));
    EXPECT_EQ(times("2027-04-19T16:30Z"),
              (TimeInterval{local("2027-04-19T12:30"), local("2027-04-19T12:30")}));
}

TEST(ReadCase, WhoSaidItHowAndWhenIsKept)
{
    const CaseRecord record = record_of(read_small());
    const Answer& stroke = answers_of(record, "stroke_date").front();
    EXPECT_EQ(stroke.words, "last November");
    EXPECT_EQ(stroke.who, "her daughter");
    EXPECT_EQ(stroke.informant, Informant::relative);
    EXPECT_EQ(stroke.strength, Strength::said);
    EXPECT_EQ(stroke.at, moment("2027-04-12T09:00"));
    const Answer& creatinine = answers_of(record, "creatinine").front();
    EXPECT_EQ(creatinine.strength, Strength::dated_document);
    EXPECT_EQ(creatinine.informant, Informant::letter);
    EXPECT_EQ(creatinine.dated, day("2027-03-30"));
    const Answer& escort = answers_of(record, "escort_named").front();
    EXPECT_FALSE(escort.value.has_value());
    EXPECT_EQ(escort.why_not_known, WhyNotKnown::would_not_say);
    const Answer& inr = answers_of(record, "inr_today").front();
    EXPECT_EQ(inr.strength, Strength::measured);
    EXPECT_EQ(inr.informant, Informant::staff);
    EXPECT_EQ(inr.at, moment("2027-04-20T08:30"));
}

TEST(ReadCase, SeveralAnswersStandInTheOrderWritten)
{
    const CaseRecord record = record_of(read_small("had_stroke: yes",
                                                   "had_stroke: [no, {value: yes, when: 2027-04-12T10:00, "
                                                   "origin: import, unseen: yes, interpreter: number 7}]"));
    const auto& answers = answers_of(record, "had_stroke");
    ASSERT_EQ(answers.size(), 2U);
    EXPECT_FALSE(std::get<bool>(*answers[0].value));
    EXPECT_FALSE(answers[0].unseen);
    EXPECT_TRUE(std::get<bool>(*answers[1].value));
    EXPECT_TRUE(answers[1].unseen);
    EXPECT_EQ(answers[1].origin, Origin::import);
    EXPECT_EQ(answers[1].interpreter, "number 7");
    EXPECT_EQ(answers[1].at, moment("2027-04-12T10:00"));
}

TEST(ReadCase, ADocumentOfTheVeryDayItWasReadIsTaken)
{
    EXPECT_TRUE(read_small("dated: 2027-03-30", "dated: 2027-04-12").record.has_value());
}

TEST(ReadCase, MedicinesKeepPatternTimesAndLastDose)
{
    const CaseRecord record = record_of(read_small());
    ASSERT_EQ(record.medicines.items.size(), 2U);
    const MedicineItem& apixaban = record.medicines.items[0];
    EXPECT_EQ(apixaban.medicine, find_medicine(small_rules().protocol, "apixaban"));
    EXPECT_EQ(std::get<Daily>(apixaban.pattern).times,
              (std::vector<TimeOfDay>{std::chrono::hours{8}, std::chrono::hours{20}}));
    EXPECT_EQ(apixaban.last_dose, (Dose{day("2027-04-12"), std::chrono::hours{8}}));
    const MedicineItem& pill = record.medicines.items[1];
    EXPECT_FALSE(pill.medicine.has_value());
    EXPECT_EQ(pill.heard, "little white pill");
    EXPECT_EQ(std::get<OnWeekdays>(pill.pattern).weekdays, (std::set<unsigned>{1}));
    EXPECT_EQ(pill.origin, Origin::import);
    ASSERT_TRUE(record.medicines.closed.has_value());
    EXPECT_EQ(record.medicines.closed->at, moment("2027-04-12T09:00"));
}

TEST(ReadCase, AListIsClosedOnlyWhereThatIsWritten)
{
    EXPECT_FALSE(record_of(read_small("list: closed", "list: open")).medicines.closed.has_value());
    const auto closing =
        record_of(read_small("list: closed", "list: {closed: the patient, at: 2027-04-10T08:00}"))
            .medicines.closed;
    ASSERT_TRUE(closing.has_value());
    EXPECT_EQ(closing->by, "the patient");
    EXPECT_EQ(closing->at, moment("2027-04-10T08:00"));
    EXPECT_FALSE(read_small("  list: closed\n", "").record.has_value());
}

TEST(ReadCase, EveryPatternOfTakingIsRead)
{
    const auto pattern = [](const std::string& written) {
        return record_of(read_small("taken: {weekdays: [monday]}", "taken: " + written))
            .medicines.items.at(1)
            .pattern;
    };
    EXPECT_EQ(std::get<EveryNDays>(pattern("{every: 1 week, from: 2027-04-05}")).days, 7);
    EXPECT_EQ(std::get<EveryNDays>(pattern("{every: 2 days, from: 2027-04-05}")).from, day("2027-04-05"));
    EXPECT_EQ(std::get<Monthly>(pattern("{monthly: 31}")).day, 31U);
    EXPECT_TRUE(std::holds_alternative<AsNeeded>(pattern("as needed")));
    EXPECT_TRUE(std::holds_alternative<Continuous>(pattern("continuous")));
    EXPECT_TRUE(std::holds_alternative<PatternNotKnown>(pattern("not known")));
    EXPECT_EQ(std::get<OnWeekdays>(pattern("{weekdays: [sunday, tuesday]}")).weekdays,
              (std::set<unsigned>{2, 7}));
    EXPECT_FALSE(read_small("taken: {weekdays: [monday]}", "taken: {every: 1 day, from: 2027-04-05}")
                     .record.has_value());
    EXPECT_FALSE(read_small("taken: {weekdays: [monday]}", "taken: {every: 36 hours, from: 2027-04-05}")
                     .record.has_value());
    EXPECT_FALSE(read_small("taken: {weekdays: [monday]}", "taken: {monthly: 32}").record.has_value());
    EXPECT_FALSE(read_small("taken: {weekdays: [monday]}", "taken: {monthly: 0}").record.has_value());
}

TEST(ReadCase, TheStartIsKeptAsWallClockAndAsMoment)
{
    const CaseRecord record = record_of(read_small());
    EXPECT_EQ(record.booking.start, local("2027-04-20T09:30"));
    EXPECT_EQ(record.booking.start_moment, moment("2027-04-20T09:30-04:00"));
    const CaseRecord elsewhere = record_of(read_small("start: 2027-04-20T09:30", "start: 2027-04-20T13:30Z"));
    EXPECT_EQ(elsewhere.booking.start, local("2027-04-20T09:30"));
    const CaseRecord twice =
        record_of(read_small("start: 2027-04-20T09:30", "start: 2027-11-07T01:30-05:00"));
    EXPECT_EQ(twice.booking.start, local("2027-11-07T01:30"));
    EXPECT_EQ(twice.booking.start_moment, moment("2027-11-07T06:30Z"));
}

TEST(ReadCase, TheLastDayOf2037IsTaken)
{
    EXPECT_TRUE(read_small("start: 2027-04-20T09:30", "start: 2037-12-31T23:59").record.has_value());
}

TEST(ReadCase, WhatWasOrderedIsAPreparationOrWords)
{
    EXPECT_EQ(record_of(read_small()).booking.ordered, 0U);
    const auto words = read_small("ordered: large_jug", "ordered: the large jug");
    EXPECT_FALSE(record_of(words).booking.ordered.has_value());
    EXPECT_EQ(record_of(words).booking.ordered_words, "the large jug");
    EXPECT_TRUE(words.warnings.empty());
    const auto misspelt = read_small("ordered: large_jug", "ordered: larg_jug");
    EXPECT_FALSE(record_of(misspelt).booking.ordered.has_value());
    ASSERT_EQ(misspelt.warnings.size(), 1U);
    EXPECT_EQ(misspelt.warnings.front().would_be_right, "perhaps \"large_jug\"");
}

TEST(ReadCase, WhatPeopleDidIsKept)
{
    const CaseRecord record = record_of(read_small());
    EXPECT_EQ(record.decisions.at(0).item, "hold:m1");
    EXPECT_EQ(record.decisions.at(0).when, moment("2027-04-12T10:00"));
    EXPECT_FALSE(record.decisions.at(0).fingerprint.has_value());
    EXPECT_EQ(record.told.at(0).last_dose, day("2027-04-17"));
    EXPECT_EQ(record.concerns.at(0).level, Level::ask);
    EXPECT_EQ(record.clearance->role, Role::nurse);
    EXPECT_EQ(record.clearance->for_start, record.booking.start);
    EXPECT_EQ(record.arrival->here_since, local("2027-04-20T08:20"));
    EXPECT_EQ(record.arrival->intake.at(0).at, local("2027-04-20T06:45"));
    EXPECT_TRUE(record.arrival->nothing_else_taken);
    EXPECT_EQ(record.arrival->doses_taken.at(0).second, (Dose{day("2027-04-17"), std::chrono::hours{20}}));
    EXPECT_EQ(record.arrival->let_pass, (std::vector<ItemLetPass>{{"somebody_to_go_home_with", ""}}));
    EXPECT_EQ(record.done, moment("2027-04-20T10:05"));
}

/// The small case with its decision on another item.
data::ReadCase decided_on(const std::string& item)
{
    return read_small("item: \"hold:m1\", answer", "item: \"" + item + "\", answer");
}

TEST(ReadCase, ADecisionOnARecordFindingNamesItsSubject)
{
    EXPECT_EQ(record_of(decided_on("finding:answers_differ:weight")).decisions.at(0).item,
              "finding:answers_differ:weight");
    EXPECT_FALSE(decided_on("finding:answers_differ:no_such_fact").faults.empty());
    EXPECT_FALSE(decided_on("finding:answers_differ").faults.empty());
}

TEST(ReadCase, APlanThatAClinicianStatesIsADecisionOnThePreparation)
{
    EXPECT_EQ(record_of(decided_on("preparation")).decisions.at(0).item, "preparation");
}

TEST(ReadCase, AFingerprintIsKeptAsText)
{
    const std::string digits(64, 'a');
    EXPECT_EQ(record_of(read_small("how: signed,", "how: signed, fingerprint: " + digits + ","))
                  .decisions.at(0)
                  .fingerprint,
              digits);
}

TEST(ReadCase, WithoutAsOfTheGivenMomentStandsInItsPlace)
{
    const TemporaryFolder folder;
    const Moment clock = moment("2027-04-13T08:00");
    const auto read =
        data::read_case(folder.write("case.yaml", changed(small_case(), "as_of: 2027-04-12T09:00\n", "")),
                        small_rules(), clock);
    EXPECT_FALSE(read.as_of.has_value());
    EXPECT_EQ(answers_of(record_of(read), "weight").front().at, clock);
}

TEST(ReadCase, ACaseMayBeNothingButItsBooking)
{
    const TemporaryFolder folder;
    const auto read =
        data::read_case(folder.write("case.yaml",
                                     "case: X-2\nzone: America/New_York\nbooking: {patient: {name: N, born: "
                                     "1990-01-01}, procedures: [gastroscopy], start: 2027-04-20T09:30}\n"),
                        small_rules(), moment("2027-04-01T08:00"));
    const CaseRecord record = record_of(read);
    EXPECT_TRUE(answers_of(record, "sex").empty());
    EXPECT_FALSE(record.medicines.closed.has_value());
    EXPECT_FALSE(record.arrival.has_value());
}

}  // namespace
}  // namespace foreday::tests
