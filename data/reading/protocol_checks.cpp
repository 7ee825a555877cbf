#include "data/reading/protocol_checks.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "data/reading/rule_reading.h"

namespace foreday::data {
namespace {

const Located& id_node(const Located& entry)
{
    const Located* id = find(entry, "id");
    return id == nullptr ? entry : *id;
}

/// Ids of everything that can be confirmed, and where each stands.
std::vector<const Located*> confirmable_ids(const ProtocolDraft& draft)
{
    std::vector<const Located*> ids;
    const auto add_nested = [&](const Located& entry, std::string_view key) {
        if (const Located* list = find(entry, key)) {
            for (const Located& item : list->items) {
                if (const Located* id = find(item, "id")) {
                    ids.push_back(id);
                }
            }
        }
    };
    for (const Entries* entries :
         {&draft.parameters, &draft.findings, &draft.holds, &draft.preparations, &draft.readiness}) {
        for (const Located* entry : entries->by_place) {
            ids.push_back(&id_node(*entry));
        }
    }
    for (const Located* question : draft.policy_questions.by_place) {
        add_nested(*question, "options");
    }
    for (const Located* preparation : draft.preparations.by_place) {
        add_nested(*preparation, "limits");
    }
    return ids;
}

void warn_each(const Entries& entries, std::string_view what, Faults& warnings)
{
    for (std::size_t i = 0; i < entries.by_place.size(); ++i) {
        if (!entries.table.used()[i]) {
            warnings.add(id_node(*entries.by_place[i]),
                         fmt::format("nothing uses the {} \"{}\"", what, entries.table.ids()[i]),
                         "use it or leave it out");
        }
    }
}

}  // namespace

void check_reach(ProtocolDraft& draft)
{
    if (!draft.medicines.table.complete() || !draft.holds.table.complete() ||
        !draft.classes.table.complete()) {
        return;  // what is missing may be what reaches
    }
    const auto& protocol = draft.protocol;
    std::vector<bool> rule_reaches(protocol.holds.size(), false);
    for (std::uint32_t i = 0; i < protocol.medicines.size(); ++i) {
        bool reached = false;
        for (std::size_t j = 0; j < protocol.holds.size(); ++j) {
            if (screening::speaks_about(protocol.holds[j], i, protocol)) {
                reached = true;
                rule_reaches[j] = true;
            }
        }
        if (!reached) {
            draft.faults.add(id_node(*draft.medicines.by_place[i]),
                             fmt::format("no hold rule speaks about \"{}\"", protocol.medicines[i].id),
                             "a rule for it or for one of its classes");
        }
    }
    for (std::size_t j = 0; j < protocol.holds.size(); ++j) {
        // A rule whose `for` names nothing known has been told about already.
        const bool names_something =
            !protocol.holds[j].classes.empty() || !protocol.holds[j].medicines.empty();
        if (!rule_reaches[j] && names_something) {
            draft.faults.add(id_node(*draft.holds.by_place[j]),
                             fmt::format("the hold \"{}\" reaches no medicine", protocol.holds[j].head.id),
                             "a class that some medicine has");
        }
    }
}

void check_confirmable_ids(ProtocolDraft& draft)
{
    std::map<std::string_view, const Located*> first;
    for (const Located* id : confirmable_ids(draft)) {
        const auto [earlier, added] = first.emplace(id->text, id);
        const bool same_file = earlier->second->file == id->file;
        if (!added && (!same_file || earlier->second->line != id->line)) {
            const std::string& file = *earlier->second->file;
            draft.faults.add(
                *id, fmt::format("the id \"{}\" stands for two things that a unit may confirm", id->text),
                fmt::format("another id; the first stands in {}:{}", file.substr(file.find_last_of('/') + 1),
                            earlier->second->line));
        }
    }
}

void warn_of_unused(ProtocolDraft& draft)
{
    warn_each(draft.facts, "fact", draft.warnings);
    warn_each(draft.classes, "class", draft.warnings);
    warn_each(draft.parameters, "parameter", draft.warnings);
    warn_each(draft.sources, "source", draft.warnings);
    warn_each(draft.policy_questions, "policy question", draft.warnings);
}

}  // namespace foreday::data
