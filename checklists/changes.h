#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "checklists/decisions.h"

namespace foreday::checklists {

/// One value an item stands on, as it was seen.
struct GroundSeen {
    std::string what;
    std::string value;
    auto operator<=>(const GroundSeen&) const = default;
};

/// One item as it was seen at some time: small enough to be kept with a signature.
struct ItemSeen {
    std::string id;
    std::string fingerprint;  ///< lower-case hexadecimal
    std::string title;
    std::string result;               ///< in words, as "a clinician decides (open)"
    std::vector<GroundSeen> grounds;  ///< sorted
    bool operator==(const ItemSeen&) const = default;
};

/// All of all_items(), in their order.
[[nodiscard]] std::vector<ItemSeen> seen_in(const screening::Assessment& assessment, const HashText& hash);

struct Change {
    enum class Kind : std::uint8_t {
        came,
        went,
        changed_result,  ///< another fingerprint: what was decided on it opens
        value_moved,     ///< the same fingerprint on other values: opens nothing
    } kind = Kind::came;
    std::string item;   ///< item id
    std::string words;  ///< one sentence
    bool operator==(const Change&) const = default;
};
[[nodiscard]] std::string_view name_of(Change::Kind kind);

/// What has changed from one time to another, item by item: those of `after` in its order, then what went in
/// the order of `before`. The same items twice: empty.
/// @param protocol  says what the values are called
[[nodiscard]] std::vector<Change> changes_between(const screening::Protocol& protocol,
                                                  const std::vector<ItemSeen>& before,
                                                  const std::vector<ItemSeen>& after);

}  // namespace foreday::checklists
