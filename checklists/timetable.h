#pragma once
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

/// A preparation that keeps every window.
struct Fitted {
    std::optional<screening::PreparationIndex> preparation;  ///< empty: fasting only
    std::vector<Step> steps;               ///< in order of time: last solid, portions, last clear liquid, leave home
    screening::Moment last_solid;
    screening::Moment last_clear_liquid;
    screening::Moment leave_home;
    std::optional<screening::Moment> first_portion;   ///< empty: fasting only
    std::optional<screening::Moment> second_portion;
    std::optional<screening::Moment> second_ends;
    bool journey_assumed = false;          ///< planned with the unit's usual journey; open on it
    std::vector<std::string> notes;
};

/// No plan that keeps every bound; a clinician or the scheduler chooses.
struct Refused {
    std::string reason;
    std::vector<std::string> choices;  ///< what could be changed
};

/// The preparation side of a case.
struct PreparationPlan {
    std::variant<Fitted, Refused> plan;
    /// What was ordered is kept, or why it is not. Empty: nothing was ordered or no bowel plan is needed.
    std::string about_the_order;
    /// Preparations that would do, in the unit's order, with what speaks for and against each here.
    struct Choice {
        screening::PreparationIndex preparation = 0;
        bool acceptable = false;
        std::vector<std::string> speaks_against;
        std::vector<std::string> cautions;
        std::vector<std::string> open;
        std::string timetable;  ///< "fits", or why it does not
    };
    std::vector<Choice> choices;
    /// Where the order cannot stand: the first acceptable preparation, fitted, for whoever decides.
    std::optional<Fitted> suggestion;
};

/// Journey from home in minutes. Empty: not known; the unit's usual journey is planned with.
using Journey = std::optional<std::chrono::minutes>;

/// Fits one bowel preparation before a procedure. Everything is measured from the start of the procedure,
/// never from the arrival, in elapsed time.
///
/// 1. The second portion starts inside every window of the preparation at once; when the windows of two
///    sources do not meet, both are shown.
/// 2. It ends at least the unit's clear-liquid gap before the start, and its bathroom margin before leaving home.
/// 3. It starts at the unit's preferred time, moved by the least that keeps 1 and 2, then to the earlier
///    quarter hour if that still does.
/// 4. The first portion starts at the unit's evening hour of the day before, moved by the least into what
///    the label says between the two starts; it ends before the second begins.
[[nodiscard]] std::variant<Fitted, Refused> fit_preparation(const screening::Rules& rules,
                                                            screening::PreparationIndex preparation,
                                                            screening::LocalMinute start, Journey journey);

/// Upper endoscopy alone: solid food and clear liquids end, nothing is drunk to clean the bowel.
[[nodiscard]] std::variant<Fitted, Refused> fit_fasting(const screening::Rules& rules, screening::LocalMinute start,
                                                        Journey journey);

/// The plan of a whole case: what was ordered is kept unless something speaks against it.
[[nodiscard]] PreparationPlan plan_preparation(const screening::Rules& rules, const screening::CaseRecord& record,
                                               const screening::Assessment& assessment);

}  // namespace foreday::checklists
