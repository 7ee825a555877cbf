#pragma once
#include <string>

#include "screening/fact.h"

/// How a fact and its values are called on pages, screens and papers. Files and fingerprints use ids and
/// value_text() instead.
namespace foreday::screening {

/// The fact's own label; without one its id with blanks for underscores.
[[nodiscard]] std::string label_of(const FactDefinition& fact);

/// "yes", "type 1", "84.6 kg", "14 May 1968", "25 Oct 2026 to 23 Nov 2026", "Tue 13 Apr 2027, 18:00". The
/// name of a substance is left off its unit, as the label says what was measured.
[[nodiscard]] std::string value_in_words(const FactDefinition& fact, const Value& value);

/// "14 May 1968"
[[nodiscard]] std::string date_in_words(Date day);
/// "Tue 13 Apr 2027"
[[nodiscard]] std::string weekday_and_date(Date day);

}  // namespace foreday::screening
