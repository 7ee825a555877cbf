#include "tests/present/listed_answers.h"

#include <gtest/gtest.h>

namespace foreday::tests {

void ListedAnswers::will(std::vector<Reply> replies)
{
    replies_.assign(replies.begin(), replies.end());
    asked_.clear();
    offered_.clear();
}

Reply ListedAnswers::next(const std::string& question)
{
    asked_.push_back(question);
    if (replies_.empty()) {
        ADD_FAILURE() << "nobody foresaw the question: " << question;
        return GivesUp{};
    }
    Reply reply = std::move(replies_.front());
    replies_.pop_front();
    return reply;
}

std::optional<std::size_t> ListedAnswers::choose(const std::string& question,
                                                 const std::vector<std::string>& offered)
{
    offered_ = offered;
    const Reply reply = next(question);
    if (std::holds_alternative<GivesUp>(reply)) {
        return std::nullopt;
    }
    if (const auto* picks = std::get_if<Picks>(&reply)) {
        for (std::size_t place = 0; place < offered.size(); ++place) {
            if (offered[place].find(picks->answer) != std::string::npos) {
                return place;
            }
        }
        ADD_FAILURE() << "\"" << picks->answer << "\" is not offered at: " << question;
        return std::nullopt;
    }
    ADD_FAILURE() << "an answer was to be picked: " << question;
    return std::nullopt;
}

std::optional<std::string> ListedAnswers::write(const std::string& question, const std::string& initial)
{
    const Reply reply = next(question);
    if (const auto* writes = std::get_if<Writes>(&reply)) {
        return writes->words;
    }
    if (std::holds_alternative<LeavesAsItStands>(reply)) {
        return initial;
    }
    if (!std::holds_alternative<GivesUp>(reply)) {
        ADD_FAILURE() << "words were to be written: " << question;
    }
    return std::nullopt;
}

bool ListedAnswers::agree(const std::string& question, const std::string& yes)
{
    offered_ = {yes};
    const Reply reply = next(question);
    if (!std::holds_alternative<Agrees>(reply) && !std::holds_alternative<GivesUp>(reply)) {
        ADD_FAILURE() << "it was to be agreed to: " << question;
    }
    return std::holds_alternative<Agrees>(reply);
}

}  // namespace foreday::tests
