#include "data/reading/map_reader.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "data/reading/nearest.h"
#include "screening/as_written.h"

namespace foreday::data {
namespace {

using screening::as_written;

bool has_word(const std::vector<std::string_view>& words, std::string_view word)
{
    return std::ranges::find(words, word) != words.end();
}

/// Faults of keys that may not stand there. Gives the keys that they were meant to be, so that these are
/// not told as missing too.
std::vector<std::string_view> refuse_unknown(const Located& node, std::string_view what,
                                             const std::vector<std::string_view>& allowed, Faults& faults)
{
    std::vector<std::string_view> absent;
    for (const std::string_view key : allowed) {
        if (find(node, key) == nullptr) {
            absent.push_back(key);
        }
    }
    std::vector<std::string_view> meant;
    for (const Located& key : node.keys) {
        if (key.kind != Located::Kind::scalar || has_word(allowed, key.text)) {
            continue;
        }
        std::string_view near = nearest(key.text, absent);
        std::string right = fmt::format("perhaps \"{}\"", near);
        if (near.empty()) {
            right = fmt::format("the keys: {}", fmt::join(allowed, ", "));
        }
        meant.push_back(near);
        faults.add(key, fmt::format("{} has no key {}", what, as_written(key.text)), right);
    }
    return meant;
}

}  // namespace

std::string_view kind_name(const Located& node)
{
    switch (node.kind) {
        case Located::Kind::map:
            return "a map";
        case Located::Kind::list:
            return "a list";
        case Located::Kind::scalar:
            return "a text";
        case Located::Kind::nothing:
            break;
    }
    return "nothing";
}

MapReader::MapReader(const Located& node, std::string_view what, const Keys& keys, Faults& faults)
    : node_(node)
{
    std::vector<std::string_view> allowed = keys.required;
    allowed.insert(allowed.end(), keys.optional.begin(), keys.optional.end());
    if (!is_map()) {
        faults.add(node, fmt::format("{} is {} here", what, kind_name(node)),
                   fmt::format("a map with the keys: {}", fmt::join(allowed, ", ")));
        return;
    }
    meant_ = refuse_unknown(node, what, allowed, faults);
    for (const std::string_view required : keys.required) {
        if (find(node, required) == nullptr && !has_word(meant_, required)) {
            faults.add(node, fmt::format("{} has no \"{}\"", what, required),
                       fmt::format("{}: ...", required));
        }
    }
    for (std::size_t i = 0; i < node.keys.size(); ++i) {
        if (node.items[i].kind == Located::Kind::nothing && has_word(allowed, node.keys[i].text)) {
            faults.add(node.keys[i], fmt::format("\"{}\" has no value", node.keys[i].text),
                       "a value, or leave the key out");
        }
    }
}

const Located* MapReader::operator[](std::string_view key) const
{
    const Located* value = find(node_, key);
    return value == nullptr || value->kind == Located::Kind::nothing ? nullptr : value;
}

bool MapReader::wrote(std::string_view key) const
{
    return find(node_, key) != nullptr || has_word(meant_, key);
}

const Located& MapReader::key(std::string_view name) const
{
    const auto found = std::ranges::find(node_.keys, name, &Located::text);
    return found == node_.keys.end() ? node_ : *found;
}

const std::vector<Located>& list_items(const Located& node, std::string_view what, Faults& faults)
{
    static const std::vector<Located> none;
    if (node.kind != Located::Kind::list) {
        faults.add(node, fmt::format("{}: {} where a list is needed", what, kind_name(node)),
                   "a list, [one, another]");
        return none;
    }
    return node.items;
}

}  // namespace foreday::data
