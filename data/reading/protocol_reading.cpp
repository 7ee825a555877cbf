#include "data/reading/protocol_reading.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <map>
#include <utility>

#include "data/reading/protocol_checks.h"
#include "data/reading/protocol_hash.h"
#include "data/reading/reading_parts.h"

namespace foreday::data {
namespace {

/// The tree of each file; a file that cannot be read or does not parse is not in it.
using Trees = std::map<std::string, Located>;

Trees read_trees(const std::filesystem::path& folder, Faults& faults)
{
    Trees trees;
    for (const std::string& name : protocol_files()) {
        if (auto tree = read_yaml(folder / name, faults)) {
            trees.emplace(name, std::move(*tree));
        }
    }
    return trees;
}

LocatedFault unknown_file(const std::string& name)
{
    return {name, 0, 0, "this file is none of a protocol's",
            fmt::format("only: {}", fmt::join(protocol_files(), ", "))};
}

/// Files that are none of a protocol's. Hidden files and FORMAT.md are nobody's business.
void refuse_unknown_files(const std::filesystem::path& folder, Faults& faults)
{
    std::error_code status;
    for (const auto& entry : std::filesystem::directory_iterator(folder, status)) {
        const std::string name = entry.path().filename().string();
        const bool known = std::ranges::binary_search(protocol_files(), name) || name == "FORMAT.md";
        if (!known && !name.starts_with('.')) {
            faults.add(unknown_file(entry.path().string()));
        }
    }
}

const Located* tree_of(const Trees& trees, const std::string& name)
{
    const auto found = trees.find(name);
    return found == trees.end() ? nullptr : &found->second;
}

void gather_all(const Trees& trees, ProtocolDraft& draft)
{
    const auto from = [&](const std::string& file, std::string_view what) {
        return gather(tree_of(trees, file), what, draft.faults);
    };
    draft.sources = from("sources.yaml", "source");
    draft.parameters = from("parameters.yaml", "parameter");
    draft.policy_questions = from("policy_questions.yaml", "policy question");
    draft.facts = from("facts.yaml", "fact");
    draft.classes = from("classes.yaml", "class");
    draft.medicines = from("medicines.yaml", "medicine");
    draft.procedures = from("procedures.yaml", "procedure");
    draft.findings = from("findings.yaml", "finding");
    draft.holds = from("holds.yaml", "hold");
    draft.preparations = from("preparations.yaml", "preparation");
    draft.readiness = from("readiness.yaml", "readiness item");
}

/// In an order in which each file finds what it needs of the others.
void read_files(const Trees& trees, ProtocolDraft& draft)
{
    const Located* main_file = tree_of(trees, "protocol.yaml");
    read_source_file(draft);
    read_parameter_file(draft);
    read_policy_question_file(draft);
    read_class_file(draft);
    read_medicine_file(draft);
    read_procedure_file(draft);
    read_sections(main_file, draft);
    read_fact_file(draft);
    read_main_file(main_file, draft);
    read_asked_when(draft);
    read_finding_file(draft);
    read_hold_file(draft);
    read_preparation_file(draft);
    read_readiness_file(draft);
}

ReadProtocol read_all(const Trees& trees, ProtocolDraft& draft)
{
    gather_all(trees, draft);
    read_files(trees, draft);
    const auto on_circle = check_circles(draft);
    check_guards(on_circle, draft);
    check_reach(draft);
    check_confirmable_ids(draft);
    warn_of_unused(draft);
    ReadProtocol result;
    result.faults = draft.faults.sorted();
    result.warnings = draft.warnings.sorted();
    if (draft.faults.empty()) {
        result.hash = content_hash(trees);
        result.protocol = std::move(draft.protocol);
    }
    return result;
}

}  // namespace

const std::vector<std::string>& protocol_files()
{
    static const std::vector<std::string> names{
        "classes.yaml",    "facts.yaml",      "findings.yaml",         "holds.yaml",
        "medicines.yaml",  "parameters.yaml", "policy_questions.yaml", "preparations.yaml",
        "procedures.yaml", "protocol.yaml",   "readiness.yaml",        "sources.yaml"};
    return names;
}

ReadProtocol read_protocol(const std::filesystem::path& folder)
{
    ProtocolDraft draft;
    std::error_code status;
    if (!std::filesystem::is_directory(folder, status)) {
        draft.faults.add(
            LocatedFault{folder.string(), 0, 0, "there is no such folder", "the folder of a protocol"});
        return ReadProtocol{.protocol = {}, .faults = draft.faults.sorted(), .warnings = {}, .hash = {}};
    }
    const Trees trees = read_trees(folder, draft.faults);
    refuse_unknown_files(folder, draft.faults);
    return read_all(trees, draft);
}

ReadProtocol read_protocol_texts(const ProtocolTexts& texts)
{
    ProtocolDraft draft;
    Trees trees;
    for (const std::string& name : protocol_files()) {
        if (!texts.contains(name)) {
            draft.faults.add(LocatedFault{name, 0, 0, "this file is missing", "every file of a protocol"});
        }
    }
    for (const auto& [name, text] : texts) {
        if (!std::ranges::binary_search(protocol_files(), name)) {
            draft.faults.add(unknown_file(name));
        } else if (auto tree = parse_yaml(text, name, draft.faults)) {
            trees.emplace(name, std::move(*tree));
        }
    }
    return read_all(trees, draft);
}

std::optional<ProtocolTexts> protocol_texts(const std::filesystem::path& folder)
{
    ProtocolTexts texts;
    for (const std::string& name : protocol_files()) {
        auto text = whole_text(folder / name);
        if (!text) {
            return std::nullopt;
        }
        texts.emplace(name, std::move(*text));
    }
    return texts;
}

}  // namespace foreday::data
