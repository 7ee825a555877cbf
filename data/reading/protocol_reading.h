#pragma once
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "data/reading/faults.h"
#include "screening/protocol.h"

namespace foreday::data {

struct ReadProtocol {
    std::optional<screening::Protocol> protocol;  ///< empty when there is any fault
    std::vector<LocatedFault> faults;             ///< every one, sorted
    std::vector<LocatedFault> warnings;           ///< what is probably a slip and changes no result
    std::string hash;                             ///< over the content; empty when there is any fault
};

/// Reads a folder of protocol files; their form is written down in data/protocol/FORMAT.md. Ids become
/// places, everything is sorted by id, limits stand in the unit of what they limit.
[[nodiscard]] ReadProtocol read_protocol(const std::filesystem::path& folder);

/// The files of a protocol as they are kept in a book: text by name.
using ProtocolTexts = std::map<std::string, std::string>;
/// The same from texts. One that is missing is a fault, one that is none of a protocol's too.
[[nodiscard]] ReadProtocol read_protocol_texts(const ProtocolTexts& texts);
/// The texts of a folder's protocol files; empty when one of them cannot be read.
[[nodiscard]] std::optional<ProtocolTexts> protocol_texts(const std::filesystem::path& folder);

/// The names of the files that a protocol consists of, sorted.
[[nodiscard]] const std::vector<std::string>& protocol_files();

}  // namespace foreday::data
