#include <fmt/format.h>

#include <array>

#include "data/reading/case_draft.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "data/reading/value_reading.h"
#include "data/reading/who_said.h"

namespace foreday::data {
namespace {

using screening::Answer;
using screening::FactDefinition;
using screening::Informant;
using screening::Strength;

constexpr std::array<std::string_view, 3> strength_names{"said", "document", "measured"};
constexpr std::array<std::string_view, 3> not_known_names{"does not know", "would not say",
                                                          "could not be measured"};

Answer answer_in(AnswerSetting setting, const CaseDraft& draft)
{
    Answer answer;
    answer.at = draft.now;
    if (setting == AnswerSetting::measured_today) {
        answer.strength = Strength::measured;
        answer.informant = Informant::staff;
    }
    return answer;
}

/// Who an answer comes from where that is not said: a document from a letter, a measurement from the staff.
Informant usual_informant(Strength strength)
{
    switch (strength) {
        case Strength::dated_document:
            return Informant::letter;
        case Strength::measured:
            return Informant::staff;
        case Strength::said:
            break;
    }
    return Informant::patient;
}

void read_dates(const MapReader& map, Answer& answer, CaseDraft& draft)
{
    if (map["when"] != nullptr && map["at"] != nullptr) {
        draft.faults.add(map.key("at"), "an answer with two times", "when: ... alone");
    }
    answer.at = moment_at(map, map.has("when") ? "when" : "at", draft);
    if (map["dated"] == nullptr) {
        return;
    }
    answer.dated = read_date(*map["dated"], draft.faults);
    const auto said_on = screening::date_of(screening::local_of(draft.rules.zone, answer.at));
    if (answer.dated && *answer.dated > said_on) {
        draft.faults.add(*map["dated"], "dated after the day on which it was told",
                         fmt::format("a day up to {}", screening::iso_date(said_on)));
    }
}

void read_source(const MapReader& map, Answer& answer, CaseDraft& draft)
{
    Faults& faults = draft.faults;
    if (map["source"] != nullptr) {
        answer.strength =
            read_word<Strength>(*map["source"], strength_names, faults).value_or(answer.strength);
        answer.informant = usual_informant(answer.strength);
    }
    answer.informant = informant_at(map, answer.informant, faults);
    answer.origin = origin_at(map, "origin", faults);
    answer.who = text_at(map, "who", faults);
    answer.words = text_at(map, "words", faults);
    answer.interpreter = text_at(map, "interpreter", faults);
    answer.desk = text_at(map, "desk", faults);
    answer.unseen = map["unseen"] != nullptr && read_yes_no(*map["unseen"], faults).value_or(false);
}

Answer read_long_answer(const Located& node, const FactDefinition& fact, AnswerSetting setting,
                        CaseDraft& draft)
{
    const MapReader map(node, "an answer",
                        {{},
                         {"value", "not known", "words", "who", "informant", "interpreter", "source",
                          "origin", "when", "at", "dated", "unseen", "desk"}},
                        draft.faults);
    Answer answer = answer_in(setting, draft);
    if (map.wrote("value") == map.wrote("not known")) {
        draft.faults.add(
            node, map.wrote("value") ? "an answer that is known and not known" : "an answer without a value",
            "value: ..., or not known: does not know");
    }
    if (map["value"] != nullptr) {
        answer.value = read_value(*map["value"], fact, draft);
    } else if (map["not known"] != nullptr) {
        answer.why_not_known =
            read_word<screening::WhyNotKnown>(*map["not known"], not_known_names, draft.faults)
                .value_or(screening::WhyNotKnown::does_not_know);
    }
    read_source(map, answer, draft);
    read_dates(map, answer, draft);
    return answer;
}

/// {from: ..., to: ...} is a value; any other map is an answer in its long form.
bool is_value(const Located& node)
{
    if (node.kind != Located::Kind::map) {
        return true;
    }
    return (find(node, "from") != nullptr || find(node, "to") != nullptr) && find(node, "value") == nullptr &&
           find(node, "not known") == nullptr;
}

Answer read_answer(const Located& node, const FactDefinition& fact, AnswerSetting setting, CaseDraft& draft)
{
    if (!is_value(node)) {
        return read_long_answer(node, fact, setting, draft);
    }
    Answer answer = answer_in(setting, draft);
    if (node.kind == Located::Kind::nothing) {
        draft.faults.add(node, fmt::format("\"{}\" without an answer", fact.id),
                         "an answer, or leave out what nobody has asked");
        return answer;
    }
    answer.value = read_value(node, fact, draft);
    return answer;
}

}  // namespace

void read_answers_of(const Located& key, const Located& node, AnswerSetting setting, CaseDraft& draft)
{
    const auto place = draft.facts.resolve(key, draft.faults);
    if (!place) {
        return;
    }
    const FactDefinition& fact = draft.rules.protocol.facts.at(*place);
    auto& answers = draft.record.answers.at(*place);
    if (node.kind != Located::Kind::list) {
        // Nothing has no place of its own in a file, so a missing value is told at its key.
        const bool nothing = node.kind == Located::Kind::nothing;
        if (nothing) {
            Located at = node;
            at.line = key.line;
            at.column = key.column;
            static_cast<void>(read_answer(at, fact, setting, draft));
            return;
        }
        answers.push_back(read_answer(node, fact, setting, draft));
        return;
    }
    if (node.items.empty()) {
        draft.faults.add(node, fmt::format("\"{}\" with an empty list of answers", fact.id),
                         "an answer, or leave out what nobody has asked");
    }
    for (const Located& item : node.items) {
        answers.push_back(read_answer(item, fact, setting, draft));
    }
}

void read_case_facts(const Located& node, CaseDraft& draft)
{
    if (node.kind != Located::Kind::map) {
        draft.faults.add(node, fmt::format("facts: {} where a map is needed", kind_name(node)),
                         "FACT: answer");
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        read_answers_of(node.keys[i], node.items[i], AnswerSetting::phone_call, draft);
    }
}

}  // namespace foreday::data
