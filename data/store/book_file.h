#pragma once
#include <sys/types.h>

#include <filesystem>
#include <optional>

namespace foreday::store {

/// Which file it is, whatever its name. Nothing here opens a book that SQLite may hold open in this program:
/// closing it again would drop SQLite's locks.
struct FileIdentity {
    dev_t device = 0;
    ino_t inode = 0;
    bool operator==(const FileIdentity&) const = default;
};
/// Empty: there is no such file, or it cannot be seen.
[[nodiscard]] std::optional<FileIdentity> identity_of(const std::filesystem::path& file);

/// SQLite's write-ahead file beside a book.
[[nodiscard]] std::filesystem::path wal_of(const std::filesystem::path& book);

/// Absolute, with links resolved, so that side files are looked for where SQLite has them.
[[nodiscard]] std::filesystem::path whole_path(const std::filesystem::path& file);

/// A file that is made beside its later place and put there whole. What is not put in place is removed.
class UnfinishedFile {
public:
    explicit UnfinishedFile(const std::filesystem::path& later);
    ~UnfinishedFile();
    UnfinishedFile(const UnfinishedFile&) = delete;
    UnfinishedFile& operator=(const UnfinishedFile&) = delete;

    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// On the disk for good, under its name. Nobody may hold it open.
    /// @throws StoreFault, among others when there is a file of that name
    void put_in_place();
    /// As put_in_place(), in the place of the file that is there, in one step.
    void put_in_place_of_old();

private:
    void make_durable() const;
    void note_done();

    std::filesystem::path later_;
    std::filesystem::path path_;
};

/// A second name for a file.
/// @throws StoreFault
void give_second_name(const std::filesystem::path& file, const std::filesystem::path& name);

}  // namespace foreday::store
