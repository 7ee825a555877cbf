#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <variant>

#include "screening/dosing.h"
#include "screening/fact.h"

/// Entries outlive the protocol they were written under: facts, choices, medicines, procedures, preparations
/// and units stand in them by the ids of the protocol, never by their places in it.
namespace foreday::book {

/// A time as the unit's wall clock showed it, with what that clock stood ahead of UTC, so that an hour that
/// comes twice is told apart.
struct WallTime {
    screening::LocalMinute local;
    std::chrono::minutes offset{0};
    bool operator==(const WallTime&) const = default;
};

/// A moment as the zone's wall clock shows it; seconds are cut off.
[[nodiscard]] WallTime wall_time(const screening::Zone& zone, screening::Moment moment);
/// The wall-clock time a plan was made for, with the offset of the moment used for planning.
[[nodiscard]] WallTime wall_time(const screening::Zone& zone, screening::LocalMinute local);
/// The moment that was meant when it was written.
[[nodiscard]] screening::Moment moment_of(const WallTime& time);

/// A choice by its id in the fact's list.
struct NamedChoice {
    std::string id;
    bool operator==(const NamedChoice&) const = default;
};

/// A number in the unit the fact had when it was written, named beside it.
struct StatedNumber {
    screening::Exact lowest;
    screening::Exact highest;  ///< closed; equal to `lowest` when exact
    std::string unit;          ///< screening::unit_text(); empty: a ratio or a count
    bool operator==(const StatedNumber&) const = default;
};

using StatedValue = std::variant<bool, NamedChoice, StatedNumber, screening::DateInterval,
                                 screening::TimeInterval, std::string>;

}  // namespace foreday::book
