#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "screening/assessment.h"

namespace foreday::checklists {

/// One thing to do, at one moment.
struct Step {
    screening::Moment at;
    std::string what;
    bool drink = false;  ///< a glass, tablet or water of a portion
};

/// From a moment on (included) until another (not included).
struct Span {
    screening::Moment from;
    screening::Moment until;
    bool operator==(const Span&) const = default;
};

/// A preparation that keeps every window.
struct Fitted {
    std::optional<screening::PreparationIndex> preparation;  ///< empty: fasting only
    std::vector<Step> steps;  ///< in order of time: last solid, portions, last clear liquid, leave home
    screening::Moment last_solid;
    screening::Moment last_clear_liquid;
    /// Empty: how long before the start the patient is to be there rests on what the unit has not confirmed.
    std::optional<screening::Moment> leave_home;
    std::optional<screening::Moment> first_portion;  ///< empty: fasting only
    std::optional<screening::Moment> second_portion;
    std::optional<screening::Moment> second_ends;
    std::vector<Span> no_medicine;  ///< nothing by mouth but the preparation; one span a portion, or none
    std::vector<Span> spaced;       ///< none of the preparation's spaced classes; one span a portion, or none
    bool journey_assumed = false;   ///< planned with the unit's usual journey; open on it
    std::vector<screening::OpenOn> open_on;  ///< what would make the plan sure: the journey, or nothing
    std::vector<std::string> notes;
    std::vector<screening::SourceUse> sources;  ///< of the windows, the portions and the gap before the start
};

/// No plan that keeps every bound; a clinician or the scheduler chooses.
struct Refused {
    enum class Why : std::uint8_t {
        no_common_time,  ///< slot, journey and regimen
        windows_apart,   ///< the windows of two sources have no time in common
        not_confirmed,   ///< rests on common practice or memory that the unit has not confirmed
        no_plan,         ///< the protocol has none for this booking
        order_not_known,
        speaks_against,  ///< what was ordered is not for this patient
    } why = Why::no_plan;
    std::string reason;
    std::vector<std::string> choices;           ///< what could be changed
    std::vector<screening::SourceUse> sources;  ///< behind the bounds that pull apart
};

/// The preparation side of a case.
struct PreparationPlan {
    std::variant<Fitted, Refused> plan;
    /// What was ordered is kept, or why it is not. Empty: no bowel plan is needed.
    std::string about_the_order;
    /// Every preparation of the protocol in the unit's order, with what speaks for and against it here.
    struct Choice {
        screening::PreparationIndex preparation = 0;
        bool acceptable = false;  ///< nothing speaks against it, nothing is open, and it fits
        std::vector<std::string> speaks_against;
        std::vector<std::string> cautions;
        std::vector<std::string> open;
        std::string timetable;  ///< "fits", or why it does not
    };
    std::vector<Choice> choices;
    /// Where the order cannot stand: the first acceptable preparation, fitted, for whoever decides.
    std::optional<Fitted> suggestion;
    /// Where no plan could be made: the clinician's own words for it, who and the words. Empty: nobody has
    /// stated one. See plan_preparation().
    std::string stated;
};

/// Journey from home in minutes. Empty: not known; the unit's usual journey is planned with.
using Journey = std::optional<std::chrono::minutes>;

/// Fits one bowel preparation before a procedure. Everything is measured from the start of the procedure,
/// never from the arrival, in elapsed time.
///
/// 1. The second portion starts inside every window of the preparation at once; when the windows of two
///    sources do not meet, both are shown.
/// 2. It ends at least the unit's clear-liquid gap before the start, and its bathroom margin before
///    leaving home.
/// 3. It starts at the unit's preferred time, moved by the least that keeps 1 and 2, then to the earlier
///    quarter hour of the wall clock if that still does.
/// 4. The first portion starts at the unit's evening hour of the day before, moved by the least into what
///    the label says between the two starts; it ends before the second begins.
[[nodiscard]] std::variant<Fitted, Refused> fit_preparation(const screening::Rules& rules,
                                                            screening::PreparationIndex place,
                                                            screening::Moment start, Journey journey);

/// Upper endoscopy alone: solid food and clear liquids end, nothing is drunk to clean the bowel.
[[nodiscard]] std::variant<Fitted, Refused> fit_fasting(const screening::Rules& rules,
                                                        screening::Moment start, Journey journey);

/// The plan of a whole case: what was ordered is kept unless something speaks against it.
///
/// A refused plan is settled by a decision on the item "preparation" that states it in words, by a role that
/// may agree on gut and preparation; it stands in `stated`, and the plan stays refused.
[[nodiscard]] PreparationPlan plan_preparation(const screening::Rules& rules,
                                               const screening::CaseRecord& record,
                                               const screening::Assessment& assessment);

/// "Monday 18:00"; a wall-clock time that comes twice has its offset: "Sunday 01:30 (UTC-04:00)".
[[nodiscard]] std::string clock_words(const screening::Zone& zone, screening::Moment moment);

}  // namespace foreday::checklists
