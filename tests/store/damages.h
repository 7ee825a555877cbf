#pragma once
#include <filesystem>
#include <random>
#include <string>

#include "data/store/entry.h"

namespace foreday::tests {

/// One way in which a book's file was changed behind the program's back.
struct Damaged {
    std::string how;           ///< for messages: "journal 12: bit 3 of payload"
    bool needs_noted = false;  ///< the book agrees with itself again: only a head noted elsewhere shows it
    std::string document;      ///< the damage lies in the compressed bytes of the document of this hash
};

/// Damages the book, which is sound and closed, in a way chosen at random.
[[nodiscard]] Damaged damage_at_random(const std::filesystem::path& book, std::mt19937_64& random);

}  // namespace foreday::tests
