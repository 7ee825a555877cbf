#pragma once
#include <memory>

#include "data/store/store.h"

namespace foreday::tests {

/// Several books at once on what is one file to them, as the programs of a unit are. Which store lies there
/// may be changed under them.
class SharedStore : public store::Store {
public:
    using Place = std::shared_ptr<store::Store*>;
    explicit SharedStore(Place place) : place_(std::move(place)) {}

    void write(const std::function<void(store::Writing&)>& work) override { there().write(work); }
    [[nodiscard]] store::Head head(store::Chain chain) const override { return there().head(chain); }
    [[nodiscard]] std::vector<store::Entry> entries(store::Chain chain, std::int64_t after,
                                                    std::size_t at_most) const override
    {
        return there().entries(chain, after, at_most);
    }
    [[nodiscard]] std::vector<store::Entry> entries_of(const std::string& subject) const override
    {
        return there().entries_of(subject);
    }
    [[nodiscard]] std::optional<std::string> document(const std::string& hash) const override
    {
        return there().document(hash);
    }
    [[nodiscard]] std::vector<std::string> documents(const std::string& after,
                                                     std::size_t at_most) const override
    {
        return there().documents(after, at_most);
    }
    [[nodiscard]] std::optional<store::CaseProjection> projection(const std::string& of_case) const override
    {
        return there().projection(of_case);
    }
    [[nodiscard]] std::vector<store::CaseProjection> with_calls(screening::Moment now) const override
    {
        return there().with_calls(now);
    }
    [[nodiscard]] std::vector<store::CaseProjection> undecided() const override
    {
        return there().undecided();
    }
    [[nodiscard]] std::vector<store::CaseProjection> on_day(screening::Date day) const override
    {
        return there().on_day(day);
    }
    [[nodiscard]] std::vector<store::CaseProjection> search(const std::vector<std::string>& folded_words,
                                                            std::optional<screening::Date> born,
                                                            screening::Date around,
                                                            std::size_t at_most) const override
    {
        return there().search(folded_words, born, around, at_most);
    }
    [[nodiscard]] std::vector<std::string> to_look_at_again(const std::string& rules_hash,
                                                            screening::Moment now,
                                                            std::size_t at_most) const override
    {
        return there().to_look_at_again(rules_hash, now, at_most);
    }
    [[nodiscard]] bool elect(const std::string& program, screening::Moment now,
                             screening::Moment until) override
    {
        return there().elect(program, now, until);
    }
    void copy_to(const std::filesystem::path& file) const override { there().copy_to(file); }
    [[nodiscard]] store::StoreInfo info(store::PageCheck pages) const override { return there().info(pages); }

private:
    [[nodiscard]] store::Store& there() const { return **place_; }

    Place place_;
};

}  // namespace foreday::tests
