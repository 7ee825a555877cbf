#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>

#include "checklists/changes.h"
#include "checklists/page_text.h"
#include "checklists/sheet_content.h"
#include "checklists/telling.h"
#include "checklists/words.h"
#include "tests/checklists/case_at_work.h"

namespace foreday::checklists {
namespace {

using namespace build;
using screening::Exact;
using screening::HoldAction;
using screening::Level;
using testing::AnyOf;
using testing::HasSubstr;
using testing::Not;

std::string text_of(const std::vector<Line>& lines)
{
    std::string all;
    for (const Line& line : lines) {
        all += line.text + '\n';
    }
    return all;
}

SheetContent sheet(const CaseAtWork& unit)
{
    return sheet_content(unit.rules, unit.file(), unit.look());
}
std::string sheet_text(const CaseAtWork& unit)
{
    return text_of(sheet(unit).lines);
}
CasePage page(const CaseAtWork& unit)
{
    return case_page(unit.rules, unit.file(), unit.look());
}
std::string page_text(const CaseAtWork& unit)
{
    return text_of(page(unit).lines);
}

/// Findings of each level, open and fired, a marked and an unmarked medicine, one nobody could name, and a
/// decision.
CaseAtWork with_everything()
{
    CaseAtWork unit = with_warfarin();
    unit.hold_rule("one day", "ibuprofen", HoldAction::omit_days, Exact{1});
    unit.take("m2", "ibuprofen", daily({"08:00"}));
    unit.take("m3", "", daily({"08:00"}));
    unit.answer("heart_failure", true);
    unit.finding("heartweak", Level::ask, unit.is("heart_failure"));
    unit.finding("worriednow", Level::stop, unit.is("worry"));
    unit.finding("watchit", Level::note, unit.is("heart_failure"));
    unit.finding("weighit", Level::act, unit.is("heart_failure"));
    unit.decide("hold:m1").answer = screening::DecisionAnswer::agree;
    return unit;
}

void expect_well_worded(const std::vector<Line>& lines)
{
    for (const Line& line : lines) {
        ASSERT_FALSE(line.text.empty());
        EXPECT_THAT(line.text, Not(HasSubstr("_"))) << "an id";
        EXPECT_FALSE(std::regex_search(line.text, std::regex("[0-9]{4}-[0-9]{2}-[0-9]{2}"))) << line.text;
        EXPECT_FALSE(line.text.front() >= 'a' && line.text.front() <= 'z') << line.text;
        EXPECT_THAT(line.text, Not(HasSubstr("..")));
        EXPECT_THAT(line.text, Not(HasSubstr(" 1 questions")));
        EXPECT_THAT(line.text, Not(AnyOf(HasSubstr("finding:"), HasSubstr("hold:"))));
    }
}

TEST(CasePage, ShowsNoIdNoRawDateAndBeginsEachLineWithACapital)
{
    expect_well_worded(page(with_everything()).lines);
}

TEST(CasePage, NamesTheLevelsAsPeopleSayThem)
{
    CaseAtWork unit = with_everything();
    unit.answer("worry", true);
    const std::string text = page_text(unit);
    for (const char* level : {"Worth knowing: About watchit", "To do: About weighit",
                              "A clinician decides: About heartweak", "Do not go ahead: About worriednow"}) {
        EXPECT_THAT(text, HasSubstr(level));
    }
}

TEST(CasePage, SaysOnWhatAnItemStandsAndWhatWouldSettleIt)
{
    CaseAtWork unit = with_everything();
    EXPECT_THAT(page_text(unit), HasSubstr("Because of: heart failure: yes (patient, Thu 10 Jun 2027)."));
    unit.answer("worry", true);
    unit.last_answer("worry").value.reset();
    EXPECT_THAT(page_text(unit), HasSubstr("Would settle it: worry (asked, and not known)."));
}

TEST(CasePage, CarriesTheCaution)
{
    EXPECT_THAT(page_text(CaseAtWork{}), HasSubstr(caution_for_staff()));
    EXPECT_THAT(page_text(with_everything()), HasSubstr(caution_for_staff()));
}

TEST(CasePage, NamesAMarkedPauseAsProposedUntilAgreed)
{
    CaseAtWork unit = with_warfarin();
    EXPECT_THAT(page_text(unit), HasSubstr("(proposed; nobody has agreed yet)"));
    unit.decide("hold:m1");
    EXPECT_THAT(page_text(unit), HasSubstr("(agreed, not told yet)"));
    EXPECT_THAT(page_text(unit), HasSubstr("Warfarin: Dr Example (endoscopist)"));
}

TEST(CasePage, TheSameCaseGivesTheSameBytesWhateverTheTime)
{
    CaseAtWork unit = with_everything();
    const std::string bytes = page(unit).bytes;
    EXPECT_EQ(bytes, page(with_everything()).bytes);
    unit.look("2027-06-10T15:00-04:00");
    EXPECT_EQ(bytes, page(unit).bytes);
    unit.answer("worry", true);
    EXPECT_NE(bytes, page(unit).bytes);
}

TEST(Sheet, ShowsNoIdNoRawDateAndNoWordOfTheTrade)
{
    CaseAtWork unit = with_everything();
    const auto sheets = {sheet(unit), sheet(with_warfarin_told()), sheet(CaseAtWork{})};
    for (const SheetContent& one : sheets) {
        expect_well_worded(one.lines);
        EXPECT_FALSE(std::regex_search(text_of(one.lines), std::regex("\\b[Hh]olds?\\b")));
        EXPECT_THAT(text_of(one.lines), HasSubstr("does not take their place"));
    }
}

/// What stands between the two headings.
std::string medicines_of(const std::string& sheet)
{
    const auto from = sheet.find("Your medicines");
    const auto to = sheet.find("Food, drink and preparation");
    return from < to && to != std::string::npos ? sheet.substr(from, to - from) : "no such headings";
}

TEST(Sheet, GivesNoDateForAMarkedMedicineBeforeANamedClinicianHasAgreed)
{
    CaseAtWork unit = with_warfarin();
    EXPECT_THAT(medicines_of(sheet_text(unit)), Not(HasSubstr("Jun")));
    EXPECT_THAT(medicines_of(sheet_text(unit)), HasSubstr("Warfarin: Go on as you do now."));
    EXPECT_TRUE(sheet(unit).draft);
    unit.decide("hold:m1");
    EXPECT_THAT(medicines_of(sheet_text(unit)), HasSubstr("Fri 11 Jun 2027"));
    EXPECT_THAT(sheet_text(unit), HasSubstr("Dr Example has agreed to this."));
    EXPECT_FALSE(sheet(unit).draft);
}

TEST(Sheet, ADraftSaysSoAndHoldsBackThePreparation)
{
    CaseAtWork unit;
    EXPECT_THAT(sheet_text(unit), Not(HasSubstr("draft")));
    unit.finding("breathless", Level::ask, always());
    EXPECT_THAT(sheet_text(unit), HasSubstr("This is a draft: some of it is still open."));
    EXPECT_THAT(sheet_text(unit), HasSubstr("Start no preparation before we have told you"));
}

TEST(Sheet, OfASessionThatEndedGivesNoInstructions)
{
    CaseAtWork unit = with_warfarin_told();
    unit.end(EndingKind::called_off, "2027-06-11T09:00-04:00");
    EXPECT_THAT(sheet_text(unit), HasSubstr("This session does not take place as planned."));
    EXPECT_THAT(sheet_text(unit), Not(HasSubstr("Glass")));
    EXPECT_THAT(sheet_text(unit), Not(HasSubstr("Warfarin")));
}

TEST(Sheet, TheSameCaseGivesTheSameBytesUntilWhatIsSaidChanges)
{
    CaseAtWork unit = with_everything();
    const std::string bytes = sheet(unit).bytes;
    EXPECT_EQ(bytes, sheet(with_everything()).bytes);
    unit.look("2027-06-10T15:00-04:00");
    EXPECT_EQ(bytes, sheet(unit).bytes);
    unit.start("2027-06-17T10:01");
    EXPECT_NE(bytes, sheet(unit).bytes);
}

TellingState state_of(const CaseAtWork& unit, const CaseFile& file)
{
    return telling_state(unit.rules, file, unit.look(), hash);
}

TEST(TellingOfASheet, NamesItByItsHash)
{
    CaseAtWork unit = with_warfarin();
    unit.decide("hold:m1");
    unit.record.told.push_back({"hold:m1", at("2027-06-10T09:00-04:00"), day("2027-06-11")});
    unit.tell("2027-06-10T09:00-04:00", hash(sheet(unit).bytes));
    EXPECT_FALSE(state_of(unit, unit.file()).sheet_changed);
    unit.work.tellings.back().sheet.back() ^= 1;
    EXPECT_TRUE(state_of(unit, unit.file()).sheet_changed);
    unit.work.tellings.back().sheet.clear();
    EXPECT_FALSE(state_of(unit, unit.file()).sheet_changed) << "told without a sheet";
}

TEST(TellingState, ListsWhatIsAgreedAndNotTold)
{
    CaseAtWork unit = with_everything();
    std::vector<std::string> items;
    for (const ToTell& one : state_of(unit, unit.file()).to_tell) {
        items.push_back(one.item);
    }
    EXPECT_THAT(items, testing::UnorderedElementsAre("hold:m1", "hold:m2", "finding:weighit"));
}

TEST(TellingState, AnAgreedPauseBeginsWithTheFirstDoseLeftOut)
{
    CaseAtWork unit = with_warfarin();
    EXPECT_TRUE(state_of(unit, unit.file()).to_tell.empty()) << "nobody has agreed";
    unit.decide("hold:m1");
    const auto state = state_of(unit, unit.file());
    ASSERT_EQ(state.to_tell.size(), 1U);
    EXPECT_EQ(text(state.to_tell.front().begins), "2027-06-12T18:00-04:00");
    EXPECT_TRUE(state.nothing_open);
    EXPECT_TRUE(state.preparation_untold);
}

std::vector<ItemSeen> seen(const CaseAtWork& unit)
{
    return seen_in(unit.look().assessment, hash);
}

/// Of values the small unit's protocol knows, and one it does not.
std::vector<Change> changed(const std::vector<ItemSeen>& before, const std::vector<ItemSeen>& after)
{
    return changes_between(CaseAtWork{}.rules.protocol, before, after);
}

TEST(Changes, NoneBetweenTheSameItemsTwice)
{
    EXPECT_TRUE(changed(seen(with_everything()), seen(with_everything())).empty());
}

TEST(Changes, AnItemComesAndGoes)
{
    CaseAtWork unit;
    const auto before = seen(unit);
    unit.finding("breathless", Level::ask, always());
    const auto after = seen(unit);
    const auto came = changed(before, after);
    ASSERT_EQ(came.size(), 1U);
    EXPECT_EQ(came.front(), (Change{Change::Kind::came, "finding:breathless",
                                    "New: About breathless: a clinician decides."}));
    const auto went = changed(after, before);
    ASSERT_EQ(went.size(), 1U);
    EXPECT_EQ(went.front().kind, Change::Kind::went);
    EXPECT_EQ(went.front().words, "No longer there: About breathless: a clinician decides.");
}

TEST(Changes, AnotherResultOpensAndAnotherValueDoesNot)
{
    CaseAtWork unit;
    unit.forget("worry");
    unit.finding("worried", Level::ask, unit.is("worry"));
    const auto open = seen(unit);
    unit.answer("worry", true);
    const auto fired = seen(unit);
    ASSERT_EQ(changed(open, fired).size(), 1U);
    EXPECT_EQ(changed(open, fired).front().kind, Change::Kind::changed_result);

    std::vector<ItemSeen> moved = fired;
    moved.front().grounds = {{"weight", "84.6 kg"}};
    std::vector<ItemSeen> before = fired;
    before.front().grounds = {{"weight", "84 kg"}};
    ASSERT_EQ(changed(before, moved).size(), 1U);
    EXPECT_EQ(changed(before, moved).front().kind, Change::Kind::value_moved);
    EXPECT_EQ(changed(before, moved).front().words,
              "About worried: the result is the same; weight was 84 kg and is 84.6 kg.");
}

}  // namespace
}  // namespace foreday::checklists
