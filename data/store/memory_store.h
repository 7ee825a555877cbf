#pragma once
#include <memory>

#include "data/store/store.h"

namespace foreday::store {

/// A store that is gone with the program: for tests, and held to the same conformance suite as a book on
/// disk.
[[nodiscard]] std::unique_ptr<Store> make_memory_store();

}  // namespace foreday::store
