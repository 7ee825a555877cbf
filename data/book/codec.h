#pragma once
#include <cstdint>
#include <string>
#include <string_view>

#include "data/book/contents.h"
#include "data/store/entry.h"
#include "screening/result.h"

namespace foreday::book {

/// How far an entry of a kind reaches.
enum class Effect : std::uint8_t {
    none,    ///< no case: protocol, policy, roster, looks
    work,    ///< the work around a case only: notes, tries, outside asks, sheets and the like
    record,  ///< what the assessment is computed from
};

/// One kind of entry.
struct Kind {
    std::string_view name;  ///< Entry::kind, for ever
    int version = 1;        ///< written now; all from 1 on can be read
    Effect effect = Effect::none;
    store::Chain chain = store::Chain::journal;
};

[[nodiscard]] const Kind& kind_of(const Content& content);
[[nodiscard]] int version_of(const Content& content);
/// Whether the name is one of ours.
[[nodiscard]] bool is_known_kind(std::string_view kind);
/// `record` for a kind we do not know: whoever wrote it may have known why.
[[nodiscard]] Effect effect_of(std::string_view kind);
/// Whether an entry of the kind can change the case record, and so counts in a writer's basis.
[[nodiscard]] bool changes_fold(std::string_view kind);

/// Canonical JSON: keys sorted by their bytes, no blanks, no number but whole ones, UTF-8. What is empty (a
/// text, a list, a value that may be absent) is left out.
/// @throws std::invalid_argument for text that is not UTF-8, days and times beyond the years 1900 to 2099,
/// and
///         numbers whose fraction does not fit 64 bits
[[nodiscard]] std::string to_payload(const Envelope& envelope, const Content& content);

struct Read {
    Envelope envelope;
    Content content;
};

/// Reads what to_payload() wrote; any other byte is a fault: an unknown kind or version, an unknown or
/// missing key, a wrong type, a form that is not the canonical one.
[[nodiscard]] screening::Result<Read> from_payload(std::string_view kind, int version,
                                                   std::string_view payload);
[[nodiscard]] screening::Result<Read> read_entry(const store::Entry& entry);

/// An entry to append.
[[nodiscard]] store::NewEntry new_entry(std::string subject, screening::Moment at, std::string who,
                                        std::string desk, const Envelope& envelope, const Content& content);

}  // namespace foreday::book
