#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "checklists/whole_case.h"

/// Words for the patient's paper.
namespace foreday::checklists {

/// The text has none of the words that stand on no patient's paper: "hold" and its forms, as whole words.
[[nodiscard]] bool fit_for_patients(std::string_view text);

/// What the patient calls a medicine: the generic name, and in quotation marks what was said where it
/// differs.
[[nodiscard]] std::string medicine_in_patient_words(const screening::MedicineItem& medicine,
                                                    const std::string& generic);

/// What to do with one medicine. Empty: it is not agreed, or nobody may say yet; then
/// meanwhile_in_patient_words() stands there. Where it is agreed and no date of ours or of a clinician's may
/// be printed, it is a promise to tell.
[[nodiscard]] std::optional<std::string> instruction_in_patient_words(const screening::CaseRecord& record,
                                                                      const screening::Hold& hold,
                                                                      const Decided& decided,
                                                                      HoldStage stage);

/// What to do until somebody has decided: the item's own words, unless they rest on memory only or do not
/// belong on a patient's paper.
[[nodiscard]] std::string meanwhile_in_patient_words(const screening::Item& item);

/// What the sheet says on who decides.
[[nodiscard]] std::string caution_for_patients();

}  // namespace foreday::checklists
