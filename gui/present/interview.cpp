#include "gui/present/interview.h"

#include <fmt/format.h>

#include <algorithm>

#include "checklists/words.h"
#include "gui/present/said_by.h"
#include "gui/present/typed_value.h"
#include "screening/judge.h"

namespace foreday::present {
namespace {

using screening::FactDefinition;
using screening::FactReading;
using screening::FactState;
using screening::FactType;

bool asked_by_phone(const screening::Judge& judge, const FactDefinition& fact, screening::FactIndex place)
{
    return fact.scope != screening::FactScope::day && judge.applies(place) == screening::Truth::yes;
}

bool to_ask(const FactReading& reading)
{
    const bool unconfirmed = reading.state == FactState::known && !reading.confirmed;
    return reading.state == FactState::not_asked || reading.past_its_age || unconfirmed;
}

std::string stands_in_words(const FactDefinition& fact, const FactReading& reading,
                            const std::vector<screening::Answer>& answers, const screening::Zone& zone)
{
    if (reading.standing.empty()) {
        return "Not asked yet.";
    }
    std::string words = reading.state == FactState::in_conflict ? "Two answers differ. " : "";
    for (const std::size_t place : reading.standing) {
        words += (words.empty() || words.back() == ' ' ? "" : " ") +
                 answer_in_words(fact, answers.at(place), zone);
    }
    if (reading.past_its_age) {
        words += " Too long ago: ask again.";
    } else if (reading.state == FactState::known && !reading.confirmed) {
        words += " Not confirmed in this case: ask.";
    }
    return words;
}

QuestionView view_of(const FactDefinition& fact, screening::FactIndex place, const FactReading& reading,
                     const std::vector<screening::Answer>& answers, const screening::Zone& zone)
{
    QuestionView view;
    view.fact = place;
    view.words = fact.question;
    view.why = fact.why;
    view.unfolded = fact.asked_when != nullptr;
    view.to_ask = to_ask(reading);
    view.stands = stands_in_words(fact, reading, answers, zone);
    for (const auto* kept : {&reading.beside, &reading.set_aside}) {
        for (const std::size_t one : *kept) {
            view.beside.push_back(answer_in_words(fact, answers.at(one), zone));
        }
    }
    switch (fact.type) {
        case FactType::yes_no:
            view.control = QuestionView::Control::yes_no;
            break;
        case FactType::choice:
            view.control = QuestionView::Control::choice;
            std::ranges::transform(fact.choices, std::back_inserter(view.choices), choice_in_words);
            if (!view.to_ask && reading.values.size() == 1) {
                view.chosen = std::get<screening::Choice>(reading.values.front()).place;
            }
            break;
        case FactType::number:
        case FactType::date:
        case FactType::time:
        case FactType::text:
            view.control = QuestionView::Control::typed;
            view.expected = expected_in_words(fact);
            break;
    }
    return view;
}

std::string with_capital(std::string words)
{
    if (!words.empty() && words.front() >= 'a' && words.front() <= 'z') {
        words.front() = static_cast<char>(words.front() - 'a' + 'A');
    }
    return words;
}

std::string_view why_in_words(screening::WhyNotKnown why)
{
    switch (why) {
        case screening::WhyNotKnown::does_not_know:
            return "does not know";
        case screening::WhyNotKnown::would_not_say:
            return "would not say";
        case screening::WhyNotKnown::could_not_be_measured:
            return "could not be measured";
    }
    return "";
}

}  // namespace

std::vector<SectionView> sections_of(const book::CaseNow& now)
{
    const screening::Judge judge(now.rules(), now.record(), now.at);
    const auto& protocol = now.rules().protocol;
    std::vector<SectionView> sections;
    for (const std::string& name : protocol.sections) {
        SectionView section{name, 0};
        bool any = false;
        for (screening::FactIndex place = 0; place < protocol.facts.size(); ++place) {
            if (protocol.facts[place].section == name &&
                asked_by_phone(judge, protocol.facts[place], place)) {
                any = true;
                section.left += to_ask(judge.readings()[place]) ? 1 : 0;
            }
        }
        if (any) {
            sections.push_back(std::move(section));
        }
    }
    return sections;
}

std::vector<QuestionView> questions_of(const book::CaseNow& now, const std::string& section)
{
    const screening::Judge judge(now.rules(), now.record(), now.at);
    const auto& facts = now.rules().protocol.facts;
    std::vector<screening::FactIndex> places;
    for (screening::FactIndex place = 0; place < facts.size(); ++place) {
        if (facts[place].section == section && asked_by_phone(judge, facts[place], place)) {
            places.push_back(place);
        }
    }
    std::ranges::sort(places, {}, [&](screening::FactIndex place) { return facts[place].order; });
    std::vector<QuestionView> questions;
    for (const screening::FactIndex place : places) {
        questions.push_back(view_of(facts[place], place, judge.readings()[place],
                                    now.record().answers.at(place), now.rules().zone));
    }
    return questions;
}

std::string answer_in_words(const FactDefinition& fact, const screening::Answer& answer,
                            const screening::Zone& zone)
{
    std::string words = answer.value ? with_capital(value_in_words(fact, *answer.value))
                                     : fmt::format("Not known ({})", why_in_words(answer.why_not_known));
    if (!answer.words.empty()) {
        words += fmt::format(", \"{}\"", answer.words);
    }
    words += fmt::format(". {}", with_capital(in_words(answer.informant)));
    if (!answer.who.empty()) {
        words += " (" + answer.who + ")";
    }
    if (!answer.interpreter.empty()) {
        words += ", through " + answer.interpreter;
    }
    if (answer.origin == screening::Origin::earlier_case) {
        words += ", in an earlier case";
    } else if (answer.origin == screening::Origin::import) {
        words += ", imported";
    }
    return words + ", " + checklists::moment_in_words(zone, answer.at) + ".";
}

std::string expected_in_words(const FactDefinition& fact)
{
    switch (fact.type) {
        case FactType::number: {
            const std::string unit{screening::unit_text(fact.unit)};
            if (fact.unit == screening::Unit::kilogram) {
                return "kg, or lb after the number";
            }
            if (fact.unit == screening::Unit::centimetre) {
                return "cm, or such as 5 ft 10 in";
            }
            if (fact.unit == screening::Unit::celsius) {
                return "degrees C, or F after the number";
            }
            if (fact.unit == screening::Unit::mg_per_dl_creatinine) {
                return "mg/dL, or umol/L after the number";
            }
            const std::string_view substance = screening::substance_of(fact.unit);
            const std::size_t end = substance.empty() ? unit.size() : unit.find(substance) - 1;
            return unit.empty() ? "a number" : "in " + unit.substr(0, end);
        }
        case FactType::date:
            return "such as 3 Nov 2026, Nov 2026 or 2026";
        case FactType::time:
            return "such as 08:30, or 2026-11-03 08:30";
        case FactType::text:
            return "in the patient's words";
        case FactType::yes_no:
        case FactType::choice:
            break;
    }
    return "";
}

}  // namespace foreday::present
