#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/faults.h"
#include "screening/protocol.h"

namespace foreday::data {

/// Who stands behind a change of a parameter or an answer to a policy question.
struct UnitChange {
    std::string item;    ///< id of the parameter or the policy question
    std::string reason;  ///< may be empty unless the change is looser
    std::string by;
    std::optional<screening::Role> role;
    std::optional<screening::Date> on;
};

/// Somebody who can be rung.
struct RosterEntry {
    std::string name;
    std::optional<screening::Role> role;  ///< empty: not said
    std::string phone;                    ///< empty: not said
};

struct ReadPolicy {
    std::optional<screening::UnitPolicy> policy;  ///< empty when there is any fault
    std::string zone;                             ///< IANA name
    std::vector<UnitChange> changes;              ///< sorted by item
    std::vector<RosterEntry> roster;
    std::map<screening::Role, std::vector<std::string>> people;   ///< who has which role
    std::map<std::string, std::vector<std::string>> local_names;  ///< by id of a medicine or preparation
    std::vector<LocatedFault> faults;
    std::vector<LocatedFault> warnings;
    std::string hash;  ///< over the content
};

/// Reads a unit's policy against a protocol. Parameters are converted to the protocol's units. Out of range,
/// a looser change without reason, name, role and date, a name that is no clinician's role, a standing order
/// on a marked medicine and ids that are not there are faults.
[[nodiscard]] ReadPolicy read_policy(const std::filesystem::path& file, const screening::Protocol& protocol);

/// The same from text; faults name it `shown_as`.
[[nodiscard]] ReadPolicy read_policy_text(std::string_view text, const std::string& shown_as,
                                          const screening::Protocol& protocol);

/// What holds without a unit's policy: every default of the protocol, nothing confirmed, no standing order,
/// preparations in the order of their ids, Monday to Friday from 08:00 to 17:00 without holidays, and the
/// design's table of who may agree.
[[nodiscard]] screening::UnitPolicy default_policy(const screening::Protocol& protocol);

/// Something whose figure gives no date and clears nothing until the unit's policy confirms it.
struct Unconfirmed {
    std::string
        kind;  ///< "parameter", "finding", "hold", "preparation", "limit", "readiness item", "policy option"
    std::string id;
    std::string title;
    screening::HowSure sure = screening::HowSure::from_memory;
};
/// By kind and id. Options that are not the chosen ones are left out.
[[nodiscard]] std::vector<Unconfirmed> unconfirmed_under(const screening::Protocol& protocol,
                                                         const screening::UnitPolicy& policy);

/// Standing orders that are over on `day`, by their place. The last day of an order is still in force.
[[nodiscard]] std::vector<std::size_t> expired_orders(const screening::UnitPolicy& policy,
                                                      screening::Date day);

}  // namespace foreday::data
