#pragma once
#include <string>

#include "checklists/strands.h"

/// The one sentence of each strand.
namespace foreday::checklists {

[[nodiscard]] std::string screening_sentence(ScreeningStrand strand, int questions_left);
/// Of items undecided, as `strands.waiting_for` and `strands.decide_by` say.
[[nodiscard]] std::string waiting_sentence(const Strands& strands, std::size_t items,
                                           const screening::Zone& zone);
[[nodiscard]] std::string decided_sentence(const Strands& strands, bool not_to_go_ahead);
[[nodiscard]] std::string telling_sentence(const Strands& strands, const CaseFile& file,
                                           const screening::Zone& zone);
/// @param clinicians  the roles waited for
[[nodiscard]] std::string day_sentence(DayStrand strand, const CaseFile& file, const WholeCase& whole,
                                       const screening::Zone& zone, const std::string& clinicians);
/// @param medicines  those the strand is about
[[nodiscard]] std::string closing_sentence(ClosingStrand strand, const std::string& medicines);

}  // namespace foreday::checklists
