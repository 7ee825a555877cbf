#pragma once
#include <filesystem>
#include <optional>
#include <string>

#include "gui/console/run.h"

/// One function a command. Each prints its result or its faults and gives the exit status.
namespace foreday::console {

struct AssessOptions {
    std::filesystem::path case_file;
    std::optional<std::filesystem::path> policy;
    std::optional<std::string> at;
    bool json = false;
    std::filesystem::path protocol;
};
[[nodiscard]] Status assess_command(const AssessOptions& options);

[[nodiscard]] Status case_template_command(const std::filesystem::path& data);
[[nodiscard]] Status facts_command(const std::filesystem::path& folder);
[[nodiscard]] Status protocol_check_command(const std::filesystem::path& folder,
                                            const std::optional<std::filesystem::path>& policy_file);
/// Which content, and under whose answers.
struct ContentOptions {
    std::filesystem::path protocol;
    std::optional<std::filesystem::path> policy;  ///< empty: the default of every question of policy
};
/// Policy questions, hold rules and medicines as one document that a medical director can read and sign.
[[nodiscard]] Status medicines_table_command(const ContentOptions& options);
/// One item of the protocol, by its id, and everything that names it.
[[nodiscard]] Status show_item_command(const std::string& id, const ContentOptions& options);
[[nodiscard]] Status medicine_command(const std::string& heard, const std::filesystem::path& folder);

}  // namespace foreday::console
