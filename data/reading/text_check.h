#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "data/reading/faults.h"

namespace foreday::data {

/// Where each line of a text begins, to turn byte positions into columns counted in characters.
class LineTable {
public:
    explicit LineTable(std::string_view text);
    /// @param line, byte  from 0, as the parser counts them  @returns the column from 1
    [[nodiscard]] int column_of(int line, int byte) const;
    /// The text from that place on; empty beyond its end.
    [[nodiscard]] std::string_view from(int line, int byte) const;

private:
    std::string_view text_;
    std::vector<std::size_t> starts_;
};

/// Whether a text may be given to the parser at all: UTF-8, no control characters but tab and line end,
/// no line too long, not too much for the parser. The first fault is told and the rest left unread.
[[nodiscard]] bool readable_text(std::string_view text, const std::string& file, Faults& faults);

/// Whether a text that begins with a quotation mark, ' or ", has the one that closes it. The parser takes the
/// end of the file for it.
[[nodiscard]] bool closes_its_quotation(std::string_view text);

}  // namespace foreday::data
