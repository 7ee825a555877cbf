#include "tests/book/rewound_store.h"

#include <limits>
#include <set>

#include "data/store/memory_store.h"

namespace foreday::tests {
namespace {

constexpr std::size_t all = std::numeric_limits<std::size_t>::max() / 2;

std::unique_ptr<store::Store> copy_of(const store::Store& from)
{
    auto copy = store::make_memory_store();
    copy->write([&](store::Writing& writing) {
        std::set<std::string> subjects;
        for (const store::Chain chain : store::all_chains) {
            for (const store::Entry& entry : from.entries(chain, 0, all)) {
                writing.append(chain, entry.said);
                subjects.insert(entry.said.subject);
            }
        }
        for (const std::string& hash : from.documents("", all)) {
            writing.keep_document(*from.document(hash));
        }
        for (const std::string& subject : subjects) {
            if (const auto projection = from.projection(subject)) {
                writing.project(*projection);
            }
        }
    });
    return copy;
}

}  // namespace

RewoundStore::RewoundStore() : now_(store::make_memory_store()) {}

void RewoundStore::keep()
{
    kept_ = copy_of(*now_);
}

void RewoundStore::begin_as(const RewoundStore& other)
{
    now_ = copy_of(*other.kept_);
}

void RewoundStore::rewind()
{
    now_ = copy_of(*kept_);
}

}  // namespace foreday::tests
