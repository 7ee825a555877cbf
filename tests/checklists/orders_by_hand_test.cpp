#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <stdexcept>

#include "checklists/orders.h"
#include "tests/checklists/builders.h"
#include "tests/support/rows.h"

/// Review queues and call lists that a person has put in order by hand, in orders_by_hand.tsv: the rows in
/// the order they came in, and for each the place it has. Where `from` says so the row is not written down
/// but made from a whole case; what the hand gives for it is then checked as well.
namespace foreday::checklists {
namespace {

using namespace build;
using screening::HoldAction;
using screening::Level;
using screening::Moment;
using tests::Row;
using Lists = std::map<std::string, std::vector<Row>>;  ///< by "q01", "c01"

Lists lists_beginning_with(char sort)
{
    Lists lists;
    for (const Row& row : tests::read_rows(FOREDAY_SOURCE_DIR "/tests/checklists/orders_by_hand.tsv")) {
        if (row.at("id").front() == sort) {
            lists[row.at("id").substr(0, 3)].push_back(row);
        }
    }
    return lists;
}

// --- whole cases ---------------------------------------------------------------------------------------

/// Booked at the unit of builders.h, and seen ten days before at 09:00, when the patient answered.
SmallUnit booked(const Row& row)
{
    SmallUnit unit;
    unit.record.id = row.at("case");
    unit.start(row.at("start").substr(0, 16));
    EXPECT_EQ(unit.record.booking.start_moment, at(row.at("start"))) << "not the offset of the place";
    unit.now = screening::moment_of(
        unit.rules.zone, screening::date_of(unit.record.booking.start) - date::days{10} + clock("09:00"));
    unit.forget("journey_minutes").number("journey_minutes", "30");
    for (const char* asked : {"heart_failure", "slow_stomach", "trouble", "diagnostic_only"}) {
        unit.forget(asked).answer(asked, false);
    }
    unit.record.medicines.closed->at = unit.now;
    return unit;
}

void heart(SmallUnit& unit, Level level)
{
    unit.finding("heart", level, unit.is("trouble"));
    unit.forget("trouble").answer("trouble", true);
}

void leaves_out(SmallUnit& unit, std::string_view medicine, int days, const screening::Pattern& pattern)
{
    unit.hold_rule("the_rule", medicine, HoldAction::omit_days, screening::Exact{days});
    unit.take("m1", medicine, pattern);
}

void not_screened(SmallUnit& unit)
{
    for (auto& answers : unit.record.answers) {
        answers.clear();
    }
    unit.record.medicines.closed.reset();
}

CaseFile file_of(const Row& row, SmallUnit& unit)
{
    static const std::map<std::string, std::function<void(SmallUnit&)>> parts = {
        {"upper endoscopy",
         [](SmallUnit& one) { one.procedures({"upper_endoscopy"}).record.booking.ordered.reset(); }},
        {"heart asks", [](SmallUnit& one) { heart(one, Level::ask); }},
        {"heart stops", [](SmallUnit& one) { heart(one, Level::stop); }},
        {"apixaban: one day",
         [](SmallUnit& one) {
             leaves_out(one, "apixaban", 1, daily({"08:00", "20:00"}));
         }},
        {"apixaban: two days",
         [](SmallUnit& one) {
             leaves_out(one, "apixaban", 2, daily({"08:00", "20:00"}));
         }},
        {"warfarin: five days", [](SmallUnit& one) { leaves_out(one, "warfarin", 5, daily({"18:00"})); }},
        {"not screened", not_screened},
        {"an outside ask on it", [](SmallUnit&) {}}};
    std::string words = row.at("from");
    bool outside = false;
    while (!words.empty()) {
        const std::string word = words.substr(0, words.find(", "));
        words.erase(0, word.size() + 2);
        const auto part = parts.find(word);
        if (part == parts.end()) {
            throw std::invalid_argument(row.at("id") + ": no such part of a case: " + word);
        }
        part->second(unit);
        outside = outside || word == "an outside ask on it";
    }
    CaseFile file;
    file.record = unit.record;
    file.booked_at = unit.now - date::days{20};
    if (outside) {
        file.outside_asks.push_back({"o1",
                                     "finding:heart",
                                     "an opinion",
                                     "Dr Example's practice",
                                     unit.now,
                                     screening::date_of(unit.record.booking.start) - date::days{5},
                                     {},
                                     ""});
    }
    return file;
}

// --- rows of the lists ---------------------------------------------------------------------------------

/// A row under its id in the table, with the place the hand gave it.
template <class OrderRow>
struct Placed {
    std::string id;
    std::size_t place = 0;
    OrderRow row;
};

QueueRow queue_row_of(const Row& row)
{
    const auto level = screening::find_level(row.at("level"));
    QueueRow by_hand{at(row.at("until")), level.value(), at(row.at("start")), row.at("case")};
    if (row.at("from") == "-") {
        return by_hand;
    }
    SmallUnit unit = booked(row);
    const CaseFile file = file_of(row, unit);
    const auto made = queue_row(file.record, to_decide(unit.rules, file.record, unit.look()));
    if (!made) {
        throw std::logic_error(row.at("id") + ": nothing is undecided");
    }
    EXPECT_EQ(text(made->decide_by), text(by_hand.decide_by)) << row.at("id");
    EXPECT_EQ(*made, by_hand) << row.at("id");
    return *made;
}

CallRow call_row_of(const Row& row)
{
    CallRow by_hand{at(row.at("until")), std::stoi(row.at("tries")), row.at("case"), row.at("call")};
    if (row.at("from") == "-") {
        return by_hand;
    }
    SmallUnit unit = booked(row);
    CaseFile file = file_of(row, unit);
    for (int made = 0; made < by_hand.tries; ++made) {
        file.tries.push_back(
            {by_hand.call_id, unit.now + std::chrono::minutes{made}, "a nurse", TryOutcome::no_answer, ""});
    }
    const auto calls = calls_of(unit.rules, file, unit.look(), hash);
    const auto call = std::ranges::find(calls, by_hand.call_id, &Call::id);
    if (call == calls.end()) {
        throw std::logic_error(row.at("id") + ": the case has no such call");
    }
    CallRow made = call_row(file.record, *call);
    EXPECT_EQ(text(made.useful_until), text(by_hand.useful_until)) << row.at("id");
    EXPECT_EQ(made, by_hand) << row.at("id");
    return made;
}

template <class OrderRow>
std::vector<Placed<OrderRow>> placed(const std::vector<Row>& list, OrderRow (*make)(const Row&))
{
    std::vector<Placed<OrderRow>> rows;
    for (const Row& row : list) {
        rows.push_back({row.at("id"), std::stoul(row.at("place")), make(row)});
    }
    return rows;
}

template <class OrderRow>
std::vector<std::string> ids_of(const std::vector<Placed<OrderRow>>& rows)
{
    std::vector<std::string> ids;
    for (const auto& one : rows) {
        ids.push_back(one.id);
    }
    return ids;
}

/// Sorts as it came, turned round by every number of places, and backwards: one order whatever it came in.
template <class OrderRow>
void expect_the_order_of_the_hand(const std::vector<Row>& list, OrderRow (*make)(const Row&))
{
    auto rows = placed(list, make);
    auto by_hand = rows;
    std::ranges::sort(by_hand, {}, &Placed<OrderRow>::place);
    for (std::size_t turned = 0; turned < rows.size(); ++turned) {
        std::ranges::rotate(rows, rows.begin() + 1);
        for (int backwards = 0; backwards < 2; ++backwards) {
            std::ranges::reverse(rows);
            auto sorted = rows;
            std::sort(sorted.begin(), sorted.end(),
                      [](const auto& a, const auto& b) { return a.row < b.row; });
            EXPECT_EQ(ids_of(sorted), ids_of(by_hand)) << list.front().at("list");
        }
    }
}

/// Each row before all that the hand placed after it, seen from both sides, and equal to none of them.
template <class OrderRow>
void expect_every_pair_as_the_hand_has_it(const std::vector<Row>& list, OrderRow (*make)(const Row&))
{
    const auto rows = placed(list, make);
    for (const auto& a : rows) {
        for (const auto& b : rows) {
            const auto order = a.place <=> b.place;
            EXPECT_EQ(a.row <=> b.row, order) << a.id << " and " << b.id;
            EXPECT_EQ(a.row == b.row, std::is_eq(order)) << a.id << " and " << b.id;
        }
    }
}

TEST(OrdersByHand, EveryReviewQueueSortsAsTheHandPutIt)
{
    for (const auto& [id, list] : lists_beginning_with('q')) {
        expect_the_order_of_the_hand(list, queue_row_of);
        expect_every_pair_as_the_hand_has_it(list, queue_row_of);
    }
}

TEST(OrdersByHand, EveryCallListSortsAsTheHandPutIt)
{
    for (const auto& [id, list] : lists_beginning_with('c')) {
        expect_the_order_of_the_hand(list, call_row_of);
        expect_every_pair_as_the_hand_has_it(list, call_row_of);
    }
}

TEST(OrdersByHand, TheTableHasThirtyListsAndNoneCameInItsOwnOrder)
{
    std::size_t lists = 0;
    std::size_t from_cases = 0;
    for (const char sort : {'q', 'c'}) {
        for (const auto& [id, list] : lists_beginning_with(sort)) {
            ++lists;
            std::vector<std::size_t> places;
            std::vector<std::size_t> from_one_up;
            for (const Row& row : list) {
                places.push_back(std::stoul(row.at("place")));
                from_one_up.push_back(places.size());
                from_cases += row.at("from") == "-" ? 0U : 1U;
            }
            EXPECT_NE(places, from_one_up) << id;
            std::ranges::sort(places);
            EXPECT_EQ(places, from_one_up) << id;
        }
    }
    EXPECT_GE(lists, 30U);
    EXPECT_GE(from_cases, 30U);
}

TEST(OrdersByHand, TwoRowsOfEqualPartsAreEqualAndNeitherComesFirst)
{
    const auto queue = lists_beginning_with('q').at("q15");
    EXPECT_EQ(queue_row_of(queue.front()) <=> queue_row_of(queue.front()), std::strong_ordering::equal);
    const auto calls = lists_beginning_with('c').at("c12");
    EXPECT_EQ(call_row_of(calls.front()) <=> call_row_of(calls.front()), std::strong_ordering::equal);
}

TEST(OrdersByHand, ACaseWithNothingUndecidedHasNoPlaceInTheQueue)
{
    const SmallUnit unit;
    EXPECT_EQ(queue_row(unit.record, to_decide(unit.rules, unit.record, unit.look())), std::nullopt);
}

}  // namespace
}  // namespace foreday::checklists
