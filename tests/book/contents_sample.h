#pragma once
#include <array>
#include <functional>
#include <string_view>
#include <utility>
#include <variant>

#include "data/book/codec_fields_call.h"
#include "data/book/codec_fields_day.h"
#include "data/book/contents.h"

namespace foreday::tests {

/// Calls `use` with an empty content of each kind, in the order of book::Content.
template <class Use>
void for_each_kind(const Use& use)
{
    [&]<std::size_t... place>(std::index_sequence<place...>) {
        (use(book::Content{std::in_place_index<place>}), ...);
    }(std::make_index_sequence<std::variant_size_v<book::AnyContent>>{});
}

/// The same words, ids and numbers for a field wherever it stands; every field is filled.
[[nodiscard]] book::Content sample_of(book::Content kind);

/// Fields filled by chance, whole words and odd characters alike; some left empty. Under rapidcheck only.
[[nodiscard]] book::Content by_chance(book::Content kind);

}  // namespace foreday::tests
