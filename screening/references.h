#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "screening/protocol.h"

namespace foreday::screening {

/// The kinds of item a protocol is made of. `program` stands for what the program itself needs of it.
enum class ItemKind : std::uint8_t {
    source,
    parameter,
    policy_question,
    fact,
    medicine_class,
    medicine,
    procedure,
    finding,
    hold_rule,
    preparation,
    readiness_item,
    program,
};
/// "hold rule"
[[nodiscard]] std::string_view name_of(ItemKind kind);

/// An item by its id. Ids are unique within a kind.
struct ItemName {
    ItemKind kind = ItemKind::program;
    std::string id;
    auto operator<=>(const ItemName&) const = default;
};

/// One item that names another.
struct Reference {
    ItemName from;
    ItemName to;
    auto operator<=>(const Reference&) const = default;
};

/// Everything in a protocol that names something else of it, sorted, once each. What a condition names
/// counts as named by the rule it stands in; a calculated value names the facts it is computed from.
[[nodiscard]] std::vector<Reference> references_in(const Protocol& protocol);

/// Every item of a protocol, sorted by kind and id.
[[nodiscard]] std::vector<ItemName> items_of(const Protocol& protocol);

}  // namespace foreday::screening
