#pragma once
#include <cstdint>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include "data/store/store.h"

/// A book as large as one unit fills in ten years, of people a seeded generator makes up: the same people,
/// and the same book, each time and on each machine.
namespace foreday::bench {

struct InventedPerson {
    std::string id;      ///< empty while not in the book
    std::string name;    ///< "Ada Marwick"; some have two surnames or letters with accents
    std::string number;  ///< seven digits
    screening::Date born;
    std::string phone;  ///< four in five have the same three digits in front, as in any town
};

/// Takes whole numbers from the engine by remainder: the library's distributions differ between libraries.
class Inventor {
public:
    explicit Inventor(std::uint64_t seed);
    [[nodiscard]] InventedPerson person();
    /// From 0 to `below`, `below` not included.
    [[nodiscard]] std::size_t pick(std::size_t below);

private:
    [[nodiscard]] std::string syllables(std::size_t count);
    /// Few names are frequent and many are rare: the n-th is taken about 1/n as often as the first.
    [[nodiscard]] const std::string& name_from(const std::vector<std::string>& names);

    std::mt19937_64 random_;
    std::vector<std::string> given_;
    std::vector<std::string> family_;
};

inline constexpr int cases_a_day = 40;

struct InventedBook {
    screening::Date today;  ///< a Thursday with a list
    screening::Moment now;  ///< 13:00 UTC of that day
    std::vector<InventedPerson> people;
};

/// Writes people, bookings and their work as entries, and each case's projection, through the store's own
/// verbs: `cases_a_day` cases on each weekday up to 60 working days from today, which most of them lie
/// before. Older cases are finished; of those to come some are to be called and some have something
/// undecided.
[[nodiscard]] InventedBook fill(store::Store& store, std::size_t cases, std::uint64_t seed);

}  // namespace foreday::bench
