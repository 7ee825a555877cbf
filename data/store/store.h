#pragma once
#include <cstdint>
#include <exception>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "data/store/entry.h"
#include "data/store/projection.h"

namespace foreday::store {

/// What a store can say of a fault: which kind, and whole sentences for the person at the desk.
class StoreFault : public std::exception {
public:
    enum class Kind : std::uint8_t {
        busy,       ///< others are writing for too long; nothing was written
        full,       ///< no room on the disk; nothing was written
        read_only,  ///< the file or its folder may not be written
        gone,       ///< the file is not there (any more), or another one stands in its place
        damaged,    ///< not a book, or its pages are broken
        newer,      ///< made by a later version of the program
        network,    ///< on a network file system, whose locks cannot be trusted
        unsure,     ///< the disk failed while the last step was made to last: it may stand or not
        other,
    };
    StoreFault(Kind kind, std::string what_happened, const std::string& what_to_do);
    [[nodiscard]] Kind kind() const noexcept { return kind_; }
    [[nodiscard]] const char* what() const noexcept override { return words_.c_str(); }

private:
    Kind kind_;
    std::string words_;
};

/// One write transaction. Everything in it stands together or not at all.
class Writing {
public:
    virtual ~Writing() = default;
    /// Appends; the store gives the number and the hash.
    /// @throws std::invalid_argument for a kind_version below 1 or a year outside 0 to 9999
    virtual Entry append(Chain chain, const NewEntry& entry) = 0;
    /// As Store::entries_of, with what this transaction has appended.
    [[nodiscard]] virtual std::vector<Entry> entries_of(const std::string& subject) const = 0;
    /// Keeps bytes under their SHA-256 for ever, compressed; the same bytes twice are kept once.
    /// @return the SHA-256
    /// @throws std::invalid_argument above 64 MiB
    virtual std::string keep_document(std::string_view bytes) = 0;
    /// Puts a case's projection in place of the one there.
    virtual void project(const CaseProjection& projection) = 0;
    /// Drops every projection.
    virtual void forget_projections() = 0;
};

/// Whether info() reads every page of the file, which takes as long as reading all of it.
enum class PageCheck : std::uint8_t { none, every_page };

struct StoreInfo {
    int schema_version = 0;
    bool may_write = true;
    std::string why_not;  ///< with `may_write` false: for a person
    std::int64_t cases = 0;
    std::int64_t documents = 0;
    /// With PageCheck::every_page, in SQLite's words: pages, indexes and constraints that are not as they
    /// should be.
    std::vector<std::string> broken_pages{};
};

/// A book's storage. Several programs may hold the same book, and several threads one Store. Every verb
/// throws StoreFault, and after a fault of write() nothing of it stands; after Kind::unsure alone the book
/// must be read to know.
class Store {
public:
    virtual ~Store() = default;

    /// Runs `work` in one write transaction; when write() returns, all of it is on the disk for good. An
    /// exception out of `work` undoes everything and comes through. `work` is run once at most. The reading
    /// verbs called in it see what it has written so far; write() and elect() in it are std::logic_error.
    virtual void write(const std::function<void(Writing&)>& work) = 0;

    [[nodiscard]] virtual Head head(Chain chain) const = 0;
    /// Entries with a number above `after`, in order.
    [[nodiscard]] virtual std::vector<Entry> entries(Chain chain, std::int64_t after,
                                                     std::size_t at_most) const = 0;
    /// Journal entries about one subject, in order. Unknown: empty.
    [[nodiscard]] virtual std::vector<Entry> entries_of(const std::string& subject) const = 0;
    /// Bytes kept under a hash; their hash is checked. Empty: none.
    [[nodiscard]] virtual std::optional<std::string> document(const std::string& hash) const = 0;
    /// Hashes of the documents kept, ascending, those after `after` (empty: from the first).
    [[nodiscard]] virtual std::vector<std::string> documents(const std::string& after,
                                                             std::size_t at_most) const = 0;

    [[nodiscard]] virtual std::optional<CaseProjection> projection(const std::string& case_id) const = 0;
    /// Cases not finished with a call whose due_from is at or before `now`, in no order.
    [[nodiscard]] virtual std::vector<CaseProjection> with_calls(screening::Moment now) const = 0;
    /// Cases with something undecided, in no order.
    [[nodiscard]] virtual std::vector<CaseProjection> undecided() const = 0;
    /// The list of one day, in no order.
    [[nodiscard]] virtual std::vector<CaseProjection> on_day(screening::Date day) const = 0;
    /// Cases in which every one of `folded_words` begins some search word (empty words say nothing), nearest
    /// day first, then case id.
    /// @param born    empty: any
    /// @param around  days nearest to it come first
    [[nodiscard]] virtual std::vector<CaseProjection> search(const std::vector<std::string>& folded_words,
                                                             std::optional<screening::Date> born,
                                                             screening::Date around,
                                                             std::size_t at_most) const = 0;
    /// Ids of cases not finished whose projection was made by other rules, or whose look_again is at or
    /// before `now`.
    [[nodiscard]] virtual std::vector<std::string> to_look_at_again(const std::string& rules_hash,
                                                                    screening::Moment now,
                                                                    std::size_t at_most) const = 0;
    /// One program at a time makes projections again. True: `program` is that one until `until` (excluded).
    [[nodiscard]] virtual bool elect(const std::string& program, screening::Moment now,
                                     screening::Moment until) = 0;
    /// A copy of the whole book as it stands, in a new file; an existing one is never replaced (in-memory
    /// stores: not supported).
    virtual void copy_to(const std::filesystem::path& file) const = 0;
    [[nodiscard]] virtual StoreInfo info(PageCheck pages = PageCheck::none) const = 0;
};

}  // namespace foreday::store
