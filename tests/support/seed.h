#pragma once
#include <gtest/gtest.h>

#include <charconv>
#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <random>
#include <string_view>

namespace foreday::tests {

/// The seed of a test that tries things at random: another one each time, printed, and the one in
/// FOREDAY_SEED where that is set, so that a failure can be seen again.
[[nodiscard]] inline std::uint64_t seed_of_this_run()
{
    std::uint64_t seed = 0;
    if (const char* given = std::getenv("FOREDAY_SEED")) {
        const std::string_view text = given;
        const auto read = std::from_chars(text.data(), text.data() + text.size(), seed);
        if (read.ec != std::errc{} || read.ptr != text.data() + text.size()) {
            ADD_FAILURE() << "FOREDAY_SEED=" << text << " is not a whole number";
        }
    } else {
        seed = std::random_device{}();
    }
    std::cout << "FOREDAY_SEED=" << seed << '\n';
    return seed;
}

/// From `lowest` to `highest`, both included.
[[nodiscard]] inline std::int64_t any_between(std::mt19937_64& random, std::int64_t lowest,
                                              std::int64_t highest)
{
    return std::uniform_int_distribution<std::int64_t>{lowest, highest}(random);
}

}  // namespace foreday::tests
