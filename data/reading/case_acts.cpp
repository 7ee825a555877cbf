#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "data/reading/case_draft.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "data/reading/words.h"
#include "screening/as_written.h"

/// What people did about a case: decided, told, worried, cleared, received.
namespace foreday::data {
namespace {

using screening::as_written;
using screening::Decision;
using screening::DecisionAnswer;
using screening::DecisionManner;
using screening::Role;

bool has_limit(const screening::Preparation& preparation, std::string_view id)
{
    return std::ranges::any_of(preparation.limits,
                               [&](const auto& limit) { return limit.finding.head.id == id; });
}

bool has_medicine_item(const CaseDraft& draft, std::string_view id)
{
    return std::ranges::find(draft.record.medicines.items, id, &screening::MedicineItem::id) !=
           draft.record.medicines.items.end();
}

/// The place of a concern, counted from 1 as the assessment counts them.
bool is_concern(std::string_view text, const CaseDraft& draft)
{
    for (std::size_t place = 1; place <= draft.record.concerns.size(); ++place) {
        if (text == std::to_string(place)) {
            return true;
        }
    }
    return false;
}

/// "ID", or "ID:SUBJECT" for a rule about the record that gives one item a subject.
bool is_finding(std::string_view id, const CaseDraft& draft)
{
    const auto colon = id.find(':');
    const auto place = draft.findings.find(id.substr(0, colon));
    if (!place) {
        return false;
    }
    const bool names_one = colon != std::string_view::npos;
    const std::string_view subject = names_one ? id.substr(colon + 1) : std::string_view{};
    using What = screening::RecordHas::What;
    const auto what = screening::record_test(draft.rules.protocol.findings.at(*place).when);
    if (what == What::unrecognised_medicine) {
        return names_one && has_medicine_item(draft, subject);
    }
    if (what == What::conflict) {
        return names_one && draft.facts.find(subject).has_value();
    }
    if (what == What::own_concern) {
        return names_one && is_concern(subject, draft);
    }
    return !names_one;
}

/// Whether "finding:ID", "finding:ID:SUBJECT", "hold:MEDICINE ITEM", "preparation:PREPARATION:LIMIT" or
/// "preparation" (the plan as a clinician states it) names something that can be.
bool is_item(std::string_view text, const CaseDraft& draft)
{
    const auto colon = text.find(':');
    if (colon == std::string_view::npos) {
        return text == "preparation";
    }
    const std::string_view kind = text.substr(0, colon);
    const std::string_view id = text.substr(colon + 1);
    if (kind == "finding") {
        return is_finding(id, draft);
    }
    if (kind == "hold") {
        return has_medicine_item(draft, id);
    }
    const auto second = id.find(':');
    if (kind != "preparation" || second == std::string_view::npos) {
        return false;
    }
    const auto place = draft.preparations.find(id.substr(0, second));
    return place && has_limit(draft.rules.protocol.preparations.at(*place), id.substr(second + 1));
}

enum class ItemKind { any, hold };

std::string item_at(const MapReader& map, ItemKind kind, CaseDraft& draft)
{
    std::string item = text_at(map, "item", draft.faults);
    const bool fits = is_item(item, draft) && (kind == ItemKind::any || item.starts_with("hold:"));
    if (!item.empty() && !fits) {
        draft.faults.add(
            *map["item"], fmt::format("there is no item {}", as_written(item)),
            kind == ItemKind::hold
                ? "\"hold:\" and the id of an entry of the medicine list"
                : "an item as the assessment names it: \"finding:ID\" (with \":\" and its subject where it "
                  "has "
                  "one), \"hold:ID of the list's entry\", \"preparation:ID:LIMIT\", or \"preparation\"");
    }
    return item;
}

std::optional<Role> role_at(const MapReader& map, Faults& faults)
{
    return map["role"] == nullptr ? std::nullopt : read_named(*map["role"], Role::obstetrics, faults);
}

bool is_fingerprint(std::string_view text)
{
    constexpr std::size_t digits = 64;  // of a SHA-256
    return text.size() == digits &&
           std::ranges::all_of(text, [](char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); });
}

void read_fingerprint(const MapReader& map, Decision& decision, Faults& faults)
{
    if (map["fingerprint"] == nullptr) {
        return;
    }
    const auto text = read_text(*map["fingerprint"], faults);
    if (text && !is_fingerprint(*text)) {
        faults.add(*map["fingerprint"], fmt::format("{} is no fingerprint", as_written(*text)),
                   "the 64 digits 0 to 9 and a to f as `foreday assess --json` prints them");
        return;
    }
    decision.fingerprint = text;
}

Decision read_decision(const Located& node, CaseDraft& draft)
{
    constexpr std::array<std::string_view, 4> answers{"agree", "change", "ask outside", "not go ahead"};
    constexpr std::array<std::string_view, 3> manners{"signed", "spoken", "from outside"};
    Faults& faults = draft.faults;
    const MapReader map(
        node, "a decision",
        {{"item", "answer", "who", "role", "how", "when"}, {"words", "fingerprint", "last_dose"}}, faults);
    Decision decision;
    decision.item = item_at(map, ItemKind::any, draft);
    if (map["answer"] != nullptr) {
        decision.answer =
            read_word<DecisionAnswer>(*map["answer"], answers, faults).value_or(DecisionAnswer::agree);
    }
    decision.words = text_at(map, "words", faults);
    decision.who = text_at(map, "who", faults);
    decision.role = role_at(map, faults).value_or(Role::endoscopist);
    if (map["how"] != nullptr) {
        decision.manner =
            read_word<DecisionManner>(*map["how"], manners, faults).value_or(DecisionManner::is_signed);
    }
    decision.when = moment_at(map, "when", draft);
    read_fingerprint(map, decision, faults);
    if (map["last_dose"] != nullptr) {
        decision.last_dose = read_date(*map["last_dose"], faults);
    }
    if (map.wrote("last_dose") &&
        (decision.answer != DecisionAnswer::change || !decision.item.starts_with("hold:"))) {
        faults.add(map.key("last_dose"), "a last dose on a decision that changes no hold",
                   "with `answer: change` of a hold only");
    }
    if (decision.answer == DecisionAnswer::change && !map.wrote("words") && !map.wrote("last_dose")) {
        faults.add(node, "a change that does not say what changes", "words: ..., or last_dose: a date");
    }
    return decision;
}

}  // namespace

