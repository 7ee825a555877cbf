#pragma once
#include <map>
#include <string>

#include "data/reading/yaml_text.h"

namespace foreday::data {

/// SHA-256, as 64 lower-case hexadecimal digits, over what files say: keys sorted, the entries of a file by
/// their id, comments, places, blanks and quotation marks left out. The order of a list inside an entry
/// counts.
/// @param trees  by name of the file
[[nodiscard]] std::string content_hash(const std::map<std::string, Located>& trees);

}  // namespace foreday::data
