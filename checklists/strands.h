#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "checklists/calls.h"

namespace foreday::checklists {

enum class ScreeningStrand : std::uint8_t { not_begun, begun, finished };
enum class DecisionStrand : std::uint8_t { nothing_to_decide, waiting, decided, opened_again };
enum class ToldStrand : std::uint8_t { nothing_to_tell_yet, to_be_told, told, no_longer_right };
enum class DayStrand : std::uint8_t {
    expected,
    here,
    waiting_for_a_clinician,
    may_go_in,
    gone_in,
    done,
    called_off,  ///< or did not come, or not today
};
enum class ClosingStrand : std::uint8_t {
    not_yet,
    restart_to_be_decided,
    restart_to_be_told,
    restart_told,            ///< all of them; the case can be closed
    nothing_to_start_again,  ///< the case can be closed
    closed,
};
[[nodiscard]] std::string_view name_of(ScreeningStrand strand);
[[nodiscard]] std::string_view name_of(DecisionStrand strand);
[[nodiscard]] std::string_view name_of(ToldStrand strand);
[[nodiscard]] std::string_view name_of(DayStrand strand);
[[nodiscard]] std::string_view name_of(ClosingStrand strand);

/// Where a case stands: five strands, each by itself. Derived, never stored. Words are one sentence each.
struct Strands {
    ScreeningStrand screening = ScreeningStrand::not_begun;
    std::string screening_words;

    DecisionStrand decision = DecisionStrand::nothing_to_decide;
    std::string decision_words;
    std::string waiting_for;  ///< a name or roles; with `waiting` and `opened_again`, and where a spoken
                              ///< decision waits for a signature
    std::optional<screening::Moment> decide_by;  ///< of the most urgent undecided item

    ToldStrand told = ToldStrand::nothing_to_tell_yet;
    std::string told_words;
    std::optional<screening::Moment> tell_by;  ///< with `to_be_told` and `no_longer_right`

    DayStrand day = DayStrand::expected;
    std::string day_words;

    ClosingStrand closing = ClosingStrand::not_yet;
    std::string closing_words;
};

/// @param now  whether the patient is here, and may go in, is said for it
[[nodiscard]] Strands strands_of(const screening::Rules& rules, const CaseFile& file, const WholeCase& whole,
                                 screening::Moment now, const HashText& hash);

}  // namespace foreday::checklists
