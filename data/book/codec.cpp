#include "data/book/codec.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>

#include "data/book/codec_json.h"

namespace foreday::book {
namespace {

using enum Effect;
using screening::Fault;
using store::Chain;

// In the order of Content's alternatives.
constexpr std::array<Kind, std::variant_size_v<AnyContent>> kinds{{
    {"patient made", 1, record},
    {"patient changed", 1, record},
    {"patients merged", 1, record},
    {"patients split", 1, record},
    {"booking made", 1, record},
    {"patient linked", 1, record},
    {"rescheduled", 1, record},
    {"called off", 1, work},
    {"did not come", 1, work},
    {"answer", 1, record},
    {"answer set aside", 1, record},
    {"entry struck", 1, record},
    {"medicine added", 1, record},
    {"medicine changed", 1, record},
    {"medicine stopped", 1, record},
    {"list closed", 1, record},
    {"list reopened", 1, record},
    {"note", 1, work},
    {"own concern", 1, record},
    {"try", 1, work},
    {"patient rang in", 1, work},
    {"call ended for an emergency", 1, work},
    {"outside ask sent", 1, work},
    {"outside ask answered", 1, work},
    {"decision signed", 1, record},
    {"decision spoken", 1, record},
    {"decision from outside", 1, record},
    {"decision countersigned", 1, record},
    {"clearance given", 1, record},
    {"clearance lapsed", 1, record},
    {"told", 1, record},
    {"said back", 1, work},
    {"sheet issued", 1, work},
    {"sheet superseded", 1, work},
    {"arrival", 1, record},
    {"measure", 1, record},
    {"intake", 1, record},
    {"dose really taken", 1, record},
    {"nothing else taken", 1, record},
    {"readiness item confirmed", 1, record},
    {"escalated", 1, work},
    {"decided at the desk", 1, record},
    {"gone in", 1, work},
    {"not today", 1, work},
    {"what was done", 1, record},
    {"preparation quality", 1, work},
    {"restart decided", 1, work},
    {"restart told", 1, work},
    {"closed", 1, work},
    {"protocol in force", 1, none},
    {"policy in force", 1, none},
    {"roster", 1, none},
    {"handed over", 1, work},
    {"looked", 1, none, Chain::looks},
    {"printed", 1, none, Chain::looks},
    {"signed in", 1, none, Chain::looks},
}};

const Kind* find_kind(std::string_view name)
{
    const auto found = std::ranges::find(kinds, name, &Kind::name);
    return found == kinds.end() ? nullptr : &*found;
}

/// Role and basis around what is said.
struct Whole {
    Envelope envelope;
    Json said = Json::object();
};

std::string written(const Whole& whole)
{
    Json json = Json::object();
    json["role"] = ToJson::json_of(whole.envelope.role);
    json["said"] = whole.said;
    json["seen"] = whole.envelope.seen;
    try {
        return json.dump();
    } catch (const Json::exception&) {
        throw std::invalid_argument("text that is not UTF-8 cannot be kept");
    }
}

template <std::size_t... place>
Content content_at(std::size_t kind, std::index_sequence<place...> /*places*/)
{
    Content content;
    static_cast<void>(((place == kind && (content.emplace<place>(), true)) || ...));
    return content;
}

/// Numbers and times have one form each, keys stand once and in order: anything else was not written by us.
bool is_canonical(const Read& read, std::string_view payload)
{
    try {
        return to_payload(read.envelope, read.content) == payload;
    } catch (const std::invalid_argument&) {
        return false;
    }
}

tl::unexpected<Fault> not_understood(std::string what, std::string would_be_right)
{
    return tl::unexpected(Fault{std::move(what), std::move(would_be_right)});
}

}  // namespace

const Kind& kind_of(const Content& content)
{
    return kinds.at(content.index());
}

int version_of(const Content& content)
{
    return kind_of(content).version;
}

bool is_known_kind(std::string_view kind)
{
    return find_kind(kind) != nullptr;
}

Effect effect_of(std::string_view kind)
{
    const Kind* known = find_kind(kind);
    return known == nullptr ? Effect::record : known->effect;
}

bool changes_fold(std::string_view kind)
{
    return effect_of(kind) == Effect::record;
}

std::string to_payload(const Envelope& envelope, const Content& content)
{
    return written({envelope, std::visit([](const auto& said) { return ToJson::json_of(said); }, content)});
}

screening::Result<Read> from_payload(std::string_view kind, int version, std::string_view payload)
{
    const Kind* known = find_kind(kind);
    if (known == nullptr) {
        return not_understood(fmt::format("an entry of the kind \"{}\"", kind),
                              "a later version of the program, which knows it");
    }
    if (version != known->version) {
        return not_understood(fmt::format("version {} of \"{}\"", version, kind),
                              fmt::format("version {}, or a later version of the program", known->version));
    }
    const Json json = Json::parse(payload, nullptr, false);
    if (!json.is_object() || json.size() != 3 || !json.contains("role") || !json.contains("said") ||
        !json.contains("seen")) {
        return not_understood(fmt::format("\"{}\" without role, seen and said", kind),
                              "what the program writes");
    }
    Read read{{},
              content_at(static_cast<std::size_t>(known - kinds.data()),
                         std::make_index_sequence<std::variant_size_v<AnyContent>>{})};
    FromJson reader;
    reader.read(json["role"], "role", read.envelope.role);
    reader.read(json["seen"], "seen", read.envelope.seen);
    std::visit([&](auto& said) { reader.read(json["said"], kind, said); }, read.content);
    if (reader.fault()) {
        return tl::unexpected(*reader.fault());
    }
    if (!is_canonical(read, payload)) {
        return not_understood(fmt::format("\"{}\" in another form than the canonical one", kind),
                              "keys sorted and once, no blanks, each value in its one form");
    }
    return read;
}

screening::Result<Read> read_entry(const store::Entry& entry)
{
    return from_payload(entry.said.kind, entry.said.kind_version, entry.said.payload);
}

store::NewEntry new_entry(std::string subject, screening::Moment at, std::string who, std::string desk,
                          const Envelope& envelope, const Content& content)
{
    const Kind& kind = kind_of(content);
    return {std::move(subject),
            at,
            std::move(who),
            std::move(desk),
            std::string(kind.name),
            kind.version,
            to_payload(envelope, content)};
}

}  // namespace foreday::book
