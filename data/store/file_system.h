#pragma once
#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>

namespace foreday::store {

/// What kind of file system holds a file.
struct FileSystem {
    std::uint64_t type = 0;  ///< as statfs names it
    std::string name;        ///< as the mount table names it ("fuse.sshfs"); empty where it was not looked up
};

/// Of the file, or of the nearest folder above it that is there. A type of 0: it cannot be learnt.
[[nodiscard]] FileSystem file_system_of(const std::filesystem::path& file);

/// Why locks cannot be trusted on it: what it is, for a sentence ("a network folder (NFS)"). Empty: they can.
[[nodiscard]] std::optional<std::string> why_locks_fail(const FileSystem& kind);

}  // namespace foreday::store
