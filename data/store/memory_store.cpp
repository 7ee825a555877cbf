#include "data/store/memory_store.h"

#include <algorithm>
#include <array>
#include <map>
#include <mutex>
#include <stdexcept>

#include "data/reading/hashing.h"
#include "data/store/documents.h"

namespace foreday::store {
namespace {

using Projections = std::map<std::string, CaseProjection>;

struct Contents {
    std::array<std::vector<Entry>, 2> chains;
    std::map<std::string, std::string> documents;
    Projections projections;
};

std::vector<Entry> about(const Contents& contents, const std::string& subject)
{
    std::vector<Entry> found;
    for (const Entry& entry : contents.chains[0]) {
        if (entry.said.subject == subject) {
            found.push_back(entry);
        }
    }
    return found;
}

Head head_of(const std::vector<Entry>& chain)
{
    return chain.empty() ? Head{} : Head{chain.back().number, chain.back().hash};
}

/// Remembers what it must put back: chains by their lengths, projections as a whole once one is touched.
class MemoryWriting : public Writing {
public:
    explicit MemoryWriting(Contents& contents)
        : contents_{contents}, lengths_{contents.chains[0].size(), contents.chains[1].size()}
    {
    }

    Entry append(Chain chain, const NewEntry& entry) override
    {
        std::vector<Entry>& entries = contents_.chains[static_cast<std::size_t>(chain)];
        entries.push_back(entry_after(chain, head_of(entries), entry));
        return entries.back();
    }
    [[nodiscard]] std::vector<Entry> entries_of(const std::string& subject) const override
    {
        return about(contents_, subject);
    }
    std::string keep_document(std::string_view bytes) override
    {
        refuse_too_long(bytes);
        std::string hash = data::sha256_hex(bytes);
        if (contents_.documents.emplace(hash, bytes).second) {
            kept_.push_back(hash);
        }
        return hash;
    }
    void project(const CaseProjection& projection) override
    {
        remember_projections();
        contents_.projections[projection.case_id] = projection;
    }
    void forget_projections() override
    {
        remember_projections();
        contents_.projections.clear();
    }

    void undo()
    {
        for (std::size_t chain = 0; chain < lengths_.size(); ++chain) {
            contents_.chains[chain].resize(lengths_[chain]);
        }
        for (const std::string& hash : kept_) {
            contents_.documents.erase(hash);
        }
        if (before_) {
            contents_.projections = std::move(*before_);
        }
    }

private:
    void remember_projections()
    {
        if (!before_) {
            before_ = contents_.projections;
        }
    }

    Contents& contents_;
    std::array<std::size_t, 2> lengths_;
    std::vector<std::string> kept_;
    std::optional<Projections> before_;
};

bool every_word_begins_one(const std::vector<std::string>& words, const CaseProjection& projection)
{
    return std::ranges::all_of(words, [&](const std::string& word) {
        return word.empty() || std::ranges::any_of(projection.search_words, [&](const std::string& own) {
                   return own.starts_with(word);
               });
    });
}

class MemoryStore : public Store {
public:
    void write(const std::function<void(Writing&)>& work) override
    {
        const std::lock_guard lock{mutex_};
        refuse_inside();
        MemoryWriting writing{contents_};
        writing_ = true;
        try {
            work(writing);
        } catch (...) {
            writing.undo();
            writing_ = false;
            throw;
        }
        writing_ = false;
    }

    [[nodiscard]] Head head(Chain chain) const override
    {
        const std::lock_guard lock{mutex_};
        return head_of(contents_.chains[static_cast<std::size_t>(chain)]);
    }

    [[nodiscard]] std::vector<Entry> entries(Chain chain, std::int64_t after,
                                             std::size_t at_most) const override
    {
        const std::lock_guard lock{mutex_};
        const std::vector<Entry>& all = contents_.chains[static_cast<std::size_t>(chain)];
        const std::size_t from =
            std::min(all.size(), static_cast<std::size_t>(std::max<std::int64_t>(after, 0)));
        const std::size_t count = std::min(at_most, all.size() - from);
        const auto first = all.begin() + static_cast<std::ptrdiff_t>(from);
        return {first, first + static_cast<std::ptrdiff_t>(count)};
    }

    [[nodiscard]] std::vector<Entry> entries_of(const std::string& subject) const override
    {
        const std::lock_guard lock{mutex_};
        return about(contents_, subject);
    }