void read_decisions(const Located& node, CaseDraft& draft)
{
    for (const Located& item : list_items(node, "decisions", draft.faults)) {
        draft.record.decisions.push_back(read_decision(item, draft));
    }
}

void read_told(const Located& node, CaseDraft& draft)
{
    for (const Located& item : list_items(node, "told", draft.faults)) {
        const MapReader map(item, "what was told", {{"item", "when"}, {"last_dose"}}, draft.faults);
        screening::Told told;
        told.item = item_at(map, ItemKind::hold, draft);
        told.when = moment_at(map, "when", draft);
        if (map["last_dose"] != nullptr) {
            told.last_dose = read_date(*map["last_dose"], draft.faults);
        }
        draft.record.told.push_back(std::move(told));
    }
}

void read_concerns(const Located& node, CaseDraft& draft)
{
    constexpr std::array<std::string_view, 2> levels{"ask", "stop"};
    for (const Located& item : list_items(node, "concerns", draft.faults)) {
        const MapReader map(item, "a concern", {{"words", "level", "topic", "who"}, {"when"}}, draft.faults);
        screening::OwnConcern concern;
        concern.words = text_at(map, "words", draft.faults);
        concern.who = text_at(map, "who", draft.faults);
        if (map["level"] != nullptr && read_place(*map["level"], levels, draft.faults) == std::size_t{1}) {
            concern.level = screening::Level::stop;
        }
        if (map["topic"] != nullptr) {
            concern.topic =
                read_named(*map["topic"], screening::Topic::record, draft.faults).value_or(concern.topic);
        }
        concern.at = moment_at(map, "when", draft);
        draft.record.concerns.push_back(std::move(concern));
    }
}

