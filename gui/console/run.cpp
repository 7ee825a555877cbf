#include "gui/console/run.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <functional>

#include "gui/console/commands.h"
#include "gui/console/printing.h"
#include "gui/console/words.h"

namespace foreday::console {
namespace {

const std::filesystem::path data_folder = FOREDAY_SOURCE_DATA_DIR;

/// The commands, each with what it does once the arguments are read.
class CommandLine {
public:
    CommandLine() : app_("Foreday: what a planned endoscopy needs before the scope.\n" + caution(), "foreday")
    {
        app_.require_subcommand(1);
        add_assess();
        add_case();
        add_facts();
        add_protocol();
        add_medicine();
    }

    Status run(int argc, const char* const* argv)
    {
        if (argc < 2 || !knows(argv[1])) {
            const std::string what =
                argc < 2 ? "nothing to do was said" : fmt::format("\"{}\" is no command", argv[1]);
            print_error(fmt::format("foreday: {}; one of: {}\nMore: foreday --help\n", what,
                                    fmt::join(commands(), ", ")));
            return Status::wrong_use;
        }
        try {
            app_.parse(argc, argv);
        } catch (const CLI::ParseError& error) {
            const bool asked_for_help = error.get_exit_code() == 0;
            app_.exit(error);  // prints the help, or what was wrong
            return asked_for_help ? Status::done : Status::wrong_use;
        }
        return chosen_ ? chosen_() : Status::wrong_use;
    }

private:
    [[nodiscard]] std::vector<std::string> commands() const
    {
        std::vector<std::string> names;
        for (const CLI::App* command : app_.get_subcommands([](const CLI::App*) { return true; })) {
            names.push_back(command->get_name());
        }
        return names;
    }

    /// The toolkit itself would say only that a command is missing.
    [[nodiscard]] bool knows(const std::string& word) const
    {
        const auto names = commands();
        return word.starts_with('-') || std::ranges::find(names, word) != names.end();
    }

    void add_assess()
    {
        auto* command = app_.add_subcommand(
            "assess", "Findings, medicines with dates, preparation, clearance, readiness");
        command->add_option("case", assess_.case_file, "Case file (see `foreday case template`)")->required();
        command->add_option("--policy", assess_.policy,
                            "The unit's policy, instead of the one the case names");
        command->add_option("--at", assess_.at, "The moment, such as 2027-04-12T09:00");
        command->add_flag("--json", assess_.json, "For another program");
        command->callback([this] {
            assess_.protocol = data_folder / "protocol";
            chosen_ = [this] { return assess_command(assess_); };
        });
    }

    void add_case()
    {
        auto* command = app_.add_subcommand("case", "Case files");
        command->require_subcommand(1);
        command->add_subcommand("template", "Prints a case file with every key explained")->callback([this] {
            chosen_ = [] { return case_template_command(data_folder); };
        });
    }

    void add_facts()
    {
        app_.add_subcommand("facts", "Every fact: id, type, unit, danger and question")->callback([this] {
            chosen_ = [] { return facts_command(data_folder / "protocol"); };
        });
    }

    void add_protocol()
    {
        auto* command = app_.add_subcommand("protocol", "The clinical content");
        command->require_subcommand(1);
        auto* check =
            command->add_subcommand("check", "Faults of the content, and what a unit has not confirmed");
        check->add_option("folder", protocol_, "Folder of the protocol's files");
        check->add_option("--policy", policy_, "A unit's policy to check with it");
        check->callback([this] { chosen_ = [this] { return protocol_check_command(protocol_, policy_); }; });
    }

    void add_medicine()
    {
        auto* command =
            app_.add_subcommand("medicine", "Ranked candidates for what was heard; it never picks one");
        command->add_option("heard", heard_, "What was heard")->required();
        command->callback(
            [this] { chosen_ = [this] { return medicine_command(heard_, data_folder / "protocol"); }; });
    }

    CLI::App app_;
    AssessOptions assess_;
    std::filesystem::path protocol_ = data_folder / "protocol";
    std::optional<std::filesystem::path> policy_;
    std::string heard_;
    std::function<Status()> chosen_;
};

}  // namespace

int run(int argc, const char* const* argv)
{
    try {
        const Status status = CommandLine().run(argc, argv);
        if (!all_printed()) {
            print_error("foreday: the result could not be written in full\n");
            return static_cast<int>(Status::input_has_faults);
        }
        return static_cast<int>(status);
    } catch (const std::exception& error) {
        print_error(std::string{"foreday: something that must not happen has happened: "} + error.what() +
                    "\n");
        return static_cast<int>(Status::input_has_faults);
    }
}

}  // namespace foreday::console
