#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "screening/calendar.h"

namespace foreday::store {

/// The two chains of a book. `looks` holds looks, prints and sign-ins; everything else is in `journal`.
enum class Chain : std::uint8_t { journal, looks };
inline constexpr Chain all_chains[] = {Chain::journal, Chain::looks};
[[nodiscard]] std::string_view name_of(Chain chain);  ///< "journal", "looks"

/// What is to be written. Number and hash are the store's to give.
struct NewEntry {
    std::string subject;   ///< what the entry is about: a case id, a patient id, or empty for the whole book
    screening::Moment at;  ///< years 0 to 9999
    std::string who;
    std::string desk;
    std::string kind;
    int kind_version = 1;  ///< of the payload's form, >= 1
    std::string payload;   ///< UTF-8; the store does not look into it
    bool operator==(const NewEntry&) const = default;
};

/// What stands in a book, for ever.
struct Entry {
    std::int64_t number = 0;  ///< 1, 2, 3 ... in its chain, without a gap
    NewEntry said;
    std::string hash;  ///< SHA-256 over hash_bytes(), 64 lower-case hexadecimal digits
    bool operator==(const Entry&) const = default;
};

/// Where a chain ends. Number 0 and 64 zeros before the first entry.
struct Head {
    std::int64_t number = 0;
    std::string hash = std::string(64, '0');
    bool operator==(const Head&) const = default;
};

/// The bytes an entry's hash is taken over: the length-prefixed fields and the hash before it. Their form
/// is written down in FORMAT.md.
[[nodiscard]] std::string hash_bytes(Chain chain, const Entry& entry, const std::string& hash_before);

/// "2027-04-12T13:00:00Z". A moment outside the years 0 to 9999, which no entry has unless it is damaged, is
/// given in seconds after 1970.
[[nodiscard]] std::string iso_utc(screening::Moment moment);

/// What comes after `before` in a chain.
/// @throws std::invalid_argument for a kind_version below 1 or a year outside 0 to 9999
[[nodiscard]] Entry entry_after(Chain chain, const Head& before, const NewEntry& said);

}  // namespace foreday::store