    [[nodiscard]] std::optional<std::string> document(const std::string& hash) const override
    {
        const std::lock_guard lock{mutex_};
        const auto found = contents_.documents.find(hash);
        return found == contents_.documents.end() ? std::nullopt : std::optional{found->second};
    }

    [[nodiscard]] std::vector<std::string> documents(const std::string& after,
                                                     std::size_t at_most) const override
    {
        const std::lock_guard lock{mutex_};
        std::vector<std::string> hashes;
        for (auto at = contents_.documents.upper_bound(after);
             at != contents_.documents.end() && hashes.size() < at_most; ++at) {
            hashes.push_back(at->first);
        }
        return hashes;
    }

    [[nodiscard]] std::optional<CaseProjection> projection(const std::string& case_id) const override
    {
        const std::lock_guard lock{mutex_};
        const auto found = contents_.projections.find(case_id);
        return found == contents_.projections.end() ? std::nullopt : std::optional{found->second};
    }

    [[nodiscard]] std::vector<CaseProjection> with_calls(screening::Moment now) const override
    {
        return those([&](const CaseProjection& one) {
            return !one.finished &&
                   std::ranges::any_of(one.calls, [&](const auto& call) { return call.due_from <= now; });
        });
    }

    [[nodiscard]] std::vector<CaseProjection> undecided() const override
    {
        return those([](const CaseProjection& one) { return !one.undecided.empty(); });
    }

    [[nodiscard]] std::vector<CaseProjection> on_day(screening::Date day) const override
    {
        return those([&](const CaseProjection& one) { return one.day == day; });
    }

    [[nodiscard]] std::vector<CaseProjection> search(const std::vector<std::string>& folded_words,
                                                     std::optional<screening::Date> born,
                                                     screening::Date around,
                                                     std::size_t at_most) const override
    {
        std::vector<CaseProjection> found = those([&](const CaseProjection& one) {
            return (!born || one.born == *born) && every_word_begins_one(folded_words, one);
        });
        // They come by case id; days equally far keep that order.
        std::ranges::stable_sort(found, {},
                                 [&](const CaseProjection& one) { return date::abs(one.day - around); });
        found.resize(std::min(found.size(), at_most));
        return found;
    }

    [[nodiscard]] std::vector<std::string> to_look_at_again(const std::string& rules_hash,
                                                            screening::Moment now,
                                                            std::size_t at_most) const override
    {
        std::vector<std::string> ids;
        for (const CaseProjection& one : those([&](const CaseProjection& candidate) {
                 return !candidate.finished &&
                        (candidate.rules_hash != rules_hash || candidate.look_again <= now);
             })) {
            if (ids.size() < at_most) {
                ids.push_back(one.case_id);
            }
        }
        return ids;
    }

    [[nodiscard]] bool elect(const std::string& program, screening::Moment now,
                             screening::Moment until) override
    {
        const std::lock_guard lock{mutex_};
        refuse_inside();
        if (elected_ != program && elected_until_ > now) {
            return false;
        }
        elected_ = program;
        elected_until_ = until;
        return true;
    }

    void copy_to(const std::filesystem::path& file) const override
    {
        throw StoreFault{StoreFault::Kind::other,
                         "This book is kept in memory and cannot be copied to " + file.string() + ".",
                         "Only a book that is a file can be copied."};
    }

    [[nodiscard]] StoreInfo info(PageCheck /*pages*/) const override
    {
        const std::lock_guard lock{mutex_};
        StoreInfo info;
        info.cases = static_cast<std::int64_t>(contents_.projections.size());
        info.documents = static_cast<std::int64_t>(contents_.documents.size());
        return info;
    }

private:
    void refuse_inside() const
    {
        if (writing_) {
            throw std::logic_error("a write transaction was begun inside another");
        }
    }

    template <typename Wanted>
    [[nodiscard]] std::vector<CaseProjection> those(const Wanted& wanted) const
    {
        const std::lock_guard lock{mutex_};
        std::vector<CaseProjection> found;
        for (const auto& [id, projection] : contents_.projections) {
            if (wanted(projection)) {
                found.push_back(projection);
            }
        }
        return found;
    }

    mutable std::recursive_mutex mutex_;  // `work` may call the reading verbs
    bool writing_ = false;
    Contents contents_;
    std::string elected_;
    screening::Moment elected_until_ = screening::Moment::min();
};

}  // namespace

std::unique_ptr<Store> make_memory_store()
{
    return std::make_unique<MemoryStore>();
}

}  // namespace foreday::store
