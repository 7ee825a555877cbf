#include "gui/console/run.h"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <algorithm>
#include <exception>
#include <functional>

#include "gui/console/book_commands.h"
#include "gui/console/commands.h"
#include "gui/console/printing.h"
#include "gui/console/words.h"

namespace foreday::console {
namespace {

const std::filesystem::path data_folder = FOREDAY_SOURCE_DATA_DIR;

/// The commands, each with what it does once the arguments are read.
class CommandLine {
public:
    explicit CommandLine(const OpenDesks& open_desks)
        : open_desks_(open_desks),
          app_("Foreday: what a planned endoscopy needs before the scope.\n" + caution(), "foreday")
    {
        app_.require_subcommand(1);
        add_assess();
        add_case();
        add_facts();
        add_protocol();
        add_medicine();
        add_book();
        add_demo();
        add_desks();
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
        command
            ->add_option("case", case_,
                         "Case file (see `foreday case template`), or with --book the number of a case")
            ->required();
        auto* policy = command->add_option("--policy", assess_.policy,
                                           "The unit's policy, instead of the one the case names");
        command
            ->add_option("--book", book_case_.book,
                         "A book that holds the case, judged by the rules in force there")
            ->excludes(policy);
        command->add_option("--at", assess_.at, "The moment, such as 2027-04-12T09:00");
        command->add_flag("--json", assess_.json, "For another program");
        command->callback([this] {
            if (!book_case_.book.empty()) {
                book_case_.case_id = case_;
                book_case_.at = assess_.at;
                book_case_.json = assess_.json;
                chosen_ = [this] { return assess_in_book_command(book_case_); };
                return;
            }
            assess_.case_file = case_;
            assess_.protocol = data_folder / "protocol";
            chosen_ = [this] { return assess_command(assess_); };
        });
    }

    void add_case()
    {
        auto* command = app_.add_subcommand("case", "Case files, and cases of a book");
        auto* show = command->add_subcommand("show", "Where a case of a book stands, its calls and its page");
        show->add_option("book", book_case_.book, "The book's file")->required();
        show->add_option("case", book_case_.case_id, "The number of the case")->required();
        show->add_option("--at", book_case_.at, "The moment, such as 2027-04-12T09:00");
        show->callback([this] { chosen_ = [this] { return show_case_command(book_case_); }; });
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
        auto* table = command->add_subcommand("table", "The content as a document to read and sign");
        table->require_subcommand(1);
        auto* medicines = table->add_subcommand(
            "medicines", "Questions of policy, hold rules and medicines with their sources");
        medicines->add_option("--policy", policy_, "A unit's policy, for what holds there");
        medicines->callback([this] { chosen_ = [this] { return medicines_table_command(content()); }; });
        auto* show = command->add_subcommand("show", "One item and everything that names it");
        show->add_option("id", item_, "Id of a rule, fact, medicine, class, parameter, source ...")
            ->required();
        show->add_option("--policy", policy_, "A unit's policy, for what holds there");
        show->callback([this] { chosen_ = [this] { return show_item_command(item_, content()); }; });
    }

    void add_medicine()
    {
        auto* command =
            app_.add_subcommand("medicine", "Ranked candidates for what was heard; it never picks one");
        command->add_option("heard", heard_, "What was heard")->required();
        command->callback(
            [this] { chosen_ = [this] { return medicine_command(heard_, data_folder / "protocol"); }; });
    }

    void add_book()
    {
        auto* command = app_.add_subcommand("book", "The file that keeps all cases of a unit");
        command->require_subcommand(1);
        auto* made = command->add_subcommand("new", "Makes a book and puts protocol and policy in force");
        made->add_option("file", new_book_.file, "The file to make; an existing one is never touched")
            ->required();
        made->add_option("--policy", new_book_.policy, "The unit's policy")->required();
        made->add_option("--by", new_book_.by, "Name of who answers for it")->required();
        made->add_option("--role", new_book_.role, "Medical director or manager")->capture_default_str();
        made->callback([this] {
            new_book_.protocol = data_folder / "protocol";
            chosen_ = [this] { return new_book_command(new_book_); };
        });
        auto* verify = command->add_subcommand("verify", "Whether every entry is as it was written");
        verify->add_option("file", book_file_, "The book's file")->required();
        verify->add_option("--head", heads_,
                           "An end of a chain written down elsewhere: \"journal 120 HASH\"");
        verify->callback([this] { chosen_ = [this] { return verify_book_command(book_file_, heads_); }; });
        auto* rebuild = command->add_subcommand("rebuild", "Makes all lists again from the journal");
        rebuild->add_option("file", book_file_, "The book's file")->required();
        rebuild->callback([this] { chosen_ = [this] { return rebuild_book_command(book_file_); }; });
        auto* info = command->add_subcommand("info", "What a book holds");
        info->add_option("file", book_file_, "The book's file")->required();
        info->callback([this] { chosen_ = [this] { return book_info_command(book_file_); }; });
    }

    void add_demo()
    {
        auto* command =
            app_.add_subcommand("demo", "Makes the book of an invented unit with invented patients");
        command->add_option("folder", demo_folder_, "Where to make it")->required();
        command->add_option("--at", demo_at_, "The moment its work has come to; without it the clock");
        command->callback(
            [this] { chosen_ = [this] { return demo_command(demo_folder_, demo_at_, data_folder); }; });
    }

    void add_desks()
    {
        auto* command = app_.add_subcommand("desks", "The window of phone, review and arrival desk");
        command->add_option("book", desks_.book, "The book's file")->required();
        command->add_flag("--demo", desks_.demo, "Say on the window that the book is a demo");
        command->add_option("--at", desks_.at, "The moment its clock starts from, such as 2027-04-12T09:00");
        command->add_option("--name", desks_.name, "Who is at work; without it the window asks");
        command->add_option("--role", desks_role_, "The role, with --name")->capture_default_str();
        command->callback([this] { chosen_ = [this] { return desks(); }; });
    }

    Status desks()
    {
        const auto role = screening::find_role(desks_role_);
        if (!role) {
            print_error(
                fmt::format("--role: \"{}\" is no role; such as nurse or endoscopist\n", desks_role_));
            return Status::wrong_use;
        }
        desks_.role = *role;
        if (!open_desks_) {
            print_error("foreday: this program was built without windows\n");
            return Status::wrong_use;
        }
        return open_desks_(desks_);
    }

    [[nodiscard]] ContentOptions content() const { return {protocol_, policy_}; }

    const OpenDesks& open_desks_;
    CLI::App app_;
    DesksOptions desks_;
    std::string desks_role_ = "nurse";
    std::string case_;
    BookCaseOptions book_case_;
    NewBookOptions new_book_{.file = {}, .policy = {}, .by = {}, .role = "medical director", .protocol = {}};
    std::filesystem::path book_file_;
    std::vector<std::string> heads_;
    std::filesystem::path demo_folder_;
    std::optional<std::string> demo_at_;
    AssessOptions assess_;
    std::filesystem::path protocol_ = data_folder / "protocol";
    std::optional<std::filesystem::path> policy_;
    std::string item_;
    std::string heard_;
    std::function<Status()> chosen_;
};

}  // namespace

int run(int argc, const char* const* argv, const OpenDesks& open_desks)
{
    try {
        const Status status = CommandLine(open_desks).run(argc, argv);
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
