#pragma once
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "checklists/lines.h"
#include "gui/present/interview.h"
#include "gui/present/medicine_form.h"
#include "gui/present/said_by.h"
#include "gui/present/workplace.h"

namespace foreday::present {

/// One entry of the medicine list as a screen shows it.
struct MedicineView {
    std::string id;
    std::string words;
    bool operator==(const MedicineView&) const = default;
};

/// A question gone through by name before the list is closed.
struct ListQuestionView {
    std::string words;
    bool asked = false;
};

/// The work of the phone desk on the case in hand. Every function needs one in hand; what was done, or why
/// not, is the workplace's notice. True: it is in the book.
class PhoneDesk {
public:
    explicit PhoneDesk(Workplace& place) : place_(place) {}

    // --- the call ---
    /// Why this patient is rung, and the tries so far; empty: no call is due.
    [[nodiscard]] std::vector<std::string> calls() const;
    bool record_try(checklists::TryOutcome outcome);
    bool record_rang_in();
    bool end_for_emergency();

    // --- the interview ---
    /// Of the case in hand: the patient, until somebody else is set.
    [[nodiscard]] SaidBy said_by() const { return case_ == now().id() ? said_by_ : SaidBy{}; }
    void set_said_by(SaidBy said_by);
    [[nodiscard]] std::vector<SectionView> sections() const;
    [[nodiscard]] std::vector<QuestionView> questions(const std::string& section) const;
    bool answer_yes_no(screening::FactIndex place, bool yes);
    bool answer_choice(screening::FactIndex place, std::size_t choice);
    bool answer_typed(screening::FactIndex place, const std::string& typed);
    /// Asks why.
    bool answer_not_known(screening::FactIndex place);

    // --- the medicines ---
    [[nodiscard]] std::vector<MedicineView> medicines() const;
    [[nodiscard]] std::string list_in_words() const;  ///< whether the list is closed
    [[nodiscard]] std::vector<MeantMedicine> candidates(const std::string& heard) const;
    /// @param unsure  candidates are shown and none is picked: the nurse has to say that it is none of them
    bool add_medicine(const MedicineForm& form, bool unsure = false);
    /// Notices that an entry and the medicine it is have to be picked first.
    void say_what_to_pick();
    /// The nurse names an entry nobody could name, or that was named wrongly.
    bool name_medicine(const std::string& id, const std::string& medicine);
    bool stop_medicine(const std::string& id);
    [[nodiscard]] std::vector<ListQuestionView> list_questions() const;
    void mark_asked(std::size_t question, bool asked);
    /// Refused until every list question is marked as asked.
    bool close_list();
    bool reopen_list();

    // --- the end of the call ---
    [[nodiscard]] std::vector<checklists::Line> sheet() const;
    [[nodiscard]] bool sheet_is_draft() const;
    bool clear();
    /// The sheet as it is shown was read out.
    bool tell();
    bool record_said_back();
    bool hand_to_review();

    // --- beside the call ---
    bool note();
    bool raise_concern();
    bool ask_outside();
    bool record_outside_answer();
    bool record_spoken_decision();

private:
    [[nodiscard]] const book::CaseNow& now() const { return *place_.now(); }
    [[nodiscard]] const screening::FactDefinition& fact(screening::FactIndex place) const;
    [[nodiscard]] screening::Date today() const;
    bool answer(screening::FactIndex place, std::optional<book::StatedValue> value,
                std::optional<screening::WhyNotKnown> why, const std::string& words);
    [[nodiscard]] std::string due_call() const;
    void begin_if_new();

    Workplace& place_;
    SaidBy said_by_;
    std::string case_;  ///< that said_by_ and asked_ are about
    std::vector<std::string> asked_;
};

}  // namespace foreday::present
