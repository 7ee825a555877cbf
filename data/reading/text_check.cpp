#include "data/reading/text_check.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "data/reading/yaml_text.h"

namespace foreday::data {
namespace {

// The bounds below are those of UTF-8 itself (RFC 3629, section 4).

bool continues(unsigned char byte)
{
    return (byte & 0xC0U) == 0x80U;
}

/// Length of the character that begins here, or 0 when none does.
std::size_t character_length(std::string_view text, std::size_t at)
{
    const auto byte = [&](std::size_t offset) {
        return at + offset < text.size() ? static_cast<unsigned char>(text[at + offset]) : 0U;
    };
    const auto tail = [&](std::size_t count) {
        for (std::size_t i = 1; i <= count; ++i) {
            if (!continues(static_cast<unsigned char>(byte(i)))) {
                return false;
            }
        }
        return true;
    };
    const auto first = byte(0);
    const auto second = byte(1);
    if (first < 0x80) {
        return 1;
    }
    if (first >= 0xC2 && first <= 0xDF) {
        return tail(1) ? 2 : 0;
    }
    if (first >= 0xE0 && first <= 0xEF) {
        const bool overlong = first == 0xE0 && second < 0xA0;
        const bool surrogate = first == 0xED && second > 0x9F;
        return tail(2) && !overlong && !surrogate ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4) {
        const bool overlong = first == 0xF0 && second < 0x90;
        const bool beyond = first == 0xF4 && second > 0x8F;
        return tail(3) && !overlong && !beyond ? 4 : 0;
    }
    return 0;
}

bool is_control(std::string_view text, std::size_t at)
{
    const auto byte = static_cast<unsigned char>(text[at]);
    if (byte == '\r') {
        return at + 1 >= text.size() || text[at + 1] != '\n';
    }
    return (byte < 0x20 && byte != '\t' && byte != '\n') || byte == 0x7F;
}

}  // namespace

LineTable::LineTable(std::string_view text) : text_(text), starts_{0}
{
    for (std::size_t at = 0; at < text.size(); ++at) {
        if (text[at] == '\n') {
            starts_.push_back(at + 1);
        }
    }
}

int LineTable::column_of(int line, int byte) const
{
    if (line < 0 || byte < 0 || static_cast<std::size_t>(line) >= starts_.size()) {
        return 1;
    }
    const auto written =
        text_.substr(starts_[static_cast<std::size_t>(line)], static_cast<std::size_t>(byte));
    const auto characters = std::ranges::count_if(
        written, [](char letter) { return !continues(static_cast<unsigned char>(letter)); });
    return static_cast<int>(characters) + 1;
}

std::string_view LineTable::from(int line, int byte) const
{
    if (line < 0 || byte < 0 || static_cast<std::size_t>(line) >= starts_.size()) {
        return {};
    }
    const std::size_t at = starts_[static_cast<std::size_t>(line)] + static_cast<std::size_t>(byte);
    return at < text_.size() ? text_.substr(at) : std::string_view{};
}

bool closes_its_quotation(std::string_view text)
{
    const char quote = text.front();
    for (std::size_t at = 1; at < text.size(); ++at) {
        if (quote == '"' && text[at] == '\\') {
            ++at;  // whatever is escaped closes nothing
        } else if (text[at] == quote) {
            const bool doubled = quote == '\'' && at + 1 < text.size() && text[at + 1] == quote;
            if (!doubled) {
                return true;
            }
            ++at;
        }
    }
    return false;
}

bool readable_text(std::string_view text, const std::string& file, Faults& faults)
{
    constexpr std::string_view marks = "[]{},:?\"'*&!|>-";
    int line = 1;
    std::size_t column = 1;
    std::size_t marks_seen = 0;
    for (std::size_t at = 0; at < text.size();) {
        const auto refuse = [&](std::string what, std::string right) {
            faults.add(LocatedFault{file, line, static_cast<int>(column), std::move(what), std::move(right)});
            return false;
        };
        const std::size_t length = character_length(text, at);
        if (length == 0) {
            return refuse("a byte that is no UTF-8", "save the file as UTF-8");
        }
        if (length == 1 && is_control(text, at)) {
            return refuse(fmt::format("a control character (code {})", static_cast<unsigned char>(text[at])),
                          "printable text, tabs and line ends only");
        }
        if (marks.find(text[at]) != std::string_view::npos && ++marks_seen > most_marks) {
            return refuse(fmt::format("more than {} brackets, commas, colons and the like", most_marks),
                          "a smaller file");
        }
        if (text[at] == '\n') {
            ++line;
            column = 1;
        } else if (++column > longest_line + 1) {
            return refuse(fmt::format("a line of more than {} characters", longest_line),
                          "break it into several lines");
        }
        at += length;
    }
    return true;
}

}  // namespace foreday::data
