#pragma once
#include <filesystem>
#include <memory>
#include <optional>

#include "data/store/book_file.h"
#include "data/store/connection.h"
#include "data/store/sqlite_store.h"

namespace foreday::store {

/// A book that has been opened and looked at: what the store goes on with.
struct OpenedBook {
    std::filesystem::path file;
    FileIdentity identity;  ///< of the file that is open, whatever stands at its name later
    std::unique_ptr<Connection> connection;
    int version = 0;
    int our_version = 0;
    std::optional<StoreFault> why_not;  ///< what write() throws; empty: it may write
    /// Opened without locks, because nobody could write it then. Reading stops once somebody does.
    std::optional<std::filesystem::file_time_type> unchanged_since;
};

[[nodiscard]] std::unique_ptr<Store> make_sqlite_store(OpenedBook book);

/// @throws StoreFault for a file on a file system whose locks cannot be trusted
void refuse_network(const std::filesystem::path& file, const BookSettings& settings);

}  // namespace foreday::store
