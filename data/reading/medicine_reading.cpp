#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "data/reading/reading_parts.h"
#include "data/reading/scalars.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::ClassIndex;
using screening::MedicineClass;
using screening::MedicineDefinition;
using screening::Procedure;

bool yes_at(const MapReader& map, std::string_view key, Faults& faults)
{
    return map[key] != nullptr && read_yes_no(*map[key], faults).value_or(false);
}

MedicineClass read_class(const Located& node, Faults& faults)
{
    const MapReader map(node, "a class", {{"id", "title"}, {"marked"}}, faults);
    return {id_at(map), text_at(map, "title", faults), yes_at(map, "marked", faults)};
}

std::vector<ClassIndex> read_classes(const Located& node, const ProtocolDraft& draft, Faults& faults)
{
    std::vector<ClassIndex> classes;
    for (const Located& item : list_items(node, "classes", faults)) {
        if (const auto place = draft.classes.table.resolve(item, faults)) {
            classes.push_back(*place);
        }
    }
    std::ranges::sort(classes);
    const auto twice = std::ranges::adjacent_find(classes);
    if (twice != classes.end()) {
        faults.add(node, fmt::format("the class \"{}\" stands twice", draft.classes.table.ids().at(*twice)),
                   "once");
    }
    classes.erase(std::ranges::unique(classes).begin(), classes.end());
    return classes;
}

MedicineDefinition read_medicine(const Located& node, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a medicine",
                        {{"id", "generic", "classes"}, {"names", "ingredients", "mistaken_for", "marked"}},
                        faults);
    MedicineDefinition medicine;
    medicine.id = id_at(map);
    medicine.generic = text_at(map, "generic", faults);
    medicine.ingredients = {medicine.generic};
    medicine.marked = yes_at(map, "marked", faults);
    if (map["names"] != nullptr) {
        medicine.names = read_texts(*map["names"], "names", faults);
    }
    if (map["ingredients"] != nullptr) {
        medicine.ingredients = read_texts(*map["ingredients"], "ingredients", faults);
        if (map["ingredients"]->kind == Located::Kind::list && map["ingredients"]->items.empty()) {
            faults.add(*map["ingredients"], "a medicine without an ingredient",
                       "at least one, or leave the key out");
        }
    }
    if (map["classes"] != nullptr) {
        medicine.classes = read_classes(*map["classes"], draft, faults);
    }
    for (const ClassIndex place : medicine.classes) {
        medicine.marked = medicine.marked || draft.protocol.classes.at(place).marked;
    }
    if (map["mistaken_for"] != nullptr) {
        for (const Located& item : list_items(*map["mistaken_for"], "mistaken_for", faults)) {
            if (const auto place = draft.medicines.table.resolve(item, faults)) {
                medicine.mistaken_for.push_back(draft.medicines.table.ids().at(*place));
            }
        }
        std::ranges::sort(medicine.mistaken_for);
    }
    return medicine;
}

/// A combination stands in the classes of its ingredients, or else in classes made for the combination. What
/// it lacks is worth a look; that it is not marked although an ingredient is, is a fault.
void check_combination(const MedicineDefinition& medicine, const Located& node,
                       const std::map<std::string_view, const MedicineDefinition*>& by_generic,
                       ProtocolDraft& draft)
{
    for (const std::string& ingredient : medicine.ingredients) {
        const auto component = by_generic.find(ingredient);
        if (component == by_generic.end() || component->second == &medicine) {
            continue;
        }
        if (component->second->marked && !medicine.marked) {
            draft.faults.add(
                node, fmt::format("\"{}\" is not marked, but its ingredient {} is", medicine.id, ingredient),
                "the marked classes of every ingredient");
        }
        for (const ClassIndex needed : component->second->classes) {
            if (!std::ranges::binary_search(medicine.classes, needed)) {
                draft.warnings.add(
                    node,
                    fmt::format("the combination \"{}\" lacks the class \"{}\" of its ingredient {}",
                                medicine.id, draft.classes.table.ids().at(needed), ingredient),
                    "the classes of every ingredient, unless it has a class of its own");
            }
        }
    }
}

void check_medicines(ProtocolDraft& draft)
{
    const auto& medicines = draft.protocol.medicines;
    std::map<std::string_view, const MedicineDefinition*> by_generic;
    for (std::size_t i = 0; i < medicines.size(); ++i) {
        const Located& id = *find(*draft.medicines.by_place[i], "id");
        // A rule that names such an id speaks about the class, so the medicine must be in it.
        const auto namesake = draft.classes.table.find(medicines[i].id);
        if (namesake && !std::ranges::binary_search(medicines[i].classes, *namesake)) {
            draft.faults.add(id,
                             fmt::format("\"{}\" is a class that this medicine is not in", medicines[i].id),
                             "the medicine in that class, or another id");
        }
        const auto [first, added] = by_generic.emplace(medicines[i].generic, &medicines[i]);
        if (!added && !medicines[i].generic.empty()) {
            draft.faults.add(
                id, fmt::format("\"{}\" has the generic name of \"{}\"", medicines[i].id, first->second->id),
                "one entry for each generic name");
        }
    }
    for (std::size_t i = 0; i < medicines.size(); ++i) {
        if (medicines[i].ingredients.size() > 1) {
            check_combination(medicines[i], *draft.medicines.by_place[i], by_generic, draft);
        }
    }
}

Procedure read_procedure(const Located& node, ProtocolDraft& draft)
{
    Faults& faults = draft.faults;
    const MapReader map(node, "a procedure",
                        {{"id", "title", "plan", "bleeding_risk", "sure"},
                         {"bleeding_risk_diagnostic_only", "intervention", "sources"}},
                        faults);
    Procedure procedure;
    procedure.id = id_at(map);
    procedure.title = text_at(map, "title", faults);
    constexpr std::array<std::string_view, 4> plans{"bowel", "fasting only", "ask", "other"};
    if (map["plan"] != nullptr) {
        procedure.plan =
            read_word<Procedure::Plan>(*map["plan"], plans, faults).value_or(Procedure::Plan::other);
    }
    const auto risk_at = [&](std::string_view key, screening::BleedingRisk otherwise) {
        return map[key] == nullptr
                   ? otherwise
                   : read_named(*map[key], screening::BleedingRisk::high, faults).value_or(otherwise);
    };
    procedure.risk = risk_at("bleeding_risk", screening::BleedingRisk::high);
    procedure.risk_diagnostic_only = risk_at("bleeding_risk_diagnostic_only", procedure.risk);
    procedure.is_intervention = yes_at(map, "intervention", faults);
    const Ground ground = read_ground(map, draft);
    procedure.sources = ground.sources;
    procedure.sure = ground.sure;
    return procedure;
}

}  // namespace

void read_class_file(ProtocolDraft& draft)
{
    draft.protocol.classes = read_entries<MedicineClass>(
        draft.classes, [&](const Located& node) { return read_class(node, draft.faults); });
}

void read_medicine_file(ProtocolDraft& draft)
{
    draft.protocol.medicines = read_entries<MedicineDefinition>(
        draft.medicines, [&](const Located& node) { return read_medicine(node, draft); });
    check_medicines(draft);
}

void read_procedure_file(ProtocolDraft& draft)
{
    draft.protocol.procedures = read_entries<Procedure>(
        draft.procedures, [&](const Located& node) { return read_procedure(node, draft); });
}

}  // namespace foreday::data
