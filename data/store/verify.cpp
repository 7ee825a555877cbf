#include "data/store/verify.h"

#include <fmt/format.h>

#include <algorithm>
#include <limits>
#include <map>
#include <set>

#include "data/reading/hashing.h"

namespace foreday::store {
namespace {

constexpr std::size_t most_damages = 1000;
constexpr std::size_t batch = 1000;

using DocumentsNamed = std::function<std::vector<std::string>(const Entry&)>;

class Walk {
public:
    Walk(const Store& store, Verification& found) : store_{store}, found_{found} {}

    /// @return the hashes of all documents there, sound or not
    std::set<std::string> documents()
    {
        std::set<std::string> there;
        std::string after;
        const std::int64_t at_least = store_.info().documents;  // others may write more meanwhile
        while (true) {
            const std::vector<std::string> hashes = store_.documents(after, batch);
            if (hashes.empty()) {
                break;
            }
            for (const std::string& hash : hashes) {
                ++found_.documents;
                try {
                    static_cast<void>(store_.document(hash));
                } catch (const StoreFault& fault) {
                    let_through_unless_damage(fault);
                    report("documents", 0, fault.what());
                }
            }
            there.insert(hashes.begin(), hashes.end());
            after = hashes.back();
        }
        if (found_.documents < at_least) {
            report(
                "documents", 0,
                fmt::format("{} of {} are not found by their hash", at_least - found_.documents, at_least));
        }
        return there;
    }

    void pages()
    {
        try {
            for (const std::string& broken : store_.info(PageCheck::every_page).broken_pages) {
                report("pages", 0, broken);
            }
        } catch (const StoreFault& fault) {
            let_through_unless_damage(fault);
            report("pages", 0, fault.what());
        }
    }

    /// What a case is made from are the entries found by its id, so these must be all of them.
    void subjects()
    {
        for (const auto& [subject, expected] : by_subject_) {
            std::vector<Head> found = entries_about(subject);
            found.resize(std::min(found.size(), expected.size()));  // others may have written since
            const auto [missed, instead] = std::ranges::mismatch(expected, found);
            if (missed != expected.end()) {
                report("journal", missed->number,
                       "it is not found, or not as it stands, among the entries about \"" + subject + '"');
            }
        }
    }

    /// @return where the chain ended
    Head chain(Chain chain, const std::vector<NotedHead>& noted, const std::set<std::string>& there,
               const DocumentsNamed& named)
    {
        where_ = name_of(chain);
        noted_.clear();
        note("the head kept in the book", store_.head(chain));
        for (const NotedHead& one : noted) {
            if (one.chain == chain) {
                note("the head noted elsewhere", one.head);
            }
        }
        Head last;
        std::int64_t after = std::numeric_limits<std::int64_t>::min();
        while (true) {
            const std::vector<Entry> entries = next_entries(chain, after);
            if (entries.empty()) {
                break;
            }
            after = entries.back().number;
            for (const Entry& entry : entries) {
                if (entry.number < 1) {
                    report(where_, entry.number, "it was added: the first entry has the number 1");
                    continue;
                }
                look_at(chain, entry, last);
                last = {entry.number, entry.hash};
                if (chain == Chain::journal) {
                    by_subject_[entry.said.subject].push_back(last);
                }
                for (const std::string& hash : named ? named(entry) : std::vector<std::string>{}) {
                    // It may have been kept after the documents were listed.
                    if (!there.contains(hash) && !has_document(hash)) {
                        report(where_, entry.number, "it names document " + hash + ", which is not there");
                    }
                }
            }
        }
        compare_end(chain, last);
        return last;
    }

private:
    struct Expected {
        std::string who_says;
        Head head;
    };

    void note(const std::string& who_says, const Head& head)
    {
        if (head.number == 0) {
            if (head != Head{}) {
                report(where_, 0, who_says + " is of no entry and not all zeros");
            }
            return;
        }
        noted_.push_back({who_says, head});
    }

