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
[[nodiscard]] Status medicine_command(const std::string& heard, const std::filesystem::path& folder);

}  // namespace foreday::console
