#include "data/reading/policy_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "data/reading/nearest.h"
#include "data/reading/policy_draft.h"
#include "data/reading/protocol_hash.h"
#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "data/reading/zone_name.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::Role;

constexpr auto own_id = [](const auto& entry) { return entry.id; };

/// Names in the order they are rung, each alone or with role and telephone number.
std::vector<RosterEntry> read_roster(const Located& node, Faults& faults)
{
    std::vector<RosterEntry> roster;
    for (const Located& item : list_items(node, "roster", faults)) {
        RosterEntry entry;
        if (item.kind != Located::Kind::map) {
            entry.name = read_text(item, faults).value_or("");
            roster.push_back(std::move(entry));
            continue;
        }
        const MapReader map(item, "an entry of the roster", {{"name"}, {"role", "phone"}}, faults);
        entry.name = text_at(map, "name", faults);
        entry.phone = text_at(map, "phone", faults);
        if (map["role"] != nullptr) {
            entry.role = read_named(*map["role"], Role::obstetrics, faults);
        }
        roster.push_back(std::move(entry));
    }
    return roster;
}

std::map<Role, std::vector<std::string>> read_people(const Located& node, Faults& faults)
{
    std::map<Role, std::vector<std::string>> people;
    if (node.kind != Located::Kind::map) {
        faults.add(node, fmt::format("roles: {} where a map is needed", kind_name(node)), "ROLE: [names]");
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const auto role = read_named(node.keys[i], Role::obstetrics, faults);
        auto names = read_texts(node.items[i], "names", faults);
        if (role) {
            people.emplace(*role, std::move(names));
        }
    }
    return people;
}

std::map<std::string, std::vector<std::string>> read_local_names(const Located& node, PolicyDraft& draft)
{
    std::map<std::string, std::vector<std::string>> names;
    if (node.kind != Located::Kind::map) {
        draft.faults.add(node, fmt::format("local_names: {} where a map is needed", kind_name(node)),
                         "ID of a medicine or preparation: [words]");
    }
    std::vector<std::string_view> ids(draft.medicines.ids().begin(), draft.medicines.ids().end());
    ids.insert(ids.end(), draft.preparations.ids().begin(), draft.preparations.ids().end());
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        const std::string& id = node.keys[i].text;
        if (!draft.medicines.find(id) && !draft.preparations.find(id)) {
            draft.faults.add(
                node.keys[i],
                fmt::format("there is no medicine and no preparation {}", screening::as_written(id)),
                perhaps(id, ids));
        }
        names.emplace(id, read_texts(node.items[i], "words", draft.faults));
    }
    return names;
}

void read_file(const Located& tree, PolicyDraft& draft, ReadPolicy& result)
{
    const MapReader map(tree, "a unit's policy",
                        {{"unit", "zone", "hours"},
                         {"parameters", "answers", "confirms", "standing_orders", "preparations", "may_agree",
                          "roster", "roles", "local_names"}},
                        draft.faults);
    draft.policy.unit = text_at(map, "unit", draft.faults);
    if (map["zone"] != nullptr) {
        result.zone = read_zone_name(*map["zone"], draft.faults).value_or("");
    }
    using Part = void (*)(const Located&, PolicyDraft&);
    // Answers come before confirmations, which look at the chosen options.
    const std::initializer_list<std::pair<std::string_view, Part>> parts{
        {"hours", read_unit_hours},
        {"parameters", read_unit_parameters},
        {"answers", read_unit_answers},
        {"confirms", read_confirmations},
        {"standing_orders", read_standing_orders},
        {"preparations", read_preparation_order},
        {"may_agree", read_may_agree}};
    for (const auto& [key, read] : parts) {
        if (map[key] != nullptr) {
            read(*map[key], draft);
        }
    }
    if (map["roster"] != nullptr) {
        result.roster = read_roster(*map["roster"], draft.faults);
    }
    if (map["roles"] != nullptr) {
        result.people = read_people(*map["roles"], draft.faults);
    }
    if (map["local_names"] != nullptr) {
        result.local_names = read_local_names(*map["local_names"], draft);
    }
}

ReadPolicy read_tree(const std::optional<Located>& tree, PolicyDraft& draft)
{
    ReadPolicy result;
    if (tree) {
        read_file(*tree, draft, result);
    }
    result.faults = draft.faults.sorted();
    result.warnings = draft.warnings.sorted();
    std::ranges::sort(draft.changes, {}, &UnitChange::item);
    result.changes = std::move(draft.changes);
    if (draft.faults.empty()) {
        result.hash = content_hash({{"policy", *tree}});
        result.policy = std::move(draft.policy);
    }
    return result;
}

}  // namespace

PolicyDraft::PolicyDraft(const screening::Protocol& protocol_read)
    : protocol(protocol_read),
      policy(default_policy(protocol_read)),
      parameters(table_of("parameter", protocol.parameters, own_id)),
      questions(table_of("policy question", protocol.policy_questions, own_id)),
      holds(table_of("hold", protocol.holds, [](const auto& rule) { return rule.head.id; })),
      preparations(table_of("preparation", protocol.preparations, own_id)),
      medicines(table_of("medicine", protocol.medicines, own_id))
{
}

ReadPolicy read_policy(const std::filesystem::path& file, const screening::Protocol& protocol)
{
    PolicyDraft draft(protocol);
    return read_tree(read_yaml(file, draft.faults), draft);
}

ReadPolicy read_policy_text(std::string_view text, const std::string& shown_as,
                            const screening::Protocol& protocol)
{
    PolicyDraft draft(protocol);
    return read_tree(parse_yaml(text, shown_as, draft.faults), draft);
}

}  // namespace foreday::data
