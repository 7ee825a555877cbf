#include "data/reading/rule_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "data/reading/condition_reading.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"

namespace foreday::data {

using screening::FindingRule;
using screening::Level;
using screening::Role;
using screening::RuleHead;

Keys head_keys()
{
    return {{"id", "title", "topic", "hazard", "who", "sure"}, {"sources", "reading", "meanwhile"}};
}

Keys operator+(Keys keys, const Keys& more)
{
    keys.required.insert(keys.required.end(), more.required.begin(), more.required.end());
    keys.optional.insert(keys.optional.end(), more.optional.begin(), more.optional.end());
    return keys;
}

std::vector<Role> read_roles(const Located& node, Faults& faults)
{
    std::vector<Role> roles;
    for (const Located& item : list_items(node, "roles", faults)) {
        const auto role = read_named(item, Role::obstetrics, faults);
        if (!role) {
            continue;
        }
        if (std::ranges::find(roles, *role) != roles.end()) {
            faults.add(item, fmt::format("the role \"{}\" stands twice", name_of(*role)), "once");
        } else {
            roles.push_back(*role);
        }
    }
    if (node.kind == Located::Kind::list && node.items.empty()) {
        faults.add(node, "nobody is named", "at least one role");
    }
    return roles;
}

RuleHead read_head(const MapReader& map, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    RuleHead head;
    head.id = id_at(map);
    head.title = text_at(map, "title", faults);
    head.reading = text_at(map, "reading", faults);
    if (map["topic"] != nullptr) {
        head.topic =
            read_named(*map["topic"], screening::Topic::record, faults).value_or(screening::Topic::record);
    }
    if (map["hazard"] != nullptr) {
        constexpr auto last = screening::Hazard::harm_on_the_way_home;
        head.hazard = read_named(*map["hazard"], last, faults).value_or(last);
    }
    if (map["who"] != nullptr) {
        head.who = read_roles(*map["who"], faults);
    }
    const Ground ground = read_ground(map, draft);
    head.sources = ground.sources;
    head.sure = ground.sure;
    head.meanwhile = text_at(map, "meanwhile", faults);
    return head;
}

namespace {

/// `open`, or {accept: reason}. Left out it is open, which notes and acts must say themselves.
void read_not_knowing(const MapReader& map, bool asks, FindingRule& rule, Faults& faults)
{
    const Located* node = map["not_knowing"];
    if (node == nullptr) {
        if (!asks && !map.wrote("not_knowing")) {
            faults.add(map.node(), fmt::format("\"{}\" does not say what not knowing means", rule.head.id),
                       "not_knowing: open, or not_knowing: {accept: reason}");
        }
        return;
    }
    if (node->kind == Located::Kind::map) {
        const MapReader accept(*node, "not_knowing", {{"accept"}, {}}, faults);
        rule.not_knowing = FindingRule::NotKnowing::accept;
        rule.accept_reason = text_at(accept, "accept", faults);
        return;
    }
    constexpr std::array<std::string_view, 1> words{"open"};
    static_cast<void>(read_place(*node, words, faults));
}

void check_meanwhile(const MapReader& map, bool asks, const FindingRule& rule, Faults& faults)
{
    if (asks && !map.wrote("meanwhile")) {
        faults.add(map.node(), fmt::format("\"{}\" has no \"meanwhile\"", rule.head.id),
                   "meanwhile: what to say until somebody has decided");
    }
    if (!asks && map.wrote("meanwhile")) {
        faults.add(map.key("meanwhile"), fmt::format("\"{}\" waits for nobody", rule.head.id),
                   "meanwhile belongs to the levels ask and stop; leave it out");
    }
}

void read_kind(const MapReader& map, FindingRule& rule, Faults& faults)
{
    constexpr std::array<std::string_view, 1> kinds{"record"};
    rule.about_the_record = map["kind"] != nullptr && read_place(*map["kind"], kinds, faults).has_value();
}

}  // namespace

FindingRule read_finding(const Located& node, FindingPlace place, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    Keys keys = head_keys() + Keys{{"level", "when"}, {"not_knowing", "now"}};
    if (place == FindingPlace::finding) {
        keys.optional.emplace_back("kind");
    }
    const MapReader map(node, place == FindingPlace::finding ? "a finding" : "a limit", keys, faults);
    FindingRule rule;
    rule.head = read_head(map, draft);
    if (map["kind"] != nullptr) {
        read_kind(map, rule, faults);
    }
    rule.now = map["now"] != nullptr;
    rule.now_words = text_at(map, "now", faults);
    if (map["level"] != nullptr) {
        if (const auto level = read_named(*map["level"], Level::stop, faults)) {
            rule.level = *level;
            const bool asks = *level == Level::ask || *level == Level::stop;
            read_not_knowing(map, asks, rule, faults);
            check_meanwhile(map, asks, rule, faults);
        }
    }
    if (map["when"] != nullptr) {
        rule.when = read_condition(
            *map["when"], rule.about_the_record ? RecordTests::allowed : RecordTests::refused, draft);
    }
    return rule;
}

void read_finding_file(ProtocolDraft& draft)
{
    draft.protocol.findings = read_entries<FindingRule>(draft.findings, [&](const Located& node) {
        return read_finding(node, FindingPlace::finding, draft);
    });
}

}  // namespace foreday::data
