#pragma once
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "data/book/book.h"

namespace foreday::present {

/// One question of the phone call as a screen shows it.
struct QuestionView {
    screening::FactIndex fact = 0;
    std::string words;  ///< to say
    std::string why;    ///< for the nurse
    enum class Control : std::uint8_t { yes_no, choice, typed } control = Control::yes_no;
    std::vector<std::string> choices;  ///< with `choice`: in words, in the order of the protocol
    /// Place in `choices` of the answer that stands. Empty: none, or it is to be asked again.
    std::optional<std::size_t> chosen{};
    std::string expected;             ///< with `typed`: what is typed, "a number in kg or lb"
    bool unfolded = false;            ///< asked because of another answer
    bool to_ask = true;               ///< nobody has asked in this case, or the answer is past its age
    std::string stands;               ///< "No. The patient, Monday 12 April 2027 at 09:00"; never empty
    std::vector<std::string> beside;  ///< other answers, kept and shown
    bool operator==(const QuestionView&) const = default;
};

/// One part of the call.
struct SectionView {
    std::string name;
    int left = 0;  ///< questions that apply and are to be asked
    bool operator==(const SectionView&) const = default;
};

/// The sections of the protocol that have a question for this patient, in their order.
[[nodiscard]] std::vector<SectionView> sections_of(const book::CaseNow& now);

/// The questions of one section that apply, in the order of the protocol: one that unfolds others stands
/// before them. Facts of the day of the procedure are not asked on the phone.
[[nodiscard]] std::vector<QuestionView> questions_of(const book::CaseNow& now, const std::string& section);

/// An answer with who gave it and when.
[[nodiscard]] std::string answer_in_words(const screening::FactDefinition& fact,
                                          const screening::Answer& answer, const screening::Zone& zone);

/// What a person is to type for a fact: "a number in kg", "a date such as 2026-11-03, or 2026-11".
[[nodiscard]] std::string expected_in_words(const screening::FactDefinition& fact);

}  // namespace foreday::present
