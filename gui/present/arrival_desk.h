#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "gui/present/workplace.h"

namespace foreday::present {

/// One line of the day's checklist as a screen shows it.
struct ChecklistView {
    std::string id;
    std::string title;
    std::string state;  ///< "Shown", "Not done yet: nobody has asked", with what would make it ready
    enum class Control : std::uint8_t { confirm, measure, none } control = Control::none;
    std::string question;  ///< with `confirm` and `measure`: what is asked
    std::string expected;  ///< with `measure`: what is typed
    bool enters_verdict = true;
    bool met = false;
    bool mine_to_let_pass = false;  ///< not met, and the role of whoever is signed in may let it pass
    bool operator==(const ChecklistView&) const = default;
};

/// Where the patient stands now.
struct VerdictView {
    std::string words;  ///< "May go in", "Not ready", ...
    std::vector<std::string> reasons;
    std::string earliest;  ///< "Waiting alone will do: at 11:30"; empty: it will not
    bool operator==(const VerdictView&) const = default;
};

/// What the patient has eaten or drunk, as typed.
struct IntakeForm {
    std::size_t kind = 0;  ///< place in kinds_of_intake()
    std::string at;        ///< "06:30", "2026-11-03 22:00"
    std::string what;
};
[[nodiscard]] const std::vector<std::string>& kinds_of_intake();

/// The work of the arrival desk on the case in hand.
class ArrivalDesk {
public:
    explicit ArrivalDesk(Workplace& place) : place_(place) {}

    [[nodiscard]] VerdictView verdict() const;
    [[nodiscard]] std::vector<ChecklistView> checklist() const;
    /// What was eaten, drunk and taken so far, in words.
    [[nodiscard]] std::vector<std::string> taken_so_far() const;
    [[nodiscard]] bool here() const;

    bool receive();
    bool confirm(const std::string& item, bool yes);
    bool measure(const std::string& item, const std::string& typed);
    bool record_intake(const IntakeForm& form);
    bool record_nothing_else();
    /// Medicines of the list, in its order: id and words.
    [[nodiscard]] std::vector<std::pair<std::string, std::string>> medicines() const;
    bool record_dose_taken(const std::string& medicine, const std::string& typed);

    bool escalate(const std::string& item);
    /// A clinician lets the item pass, giving a reason.
    bool let_pass(const std::string& item);
    bool go_in();
    bool not_today();
    bool did_not_come();

    /// Ended at a typed time; what was done is what was booked unless said otherwise.
    bool record_what_was_done();
    bool record_preparation_quality();
    bool tell_restart();
    bool close();

private:
    [[nodiscard]] const book::CaseNow& now() const { return *place_.now(); }
    [[nodiscard]] const screening::ReadinessRule* rule_of(const std::string& item) const;
    [[nodiscard]] screening::Date today() const;

    Workplace& place_;
};

}  // namespace foreday::present
