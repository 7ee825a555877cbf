#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "screening/assessment.h"
#include "screening/canonical.h"
#include "screening/fact_words.h"
#include "screening/hold_planner.h"
#include "screening/judge.h"

namespace foreday::screening {
namespace {

Item item_of(const RuleHead& head, std::string id)
{
    Item item;
    item.id = std::move(id);
    item.rule = head.id;
    item.topic = head.topic;
    item.hazard = head.hazard;
    item.title = head.title;
    item.reading = head.reading;
    item.sources = head.sources;
    item.sure = head.sure;
    item.who = head.who;
    item.meanwhile = head.meanwhile;
    return item;
}

/// Rule, result and the outcome of every comparison; never raw values, words or times.
std::string fingerprint_of(const Item& item, const std::vector<Truth>& comparisons)
{
    CanonicalBytes bytes;
    bytes.add("finding");
    bytes.add(item.id);
    bytes.add(item.rule);
    bytes.add(name_of(item.level));
    bytes.add(item.state == ItemState::open ? "open" : "fired");
    bytes.add_count(item.who.size());
    for (const Role role : item.who) {
        bytes.add(name_of(role));
    }
    bytes.add_count(comparisons.size());
    for (const Truth outcome : comparisons) {
        bytes.add(outcome == Truth::yes ? "true" : outcome == Truth::no ? "false" : "open");
    }
    return std::move(bytes).take();
}

/// The item a rule gives, or nothing: a rule that is no, and one whose open state is accepted.
std::optional<Item> judged_item(const Judge& judge, const FindingRule& rule, std::string id)
{
    const Judged judged = judge.judge(rule.when);
    if (judged.truth == Truth::no) {
        return std::nullopt;
    }
    if (judged.truth == Truth::open && rule.not_knowing == FindingRule::NotKnowing::accept) {
        return std::nullopt;
    }
    Item item = item_of(rule.head, std::move(id));
    item.sure = rank_in(judge.rules().policy, rule.head.id, rule.head.sure);
    item.level = rule.level;
    item.state = judged.truth == Truth::yes ? ItemState::fired : ItemState::open;
    item.on_unconfirmed = judged.on_unconfirmed;
    item.now = rule.now && item.state == ItemState::fired;
    item.now_words = rule.now_words;
    item.because = judged.because;
    item.open_on = judged.open_on;
    item.fingerprint_bytes = fingerprint_of(item, judged.comparisons);
    return item;
}

/// Subjects of a rule about the record: one item for each, so that each is decided by itself.
struct Subject {
    std::string id;
    std::string words;  ///< stand in the fingerprint; they never change with what a fact is called
    std::string title;  ///< the same for people; empty: the words
    std::optional<Level> level;
    std::optional<Topic> topic;
    std::string who;
};

std::vector<Subject> subjects_of(const Judge& judge, RecordHas::What what)
{
    std::vector<Subject> subjects;
    const CaseRecord& record = judge.record();
    switch (what) {
        case RecordHas::What::conflict:
            for (std::size_t fact = 0; fact < judge.readings().size(); ++fact) {
                if (judge.readings()[fact].state == FactState::in_conflict) {
                    const FactDefinition& definition = judge.rules().protocol.facts[fact];
                    std::string values;
                    std::string shown;
                    for (const Value& value : judge.readings()[fact].values) {
                        values += (values.empty() ? "" : " or ") + value_text(definition, value);
                        shown += (shown.empty() ? "" : " or ") + value_in_words(definition, value);
                    }
                    subjects.push_back({definition.id,
                                        definition.id + ": " + values,
                                        label_of(definition) + ": " + shown,
                                        {},
                                        definition.topic,
                                        ""});
                }
            }
            break;
        case RecordHas::What::unrecognised_medicine:
            for (const MedicineItem& item : record.medicines.items) {
                if (!item.medicine) {
                    subjects.push_back({item.id, fmt::format("\"{}\"", item.heard), "", {}, {}, item.who});
                }
            }
            break;
        case RecordHas::What::own_concern:
            for (std::size_t place = 0; place < record.concerns.size(); ++place) {
                const OwnConcern& concern = record.concerns[place];
                subjects.push_back({std::to_string(place + 1), fmt::format("\"{}\"", concern.words), "",
                                    concern.level, concern.topic, concern.who});
            }
            break;
        default:
            subjects.push_back({});
    }
    return subjects;
}

void add_record_items(const Judge& judge, const FindingRule& rule, std::vector<Item>& findings)
{
    const auto what = record_test(rule.when);
    const auto fired = judged_item(judge, rule, "finding:" + rule.head.id);
    if (!fired || !what) {
        return;
    }
    for (const Subject& subject : subjects_of(judge, *what)) {
        Item item = *fired;
        if (!subject.id.empty()) {
            item.id += ":" + subject.id;
            item.title += ": " + (subject.title.empty() ? subject.words : subject.title);
            item.level = subject.level.value_or(item.level);
            item.topic = subject.topic.value_or(item.topic);
            item.because = {{"record", subject.words, subject.who}};
            // The words are what a decision about the record rests on.
            item.fingerprint_bytes = fingerprint_of(item, {}) + subject.words;
        }
        findings.push_back(std::move(item));
    }
}

std::vector<Item> findings_of(const Judge& judge)
{
    std::vector<Item> findings;
    for (const FindingRule& rule : judge.rules().protocol.findings) {
        if (rule.about_the_record) {
            add_record_items(judge, rule, findings);
        } else if (auto item = judged_item(judge, rule, "finding:" + rule.head.id)) {
            findings.push_back(std::move(*item));
        }
    }
    return findings;
}

bool needs_bowel_plan(const Judge& judge)
{
    const auto& procedures = judge.record().booking.procedures;
    return judge.in_scope() && std::ranges::any_of(procedures, [&](ProcedureIndex place) {
               return judge.rules().protocol.procedures[place].plan == Procedure::Plan::bowel;
           });
}

std::vector<PreparationStanding> preparations_of(const Judge& judge)
{
    std::vector<PreparationStanding> standings;
    if (!needs_bowel_plan(judge)) {
        return standings;
    }
    const auto& preparations = judge.rules().protocol.preparations;
    for (PreparationIndex place = 0; place < preparations.size(); ++place) {
        PreparationStanding standing;
        standing.preparation = place;
        for (const PreparationLimit& limit : preparations[place].limits) {
            auto item =
                judged_item(judge, limit.finding,
                            fmt::format("preparation:{}:{}", preparations[place].id, limit.finding.head.id));
            if (!item) {
                continue;
            }
            const bool speaks_against = item->level >= Level::ask;
            if (item->state == ItemState::open) {
                if (speaks_against) {
                    standing.open.push_back(std::move(*item));
                }
            } else {
                (speaks_against ? standing.against : standing.cautions).push_back(std::move(*item));
            }
        }
        standings.push_back(std::move(standing));
    }
    return standings;
}

/// What speaks against the preparation that was ordered is decided like any other finding.
void add_ordered_preparation(const Judge& judge, Assessment& assessment)
{
    const auto& ordered = judge.record().booking.ordered;
    if (!ordered || *ordered >= assessment.preparations.size()) {
        return;
    }
    const PreparationStanding& standing = assessment.preparations[*ordered];
    for (const auto* items : {&standing.against, &standing.cautions, &standing.open}) {
        assessment.findings.insert(assessment.findings.end(), items->begin(), items->end());
    }
}

bool asked(OpenWhy why)
{
    return why != OpenWhy::not_asked && why != OpenWhy::not_applicable;
}

void add_questions(const Item& item, std::map<std::string, OpenQuestion>& questions, const Protocol& protocol,
                   const std::vector<FactReading>& readings)
{
    for (const OpenOn& open : item.open_on) {
        if (!asked(open.why)) {
            continue;
        }
        OpenQuestion& question = questions[open.fact];
        question.fact = open.fact;
        question.why = open.why;
        if (const auto fact = find_fact(protocol, open.fact)) {
            question.state = readings[*fact].state;
        }
        question.would_settle.push_back(item.id);
    }
}

void list_questions(const Judge& judge, Assessment& assessment)
{
    const Protocol& protocol = judge.rules().protocol;
    std::map<std::string, OpenQuestion> questions;
    for (const Item& item : assessment.findings) {
        add_questions(item, questions, protocol, judge.readings());
    }
    for (const Hold& hold : assessment.holds) {
        add_questions(hold.item, questions, protocol, judge.readings());
    }
    for (auto& [fact, question] : questions) {
        std::ranges::sort(question.would_settle);
        assessment.open_questions.push_back(std::move(question));
    }
    for (const std::string& section : protocol.sections) {
        int count = 0;
        for (FactIndex fact = 0; fact < protocol.facts.size(); ++fact) {
            const bool unasked = judge.readings()[fact].state == FactState::not_asked;
            if (protocol.facts[fact].section == section && unasked && judge.applies(fact) == Truth::yes) {
                ++count;
            }
        }
        assessment.not_asked.emplace_back(section, count);
    }
}

}  // namespace

std::string_view name_of(DayOf day_of)
{
    switch (day_of) {
        case DayOf::take:
            return "take";
        case DayOf::sip:
            return "sip";
        case DayOf::omit:
            return "omit";
        case DayOf::nothing_due:
            return "nothing due";
    }
    return "";
}

std::string_view name_of(HoldWarning warning)
{
    switch (warning) {
        case HoldWarning::too_late:
            return "too late";
        case HoldWarning::stopped_too_early:
            return "stopped too early";
        case HoldWarning::not_as_told:
            return "not as told";
        case HoldWarning::shorter_than_told:
            return "shorter than told, not too short";
        case HoldWarning::no_date_until_confirmed:
            return "no date until confirmed";
    }
    return "";
}

Assessment assess(const Rules& rules, const CaseRecord& record, Moment now)
{
    Judge judge(rules, record, now);
    Assessment assessment;
    assessment.at = now;
    assessment.bleeding_risk = judge.bleeding_risk();
    assessment.in_scope = judge.in_scope();

    bool told_no_longer_right = false;
    for (const MedicineItem& item : record.medicines.items) {
        if (!item.medicine) {
            continue;  // an unrecognised entry has one finding and no more
        }
        assessment.holds.push_back(plan_hold(judge, item));
        const auto& warnings = assessment.holds.back().warnings;
        told_no_longer_right =
            told_no_longer_right || std::ranges::find(warnings, HoldWarning::not_as_told) != warnings.end();
    }
    judge.note_told_no_longer_right(told_no_longer_right);

    assessment.findings = findings_of(judge);
    assessment.preparations = preparations_of(judge);
    add_ordered_preparation(judge, assessment);
    std::ranges::sort(assessment.findings, [](const Item& a, const Item& b) {
        return std::tie(b.level, a.topic, a.id) < std::tie(a.level, b.topic, b.id);
    });
    list_questions(judge, assessment);
    assessment.readings = judge.readings();
    return assessment;
}

}  // namespace foreday::screening
