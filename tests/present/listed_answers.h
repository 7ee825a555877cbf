#pragma once
#include <deque>
#include <string>
#include <variant>
#include <vector>

#include "gui/present/questioner.h"

namespace foreday::tests {

/// What a person does when a question comes up.
struct Picks {
    std::string answer;  ///< a part of one of those offered, of the first that has it
};
struct Writes {
    std::string words;
};
struct LeavesAsItStands {};  ///< takes what stands in the field
struct Agrees {};
struct GivesUp {};
using Reply = std::variant<Picks, Writes, LeavesAsItStands, Agrees, GivesUp>;

/// The person at the desk, with the replies settled beforehand and given in their order. A question nobody
/// foresaw is given up, and is a failure; so is a reply that does not fit its question.
class ListedAnswers : public present::Questioner {
public:
    /// Replaces what is left of earlier ones.
    void will(std::vector<Reply> replies);

    [[nodiscard]] std::optional<std::size_t> choose(const std::string& question,
                                                    const std::vector<std::string>& offered) override;
    [[nodiscard]] std::optional<std::string> write(const std::string& question,
                                                   const std::string& initial) override;
    [[nodiscard]] bool agree(const std::string& question, const std::string& yes) override;

    [[nodiscard]] const std::vector<std::string>& asked() const { return asked_; }
    /// Everything the last question offered, one line each.
    [[nodiscard]] const std::vector<std::string>& offered() const { return offered_; }
    [[nodiscard]] std::size_t left() const { return replies_.size(); }

private:
    Reply next(const std::string& question);

    std::deque<Reply> replies_;
    std::vector<std::string> asked_;
    std::vector<std::string> offered_;
};

}  // namespace foreday::tests
