#pragma once
#include <filesystem>
#include <string>

#include "data/store/store.h"

namespace foreday::store {

/// The file name as it is shown in sentences.
[[nodiscard]] std::string shown(const std::filesystem::path& file);

/// What SQLite reported, as a sentence for the person at the desk.
/// @param code        its extended result code
/// @param system      errno with it, 0: none
/// @param message     its own words, kept only where we have no better ones
[[nodiscard]] StoreFault fault_of_sqlite(int code, int system, const std::string& message,
                                         const std::filesystem::path& file);

/// What the operating system reported when the file was to be made, moved or read.
[[nodiscard]] StoreFault fault_of_system(int error, const std::filesystem::path& file);

[[nodiscard]] StoreFault not_there(const std::filesystem::path& file);
[[nodiscard]] StoreFault not_there_any_more(const std::filesystem::path& file);
[[nodiscard]] StoreFault not_a_book(const std::filesystem::path& file);
[[nodiscard]] StoreFault broken(const std::filesystem::path& file, const std::string& where);
[[nodiscard]] StoreFault may_not_be_written(const std::filesystem::path& file);
[[nodiscard]] StoreFault of_later_version(const std::filesystem::path& file, int version, int ours);
[[nodiscard]] StoreFault may_stand_or_not(const std::filesystem::path& file, const std::string& what_failed);

}  // namespace foreday::store
