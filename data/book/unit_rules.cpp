#include "data/book/unit_rules.h"

#include <algorithm>
#include <nlohmann/json.hpp>

#include "data/reading/hashing.h"
#include "data/reading/zone_reading.h"
#include "screening/canonical.h"

namespace foreday::book {
namespace {

using screening::Date;

/// One span for every book, so that the same texts make the same rules whenever they are read.
constexpr Date first_day_planned = Date{date::local_days{date::year{2020} / date::January / 1}};
constexpr Date last_day_planned = Date{date::local_days{date::year{2037} / date::December / 31}};

std::string rules_hash(const UnitRules& unit)
{
    screening::CanonicalBytes bytes;
    bytes.add(unit.protocol_hash);
    bytes.add(unit.policy_hash);
    bytes.add(unit.rules.zone.name);
    bytes.add(unit.rules.zone.file_hash);
    return data::sha256_hex(bytes.bytes());
}

}  // namespace

ReadUnit read_unit(const UnitTexts& texts)
{
    auto unit = std::make_shared<UnitRules>();
    auto protocol = data::read_protocol_texts(texts.protocol);
    if (!protocol.protocol) {
        return {.rules = nullptr, .faults = std::move(protocol.faults)};
    }
    unit->rules.protocol = std::move(*protocol.protocol);
    unit->protocol_hash = protocol.hash;
    auto policy = data::read_policy_text(texts.policy, "unit policy", unit->rules.protocol);
    if (!policy.policy) {
        return {.rules = nullptr, .faults = std::move(policy.faults)};
    }
    unit->rules.policy = std::move(*policy.policy);
    unit->policy_hash = policy.hash;
    unit->roster = std::move(policy.roster);
    auto zone = data::read_zone(policy.zone, first_day_planned, last_day_planned);
    if (!zone) {
        return {.rules = nullptr,
                .faults = {{"unit policy", 0, 0, zone.error().what, zone.error().would_be_right}}};
    }
    unit->rules.zone = std::move(*zone);
    unit->hash = rules_hash(*unit);
    return {.rules = std::move(unit), .faults = {}};
}

std::string protocol_document(const data::ProtocolTexts& texts)
{
    return nlohmann::json(texts).dump();
}

std::optional<data::ProtocolTexts> protocol_of_document(const std::string& document)
{
    const auto json = nlohmann::json::parse(document, nullptr, false);
    if (!json.is_object() || !std::ranges::all_of(json, [](const auto& text) { return text.is_string(); })) {
        return std::nullopt;
    }
    return json.get<data::ProtocolTexts>();
}

}  // namespace foreday::book
