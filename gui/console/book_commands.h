#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "gui/console/run.h"

/// Commands on a book.
namespace foreday::console {

struct NewBookOptions {
    std::filesystem::path file;
    std::filesystem::path policy;
    std::string by;
    std::string role;
    std::filesystem::path protocol;
};
/// Makes a book and puts protocol and policy in force. With faults no book is left behind.
[[nodiscard]] Status new_book_command(const NewBookOptions& options);

/// @param noted  "journal 120 HASH": ends of a chain written down elsewhere
[[nodiscard]] Status verify_book_command(const std::filesystem::path& file,
                                         const std::vector<std::string>& noted);
[[nodiscard]] Status rebuild_book_command(const std::filesystem::path& file);
[[nodiscard]] Status book_info_command(const std::filesystem::path& file);

[[nodiscard]] Status demo_command(const std::filesystem::path& folder, const std::optional<std::string>& at,
                                  const std::filesystem::path& data);

struct BookCaseOptions {
    std::filesystem::path book;
    std::string case_id;
    std::optional<std::string> at;
    bool json = false;
};
[[nodiscard]] Status show_case_command(const BookCaseOptions& options);
[[nodiscard]] Status assess_in_book_command(const BookCaseOptions& options);

}  // namespace foreday::console
