#pragma once
#include "tests/checklists/builders.h"

/// The day itself: short words for a patient who has come and for the items of the checklist.
namespace foreday::checklists::build {

/// Received an hour before the start, which is half an hour from now; asked for food and drink, and there was
/// none; cleared by the endoscopist the evening before. The checklist is empty.
/// @param start  wall clock of New York
[[nodiscard]] SmallUnit on_the_day(std::string_view start = "2027-06-17T10:00");

/// Each adds one item that holds the patient, with the name of its fact or intake as id.
screening::ReadinessRule& fasting(SmallUnit& unit, std::string_view intake, std::string_view parameter);
screening::ReadinessRule& measured(SmallUnit& unit, std::string_view fact, screening::Operator op,
                                   screening::Limit limit);
screening::ReadinessRule& confirmed(SmallUnit& unit, std::string_view fact, bool expected);

void drank(SmallUnit& unit, std::string_view intake, std::string_view wall_clock);
/// The last dose really taken. @param hour  empty: the time of day is not known
void really_took(SmallUnit& unit, std::string_view item, std::string_view date, std::string_view hour = "");

[[nodiscard]] Verdict verdict(const SmallUnit& unit);
/// The one item of the checklist.
[[nodiscard]] ReadinessItem only_item(const SmallUnit& unit);

}  // namespace foreday::checklists::build
