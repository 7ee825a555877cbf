#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "data/book/codec.h"
#include "data/book/fold.h"
#include "tests/book/book_rules.h"

namespace foreday::tests {

inline constexpr const char* case_id = "LK-0900";
inline constexpr const char* patient_id = "P-0900";

[[nodiscard]] screening::Moment at(
    std::string_view written);                                ///< "2027-06-10T09:00", in the demo unit's zone
[[nodiscard]] book::WallTime wall(std::string_view written);  ///< the same as an entry keeps it
[[nodiscard]] screening::Date day(std::string_view iso);
[[nodiscard]] screening::FactIndex fact(std::string_view id);  ///< of the demo rules
[[nodiscard]] screening::MedicineIndex medicine(std::string_view id);

/// The entries about one case and its patients, written down one after the other. Unless told otherwise a
/// writer has everything before in view.
class Journal {
public:
    /// A patient born on 2 March 1961 and a colonoscopy on 17 June 2027 at 10:00: entries 1 and 2.
    static Journal booked();

    /// Who writes the next entries, and when: "2027-06-10T09:00".
    Journal& by(std::string who, screening::Role role = screening::Role::nurse,
                std::string desk = "phone desk");
    Journal& when(std::string_view written);

    /// Number of the new entry.
    std::int64_t add(const book::Content& content);
    std::int64_t add_seen(std::int64_t seen, const book::Content& content);
    std::int64_t add_about(const std::string& subject, std::int64_t seen, const book::Content& content);
    /// An entry as it would stand after another program wrote it.
    std::int64_t add_raw(const std::string& subject, std::string kind, int version, std::string payload);

    [[nodiscard]] std::vector<store::Entry> about(const std::string& subject) const;
    [[nodiscard]] book::FoldedCase fold() const { return fold_under(demo_rules().protocol); }
    [[nodiscard]] book::FoldedCase fold_under(const screening::Protocol& protocol) const;
    [[nodiscard]] std::int64_t last() const { return static_cast<std::int64_t>(entries_.size()); }

private:
    std::vector<store::Entry> entries_;
    std::string who_ = "Nurse Ansgar Leith";
    std::string desk_ = "phone desk";
    screening::Role role_ = screening::Role::nurse;
    screening::Moment at_;
};

/// A value said by the patient.
[[nodiscard]] book::Answered said(std::string fact, book::StatedValue value);
[[nodiscard]] book::Answered weight(std::string_view kilograms);

/// Everything in a record, one line for each thing.
[[nodiscard]] std::string lines_of(const screening::CaseRecord& record);
/// The record and the work around it.
[[nodiscard]] std::string lines_of(const checklists::CaseFile& file);

}  // namespace foreday::tests
