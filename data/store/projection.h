#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "screening/calendar.h"
#include "screening/vocabulary.h"

namespace foreday::store {

/// A call as lists need it. Whether it is due is for the reader to say from the clock.
struct ProjectedCall {
    std::string id;  ///< unique in the case: "first call", "outside ask:o1"
    screening::Moment due_from;
    screening::Moment useful_until;
    int tries = 0;
    std::string why;
    bool operator==(const ProjectedCall&) const = default;
};

/// An item nobody has decided; or, as `signature:NAME` of level note, what that clinician said and has to
/// sign.
struct ProjectedItem {
    std::string id;
    screening::Level level = screening::Level::ask;
    screening::Moment decide_by;
    std::string title;
    bool operator==(const ProjectedItem&) const = default;
};

/// What lists and search read of one case. It can be dropped and made again from the journal; it holds
/// moments, never states.
struct CaseProjection {
    std::string case_id;
    std::string patient_id;
    std::string rules_hash;        ///< of the rules that made it
    std::int64_t up_to = 0;        ///< number of the last journal entry it is made from
    screening::Moment look_again;  ///< from then on time alone may have changed it
    bool finished = false;         ///< closed, or ended with nothing left to call about: made again no more
    std::string name;              ///< as shown
    std::string number;            ///< the patient's
    screening::Date born;
    screening::Date day;  ///< of the session, on the unit's calendar
    screening::Moment start;
    std::string procedures;                 ///< as shown
    std::vector<std::string> search_words;  ///< folded: words of the name; digits of phones; numbers
    std::vector<ProjectedCall> calls;
    std::vector<ProjectedItem> undecided;
    std::optional<screening::Moment> here_since;
    std::optional<screening::Moment> gone_in;
    std::optional<screening::Moment> ended;  ///< done, called off, did not come, not today
    bool operator==(const CaseProjection&) const = default;
};

}  // namespace foreday::store
