#pragma once
#include <string_view>
#include <vector>

#include "data/reading/yaml_text.h"

namespace foreday::data {

/// The keys a map may have.
struct Keys {
    std::vector<std::string_view> required;
    std::vector<std::string_view> optional;
};

/// One map being read. Making it tells every fault of form: that it is no map, keys it must not have (with
/// the nearest key it may have), keys that are missing, keys without a value. What is read from it
/// afterwards need only look at the values.
class MapReader {
public:
    /// @param what  "a finding", "the booking": for the faults
    MapReader(const Located& node, std::string_view what, const Keys& keys, Faults& faults);

    /// The value of a key; nullptr when it is absent or without a value.
    [[nodiscard]] const Located* operator[](std::string_view key) const;
    [[nodiscard]] bool has(std::string_view key) const { return (*this)[key] != nullptr; }
    /// Whether the key was written at all: with a value or without, or as an unknown key that is told to be
    /// perhaps this one.
    [[nodiscard]] bool wrote(std::string_view key) const;
    /// False where the node was no map: nothing can be read from it.
    [[nodiscard]] bool is_map() const { return node_.kind == Located::Kind::map; }
    [[nodiscard]] const Located& node() const { return node_; }
    /// The key itself, to tell a fault at; the node where it is absent.
    [[nodiscard]] const Located& key(std::string_view name) const;

private:
    const Located& node_;
    std::vector<std::string_view> meant_;  ///< keys that unknown ones are told to be perhaps
};

/// "a map", "a list", "a text", "nothing": what a node is, for faults.
[[nodiscard]] std::string_view kind_name(const Located& node);

/// The entries of a list; a fault and none where the node is no list.
/// @param what  "conditions", "sources": for the fault
[[nodiscard]] const std::vector<Located>& list_items(const Located& node, std::string_view what,
                                                     Faults& faults);

}  // namespace foreday::data
