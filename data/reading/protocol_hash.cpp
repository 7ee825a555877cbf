#include "data/reading/protocol_hash.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "data/reading/hashing.h"
#include "screening/canonical.h"

namespace foreday::data {
namespace {

std::string_view id_of(const Located& entry)
{
    const Located* id = find(entry, "id");
    return id == nullptr ? std::string_view{} : id->text;
}

}  // namespace

std::string content_hash(const std::map<std::string, Located>& trees)
{
    screening::CanonicalBytes bytes;
    for (const auto& [name, tree] : trees) {
        bytes.add(name);
        if (tree.kind != Located::Kind::list) {
            bytes.add(canonical_bytes(tree));
            continue;
        }
        std::vector<const Located*> entries;
        for (const Located& item : tree.items) {
            entries.push_back(&item);
        }
        std::ranges::stable_sort(entries, {}, [](const Located* entry) { return id_of(*entry); });
        bytes.add_count(entries.size());
        for (const Located* entry : entries) {
            bytes.add(canonical_bytes(*entry));
        }
    }
    return sha256_hex(std::move(bytes).take());
}

}  // namespace foreday::data
