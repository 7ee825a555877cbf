#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "data/book/verbs_booking.h"
#include "data/book/verbs_day.h"
#include "data/book/verbs_phone.h"
#include "tests/book/desk.h"

/// Two people with the same case in view. The first writes; then the second writes, still in view of the case
/// as it was.
namespace foreday::tests {
namespace {

using book::OnCase;
using book::Outcome;
using book::Refusal;
using ::testing::Contains;
using ::testing::HasSubstr;

/// One act, prepared from what is in view and done later.
struct Act {
    const char* name;
    /// Looks at the case and gives what is then done with it.
    std::function<std::function<Outcome<book::CaseNow>()>(Desk&, const std::string& id)> prepare;
};

Act answers(const char* name, const book::Answered& said)
{
    return {name, [said](Desk& desk, const std::string& id) {
                return [&desk, on = desk.on(id), said] { return book::answer(desk.book(), nurse, on, said); };
            }};
}

const Act weighs_84{"weight 84 kg", answers("", weight("84")).prepare};
const Act weighs_90{"weight 90 kg", answers("", weight("90")).prepare};
const Act heart_attack{"heart attack: yes", answers("", said("heart_attack", true)).prepare};
const Act adds_clopidogrel{"adds clopidogrel", [](Desk& desk, const std::string& id) {
                               return [&desk, on = desk.on(id)] {
                                   return book::add_medicine(desk.book(), nurse, on, on_list("clopidogrel"));
                               };
                           }};
const Act closes_list{"closes the list", [](Desk& desk, const std::string& id) {
                          return [&desk, on = desk.on(id)] {
                              return book::close_list(desk.book(), second_nurse, on, whole_list());
                          };
                      }};
const Act signs{"signs the page", [](Desk& desk, const std::string& id) {
                    return [&desk, on = desk.on(id), page = desk.page_of(id)] {
                        return book::sign(desk.book(), physician, on, page);
                    };
                }};
const Act clears{"clears", [](Desk& desk, const std::string& id) {
                     return [&desk, on = desk.on(id), shown = book::shown_items(desk.now(id))] {
                         return book::clear(desk.book(), physician, on, shown);
                     };
                 }};
const Act tells{"tells", [](Desk& desk, const std::string& id) {
                    return [&desk, on = desk.on(id), sheet = book::sheet_hash(desk.now(id))] {
                        return book::tell(desk.book(), nurse, on, sheet, "by phone");
                    };
                }};
const Act moves{
    "moves the date", [](Desk& desk, const std::string& id) {
        return [&desk, on = desk.on(id)] {
            return book::reschedule(desk.book(), scheduler, on, {wall("2027-04-29T09:00"), {}, {}, "asked"});
        };
    }};
const Act notes{"writes a note", [](Desk& desk, const std::string& id) {
                    return [&desk, on = desk.on(id)] {
                        return book::note(desk.book(), nurse, on, "prefers mornings");
                    };
                }};
const Act tries{"tries to reach", [](Desk& desk, const std::string& id) {
                    return [&desk, on = desk.on(id)] {
                        return book::record_try(desk.book(), second_nurse, on,
                                                {"first call", checklists::TryOutcome::no_answer, ""});
                    };
                }};
const Act calls_off{"calls off", [](Desk& desk, const std::string& id) {
                        return [&desk, on = desk.on(id)] {
                            return book::call_off(desk.book(), scheduler, on, "asked");
                        };
                    }};
const Act worries{"raises a concern", [](Desk& desk, const std::string& id) {
                      return [&desk, on = desk.on(id)] {
                          return book::raise_concern(
                              desk.book(), second_nurse, on,
                              {"short of breath", screening::Level::ask, screening::Topic::heart});
                      };
                  }};

enum class Comes { merged, refused };

struct Race {
    const char* case_file;
    Act first;
    Act second;
    Comes comes;
};

void PrintTo(const Race& race, std::ostream* out)
{
    *out << race.first.name << ", then " << race.second.name;
}

class RunTwoAtOnce : public ::testing::TestWithParam<Race> {};

TEST_P(RunTwoAtOnce, MergeOrAreRefusedAsDesigned)
{
    const Race& race = GetParam();
    Desk desk;
    const std::string id = desk.play_case(race.case_file);
    const auto first = race.first.prepare(desk, id);
    const auto second = race.second.prepare(desk, id);
    const auto done = first();
    ASSERT_TRUE(done) << book::in_words(done.error());
    const auto after = desk.book().store().head(store::Chain::journal);
    const auto outcome = second();
    if (race.comes == Comes::merged) {
        EXPECT_TRUE(outcome) << book::in_words(outcome.error());
        return;
    }
    ASSERT_FALSE(outcome);
    EXPECT_EQ(outcome.error().why, Refusal::Why::changed_meanwhile) << book::in_words(outcome.error());
    EXPECT_FALSE(outcome.error().changes.empty() && outcome.error().would_be_right.empty());
    EXPECT_EQ(desk.book().store().head(store::Chain::journal), after) << "a refusal wrote something";
}

constexpr const char* warfarin = "warfarin_no_valve.yaml";

INSTANTIATE_TEST_SUITE_P(
    OnOneCase, RunTwoAtOnce,
    ::testing::Values(
        // Different facts, and entries about the work around a case, merge in either order.
        Race{warfarin, weighs_84, heart_attack, Comes::merged},
        Race{warfarin, heart_attack, weighs_84, Comes::merged},
        Race{warfarin, weighs_84, weighs_90, Comes::merged},  // in conflict: see below
        Race{warfarin, weighs_84, adds_clopidogrel, Comes::merged},
        Race{warfarin, adds_clopidogrel, weighs_84, Comes::merged},
        Race{warfarin, adds_clopidogrel, adds_clopidogrel, Comes::merged},  // pointed out, not fused
        Race{warfarin, notes, tries, Comes::merged}, Race{warfarin, tries, notes, Comes::merged},
        Race{warfarin, notes, signs, Comes::merged}, Race{warfarin, tries, signs, Comes::merged},
        Race{warfarin, signs, weighs_84, Comes::merged},
        Race{warfarin, signs, adds_clopidogrel, Comes::merged}, Race{warfarin, signs, notes, Comes::merged},
        Race{warfarin, worries, heart_attack, Comes::merged}, Race{warfarin, moves, weighs_84, Comes::merged},
        Race{warfarin, calls_off, weighs_84, Comes::merged},
        // What was decided on a page that has changed is refused.
        Race{warfarin, adds_clopidogrel, signs, Comes::refused},
        Race{warfarin, heart_attack, signs, Comes::refused}, Race{warfarin, moves, signs, Comes::refused},
        Race{warfarin, worries, signs, Comes::refused},
        // Weight that crosses no limit changes no result: the signature stands.
        Race{warfarin, weighs_84, signs, Comes::merged},
        // The list is closed only by who has seen all of it.
        Race{warfarin, adds_clopidogrel, closes_list, Comes::refused},
        Race{warfarin, closes_list, adds_clopidogrel, Comes::merged},
        Race{warfarin, weighs_84, closes_list, Comes::merged},
        // The sheet is told only as it was shown.
        Race{warfarin, adds_clopidogrel, tells, Comes::refused}, Race{warfarin, moves, tells, Comes::refused},
        Race{warfarin, signs, tells, Comes::refused}, Race{warfarin, notes, tells, Comes::merged},
        // Clearing counts every item shown.
        Race{"nothing_to_ask.yaml", adds_clopidogrel, clears, Comes::refused},
        Race{"nothing_to_ask.yaml", heart_attack, clears, Comes::refused},
        Race{"nothing_to_ask.yaml", worries, clears, Comes::refused},
        Race{"nothing_to_ask.yaml", weighs_84, clears, Comes::merged},
        Race{"nothing_to_ask.yaml", notes, clears, Comes::merged},
        Race{"nothing_to_ask.yaml", clears, clears, Comes::refused}));

TEST(TwoAtOnceInWords, APhysicianSigningIsToldOfTheClopidogrelThatCameMeanwhile)
{
    Desk desk;
    const std::string id = desk.play_case(warfarin);
    const auto sign_it = signs.prepare(desk, id);
    ASSERT_TRUE(adds_clopidogrel.prepare(desk, id)());
    const auto refused = sign_it();
    ASSERT_FALSE(refused);
    EXPECT_THAT(refused.error().changes, Contains(HasSubstr("lopidogrel")));
}

TEST(TwoAtOnceInWords, TwoWeightsInViewOfNeitherAreInConflict)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    const auto one = weighs_84.prepare(desk, id);
    const auto other = weighs_90.prepare(desk, id);
    ASSERT_TRUE(one());
    ASSERT_TRUE(other());
    EXPECT_EQ(desk.reading(id, "weight").state, screening::FactState::in_conflict);
}

TEST(TwoAtOnceInWords, AWeightInViewOfTheOtherReplacesIt)
{
    Desk desk;
    const std::string id = desk.play_case("nothing_to_ask.yaml");
    ASSERT_TRUE(weighs_84.prepare(desk, id)());
    ASSERT_TRUE(weighs_90.prepare(desk, id)());
    EXPECT_EQ(desk.reading(id, "weight").state, screening::FactState::known);
}

TEST(TwoAtOnceInWords, AnAnswerToAQuestionThatCeasedToApplyIsKeptSetAsideAndSaid)
{
    Desk desk;
    const std::string id = desk.play_case("recent_stent.yaml");
    const auto& facts = demo_rules().protocol.facts;
    const auto late = std::ranges::find_if(facts, [&](const auto& one) {
        return one.asked_when && one.type == screening::FactType::yes_no && one.id.starts_with("stent");
    });
    const std::string dependent = late == facts.end() ? "stent_date" : late->id;
    const auto& definition = facts.at(fact(dependent));
    const auto when = day("2026-11-15");
    const book::StatedValue value = definition.type == screening::FactType::date
                                        ? book::StatedValue{screening::DateInterval{when, when}}
                                        : book::StatedValue{true};
    const OnCase seen = desk.on(id);
    ASSERT_TRUE(book::answer(desk.book(), nurse, seen, said("coronary_stent", false)));
    const auto kept = book::answer(desk.book(), second_nurse, desk.on(id), said(dependent, value));
    ASSERT_TRUE(kept) << book::in_words(kept.error());
    EXPECT_THAT(kept->remarks, Contains(HasSubstr("set aside")));
}

}  // namespace
}  // namespace foreday::tests
