#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace foreday::present {

/// Questions to the person at the desk. A window asks them in a dialog; a test answers them from a list.
class Questioner {
public:
    virtual ~Questioner() = default;

    /// The place of the answer picked. Empty: the person gave up.
    [[nodiscard]] virtual std::optional<std::size_t> choose(const std::string& question,
                                                            const std::vector<std::string>& answers) = 0;
    /// Words, never blank. Empty: the person gave up.
    /// @param initial  what stands in the field at first
    [[nodiscard]] virtual std::optional<std::string> write(const std::string& question,
                                                           const std::string& initial) = 0;
    /// @param yes  what is done when the person agrees: "Receive the patient"
    [[nodiscard]] virtual bool agree(const std::string& question, const std::string& yes) = 0;
};

}  // namespace foreday::present
