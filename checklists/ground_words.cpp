#include "checklists/ground_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "checklists/timetable_lines.h"
#include "checklists/words.h"
#include "screening/calculator_words.h"
#include "screening/fact_words.h"
#include "screening/judge.h"

namespace foreday::checklists {
namespace {

using screening::Answer;
using screening::Ground;
using screening::Item;
using screening::Protocol;

std::string_view informant_in_words(screening::Informant informant)
{
    // In the order of the enumerators.
    constexpr std::array<std::string_view, 6> names{"patient", "relative", "care home",
                                                    "letter",  "booking",  "staff"};
    return names.at(static_cast<std::size_t>(informant));
}

/// "relative Lina Example, Thu 8 Apr 2027", "laboratory letter, dated 20 Mar 2027, imported".
std::string said_in_words(const Answer& answer, const screening::Zone& zone)
{
    std::string text{informant_in_words(answer.informant)};
    if (!answer.who.empty()) {
        text = answer.informant == screening::Informant::letter ? answer.who : text + " " + answer.who;
    }
    text += answer.dated ? ", dated " + screening::date_in_words(*answer.dated)
                         : ", " + day_in_words(screening::date_of(screening::local_of(zone, answer.at)));
    if (answer.origin == screening::Origin::import) {
        text += ", imported";
    } else if (answer.origin == screening::Origin::earlier_case) {
        text += ", from an earlier case";
    }
    return answer.words.empty() ? text : fmt::format("{}, \"{}\"", text, answer.words);
}

std::string named(std::string_view name, std::string_view value, std::string_view who)
{
    return who.empty() ? fmt::format("{}: {}", name, value) : fmt::format("{}: {} ({})", name, value, who);
}

/// The answer a ground was taken from, again from the record, as the ground itself carries the words of
/// files.
std::string fact_ground(const InView& view, screening::FactIndex place, const Ground& ground)
{
    const screening::FactDefinition& fact = view.rules.protocol.facts[place];
    const std::string label = screening::label_of(fact);
    if (place < view.record.answers.size() && place < view.assessment.readings.size()) {
        for (const std::size_t standing : view.assessment.readings[place].standing) {
            const Answer& answer = view.record.answers[place].at(standing);
            if (answer.value && screening::value_text(fact, *answer.value) == ground.value) {
                return named(label, screening::value_in_words(fact, *answer.value),
                             said_in_words(answer, view.rules.zone));
            }
        }
    }
    return named(label, ground.value, "");
}

template <class Rules>
std::optional<std::string> title_of(const Rules& rules, std::string_view id)
{
    const auto found = std::ranges::find_if(rules, [&](const auto& rule) { return rule.head.id == id; });
    return found == rules.end() ? std::nullopt : std::optional{found->head.title};
}

std::string medicine_on_the_list(const InView& view, std::string_view id)
{
    const auto& items = view.record.medicines.items;
    const auto found = std::ranges::find(items, id, &screening::MedicineItem::id);
    if (found == items.end()) {
        return "a medicine that is no longer on the list";
    }
    return found->medicine ? view.rules.protocol.medicines.at(*found->medicine).generic
                           : fmt::format("\"{}\"", found->heard);
}

}  // namespace

std::string ground_name(const Protocol& protocol, const std::string& what)
{
    if (const auto fact = screening::find_fact(protocol, what)) {
        return screening::label_of(protocol.facts[*fact]);
    }
    if (const auto calculator = screening::find_calculator(what)) {
        return std::string{screening::title_of(*calculator)};
    }
    constexpr std::string_view medicine = "medicine ";
    return what.starts_with(medicine) && what != "medicine list" ? what.substr(medicine.size()) : what;
}

std::string ground_in_words(const InView& view, const Ground& ground)
{
    if (const auto fact = screening::find_fact(view.rules.protocol, ground.what)) {
        return fact_ground(view, *fact, ground);
    }
    if (ground.what == "record") {
        return ground.who.empty() ? "" : "said by " + ground.who;
    }
    if (ground.what == "procedure") {
        return named(ground.what, procedures_in_words(view.rules, view.record), ground.who);
    }
    if (ground.what == "preparation ordered" && view.record.booking.ordered) {
        return named(ground.what, view.rules.protocol.preparations.at(*view.record.booking.ordered).generic,
                     ground.who);
    }
    return named(ground_name(view.rules.protocol, ground.what), ground.value, ground.who);
}

std::string why_open_in_words(screening::OpenWhy why)
{
    using screening::OpenWhy;
    switch (why) {
        case OpenWhy::not_asked:
            return "not asked yet";
        case OpenWhy::not_known:
            return "asked, and not known";
        case OpenWhy::in_conflict:
            return "two sources differ";
        case OpenWhy::unconfirmed:
            return "not confirmed in this case";
        case OpenWhy::past_its_age:
            return "known, but from too long ago";
        case OpenWhy::inexact:
            return "a more exact value is needed";
        case OpenWhy::not_applicable:
            return "does not apply";
        case OpenWhy::list_not_closed:
            return "not gone through to its end";
        case OpenWhy::unrecognised_medicine:
            return "an entry that nobody has named";
        case OpenWhy::not_known_what_was_ordered:
            return "not known what was ordered";
    }
    return "";
}

std::string open_in_words(const Protocol& protocol, const screening::OpenOn& open)
{
    return fmt::format("{} ({})", ground_name(protocol, open.fact), why_open_in_words(open.why));
}

std::string item_in_words(const InView& view, const std::string& item)
{
    constexpr std::string_view hold = "hold:";
    constexpr std::string_view finding = "finding:";
    if (item.starts_with(hold)) {
        return medicine_on_the_list(view, item.substr(hold.size()));
    }
    if (item == "preparation") {
        return "the preparation";
    }
    const auto& findings = view.assessment.findings;
    if (const auto found = std::ranges::find(findings, item, &Item::id); found != findings.end()) {
        return found->title;
    }
    if (item.starts_with(finding)) {
        const std::string rule = item.substr(finding.size(), item.find(':', finding.size()) - finding.size());
        return title_of(view.rules.protocol.findings, rule).value_or("an item that is gone");
    }
    for (const screening::Preparation& preparation : view.rules.protocol.preparations) {
        for (const screening::PreparationLimit& limit : preparation.limits) {
            if (item == fmt::format("preparation:{}:{}", preparation.id, limit.finding.head.id)) {
                return limit.finding.head.title;
            }
        }
    }
    return "an item that is gone";
}

std::vector<std::string> hold_rules_in_words(const Protocol& protocol, const std::vector<std::string>& rules)
{
    std::vector<std::string> words;
    words.reserve(rules.size());
    for (const std::string& rule : rules) {
        words.push_back(title_of(protocol.holds, rule).value_or("a rule that is gone"));
    }
    return words;
}

}  // namespace foreday::checklists
