#include <fmt/format.h>

#include <fstream>
#include <iterator>
#include <map>

#include "data/reading/folding.h"
#include "data/reading/medicine_names.h"
#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"
#include "gui/console/commands.h"
#include "gui/console/item_words.h"
#include "gui/console/printing.h"
#include "gui/console/words.h"
#include "screening/medicine_lookup.h"

namespace foreday::console {
namespace {

using screening::FactDefinition;

void print_unconfirmed(const screening::Protocol& protocol, const screening::UnitPolicy& policy,
                       bool with_policy)
{
    const auto unconfirmed = data::unconfirmed_under(protocol, policy);
    if (!with_policy) {
        print(fmt::format(
            "{} items rest on common practice or on memory; a unit's policy confirms them (--policy)\n",
            unconfirmed.size()));
        return;
    }
    print(fmt::format("{} items are not confirmed by this unit: they give no date and clear nothing\n",
                      unconfirmed.size()));
    for (const data::Unconfirmed& one : unconfirmed) {
        print(fmt::format("  {} {} ({}): {}\n", one.kind, one.id, screening::name_of(one.sure), one.title));
    }
}

}  // namespace

Status case_template_command(const std::filesystem::path& data)
{
    std::ifstream file(data / "demo" / "case_template.yaml", std::ios::binary);
    if (!file) {
        print_error(fmt::format("{}: the template cannot be read\n",
                                (data / "demo" / "case_template.yaml").string()));
        return Status::input_has_faults;
    }
    print(std::string{std::istreambuf_iterator<char>(file), {}});
    return Status::done;
}

Status facts_command(const std::filesystem::path& folder)
{
    const data::ReadProtocol read = data::read_protocol(folder);
    if (!read.protocol) {
        print_faults(read.faults);
        return Status::input_has_faults;
    }
    for (const std::string& section : read.protocol->sections) {
        print(fmt::format("== {}\n", section));
        for (const FactDefinition& fact : read.protocol->facts) {
            if (fact.section == section) {
                print(fact_block(fact));
            }
        }
    }
    return Status::done;
}

Status protocol_check_command(const std::filesystem::path& folder,
                              const std::optional<std::filesystem::path>& policy_file)
{
    const data::ReadProtocol read = data::read_protocol(folder);
    for (const data::LocatedFault& warning : read.warnings) {
        print("worth a look: " + data::text_of(warning) + "\n");
    }
    if (!read.protocol) {
        print_faults(read.faults);
        return Status::input_has_faults;
    }
    const screening::Protocol& protocol = *read.protocol;
    print(fmt::format("{}: version {}, hash {}\n", folder.string(), protocol.version, read.hash));
    print(fmt::format(
        "{} facts, {} medicines, {} hold rules, {} findings, {} preparations, {} readiness items, "
        "{} parameters, {} policy questions, {} sources: no fault\n",
        protocol.facts.size(), protocol.medicines.size(), protocol.holds.size(), protocol.findings.size(),
        protocol.preparations.size(), protocol.readiness.size(), protocol.parameters.size(),
        protocol.policy_questions.size(), protocol.sources.size()));
    if (!policy_file) {
        print_unconfirmed(protocol, data::default_policy(protocol), false);
        return Status::done;
    }
    const data::ReadPolicy policy = data::read_policy(*policy_file, protocol);
    for (const data::LocatedFault& warning : policy.warnings) {
        print("worth a look: " + data::text_of(warning) + "\n");
    }
    if (!policy.policy) {
        print_faults(policy.faults);
        return Status::input_has_faults;
    }
    print(fmt::format("{}: no fault\n", policy_file->string()));
    print_unconfirmed(protocol, *policy.policy, true);
    return Status::done;
}

Status medicine_command(const std::string& heard, const std::filesystem::path& folder)
{
    const data::ReadProtocol read = data::read_protocol(folder);
    if (!read.protocol) {
        print_faults(read.faults);
        return Status::input_has_faults;
    }
    const auto candidates =
        screening::rank_candidates(data::medicine_names(*read.protocol), data::fold(heard));
    if (candidates.empty()) {
        print(fmt::format(
            "Nothing in the protocol sounds or is spelled like \"{}\". Write down what was heard; a person "
            "has to name it.\n",
            heard));
        return Status::done;
    }
    print("Candidates, nearest first. Nothing is chosen: ask which one it is.\n");
    for (const screening::Candidate& candidate : candidates) {
        const auto place = screening::find_medicine(*read.protocol, candidate.medicine_id);
        const screening::MedicineDefinition& medicine = read.protocol->medicines[*place];
        print(fmt::format("  {:<36} {} ({}, {} of 1000)\n", candidate.shown, medicine.id, candidate.how,
                          candidate.score));
        for (const std::string& other : medicine.mistaken_for) {
            print(fmt::format("      easily confused with {}\n", other));
        }
    }
    return Status::done;
}

}  // namespace foreday::console
