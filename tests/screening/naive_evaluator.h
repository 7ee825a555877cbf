#pragma once
#include <set>
#include <string>

#include "tests/screening/builders.h"

namespace foreday::screening::build {

struct NaiveAnswer {
    Truth truth = Truth::open;
    bool on_unconfirmed = false;
    std::set<std::string> open_on;
};

/// A second evaluator of conditions, written from the design alone and without looking for speed: it lists
/// every possible reading of the record and asks each of them. Knows the comparisons that random tests use.
[[nodiscard]] NaiveAnswer evaluate_naively(const TinyCase& tiny, const Condition& condition);

}  // namespace foreday::screening::build
