#pragma once
#include <filesystem>

#include "data/store/sqlite_store.h"

namespace foreday::store {

/// Brings a book of an older version up to settings.schema: on a copy, which is verified and then takes the
/// book's place in one step. The old book is kept beside it as NAME.version-N. Needs the book alone; whoever
/// opens it meanwhile waits. Of the book's own version nothing is done.
/// @throws StoreFault, and then the old book stands as it was
void bring_up_to_date(const std::filesystem::path& file, const BookSettings& settings);

}  // namespace foreday::store
