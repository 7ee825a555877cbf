#include "checklists/strand_words.h"

#include <fmt/format.h>

#include "checklists/telling.h"
#include "checklists/words.h"

namespace foreday::checklists {
namespace {

using screening::Zone;

std::string by(const std::optional<screening::Moment>& moment, const Zone& zone)
{
    return moment ? " by " + moment_in_words(zone, *moment) : std::string{};
}

std::string told_by(const CaseFile& file, const Zone& zone)
{
    if (file.tellings.empty()) {
        return fmt::format("Told on {}.", moment_in_words(zone, last_told(file).value()));
    }
    const Telling& last = file.tellings.back();
    return fmt::format("Told by {} on {}; {}, {}.", last.who, moment_in_words(zone, last.when),
                       last.sheet.empty() ? "without a sheet" : "with the sheet",
                       last.said_back ? "said back" : "not said back");
}

std::string why(const Ending& ending)
{
    std::string text = ending.words.empty() ? "" : ": " + ending.words;
    return fmt::format("{}, noted by {}.", text, ending.who);
}

}  // namespace

std::string screening_sentence(ScreeningStrand strand, int questions_left)
{
    switch (strand) {
        case ScreeningStrand::not_begun:
            return "Screening has not begun.";
        case ScreeningStrand::begun:
            return questions_left == 0
                       ? "Screening is begun; every question is asked, and the medicine list is not closed."
                       : fmt::format("Screening is begun; {} not asked yet.",
                                     questions_left == 1 ? "1 question is"
                                                         : fmt::format("{} questions are", questions_left));
        case ScreeningStrand::finished:
            return "Screening is finished.";
    }
    return "";
}

std::string waiting_sentence(const Strands& strands, std::size_t items, const Zone& zone)
{
    const std::string whom = strands.waiting_for.empty() ? "a clinician" : strands.waiting_for;
    return fmt::format(
        "{}: {} undecided{}; waiting for {}.",
        strands.decision == DecisionStrand::opened_again ? "Opened again, as something decided on has changed"
                                                         : "To be decided",
        items == 1 ? "1 item" : fmt::format("{} items", items), by(strands.decide_by, zone), whom);
}

std::string decided_sentence(const Strands& strands, bool not_to_go_ahead)
{
    if (strands.decision == DecisionStrand::nothing_to_decide) {
        return "Nothing is to be decided.";
    }
    std::string text = not_to_go_ahead ? "Decided: not to go ahead as planned" : "Everything is decided";
    if (!strands.waiting_for.empty()) {
        text += "; spoken, to be signed by " + strands.waiting_for;
    }
    return text + ".";
}

std::string telling_sentence(const Strands& strands, const CaseFile& file, const Zone& zone)
{
    switch (strands.told) {
        case ToldStrand::nothing_to_tell_yet:
            return "Nothing is to be told yet.";
        case ToldStrand::to_be_told:
            return fmt::format("To be told{}.", by(strands.tell_by, zone));
        case ToldStrand::told:
            return told_by(file, zone);
        case ToldStrand::no_longer_right:
            return fmt::format("Told something that is no longer right; to be told anew{}.",
                               by(strands.tell_by, zone));
    }
    return "";
}

std::string day_sentence(DayStrand strand, const CaseFile& file, const WholeCase& whole, const Zone& zone,
                         const std::string& clinicians)
{
    switch (strand) {
        case DayStrand::expected:
            return fmt::format("Expected for {}.", moment_in_words(zone, file.record.booking.start_moment));
        case DayStrand::here: {
            const auto& reasons = whole.readiness.reasons;
            return reasons.empty() ? "Here, and not ready yet."
                                   : fmt::format("Here, and not ready yet: {}.", reasons.front());
        }
        case DayStrand::waiting_for_a_clinician:
            return fmt::format("Here, waiting for {}.", clinicians.empty() ? "clearance" : clinicians);
        case DayStrand::may_go_in:
            return "Here, and may go in.";
        case DayStrand::gone_in:
            return fmt::format("Gone in on {}.", moment_in_words(zone, file.gone_in.value()));
        case DayStrand::done:
            return fmt::format("Done; the procedure ended on {}.",
                               moment_in_words(zone, file.record.done.value()));
        case DayStrand::called_off: {
            const Ending& ending = file.ending.value();
            switch (ending.kind) {
                case EndingKind::called_off:
                    return "Called off" + why(ending);
                case EndingKind::did_not_come:
                    return "Did not come" + why(ending);
                case EndingKind::not_today:
                    return "Not today" + why(ending);
            }
        }
    }
    return "";
}

std::string closing_sentence(ClosingStrand strand, const std::string& medicines)
{
    switch (strand) {
        case ClosingStrand::not_yet:
            return "Not to be closed yet.";
        case ClosingStrand::restart_to_be_decided:
            return fmt::format("What to start again is to be decided: {}.", medicines);
        case ClosingStrand::restart_to_be_told:
            return fmt::format("What to start again is decided and to be told: {}.", medicines);
        case ClosingStrand::restart_told:
            return fmt::format("What to start again is told: {}; the case can be closed.", medicines);
        case ClosingStrand::nothing_to_start_again:
            return "Nothing is to be started again; the case can be closed.";
        case ClosingStrand::closed:
            return "Closed.";
    }
    return "";
}

}  // namespace foreday::checklists
