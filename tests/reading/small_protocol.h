#pragma once
#include <map>
#include <string>

#include "tests/support/temporary_folder.h"

namespace foreday::tests {

/// The files of a small protocol without a fault, by name. Tests change one word of it and look at what is
/// told. Its rules are made up for reading and are no advice.
[[nodiscard]] std::map<std::string, std::string> small_protocol();

/// A unit's policy and a case that go with it, without a fault.
[[nodiscard]] std::string small_policy();
[[nodiscard]] std::string small_case();

/// Writes every file into the folder.
void write_all(const TemporaryFolder& folder, const std::map<std::string, std::string>& files);

/// The text with `from`, which must stand in it exactly once, replaced by `to`.
/// @throws std::runtime_error otherwise: a test that changes nothing proves nothing
[[nodiscard]] std::string changed(const std::string& text, const std::string& from, const std::string& to);

}  // namespace foreday::tests
