#pragma once
#include <string>
#include <vector>

#include "screening/assessment.h"

/// How dates, doses and plans read in English.
namespace foreday::checklists {

/// "Fri 16 Apr 2027"
[[nodiscard]] std::string day_in_words(screening::Date day);
/// "Fri 16 Apr 2027, 18:00", with its offset where that time of the wall clock comes twice.
[[nodiscard]] std::string moment_in_words(const screening::Zone& zone, screening::Moment moment);
/// "08:00", with "12 noon" and "12 midnight" for the two that are misread.
[[nodiscard]] std::string time_in_words(screening::TimeOfDay time);
/// The time of day of a moment, with its offset where it comes twice: "01:30 (UTC-04:00)".
[[nodiscard]] std::string clock_in_words(const screening::Zone& zone, screening::Moment moment);
[[nodiscard]] std::string dose_in_words(const screening::Dose& dose);
/// What a plan comes to, for the clinician: "no dose on the 5 days before, nor before the procedure on the
/// day; last dose Fri 11 Jun 2027, 18:00".
[[nodiscard]] std::string plan_in_words(const screening::HoldPlan& plan);
/// "endoscopist", "endoscopist or anaesthesia"; empty for none.
[[nodiscard]] std::string roles_in_words(const std::vector<screening::Role>& roles);
/// "warfarin", "warfarin and iron", "warfarin, iron and ibuprofen".
[[nodiscard]] std::string listed(const std::vector<std::string>& words);
/// The first letter in capitals, where it is one of a to z.
[[nodiscard]] std::string capitalised(std::string text);
/// The text as a sentence: with a full stop, unless it ends one already. Empty stays empty.
[[nodiscard]] std::string sentence(std::string text);
/// The caution that stands on everything that advises.
[[nodiscard]] std::string caution_for_staff();

}  // namespace foreday::checklists
