#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>

#include "data/reading/case_draft.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "data/reading/who_said.h"
#include "data/reading/words.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::as_written;
using screening::Exact;
using screening::MedicineItem;
using screening::Pattern;
using screening::TimeOfDay;

std::vector<TimeOfDay> read_times(const MapReader& map, Faults& faults)
{
    std::vector<TimeOfDay> times;
    if (map["times"] == nullptr) {
        return times;
    }
    for (const Located& item : list_items(*map["times"], "times", faults)) {
        if (const auto time = read_time_of_day(item, faults)) {
            times.push_back(*time);
        }
    }
    std::ranges::sort(times);
    if (std::ranges::adjacent_find(times) != times.end()) {
        faults.add(*map["times"], "a time of day stands twice", "once");
    }
    return times;
}

Pattern read_weekdays(const Located& node, std::vector<TimeOfDay> times, Faults& faults)
{
    screening::OnWeekdays pattern{{}, std::move(times)};
    for (const Located& item : list_items(node, "weekdays", faults)) {
        if (const auto place = read_place(item, weekday_words, faults)) {
            pattern.weekdays.insert(static_cast<unsigned>(*place) + 1);
        }
    }
    if (node.kind == Located::Kind::list && node.items.empty()) {
        faults.add(node, "no day of the week is named", "at least one, or `not known`");
    }
    return pattern;
}

Pattern read_every(const MapReader& map, std::vector<TimeOfDay> times, Faults& faults)
{
    screening::EveryNDays pattern{2, {}, std::move(times)};
    if (map["every"] != nullptr) {
        constexpr int longest = 366;
        const auto days = read_quantity_in(*map["every"], screening::Unit::day, "days between doses", faults);
        if (days && (!days->is_whole() || *days < Exact{2} || *days > Exact{longest})) {
            faults.add(*map["every"], fmt::format("{} between doses", as_written(map["every"]->text)),
                       fmt::format("whole days, 2 to {}; `daily` for every day", longest));
        } else if (days) {
            pattern.days = static_cast<int>(days->floor());
        }
    }
    if (map["from"] != nullptr) {
        pattern.from = read_date(*map["from"], faults).value_or(screening::Date{});
    }
    return pattern;
}

/// The forms of `taken:` that are maps.
Pattern read_scheduled(const Located& node, std::vector<TimeOfDay> times, Faults& faults)
{
    if (find(node, "every") != nullptr) {
        const MapReader map(node, "taken", {{"every", "from"}, {}}, faults);
        return read_every(map, std::move(times), faults);
    }
    const MapReader map(node, "taken", {{}, {"weekdays", "monthly", "every"}}, faults);
    if (map["weekdays"] != nullptr && map["monthly"] == nullptr) {
        return read_weekdays(*map["weekdays"], std::move(times), faults);
    }
    if (map["monthly"] != nullptr && map["weekdays"] == nullptr) {
        constexpr std::int64_t last_day = 31;
        const auto day = read_whole(*map["monthly"], 1, last_day, faults);
        return screening::Monthly{static_cast<unsigned>(day.value_or(1)), std::move(times)};
    }
    if (node.keys.empty() || (map.has("weekdays") && map.has("monthly"))) {
        faults.add(node, "this is no pattern of taking", "one of: weekdays, every, monthly");
    }
    return screening::PatternNotKnown{};
}

Pattern read_pattern(const MapReader& map, Faults& faults)
{
    std::vector<TimeOfDay> times = read_times(map, faults);
    const bool has_times = !times.empty();
    Pattern pattern = screening::PatternNotKnown{};
    const Located* node = map["taken"];
    if (node != nullptr && node->kind == Located::Kind::map) {
        return read_scheduled(*node, std::move(times), faults);
    }
    if (node != nullptr) {
        constexpr std::array<std::string_view, 4> words{"daily", "as needed", "continuous", "not known"};
        switch (read_place(*node, words, faults).value_or(words.size())) {
            case 0:
                return screening::Daily{std::move(times)};
            case 1:
                pattern = screening::AsNeeded{};
                break;
            case 2:
                pattern = screening::Continuous{};
                break;
            case 3:
                break;
            default:
                return pattern;  // told already
        }
    }
    if (has_times) {
        faults.add(map.key("times"), "times of day without days they belong to",
                   "taken: daily, or weekdays, every or monthly");
    }
    return pattern;
}

void read_which(const MapReader& map, MedicineItem& item, CaseDraft& draft)
{
    if (map["medicine"] != nullptr) {
        item.medicine = draft.medicines.resolve(*map["medicine"], draft.faults);
    }
    item.heard = text_at(map, "heard", draft.faults);
    if (map.is_map() && !map.wrote("medicine") && !map.wrote("heard")) {
        draft.faults.add(map.node(), "an entry of the list without a medicine",
                         "medicine: ID, or heard: the words, where nobody could name it");
    }
}

MedicineItem read_item(const Located& node, CaseDraft& draft)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "an entry of the list",
                        {{"id"},
                         {"medicine", "heard", "dose", "taken", "times", "last_dose", "prescriber", "reason",
                          "from", "informant", "who", "when"}},
                        faults);
    MedicineItem item;
    if (map["id"] != nullptr) {
        item.id = read_id(*map["id"], faults).value_or("");
    }
    read_which(map, item, draft);
    item.dose = text_at(map, "dose", faults);
    item.prescriber = text_at(map, "prescriber", faults);
    item.reason = text_at(map, "reason", faults);
    item.who = text_at(map, "who", faults);
    item.pattern = read_pattern(map, faults);
    if (const Located* last = map["last_dose"]; last != nullptr && last->text != "not known") {
        item.last_dose = read_dose(*last, draft);
    }
    item.origin = origin_at(map, "from", faults);
    item.informant = informant_at(map, item.informant, faults);
    item.at = moment_at(map, "when", draft);
    return item;
}

void read_closing(const Located& node, CaseDraft& draft)
{
    screening::MedicineList::Closing closing{"", draft.now};
    if (node.kind == Located::Kind::map) {
        const MapReader map(node, "the list", {{"closed"}, {"at"}}, draft.faults);
        closing.by = text_at(map, "closed", draft.faults);
        closing.at = moment_at(map, "at", draft);
        draft.record.medicines.closed = closing;
        return;
    }
    constexpr std::array<std::string_view, 2> words{"open", "closed"};
    if (read_place(node, words, draft.faults) == std::size_t{1}) {
        draft.record.medicines.closed = closing;
    }
}

}  // namespace

void read_medicine_list(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "the medicines", {{"list"}, {"items"}}, draft.faults);
    if (map["list"] != nullptr) {
        read_closing(*map["list"], draft);
    }
    if (map["items"] == nullptr) {
        return;
    }
    std::set<std::string> seen;
    for (const Located& entry : list_items(*map["items"], "items", draft.faults)) {
        MedicineItem item = read_item(entry, draft);
        if (!item.id.empty() && !seen.insert(item.id).second) {
            draft.faults.add(*find(entry, "id"), fmt::format("the id {} stands twice", as_written(item.id)),
                             "another id");
        }
        draft.record.medicines.items.push_back(std::move(item));
    }
}

}  // namespace foreday::data