void read_cleared(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "the clearance", {{"by", "role", "when"}, {"for_start"}}, draft.faults);
    screening::Clearance clearance;
    clearance.by = text_at(map, "by", draft.faults);
    clearance.role = role_at(map, draft.faults).value_or(Role::nurse);
    clearance.when = moment_at(map, "when", draft);
    clearance.for_start = draft.record.booking.start;
    if (map["for_start"] != nullptr) {
        clearance.for_start = read_local(*map["for_start"], draft).value_or(clearance.for_start);
    }
    draft.record.clearance = std::move(clearance);
}

namespace {

screening::Intake read_intake(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "an intake", {{"kind", "at"}, {"what"}}, draft.faults);
    screening::Intake intake;
    if (map["kind"] != nullptr) {
        if (const auto place = read_place(*map["kind"], intake_kinds, draft.faults)) {
            intake.kind = intake_kinds.at(*place);
        }
    }
    if (map["at"] != nullptr) {
        intake.at = read_local(*map["at"], draft).value_or(screening::LocalMinute{});
    }
    intake.what = text_at(map, "what", draft.faults);
    return intake;
}

void read_doses_taken(const Located& node, screening::Arrival& arrival, CaseDraft& draft)
{
    if (node.kind != Located::Kind::map) {
        draft.faults.add(node, fmt::format("doses_taken: {} where a map is needed", kind_name(node)),
                         "ID of the list's entry: date or time");
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const std::string& id = node.keys[i].text;
        if (!has_medicine_item(draft, id)) {
            draft.faults.add(node.keys[i],
                             fmt::format("there is no entry {} in the medicine list", as_written(id)),
                             "the id of an entry of the list");
        }
        if (const auto dose = read_dose(node.items[i], draft)) {
            arrival.doses_taken.emplace_back(id, *dose);
        }
    }
    std::ranges::sort(arrival.doses_taken, {}, [](const auto& taken) { return taken.first; });
}

void read_measures(const Located& node, CaseDraft& draft)
{
    if (node.kind != Located::Kind::map) {
        draft.faults.add(node, fmt::format("measures: {} where a map is needed", kind_name(node)),
                         "FACT: value");
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        read_answers_of(node.keys[i], node.items[i], AnswerSetting::measured_today, draft);
    }
}

void read_let_pass(const Located& node, screening::Arrival& arrival, CaseDraft& draft)
{
    for (const Located& item : list_items(node, "decided", draft.faults)) {
        if (const auto place = draft.readiness.resolve(item, draft.faults)) {
            arrival.let_pass.push_back({draft.readiness.ids().at(*place), ""});
        }
    }
    std::ranges::sort(arrival.let_pass);
}

}  // namespace

void read_arrival(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "the arrival",
                        {{}, {"here_since", "measures", "intake", "nothing_else", "doses_taken", "decided"}},
                        draft.faults);
    screening::Arrival arrival;
    if (map["here_since"] != nullptr) {
        arrival.here_since = read_local(*map["here_since"], draft);
    }
    if (map["measures"] != nullptr) {
        read_measures(*map["measures"], draft);
    }
    if (map["intake"] != nullptr) {
        for (const Located& item : list_items(*map["intake"], "intake", draft.faults)) {
            arrival.intake.push_back(read_intake(item, draft));
        }
    }
    arrival.nothing_else_taken =
        map["nothing_else"] != nullptr && read_yes_no(*map["nothing_else"], draft.faults).value_or(false);
    if (map["doses_taken"] != nullptr) {
        read_doses_taken(*map["doses_taken"], arrival, draft);
    }
    if (map["decided"] != nullptr) {
        read_let_pass(*map["decided"], arrival, draft);
    }
    draft.record.arrival = std::move(arrival);
}

void read_done(const Located& node, CaseDraft& draft)
{
    const MapReader map(node, "done", {{"at"}, {"procedures"}}, draft.faults);
    if (map["at"] != nullptr) {
        draft.record.done = read_moment(*map["at"], draft);
    }
    if (map["procedures"] != nullptr) {
        draft.record.done_procedures = read_procedures(
            *map["procedures"],
            {"done", "nothing was done; leave it out where nobody has said what was done"}, draft);
    }
}

}  // namespace foreday::data
