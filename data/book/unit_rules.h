#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "data/reading/policy_reading.h"
#include "data/reading/protocol_reading.h"

namespace foreday::book {

/// The files a unit works by, as a book keeps them.
struct UnitTexts {
    data::ProtocolTexts protocol;
    std::string policy;
};

/// Rules read from such texts, with what names them.
struct UnitRules {
    screening::Rules rules;
    std::string protocol_hash;
    std::string policy_hash;
    std::string hash;  ///< SHA-256 over protocol, policy and the zone's file: what projections carry
    std::vector<data::RosterEntry> roster;
};

struct ReadUnit {
    std::shared_ptr<const UnitRules> rules;  ///< null when there is any fault
    std::vector<data::LocatedFault> faults;
};
/// The zone's clock is taken for 2020 to 2037.
[[nodiscard]] ReadUnit read_unit(const UnitTexts& texts);

/// The texts as one document of the book, and back. Empty: not such a document.
[[nodiscard]] std::string protocol_document(const data::ProtocolTexts& texts);
[[nodiscard]] std::optional<data::ProtocolTexts> protocol_of_document(const std::string& document);

}  // namespace foreday::book
