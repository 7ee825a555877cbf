#include "data/book/seen_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "checklists/page_text.h"
#include "data/book/codec.h"

namespace foreday::book {
namespace {

using checklists::ItemSeen;
using nlohmann::json;

json json_of(const ItemSeen& item)
{
    json grounds = json::array();
    for (const checklists::GroundSeen& ground : item.grounds) {
        grounds.push_back({{"value", ground.value}, {"what", ground.what}});
    }
    return {{"fingerprint", item.fingerprint},
            {"grounds", std::move(grounds)},
            {"id", item.id},
            {"result", item.result},
            {"title", item.title}};
}

ItemSeen item_of(const json& item)
{
    ItemSeen seen{.id = item.at("id").get<std::string>(),
                  .fingerprint = item.at("fingerprint").get<std::string>(),
                  .title = item.at("title").get<std::string>(),
                  .result = item.at("result").get<std::string>(),
                  .grounds = {}};
    for (const json& ground : item.at("grounds")) {
        seen.grounds.push_back({ground.at("what").get<std::string>(), ground.at("value").get<std::string>()});
    }
    return seen;
}

std::string page_of(const CaseNow& now)
{
    std::string text;
    for (const checklists::Line& line : checklists::case_page(now.rules(), now.file(), now.whole).lines) {
        text += line.text + '\n';
    }
    return text;
}

/// What an item is about, for a sentence: a hold by the name of its medicine.
std::string name_in_words(const CaseNow& now, const ItemSeen& item)
{
    for (const screening::Hold& hold : now.whole.assessment.holds) {
        if (hold.item.id == item.id) {
            return fmt::format("{}: {}", hold.medicine, item.title);
        }
    }
    return item.title;
}

/// The hash of the last assessment a clinician signed.
std::string last_signed(const Book& book, const std::string& case_id)
{
    std::string document;
    for (const store::Entry& entry : book.store().entries_of(case_id)) {
        const auto read = read_entry(entry);
        if (const auto* decided = read ? std::get_if<DecisionSigned>(&read->content) : nullptr) {
            document = decided->shown.assessment;
        } else if (const auto* cleared = read ? std::get_if<ClearanceGiven>(&read->content) : nullptr) {
            document = cleared->shown.assessment;
        }
    }
    return document;
}

}  // namespace

ShownItems shown_items(const CaseNow& now)
{
    ShownItems shown;
    for (const ItemSeen& item : checklists::seen_in(now.whole.assessment, book_hash())) {
        shown.emplace(item.id, item.fingerprint);
    }
    return shown;
}

std::optional<Refusal> changed_meanwhile(const CaseNow& now, const ShownItems& shown,
                                         const std::vector<std::string>& only)
{
    const auto counts = [&](const std::string& id) {
        return only.empty() || std::ranges::find(only, id) != only.end();
    };
    Refusal refusal{Refusal::Why::changed_meanwhile,
                    "the case has changed since it was shown",
                    "the page looked at once more",
                    {}};
    ShownItems left = shown;
    for (const ItemSeen& item : checklists::seen_in(now.whole.assessment, book_hash())) {
        const auto before = shown.find(item.id);
        left.erase(item.id);
        if (!counts(item.id) || (before != shown.end() && before->second == item.fingerprint)) {
            continue;
        }
        refusal.changes.push_back(
            before == shown.end() ? fmt::format("new: {} ({})", name_in_words(now, item), item.result)
                                  : fmt::format("changed: {} ({})", name_in_words(now, item), item.result));
    }
    for (const auto& [id, fingerprint] : left) {
        if (counts(id)) {
            refusal.changes.push_back(fmt::format("gone: {}", id));
        }
    }
    return refusal.changes.empty() ? std::nullopt : std::optional(std::move(refusal));
}

Shown keep_what_was_shown(const CaseNow& now, store::Writing& writing)
{
    json items = json::array();
    for (const ItemSeen& item : checklists::seen_in(now.whole.assessment, book_hash())) {
        items.push_back(json_of(item));
    }
    return {.page = writing.keep_document(page_of(now)),
            .assessment = writing.keep_document(json{{"items", std::move(items)}}.dump()),
            .protocol = now.unit->protocol_hash,
            .policy = now.unit->policy_hash,
            .zone = now.rules().zone.file_hash};
}

std::optional<std::vector<ItemSeen>> items_of_document(const std::string& document)
{
    try {
        const json parsed = json::parse(document);
        std::vector<ItemSeen> items;
        for (const json& item : parsed.at("items")) {
            items.push_back(item_of(item));
        }
        return items;
    } catch (const json::exception&) {
        return std::nullopt;
    }
}

std::vector<checklists::Change> changes_since_signed(const Book& book, const CaseNow& now)
{
    const std::string hash = last_signed(book, now.id());
    const auto document = hash.empty() ? std::nullopt : book.store().document(hash);
    const auto before = document ? items_of_document(*document) : std::nullopt;
    return before ? checklists::changes_between(now.rules().protocol, *before,
                                                checklists::seen_in(now.whole.assessment, book_hash()))
                  : std::vector<checklists::Change>{};
}

}  // namespace foreday::book
