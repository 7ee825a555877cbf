#pragma once
#include <chrono>
#include <cstdint>
#include <filesystem>

namespace foreday::store {

/// Keeps a book's name and its file together: whoever opens a book shares its folder's lock while doing so,
/// and whoever puts another file in a book's place has it alone. Without it SQLite, which finds side files by
/// name, could take those of the new book for the old one's. It goes with its holder, however that one ends.
class FolderLock {
public:
    enum class Use : std::uint8_t { shared, alone };
    /// Of the folder that holds the file. A folder that cannot be locked is not: nobody can put a file there.
    /// @throws StoreFault of Kind::busy after `wait`
    FolderLock(const std::filesystem::path& file, Use use, std::chrono::milliseconds wait);
    ~FolderLock();
    FolderLock(const FolderLock&) = delete;
    FolderLock& operator=(const FolderLock&) = delete;

private:
    int descriptor_;
};

}  // namespace foreday::store
