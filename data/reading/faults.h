#pragma once
#include <compare>
#include <cstddef>
#include <string>
#include <vector>

#include "screening/result.h"

namespace foreday::data {

struct Located;

/// What is wrong at one place of a file, and what would be right.
struct LocatedFault {
    std::string file;  ///< as it was given to the reader; empty: of no one place
    int line = 0;      ///< from 1; 0: of the file as a whole
    int column = 0;    ///< in characters, from 1
    std::string what;
    std::string would_be_right;
    auto operator<=>(const LocatedFault&) const = default;
};

/// "file:line:column: what; what would be right".
[[nodiscard]] std::string text_of(const LocatedFault& fault);

/// Gathers faults so that all of them can be told at once.
class Faults {
public:
    void add(const Located& at, std::string what, std::string would_be_right);
    void add(const Located& at, const screening::Fault& fault);
    void add(LocatedFault fault);

    [[nodiscard]] bool empty() const { return faults_.empty(); }
    [[nodiscard]] std::size_t count() const { return faults_.size() + uncounted_; }
    /// By file, line and column, each once; at most 200, and where there were more a last one that says
    /// how many.
    [[nodiscard]] std::vector<LocatedFault> sorted() const;

private:
    std::vector<LocatedFault> faults_;
    std::size_t uncounted_ = 0;  ///< past what is kept at all, so that a hostile file costs no memory
};

}  // namespace foreday::data
