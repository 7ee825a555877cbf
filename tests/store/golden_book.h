#pragma once
#include "data/store/store.h"

namespace foreday::tests {

inline constexpr int golden_entries = 12;

/// What golden/book_v1.foreday was filled with, once, on 2026-11-26. Never changed: a later schema gets a
/// book of its own beside it.
void fill_as_golden(store::Store& store);

}  // namespace foreday::tests
