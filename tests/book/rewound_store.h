#pragma once
#include <memory>

#include "data/store/store.h"

namespace foreday::tests {

/// A store in memory that can be set back to how it was, so that many things can be tried on one book.
class RewoundStore : public store::Store {
public:
    RewoundStore();

    /// From now on rewind() comes back to how it is now.
    void keep();
    void rewind();
    /// Becomes what another one comes back to.
    void begin_as(const RewoundStore& other);

    void write(const std::function<void(store::Writing&)>& work) override { now_->write(work); }
    [[nodiscard]] store::Head head(store::Chain chain) const override { return now_->head(chain); }
    [[nodiscard]] std::vector<store::Entry> entries(store::Chain chain, std::int64_t after,
                                                    std::size_t at_most) const override
    {
        return now_->entries(chain, after, at_most);
    }
    [[nodiscard]] std::vector<store::Entry> entries_of(const std::string& subject) const override
    {
        return now_->entries_of(subject);
    }
    [[nodiscard]] std::optional<std::string> document(const std::string& hash) const override
    {
        return now_->document(hash);
    }
    [[nodiscard]] std::vector<std::string> documents(const std::string& after,
                                                     std::size_t at_most) const override
    {
        return now_->documents(after, at_most);
    }
    [[nodiscard]] std::optional<store::CaseProjection> projection(const std::string& of_case) const override
    {
        return now_->projection(of_case);
    }
    [[nodiscard]] std::vector<store::CaseProjection> with_calls(screening::Moment now) const override
    {
        return now_->with_calls(now);
    }
    [[nodiscard]] std::vector<store::CaseProjection> undecided() const override { return now_->undecided(); }
    [[nodiscard]] std::vector<store::CaseProjection> on_day(screening::Date day) const override
    {
        return now_->on_day(day);
    }
    [[nodiscard]] std::vector<store::CaseProjection> search(const std::vector<std::string>& folded_words,
                                                            std::optional<screening::Date> born,
                                                            screening::Date around,
                                                            std::size_t at_most) const override
    {
        return now_->search(folded_words, born, around, at_most);
    }
    [[nodiscard]] std::vector<std::string> to_look_at_again(const std::string& rules_hash,
                                                            screening::Moment now,
                                                            std::size_t at_most) const override
    {
        return now_->to_look_at_again(rules_hash, now, at_most);
    }
    [[nodiscard]] bool elect(const std::string& program, screening::Moment now,
                             screening::Moment until) override
    {
        return now_->elect(program, now, until);
    }
    void copy_to(const std::filesystem::path& file) const override { now_->copy_to(file); }
    [[nodiscard]] store::StoreInfo info(store::PageCheck pages) const override { return now_->info(pages); }

private:
    std::unique_ptr<store::Store> now_;
    std::unique_ptr<store::Store> kept_;
};

}  // namespace foreday::tests
