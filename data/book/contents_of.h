#pragma once
#include <string>
#include <vector>

#include "data/book/contents.h"
#include "screening/record.h"

namespace foreday::book {

/// One entry of a record that was made elsewhere.
struct RecordedContent {
    std::string subject;
    screening::Moment at;
    std::string who;   ///< empty: the record does not say
    std::string desk;  ///< the same
    screening::Role role = screening::Role::nurse;
    /// Its writer had nothing in view: to be written with a basis before the answers of its fact.
    bool unseen = false;
    Content content;
};

/// The entries that fold to a record, in the order in which they are to be written: patient, booking, answers
/// by fact, medicines, worries, decisions, what was told, clearance, the day. Their times are those of the
/// record and need not ascend.
/// @param patient_id  subject of what is said about the patient
[[nodiscard]] std::vector<RecordedContent> contents_of(const screening::Rules& rules,
                                                       const screening::CaseRecord& record,
                                                       const std::string& patient_id);

}  // namespace foreday::book
