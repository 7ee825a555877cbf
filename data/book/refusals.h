#pragma once
#include <string>

#include "data/book/book.h"

/// What verbs are written with.
namespace foreday::book {

[[nodiscard]] inline Refusal malformed(std::string what, std::string would_be_right)
{
    return {Refusal::Why::malformed, std::move(what), std::move(would_be_right), {}};
}
[[nodiscard]] inline Refusal not_possible(std::string what, std::string would_be_right)
{
    return {Refusal::Why::not_possible, std::move(what), std::move(would_be_right), {}};
}
[[nodiscard]] inline Refusal not_there(std::string what, std::string would_be_right)
{
    return {Refusal::Why::not_there, std::move(what), std::move(would_be_right), {}};
}

/// One content, whatever the case is like.
[[nodiscard]] inline Book::Contents just(Content content)
{
    return [content = std::move(content)](const CaseNow& /*before*/, store::Writing& /*writing*/) {
        return std::vector<Content>{content};
    };
}

/// Nothing to check.
[[nodiscard]] inline std::optional<Refusal> always(const CaseNow& /*before*/)
{
    return std::nullopt;
}

}  // namespace foreday::book
