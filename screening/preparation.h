#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "screening/rules.h"

namespace foreday::screening {

/// One instruction inside a portion, repeated `times` times, each taking `every`.
struct PortionStep {
    std::string what;               ///< patient's words; "{n}" and "{of}" stand for the count and its total
    int times = 1;                  ///< >= 1
    std::chrono::minutes every{0};  ///< how long one takes before the next begins, > 0
    Exact millilitres;              ///< of one; 0 for tablets or a wait
};

struct Portion {
    std::string title;
    std::vector<PortionStep> steps;
};

/// When the second portion may start, in minutes before the start of the procedure.
struct StartWindow {
    std::chrono::minutes earliest{0};  ///< not earlier than this long before
    std::chrono::minutes latest{0};    ///< not later than this long before; latest <= earliest
    std::vector<SourceUse> sources;
    HowSure sure = HowSure::from_memory;
};

/// A limit of one preparation: a finding that speaks against it for this patient.
struct PreparationLimit {
    FindingRule finding;  ///< level ask or stop: another is chosen; note or act: a caution
};

/// A bowel preparation by its generic name.
struct Preparation {
    std::string id;
    std::string generic;
    std::vector<std::string> local_descriptions;  ///< how a patient may describe it; no brand
    Portion first;                                ///< the evening before
    Portion second;                               ///< on the day
    std::vector<StartWindow> windows;             ///< all of them hold at once; never empty
    /// From the start of the first to the start of the second; closed. Empty: the label says nothing.
    std::optional<Interval<std::chrono::minutes>> between_starts;
    std::vector<SourceUse> between_sources;
    /// Solid food ends so long before the first portion, or earlier at this time on the day before.
    TimeOfDay last_solid{0};  ///< on the day before
    std::string last_solid_words;
    std::vector<SourceUse> diet_sources;
    HowSure diet_sure = HowSure::from_memory;
    /// No medicine by mouth within so long before a portion starts and while it is drunk.
    std::chrono::minutes no_medicine_before{0};
    std::vector<SourceUse> no_medicine_sources;
    /// Medicines of these classes at least so long before and after each portion.
    std::vector<ClassIndex> spaced_classes;
    std::chrono::minutes spaced_before{0};
    std::chrono::minutes spaced_after{0};
    std::vector<std::string> notes;  ///< patient's words: colours, what is not clear, and the like
    std::vector<SourceUse> sources;
    HowSure sure = HowSure::from_memory;
    std::vector<PreparationLimit> limits;
};

/// Time from the start of a portion to its end.
[[nodiscard]] std::chrono::minutes length_of(const Portion& portion);

}  // namespace foreday::screening