    std::vector<Entry> next_entries(Chain chain, std::int64_t after)
    {
        try {
            return store_.entries(chain, after, batch);
        } catch (const StoreFault& fault) {
            let_through_unless_damage(fault);
        }
        // Come as near to the damage as can be.
        try {
            return store_.entries(chain, after, 1);
        } catch (const StoreFault& fault) {
            let_through_unless_damage(fault);
            report(where_, std::max<std::int64_t>(after, 0) + 1,
                   fmt::format("it and what follows cannot be read: {}", fault.what()));
            return {};
        }
    }

    std::vector<Head> entries_about(const std::string& subject)
    {
        std::vector<Head> found;
        try {
            for (const Entry& entry : store_.entries_of(subject)) {
                if (entry.said.subject != subject) {
                    report("journal", entry.number,
                           "among the entries about \"" + subject + "\" it stands under another subject");
                }
                found.push_back({entry.number, entry.hash});
            }
        } catch (const StoreFault& fault) {
            let_through_unless_damage(fault);
            report("journal", 0, "the entries about \"" + subject + "\" cannot be read: " + fault.what());
        }
        return found;
    }

    void look_at(Chain chain, const Entry& entry, const Head& before)
    {
        if (entry.number != before.number + 1) {
            report(where_, before.number + 1,
                   fmt::format("it is missing; the next number there is {}", entry.number));
        }
        if (data::sha256_hex(hash_bytes(chain, entry, before.hash)) != entry.hash) {
            report(where_, entry.number,
                   "its hash is not that of what it says after the entry before it: one of them was changed, "
                   "removed, added or swapped");
        }
        for (const Expected& expected : noted_) {
            if (expected.head.number == entry.number && expected.head.hash != entry.hash) {
                report(where_, entry.number, "its hash is not that of " + expected.who_says);
            }
        }
    }

    void compare_end(Chain chain, const Head& last)
    {
        for (const Expected& expected : noted_) {
            if (expected.head.number > last.number) {
                report(where_, last.number + 1,
                       fmt::format("it and what follows are missing: {} is entry {}", expected.who_says,
                                   expected.head.number));
            }
        }
        // Others may have written since; then the head has gone up with it.
        if (const Head now = store_.head(chain); now.number < last.number) {
            report(where_, now.number + 1, "it stands after the head kept in the book");
        }
    }

    [[nodiscard]] bool has_document(const std::string& hash) const
    {
        try {
            return store_.document(hash).has_value();
        } catch (const StoreFault& fault) {
            let_through_unless_damage(fault);
            return true;  // damaged, and reported with the documents
        }
    }

    static void let_through_unless_damage(const StoreFault& fault)
    {
        if (fault.kind() != StoreFault::Kind::damaged && fault.kind() != StoreFault::Kind::other) {
            throw StoreFault{fault};
        }
    }

    void report(const std::string& where, std::int64_t number, const std::string& what)
    {
        if (found_.damages.size() < most_damages) {
            found_.damages.push_back({where, number, what});
        }
    }

    const Store& store_;
    Verification& found_;
    std::string where_;
    std::vector<Expected> noted_;
    std::map<std::string, std::vector<Head>> by_subject_;
};

}  // namespace

std::string in_words(const Damage& damage)
{
    return damage.number == 0 ? damage.where + ": " + damage.what
                              : fmt::format("{} {}: {}", damage.where, damage.number, damage.what);
}

Verification verify(const Store& store, const std::vector<NotedHead>& noted,
                    const DocumentsNamed& documents_named)
{
    Verification found;
    Walk walk{store, found};
    const std::set<std::string> there = walk.documents();
    found.journal = walk.chain(Chain::journal, noted, there, documents_named);
    walk.subjects();
    found.looks = walk.chain(Chain::looks, noted, there, documents_named);
    walk.pages();
    return found;
}

}  // namespace foreday::store
