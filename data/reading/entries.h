#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/yaml_text.h"

namespace foreday::data {

/// The ids of one kind of entry. An entry's place is that of its id in the sorted table.
class IdTable {
public:
    IdTable() = default;
    /// @param what  "fact", "source": for the faults
    /// @param ids   sorted, each once
    IdTable(std::string_view what, std::vector<std::string> ids, bool complete)
        : what_(what), ids_(std::move(ids)), used_(ids_.size(), false), complete_(complete)
    {
    }

    [[nodiscard]] std::optional<std::uint32_t> find(std::string_view id) const;
    /// The place of the id a scalar names. An id that is not there is a fault, unless entries of this kind
    /// could not all be read: then it may be among those, and that fault has been told.
    [[nodiscard]] std::optional<std::uint32_t> resolve(const Located& node, Faults& faults) const;
    /// As `resolve`, and the entry counts as used.
    [[nodiscard]] std::optional<std::uint32_t> use(const Located& node, Faults& faults);
    void mark_used(std::uint32_t place) { used_.at(place) = true; }

    [[nodiscard]] const std::vector<std::string>& ids() const { return ids_; }
    [[nodiscard]] const std::vector<bool>& used() const { return used_; }
    [[nodiscard]] bool complete() const { return complete_; }

private:
    std::string_view what_;
    std::vector<std::string> ids_;
    std::vector<bool> used_;
    bool complete_ = true;
};

/// The table of what has been read already, sorted by id. @param id_of  gives the id of one
template <class T, class Id>
[[nodiscard]] IdTable table_of(std::string_view what, const std::vector<T>& sorted, Id id_of)
{
    std::vector<std::string> ids;
    ids.reserve(sorted.size());
    for (const T& entry : sorted) {
        ids.push_back(id_of(entry));
    }
    return {what, std::move(ids), true};
}

/// The entries of one file, found before any is read, so that entries may name each other in any order.
struct Entries {
    IdTable table;
    std::vector<const Located*> by_place;  ///< beside the ids of the table
    std::vector<const Located*> strays;    ///< without a usable id, or with one that was taken: read for
                                           ///< their faults, then dropped
};

/// Finds the entries of a file that is a list of maps with ids. An id twice or malformed is a fault; a
/// missing one is left to whoever reads the entry.
/// @param tree  nullptr when the file could not be read
[[nodiscard]] Entries gather(const Located* tree, std::string_view what, Faults& faults);

/// Reads each entry into its place.
template <class T, class Read>
[[nodiscard]] std::vector<T> read_entries(const Entries& entries, Read read)
{
    std::vector<T> result;
    result.reserve(entries.by_place.size());
    for (const Located* entry : entries.by_place) {
        result.push_back(read(*entry));
    }
    for (const Located* stray : entries.strays) {
        static_cast<void>(read(*stray));
    }
    return result;
}

}  // namespace foreday::data
