#pragma once
#include <optional>
#include <string>
#include <vector>

#include "checklists/lines.h"
#include "gui/present/workplace.h"

namespace foreday::present {

/// One thing a clinician has to decide, and what has been chosen for it but not signed yet.
struct DecisionView {
    std::string id;
    std::string title;      ///< with level: "Warfarin before ... (a clinician decides)"
    std::string by;         ///< who may decide, and by when
    std::string ground;     ///< what it stands on, in words
    std::string chosen;     ///< empty: nothing yet
    bool mine = true;       ///< the role of whoever is signed in may decide on it
    bool can_agree = true;  ///< something to do is proposed; else it is stated
    bool operator==(const DecisionView&) const = default;
};

/// A spoken decision that waits for the signature of whoever is signed in, or another restart to decide.
struct WaitingView {
    std::string id;  ///< entry number of the spoken decision, or item id of the hold
    std::string words;
    bool operator==(const WaitingView&) const = default;
};

/// The work of the review desk on the case in hand. What is chosen is not in the book before it is signed,
/// and is dropped, with a notice, where the item changes meanwhile.
class ReviewDesk {
public:
    explicit ReviewDesk(Workplace& place) : place_(place) {}

    [[nodiscard]] std::vector<checklists::Line> page() const;
    /// What has changed since the last signature, item by item; empty: nothing, or nobody has signed.
    [[nodiscard]] std::vector<std::string> changed_since_signed() const;
    [[nodiscard]] std::vector<DecisionView> to_decide();
    /// What is chosen and not signed: "2 of 3 decided on this page, nothing of it signed yet."
    [[nodiscard]] std::string unsigned_in_words();

    /// Asks for the reason where one is needed, and for the last dose where a plan is changed.
    bool agree(const std::string& item);
    bool change(const std::string& item);
    bool ask_outside(const std::string& item);
    bool not_go_ahead(const std::string& item);
    void take_back(const std::string& item);

    bool sign();
    /// Signs and clears in one act; without anything chosen, clears alone.
    bool sign_and_clear();

    [[nodiscard]] std::vector<WaitingView> to_countersign() const;
    bool countersign(const std::string& entry);
    [[nodiscard]] std::vector<WaitingView> restarts_to_decide() const;
    bool decide_restart(const std::string& item);

private:
    [[nodiscard]] const book::CaseNow& now() const { return *place_.now(); }
    /// Forgets what was chosen for another case, or on what has changed.
    void keep_what_fits();
    bool choose(const std::string& item, screening::DecisionAnswer answer, const std::string& reason_for,
                bool reason_needed);
    bool sign(bool clears);

    Workplace& place_;
    std::string case_;
    std::vector<book::DecidedItem> chosen_;
};

}  // namespace foreday::present
