#pragma once
#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "data/store/file_system.h"
#include "data/store/schema.h"
#include "data/store/store.h"

namespace foreday::store {

enum class OpenMode : std::uint8_t { read_write, read_only };

/// What tests set otherwise. The defaults are right for a book at work.
struct BookSettings {
    std::chrono::milliseconds wait{10'000};  ///< for others who are writing, before Kind::busy
    std::string vfs;                         ///< SQLite's name of the file layer; empty: its own
    std::function<FileSystem(const std::filesystem::path&)> file_system = file_system_of;
    SchemaHistory schema = schema_history();
};

/// Makes a new, empty book and opens it. An existing file is never touched, and nothing half-made is left
/// behind: the book is made under another name and put in place whole.
/// @throws StoreFault
[[nodiscard]] std::unique_ptr<Store> create_book(const std::filesystem::path& file,
                                                 const BookSettings& settings = {});

/// Opens a book. One of an older version is first brought up to date (the old file is kept beside it). Where
/// it can be read but not written - a later version, a file or folder that may not be written - it is opened
/// for reading, info() says why, and write() throws.
/// @throws StoreFault
[[nodiscard]] std::unique_ptr<Store> open_book(const std::filesystem::path& file, OpenMode mode,
                                               const BookSettings& settings = {});

}  // namespace foreday::store
