#pragma once
#include <string>

#include "screening/assessment.h"

/// How dates, doses and plans read in English, for people.
namespace foreday::console {

/// "Friday 16 April 2027"
[[nodiscard]] std::string day_words(screening::Date day);
/// "08:00" with "12 noon" and "12 midnight" for the two that are misread.
[[nodiscard]] std::string time_words(screening::TimeOfDay time);
/// "Friday 16 April 2027 at 09:30 (UTC-04:00)"; the offset always stands there, so that a time that
/// exists twice cannot be misread.
[[nodiscard]] std::string moment_words(const screening::Zone& zone, screening::Moment moment);
[[nodiscard]] std::string dose_words(const screening::Dose& dose);
/// One sentence on what a plan asks of the patient.
[[nodiscard]] std::string plan_words(const screening::HoldPlan& plan);
/// "Jacobson BC et al. 2025, table 2 (published)"
[[nodiscard]] std::string source_words(const screening::Protocol& protocol, const screening::SourceUse& use);

/// The caution that stands on everything that advises.
[[nodiscard]] std::string caution();

/// Breaks text into lines of at most `width` columns, each beginning with `indent` blanks.
[[nodiscard]] std::string wrapped(const std::string& text, std::size_t indent, std::size_t width = 100);

}  // namespace foreday::console
